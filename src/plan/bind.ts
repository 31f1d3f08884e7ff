/**
 * The build's open jobs, accesses and parts as numbers for the planner. What is wrong or missing in them is named and
 * left out or given a stated stand-in; the rest is still planned.
 */
import type { Build, Entity, Job } from '../model/build.ts'
import type { Problem } from '../units/problem.ts'
import { refuse } from '../units/problem.ts'
import { type AccessGraph, closedBy, shutFor, together, withRequired } from './accessOrder.ts'
import { type Arrival, arrivalOf } from './arrival.ts'
import { meet, membersOf } from './bits.ts'
import { circlesIn } from './circles.ts'
import { expectedTime, remaining, type ThreePoint } from './threePoint.ts'
import { hoursText } from './workTime.ts'

type Access = Entity<'accesses'>

export interface BoundJob {
  readonly id: string
  readonly title: string
  readonly job: Job
  /** Places in `accesses`, without what those require. */
  readonly accesses: readonly number[]
  /** Places in `jobs`. */
  readonly before: readonly number[]
  /** Absent where the build has no time, or one that cannot be: then the others are stand-ins. */
  readonly estimate?: ThreePoint
  /** What is left of it, s: mean, and what is kept in 80 of 100 cases. */
  readonly expected: number
  readonly mostly: number
  /** Parts it waits for. */
  readonly waits: readonly Arrival[]
}
export interface BoundAccess {
  readonly id: string
  readonly name: string
  /** s */
  readonly open: number
  readonly close: number
  /** False where one of the times is a stand-in. */
  readonly known: boolean
  readonly access: Access
}
export interface Bound {
  readonly milestone?: { readonly id: string; readonly name: string }
  readonly jobs: readonly BoundJob[]
  readonly accesses: readonly BoundAccess[]
  readonly graph: AccessGraph
  /** Accesses open now, with what they require. */
  readonly open: readonly number[]
  /** Jobs that cannot be planned as entered. */
  readonly setAside: readonly { readonly id: string; readonly title: string; readonly why: string }[]
  /** What is wrong. */
  readonly problems: readonly Problem[]
  /** What is missing, and what stands in for it. */
  readonly unknown: readonly Problem[]
}
export interface BindOptions {
  /** Id of a milestone; without it the first that still has open jobs. `null`: all jobs. */
  readonly milestone?: string | null
  /** YYYY-MM-DD */
  readonly today: string
  /** Ids of accesses that are open, in place of what the build says. */
  readonly apart?: readonly string[]
}

const isOpen = (job: Job): boolean => job.status === 'to do' || job.status === 'doing'
const values = <T>(records: Readonly<Record<string, T>>): T[] => Object.values(records)
const record = <T>(records: Readonly<Record<string, T>>, id: string): T | undefined =>
  Object.hasOwn(records, id) ? records[id] : undefined
const listed = (ids: readonly string[]): string =>
  ids.length < 2 ? ids.join('') : `${ids.slice(0, -1).join(', ')} and ${ids.at(-1)}`
const median = (numbers: readonly number[]): number | undefined =>
  numbers.length === 0 ? undefined : [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)]

/** Stand-ins where the build has not one time to go by: an hour a job, a quarter to open, a quarter to close. */
const JOB_STAND_IN = 3600
const ACCESS_STAND_IN = 900

