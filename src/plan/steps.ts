/** An order of jobs as what hands do: open, work, close. An access closes after the last job that uses it before it must. */

import { closedBy, shutFor, withRequired } from './accessOrder.ts'
import type { Arrival } from './arrival.ts'
import type { Bound } from './bind.ts'
import { has, membersOf } from './bits.ts'

export type PlanStep =
  | {
      readonly kind: 'open' | 'close'
      readonly id: string
      readonly name: string
      /** s */
      readonly time: number
      /** False where the time is a stand-in. */
      readonly known: boolean
    }
  | {
      readonly kind: 'job'
      readonly id: string
      readonly title: string
      /** Mean time left, s. */
      readonly time: number
      /** Kept in 80 of 100 cases, s. */
      readonly mostly: number
      readonly known: boolean
      readonly zone?: string
    }
  | { readonly kind: 'wait'; readonly parts: readonly Arrival[] }

/** One stretch of jobs during which an access is open. For drawing: brackets never cross within a depth. */
export interface Bracket {
  readonly id: string
  readonly name: string
  /** First and last job inside, counted from 0 in the order of the jobs; −1 for one that is only closed. */
  readonly from: number
  readonly to: number
  /** 0 is outermost; what requires another lies deeper than it. */
  readonly depth: number
  /** It was open before the first step. */
  readonly already: boolean
}

export interface Stretches {
  readonly steps: readonly PlanStep[]
  readonly brackets: readonly Bracket[]
  /** s of opening and closing. */
  readonly openings: number
}

/**
 * `waits`: what is waited for before the job at that place of the order. `leave`: whether what is open at the end stays
 * open, by access and whether a job used it.
 */
export const stepsOf = (
  bound: Bound,
  order: readonly number[],
  waits: ReadonlyMap<number, readonly Arrival[]>,
  leave: (access: number, used: boolean) => boolean,
): Stretches => {
  const { graph, accesses, jobs } = bound
  const shut = closedBy(graph)
  const depthOf = accesses.map((_, access) => membersOf(withRequired(graph, [access])).length)
  const stretches: { access: number; from: number; to: number; already: boolean; left: boolean }[] = []
  const now = new Map<number, { access: number; from: number; to: number; already: boolean; left: boolean }>()
  const begin = (access: number, from: number, already: boolean): void => {
    const stretch = { access, from, to: from, already, left: false }
    now.set(access, stretch)
    stretches.push(stretch)
  }
  for (const access of bound.open) begin(access, -1, true)
  order.forEach((job, at) => {
    const needs = withRequired(graph, jobs[job]!.accesses)
    const shuts = shutFor(shut, needs)
    for (const access of [...now.keys()]) if (has(shuts, access)) now.delete(access)
    for (const access of membersOf(needs)) {
      if (!now.has(access)) begin(access, at, false)
      const stretch = now.get(access)!
      stretch.to = at
    }
  })
  for (const [access, stretch] of now) stretch.left = leave(access, stretch.to >= 0)

  const steps: PlanStep[] = []
  let openings = 0
  const turn = (kind: 'open' | 'close', list: readonly number[]): void => {
    for (const access of list) {
      const { id, name, known, open, close } = accesses[access]!
      const time = kind === 'open' ? open : close
      openings += time
      steps.push({ kind, id, name, time, known })
    }
  }
  const inward = (list: readonly { access: number }[]): number[] =>
    list.map(({ access }) => access).sort((a, b) => depthOf[a]! - depthOf[b]!)
  const closeAfter = (at: number): void =>
    turn('close', inward(stretches.filter(({ to, left }) => to === at && !left)).reverse())
  closeAfter(-1)
  order.forEach((job, at) => {
    const parts = waits.get(at)
    if (parts !== undefined) steps.push({ kind: 'wait', parts })
    turn('open', inward(stretches.filter(({ from, already }) => from === at && !already)))
    const { id, title, expected, mostly, estimate, job: source } = jobs[job]!
    steps.push({
      kind: 'job',
      id,
      title,
      time: expected,
      mostly,
      known: estimate !== undefined,
      ...(source.zone === undefined ? {} : { zone: source.zone }),
    })
    closeAfter(at)
  })
  return { steps, openings, brackets: nest(stretches, depthOf, bound) }
}

/** Gives each stretch the outermost depth at which it meets no other, within those of the accesses that it requires. */
const nest = (
  stretches: readonly { access: number; from: number; to: number; already: boolean }[],
  depthOf: readonly number[],
  { accesses, graph }: Bound,
): Bracket[] => {
  const lanes: { access: number; from: number; to: number }[][] = []
  return [...stretches]
    .sort((a, b) => a.from - b.from || depthOf[a.access]! - depthOf[b.access]! || b.to - a.to)
    .map(({ access, from, to, already }) => {
      const required = withRequired(graph, [access])
      let depth = 0
      lanes.forEach((lane, at) => {
        const meets = lane.filter((other) => from <= other.to && other.from <= to)
        if (meets.some((other) => has(required, other.access))) depth = Math.max(depth, at + 1)
      })
      while (lanes[depth]?.some((other) => from <= other.to && other.from <= to)) depth++
      while (lanes.length <= depth) lanes.push([])
      lanes[depth]!.push({ access, from, to })
      const { id, name } = accesses[access]!
      return { id, name, from, to, depth, already }
    })
    .sort((a, b) => a.from - b.from || a.depth - b.depth)
}
