/**
 * Jobs that need parts of the car open, as a sequencing problem. What is counted is the time spent opening and closing.
 *
 * An access stays open until one that it excludes must be opened, or to the end: closing takes the same time whenever it
 * is done, so nothing is lost by waiting, and every opening can be charged with its closing. An access is open only while
 * all that it requires is open, so what closes takes its dependants with it.
 */
import { type Bits, bitsOf, has, keyOf, meet, membersOf, noBits, within } from './bits.ts'
import type { Sequencing } from './sequencing.ts'

export interface AccessGraph {
  /** Opening and closing once, s. */
  readonly time: readonly number[]
  readonly requires: readonly (readonly number[])[]
  readonly excludes: readonly (readonly number[])[]
}
export interface AccessJobs {
  readonly accesses: readonly (readonly number[])[]
  readonly before: readonly (readonly number[])[]
  readonly release?: readonly number[]
  readonly duration?: readonly number[]
}

/** Accesses with all that they require, directly or not. */
export const withRequired = (graph: AccessGraph, accesses: Iterable<number>): Bits => {
  const open = noBits(graph.time.length)
  const waiting = [...accesses]
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (has(open, next)) continue
    open[next >> 5]! |= 1 << (next & 31)
    waiting.push(...graph.requires[next]!)
  }
  return open
}

/** For each access all those that cannot be open beside it, through what either requires. */
export const closedBy = (graph: AccessGraph): Bits[] => {
  const closures = graph.time.map((_, access) => withRequired(graph, [access]))
  const shut = graph.time.map(() => noBits(graph.time.length))
  graph.excludes.forEach((others, a) => {
    for (const b of others)
      closures.forEach((first, x) => {
        if (!has(first, a)) return
        closures.forEach((second, y) => {
          if (!has(second, b)) return
          shut[x]![y >> 5]! |= 1 << (y & 31)
          shut[y]![x >> 5]! |= 1 << (x & 31)
        })
      })
  })
  return shut
}

/** What has to be shut while these are open. */
export const shutFor = (shut: readonly Bits[], open: Bits): Bits => {
  const all = new Int32Array(open.length)
  for (const access of membersOf(open)) for (let i = 0; i < all.length; i++) all[i]! |= shut[access]![i]!
  return all
}

/** `counted`: only these accesses cost anything; the others open and close by themselves. For lower bounds. */
export const accessSequencing = (
  graph: AccessGraph,
  jobs: AccessJobs,
  open: Iterable<number>,
  counted?: Bits,
): Sequencing => {
  const size = jobs.accesses.length
  const shut = closedBy(graph)
  const only = (set: Bits): Bits => (counted === undefined ? set : set.map((word, i) => word & counted[i]!))
  const whole = jobs.accesses.map((accesses) => withRequired(graph, accesses))
  const needs = whole.map(only)
  const shuts = whole.map((set) => only(shutFor(shut, set)))
  const groups = new Map<string, number>()
  const group = needs.map((set, job) => {
    const key = `${keyOf(set)};${keyOf(shuts[job]!)}`
    if (!groups.has(key)) groups.set(key, groups.size)
    return groups.get(key)!
  })
  const tails = forcedOpenings(graph, jobs, needs, shuts)
  const { time } = graph
  return {
    size,
    before: jobs.before,
    start: only(bitsOf(time.length, open)),
    free: (config, task) => within(needs[task]!, config) && !meet(shuts[task]!, config),
    group,
    ...(jobs.release === undefined
      ? {}
      : { release: jobs.release, duration: jobs.duration ?? jobs.accesses.map(() => 0) }),
    cost: (config, task) => {
      const set = needs[task]!
      let cost = 0
      for (let i = 0; i < set.length; i++)
        for (let rest = set[i]! & ~config[i]!; rest !== 0; rest &= rest - 1)
          cost += time[i * 32 + 31 - Math.clz32(rest & -rest)]!
      return cost
    },
    move: (config, task) => {
      const next = config.slice()
      const [set, off] = [needs[task]!, shuts[task]!]
      for (let i = 0; i < next.length; i++) next[i] = (next[i]! & ~off[i]!) | set[i]!
      return next
    },
    covers: (first, second) => within(second, first),
    atLeast: (config, _, done) => {
      let total = 0
      for (let access = 0; access < time.length; access++) {
        const levels = tails[access]![has(config, access) ? 1 : 0]!
        let most = levels.length
        while (most > 0 && within(levels[most - 1]!, done)) most--
        total += most * time[access]!
      }
      return total
    },
  }
}

/**
 * For each access, closed or open before it, and each job: how often the access must be opened on the worst chain of
 * needs that begins with that job. Chains of undone jobs never change, so this is worked out once; openings of different
 * accesses add up, so the sum over accesses is a lower bound. Kept as sets: the jobs that force one opening, two, …
 */
const forcedOpenings = (
  graph: AccessGraph,
  jobs: AccessJobs,
  needs: readonly Bits[],
  shuts: readonly Bits[],
): [Bits[], Bits[]][] => {
  const after: number[][] = jobs.before.map(() => [])
  jobs.before.forEach((earlier, job) => {
    for (const other of earlier) after[other]!.push(job)
  })
  const order = lastFirst(after)
  return graph.time.map((_, access) => {
    const tails: [Int32Array, Int32Array] = [new Int32Array(needs.length), new Int32Array(needs.length)]
    for (const job of order)
      for (const open of [0, 1] as const) {
        const used = has(needs[job]!, access)
        const now = used ? 1 : has(shuts[job]!, access) ? 0 : open
        let most = 0
        for (const next of after[job]!) most = Math.max(most, tails[now][next]!)
        tails[open][job] = most + (used && open === 0 ? 1 : 0)
      }
    return [levels(tails[0]), levels(tails[1])]
  })
}

const levels = (counts: Int32Array): Bits[] =>
  Array.from({ length: Math.max(0, ...counts) }, (_, level) =>
    bitsOf(
      counts.length,
      [...counts.keys()].filter((job) => counts[job]! > level),
    ),
  )

/** Jobs so that every job stands behind all that come after it. */
const lastFirst = (after: readonly (readonly number[])[]): number[] => {
  const order: number[] = []
  const waiting = after.map((later) => later.length)
  const before: number[][] = after.map(() => [])
  after.forEach((later, job) => {
    for (const other of later) before[other]!.push(job)
  })
  const free = waiting.flatMap((count, job) => (count === 0 ? [job] : []))
  for (let job = free.pop(); job !== undefined; job = free.pop()) {
    order.push(job)
    for (const earlier of before[job]!) if (--waiting[earlier]! === 0) free.push(earlier)
  }
  return order
}

/** Whether accesses can be open together at all. */
export const together = (graph: AccessGraph, accesses: Iterable<number>): boolean => {
  const open = withRequired(graph, accesses)
  return !meet(open, shutFor(closedBy(graph), open))
}