export const bind = (build: Build, options: BindOptions): Bound => {
  const problems: Problem[] = []
  const unknown: Problem[] = []
  const milestone = chooseMilestone(build, options.milestone)
  const accesses = bindAccesses(build, unknown)
  const index = new Map(accesses.map(({ id }, at) => [id, at]))
  const graph = bindGraph(accesses, index, problems)
  const open = bindOpen(accesses, graph, index, options.apart, problems)

  const chosen = takeIn(build, milestone?.id)
  const setAside: { id: string; title: string; why: string }[] = []
  const kept = chosen.filter((job) => {
    const why = impossible(job, accesses, graph, index)
    if (why === undefined) return true
    const later = chosen.filter((other) => other.needs?.jobs?.includes(job.id)).map(({ id }) => id)
    setAside.push({ id: job.id, title: job.title, why })
    problems.push({
      code: 'cannot-be-done',
      path: `jobs/${job.id}/accesses`,
      says: `Job ${job.id} (${job.title}) is left out: ${why}.${later.length === 0 ? '' : ` The place of ${listed(later)} in the order supposes it done.`}`,
      todo: 'Change what the job must have open, or what the accesses exclude.',
    })
    return false
  })
  return {
    ...(milestone === undefined ? {} : { milestone: { id: milestone.id, name: milestone.name } }),
    jobs: bindJobs(build, kept, index, options.today, problems, unknown),
    accesses,
    graph,
    open,
    setAside,
    problems,
    unknown,
  }
}

const chooseMilestone = (build: Build, wanted: string | null | undefined): Entity<'milestones'> | undefined => {
  if (wanted === null) return undefined
  const all = values(build.collections.milestones).sort((a, b) => a.order - b.order)
  if (wanted !== undefined) {
    const found = all.find(({ id, name }) => id === wanted || name.toLowerCase() === wanted.toLowerCase())
    if (found === undefined)
      throw refuse(
        'no-milestone',
        `There is no milestone “${wanted}”.`,
        all.length === 0 ? 'This build has none yet.' : `It has: ${all.map(({ id }) => id).join(', ')}.`,
      )
    return found
  }
  const jobs = values(build.collections.jobs).filter(isOpen)
  return all.find(({ id }) => jobs.some((job) => job.milestone === id))
}

/** Jobs that block this milestone or one before it, and all that they need. */
const takeIn = (build: Build, milestone: string | undefined): Job[] => {
  const { jobs, milestones } = build.collections
  if (milestone === undefined) return values(jobs).filter(isOpen)
  const last = record(milestones, milestone)!.order
  const taken = new Set<string>()
  const waiting = values(jobs)
    .filter(
      (job) =>
        isOpen(job) && job.milestone !== undefined && (record(milestones, job.milestone)?.order ?? Infinity) <= last,
    )
    .map(({ id }) => id)
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    const job = record(jobs, id)
    if (job === undefined || taken.has(id) || !isOpen(job)) continue
    taken.add(id)
    waiting.push(...(job.needs?.jobs ?? []))
  }
  return values(jobs).filter(({ id }) => taken.has(id))
}

const bindAccesses = (build: Build, unknown: Problem[]): BoundAccess[] => {
  const all = values(build.collections.accesses)
  const standIn = {
    open: median(all.flatMap(({ open }) => (open === undefined ? [] : [open.value]))) ?? ACCESS_STAND_IN,
    close: median(all.flatMap(({ close }) => (close === undefined ? [] : [close.value]))) ?? ACCESS_STAND_IN,
  }
  return all.map((access) => {
    const missing = (['open', 'close'] as const).filter((way) => access[way] === undefined)
    for (const way of missing)
      unknown.push({
        code: 'no-access-time',
        path: `accesses/${access.id}/${way}`,
        says: `How long it takes to ${way} ${access.name} is unknown; ${hoursText(standIn[way])} stands in for it.`,
        todo: `Enter its time to ${way}.`,
      })
    return {
      id: access.id,
      name: access.name,
      open: access.open?.value ?? standIn.open,
      close: access.close?.value ?? standIn.close,
      known: missing.length === 0,
      access,
    }
  })
}

