/**
 * The order of all jobs to a milestone with the fewest hours of opening and closing. All is closed again at the end, but
 * for what is open already and no job to this milestone has to do with: that is left alone.
 *
 * A job whose part is not here does not stand before work that can be done: while there is such work, nobody waits. With
 * the builder's pace known, a part due in three weeks holds its job back for three weeks' worth of work; without it, jobs
 * stand in the order in which their parts are due. A part that nobody can date comes last.
 */
import type { Build } from '../model/build.ts'
import type { Problem } from '../units/problem.ts'
import { accessSequencing, closedBy, shutFor, withRequired } from './accessOrder.ts'
import { type Arrival, daysBetween } from './arrival.ts'
import { type BindOptions, type Bound, bind } from './bind.ts'
import { has } from './bits.ts'
import { cautionsOf } from './cautions.ts'
import { criticalPath } from './criticalPath.ts'
import { groupBound } from './groupBound.ts'
import { bestSequence, type Progress } from './sequence.ts'
import { type Bracket, type PlanStep, stepsOf } from './steps.ts'

export interface PlanOptions extends BindOptions {
  /** The builder's pace, s of work in a week. */
  readonly pace?: number
  /** Longest time for the search, s. 8 without it. */
  readonly within?: number
  /** Costs in s of opening and closing. */
  readonly progress?: (progress: Progress) => void
  readonly signal?: AbortSignal
}
/** Times in s. */
export interface Plan {
  readonly milestone?: { readonly id: string; readonly name: string }
  readonly steps: readonly PlanStep[]
  readonly brackets: readonly Bracket[]
  /** Opening and closing: what is made least. */
  readonly openings: number
  /** No order has less. */
  readonly bound: number
  /** (openings − bound) / openings; 0 when the order is proven best. */
  readonly gap: number
  readonly proven: boolean
  /** Opening and closing when the jobs are done as they are listed. */
  readonly asListed: number
  /** Mean time of all jobs together. */
  readonly work: number
  /** The longest chain of jobs that need each other, in mean times: what many hands could not shorten. */
  readonly chain: { readonly jobs: readonly string[]; readonly time: number }
  /** What to know before beginning, in sentences. */
  readonly cautions: readonly string[]
  readonly setAside: Bound['setAside']
  readonly problems: readonly Problem[]
  readonly unknown: readonly Problem[]
  readonly cancelled: boolean
  /** How long the search took. */
  readonly took: number
}

/** Waiting for a part that nobody can date comes after every date. */
const UNDATED = 1e12
/** Without a pace no work reaches the next date, so dates only order. */
const DATE_ONLY = 1e8

const releases = (bound: Bound, options: PlanOptions): number[] =>
  bound.jobs.map(({ waits }) =>
    Math.max(
      0,
      ...waits.map(({ due }) => {
        if (due === undefined) return UNDATED
        const days = Math.max(0, daysBetween(options.today, due))
        return days * (options.pace === undefined ? DATE_ONLY : options.pace / 7)
      }),
    ),
  )

export const planTo = async (build: Build, options: PlanOptions): Promise<Plan> => {
  const began = performance.now()
  const bound = bind(build, options)
  const { graph, jobs, open } = bound
  const release = releases(bound, options)
  const tasks = {
    accesses: jobs.map(({ accesses }) => accesses),
    before: jobs.map(({ before }) => before),
    ...(release.some((time) => time > 0) ? { release, duration: jobs.map(({ expected }) => expected) } : {}),
  }
  const problem = accessSequencing(graph, tasks, open)
  const found = await bestSequence(
    {
      ...problem,
      prove: (seconds, signal) =>
        groupBound(graph, { accesses: tasks.accesses, before: tasks.before }, open, seconds, signal),
    },
    {
      ...(options.within === undefined ? {} : { within: options.within }),
      ...(options.progress === undefined ? {} : { progress: options.progress }),
      ...(options.signal === undefined ? {} : { signal: options.signal }),
    },
  )
  const { steps, brackets, openings } = stepsOf(bound, found.order, waitsIn(bound, found.order, release), leave)
  // What is open at the beginning is closed once in any order; the search charges only what it opens itself.
  const standing = open
    .filter((access) => touched(bound, access))
    .reduce((sum, at) => sum + bound.accesses[at]!.close, 0)
  const listed = stepsOf(bound, asListed(tasks.before), new Map(), leave)
  const least = found.bound + standing
  return {
    ...(bound.milestone === undefined ? {} : { milestone: bound.milestone }),
    steps,
    brackets,
    openings,
    bound: Math.min(least, openings),
    gap: found.proven || openings === 0 ? 0 : Math.max(0, (openings - least) / openings),
    proven: found.proven,
    asListed: listed.openings,
    work: jobs.reduce((sum, { expected }) => sum + expected, 0),
    chain: chainOf(bound),
    cautions: cautionsOf(bound, jobs),
    setAside: bound.setAside,
    problems: bound.problems,
    unknown: bound.unknown,
    cancelled: found.cancelled,
    took: (performance.now() - began) / 1000,
  }
}

/** What is open stays open at the end only if no job had to do with it. */
const leave = (_: number, used: boolean): boolean => !used

/** Whether a job uses an access, or shuts it. */
const touched = ({ graph, jobs }: Bound, access: number): boolean => {
  const shut = closedBy(graph)
  return jobs.some(({ accesses }) => {
    const needs = withRequired(graph, accesses)
    return has(needs, access) || has(shutFor(shut, needs), access)
  })
}

const chainOf = ({ jobs }: Bound): Plan['chain'] => {
  const { path, time } = criticalPath(
    jobs.map(({ id, before, expected }) => ({
      id,
      before: before.map((at) => jobs[at]!.id),
      least: expected,
      likely: expected,
      most: expected,
    })),
  )
  return { jobs: path, time }
}

/** Before which jobs the builder stands idle, and for what. */
const waitsIn = (bound: Bound, order: readonly number[], release: readonly number[]): Map<number, Arrival[]> => {
  const waits = new Map<number, Arrival[]>()
  let clock = 0
  order.forEach((job, at) => {
    if (release[job]! > clock) waits.set(at, [...bound.jobs[job]!.waits])
    clock = Math.max(clock, release[job]!) + bound.jobs[job]!.expected
  })
  return waits
}

/** The list from the top, each job as soon as what it needs stands before it. */
const asListed = (before: readonly (readonly number[])[]): number[] => {
  const order: number[] = []
  const done = new Set<number>()
  while (order.length < before.length) {
    const next = before.findIndex((earlier, job) => !done.has(job) && earlier.every((other) => done.has(other)))
    done.add(next)
    order.push(next)
  }
  return order
}
