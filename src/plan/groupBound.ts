/**
 * A lower bound by parts: what each group of accesses costs when the others are free adds up to no more than the whole.
 * Single accesses first; then groups are joined, those first where that proves more, until the time is up.
 */
import { type AccessGraph, type AccessJobs, accessSequencing, closedBy, shutFor, withRequired } from './accessOrder.ts'
import { type Bits, bitsOf, has, meet, membersOf } from './bits.ts'
import { bestSequence } from './sequence.ts'

const CLOSE = 1e-6

interface Group {
  readonly members: readonly number[]
  readonly bound: number
  readonly proven: boolean
}

export const groupBound = async (
  graph: AccessGraph,
  jobs: AccessJobs,
  open: readonly number[],
  seconds: number,
  signal?: AbortSignal,
): Promise<number> => {
  const began = performance.now()
  const left = () => seconds - (performance.now() - began) / 1000
  const size = graph.time.length
  const shut = closedBy(graph)
  // What each job opens or shuts, and all that comes before it.
  const reach = jobs.accesses.map((accesses) => {
    const needs = withRequired(graph, accesses)
    return shutFor(shut, needs).map((word, i) => word | needs[i]!)
  })
  const earlier = ancestors(jobs.before)
  const bound = async (members: readonly number[], within: number): Promise<Group> => {
    const counted = bitsOf(size, members)
    const touched = reach.map((set) => meet(set, counted))
    const problem = accessSequencing(graph, only(jobs, earlier, touched), open, counted)
    const found = await bestSequence(problem, { within, only: 'bound', ...(signal === undefined ? {} : { signal }) })
    return { members, bound: found.bound, proven: found.proven }
  }
  let groups: Group[] = []
  for (let access = 0; access < size; access++) groups.push(await bound([access], 0.05))
  // Joining can only tell more where both lose something to others.
  groups = groups.filter(({ bound }) => bound > 0)
  const tried = new Map<string, Group>()
  const join = async (a: Group, b: Group): Promise<Group> => {
    const members = [...a.members, ...b.members].sort((x, y) => x - y)
    const known = tried.get(`${members}`)
    if (known !== undefined) return known
    const joined = await bound(members, Math.min(left(), seconds / 10))
    tried.set(`${members}`, joined)
    return joined
  }
  for (let more = true; more; ) {
    more = false
    const pairs = groups.flatMap((a, i) =>
      groups.slice(i + 1).flatMap((b) => {
        const touching = a.members.some((x) => meet(shut[x]!, bitsOf(size, b.members)))
        const alike = a.members.some((x) => b.members.some((y) => meet(shut[x]!, shut[y]!)))
        return touching || alike ? [{ a, b, touching, count: a.members.length + b.members.length }] : []
      }),
    )
    pairs.sort((p, q) => p.count - q.count || Number(q.touching) - Number(p.touching))
    let level: { readonly a: Group; readonly b: Group; readonly joined: Group } | undefined
    for (const { a, b } of pairs) {
      if (left() <= 0 || signal?.aborted) break
      const joined = await join(a, b)
      const gain = joined.bound - a.bound - b.bound
      // A join that proves no more by itself may still do so with a third, so the smallest such is kept in hand.
      if (gain > CLOSE || (level === undefined && joined.proven && gain > -CLOSE)) level = { a, b, joined }
      if (gain > CLOSE) break
    }
    if (level !== undefined && left() > 0) {
      const { a, b, joined } = level
      groups = [...groups.filter((group) => group !== a && group !== b), joined]
      more = true
    }
  }
  return groups.reduce((sum, group) => sum + group.bound, 0)
}

const ancestors = (before: readonly (readonly number[])[]): Bits[] => {
  const sets: (Bits | undefined)[] = before.map(() => undefined)
  // Each job after all that come before it, without recursion: chains may be long.
  const waiting = [...before.keys()]
  for (let job = waiting.at(-1); job !== undefined; job = waiting.at(-1)) {
    const missing = sets[job] === undefined ? before[job]!.filter((other) => sets[other] === undefined) : []
    if (missing.length > 0) {
      waiting.push(...missing)
      continue
    }
    waiting.pop()
    if (sets[job] !== undefined) continue
    const set = bitsOf(before.length, before[job]!)
    for (const other of before[job]!) for (let i = 0; i < set.length; i++) set[i]! |= sets[other]![i]!
    sets[job] = set
  }
  return sets as Bits[]
}

/** Only the jobs that matter to a group, with what comes before them through the others. */
const only = (jobs: AccessJobs, earlier: readonly Bits[], touched: readonly boolean[]): AccessJobs => {
  const kept = touched.flatMap((matters, job) => (matters ? [job] : []))
  const place = new Map(kept.map((job, at) => [job, at]))
  const mask = bitsOf(touched.length, kept)
  return {
    accesses: kept.map((job) => jobs.accesses[job]!),
    before: kept.map((job) => {
      const all = membersOf(earlier[job]!.map((word, i) => word & mask[i]!))
      // What comes before another that is before this one need not be said again.
      return all.filter((a) => !all.some((b) => has(earlier[b]!, a))).map((other) => place.get(other)!)
    }),
  }
}