const bindGraph = (
  accesses: readonly BoundAccess[],
  index: ReadonlyMap<string, number>,
  problems: Problem[],
): AccessGraph => {
  const known = (access: BoundAccess, field: 'requires' | 'excludes'): number[] =>
    (access.access[field] ?? []).flatMap((id) => {
      const at = index.get(id)
      if (at !== undefined) return [at]
      problems.push({
        code: 'no-access',
        path: `accesses/${access.id}/${field}`,
        says: `Access ${access.name} ${field} ${id}, which is not listed; that is disregarded.`,
        todo: 'Enter the access, or remove its name.',
      })
      return []
    })
  const requires = accesses.map((access) => known(access, 'requires'))
  for (const circle of circlesIn(requires)) {
    problems.push({
      code: 'access-circle',
      path: `accesses/${accesses[circle[0]!]!.id}/requires`,
      says: `${listed(circle.map((at) => accesses[at]!.name))} ${circle.length > 1 ? 'require each other' : 'requires itself'} in a circle, so none could be opened first; these requirements are disregarded.`,
      todo: 'Remove one of them.',
    })
    for (const at of circle) requires[at] = requires[at]!.filter((other) => !circle.includes(other))
  }
  const excludes = accesses.map((access, at) =>
    known(access, 'excludes').filter((other) => {
      if (other !== at) return true
      problems.push({
        code: 'excludes-itself',
        path: `accesses/${access.id}/excludes`,
        says: `Access ${access.name} excludes itself; that is disregarded.`,
        todo: 'Remove its own name from what it excludes.',
      })
      return false
    }),
  )
  const graph = { time: accesses.map(({ open, close }) => open + close), requires, excludes }
  for (const [at, access] of accesses.entries())
    if (!together(graph, [at]))
      problems.push({
        code: 'requires-excluded',
        path: `accesses/${access.id}/requires`,
        says: `Access ${access.name} requires what it excludes, so it can never be open.`,
        todo: 'Remove the requirement or the exclusion.',
      })
  return graph
}

const bindOpen = (
  accesses: readonly BoundAccess[],
  graph: AccessGraph,
  index: ReadonlyMap<string, number>,
  apart: readonly string[] | undefined,
  problems: Problem[],
): number[] => {
  const said =
    apart === undefined
      ? accesses.flatMap(({ access }, at) => (access.isOpen ? [at] : []))
      : apart.map((id) => {
          const at = index.get(id) ?? accesses.findIndex(({ name }) => name.toLowerCase() === id.trim().toLowerCase())
          if (at < 0)
            throw refuse(
              'no-access',
              `There is no access “${id}”.`,
              accesses.length === 0 ? 'This build has none yet.' : `It has: ${accesses.map((a) => a.id).join(', ')}.`,
            )
          return at
        })
  const shut = closedBy(graph)
  const open: number[] = []
  for (const at of said) {
    const more = withRequired(graph, [at])
    const barred = meet(shutFor(shut, more), withRequired(graph, [...open, at]))
    if (barred) {
      problems.push({
        code: 'open-excluded',
        path: `accesses/${accesses[at]!.id}/isOpen`,
        says: `${accesses[at]!.name} cannot be open beside what else is said to be open; it is taken as closed.`,
        todo: 'Say which of them is open.',
      })
      continue
    }
    open.push(...membersOf(more).filter((other) => !open.includes(other)))
  }
  return open
}

const impossible = (
  job: Job,
  accesses: readonly BoundAccess[],
  graph: AccessGraph,
  index: ReadonlyMap<string, number>,
): string | undefined => {
  const wanted = (job.accesses ?? []).flatMap((id) => index.get(id) ?? [])
  const never = wanted.find((at) => !together(graph, [at]))
  if (never !== undefined) return `it needs ${accesses[never]!.name}, which requires what it excludes`
  if (together(graph, wanted)) return undefined
  const pair = wanted
    .flatMap((a, i) => wanted.slice(i + 1).map((b) => [a, b] as const))
    .find((two) => !together(graph, two))
  return `it needs ${listed((pair ?? wanted).map((at) => accesses[at]!.name))} open together, and they exclude each other`
}

const bindJobs = (
  build: Build,
  jobs: readonly Job[],
  index: ReadonlyMap<string, number>,
  today: string,
  problems: Problem[],
  unknown: Problem[],
): BoundJob[] => {
  const place = new Map(jobs.map(({ id }, at) => [id, at]))
  const before = jobs.map((job) =>
    [...new Set(job.needs?.jobs ?? [])].flatMap((id) => {
      if (record(build.collections.jobs, id) === undefined)
        problems.push({
          code: 'no-job',
          path: `jobs/${job.id}/needs/jobs`,
          says: `Job ${job.id} (${job.title}) needs job ${id}, which is not listed; that need is disregarded.`,
          todo: 'Enter that job, or remove the need.',
        })
      return place.get(id) ?? []
    }),
  )
  for (const circle of circlesIn(before)) {
    problems.push({
      code: 'circle',
      path: `jobs/${jobs[circle[0]!]!.id}/needs/jobs`,
      says: `${circle.length > 1 ? `Jobs ${listed(circle.map((at) => jobs[at]!.id))} need each other` : `Job ${jobs[circle[0]!]!.id} needs itself`} in a circle, so none could be first; the needs inside the circle are disregarded.`,
      todo: 'Remove one of these needs.',
    })
    for (const at of circle) before[at] = before[at]!.filter((other) => !circle.includes(other))
  }
  const estimates = jobs.map((job) => estimateOf(job, problems))
  const known = Object.values(build.collections.jobs).flatMap((job) => {
    const estimate = estimateOf(job, [])
    return estimate === undefined ? [] : [expectedTime(estimate)]
  })
  const standIn = median(known) ?? JOB_STAND_IN
  return jobs.map((job, at) => {
    const estimate = estimates[at]
    const left = estimate === undefined ? undefined : remaining(estimate, job.spent?.value ?? 0)
    if (left === undefined)
      unknown.push({
        code: estimate === undefined ? 'no-time' : 'time-overrun',
        path: `jobs/${job.id}/time`,
        says:
          estimate === undefined
            ? `How long job ${job.id} (${job.title}) takes is unknown; ${hoursText(standIn)} stands in for it.`
            : `Job ${job.id} (${job.title}) has taken ${hoursText(job.spent?.value ?? 0)}, more than its longest estimate: what is left is unknown; ${hoursText(standIn)} stands in for it.`,
        todo: 'Enter its least, likely and most time.',
      })
    const accesses = [...new Set(job.accesses ?? [])].flatMap((id) => {
      const access = index.get(id)
      if (access !== undefined) return [access]
      problems.push({
        code: 'no-access',
        path: `jobs/${job.id}/accesses`,
        says: `Job ${job.id} (${job.title}) needs access ${id}, which is not listed; it is planned as if nothing had to be opened for that.`,
        todo: 'Enter the access with its times, or remove it from the job.',
      })
      return []
    })
    const waits = [...new Set(job.needs?.parts ?? [])].flatMap((id) => {
      const part = record(build.collections.parts, id)
      if (part === undefined)
        problems.push({
          code: 'no-part',
          path: `jobs/${job.id}/needs/parts`,
          says: `Job ${job.id} (${job.title}) needs part ${id}, which nobody lists; the job is planned last, as if it had no date.`,
          todo: 'List the part, or remove the need.',
        })
      return arrivalOf(id, part, today) ?? []
    })
    return {
      id: job.id,
      title: job.title,
      job,
      accesses,
      before: before[at]!,
      ...(estimate === undefined || left === undefined ? {} : { estimate }),
      expected: left?.expected ?? standIn,
      mostly: left?.mostly ?? standIn,
      waits,
    }
  })
}

const estimateOf = (job: Job, problems: Problem[]): ThreePoint | undefined => {
  if (job.time === undefined) return undefined
  const [least, likely, most] = [job.time.least.value, job.time.likely.value, job.time.most.value]
  if (least <= likely && likely <= most) return { least, likely, most }
  problems.push({
    code: 'times-crossed',
    path: `jobs/${job.id}/time`,
    says: `The times of job ${job.id} (${job.title}) are not in order: least ${hoursText(least)}, likely ${hoursText(likely)}, most ${hoursText(most)}.`,
    todo: 'Enter the least, the likely and the most time in that order.',
  })
  return undefined
}
