/** Small builds for the tests, and an account of steps that shares nothing with the planner. */
import { type Build, type Entity, emptyBuild, type Job } from '../model/build.ts'
import { seeded } from './random.ts'
import type { PlanStep } from './steps.ts'

export const MINUTE = 60
type AccessRow = readonly [id: string, open: number, close: number, more?: Partial<Entity<'accesses'>>]
type JobRow = readonly [id: string, accesses: readonly string[], needs?: readonly string[], more?: Partial<Job>]

/** Times in minutes; every job takes 20, 30 and 60 where it does not say. */
export const smallBuild = (accesses: readonly AccessRow[], jobs: readonly JobRow[]): Build => {
  const build = emptyBuild('Small')
  for (const [id, open, close, more] of accesses)
    build.collections.accesses[id] = {
      id,
      name: id,
      open: { value: open * MINUTE },
      close: { value: close * MINUTE },
      ...more,
    }
  for (const [id, needed, needs, more] of jobs)
    build.collections.jobs[id] = {
      id,
      title: `Do ${id}`,
      status: 'to do',
      accesses: [...needed],
      time: minutes(20, 30, 60),
      ...(needs === undefined ? {} : { needs: { jobs: [...needs] } }),
      ...more,
    }
  return build
}
export const minutes = (least: number, likely: number, most: number): NonNullable<Job['time']> => ({
  least: { value: least * MINUTE },
  likely: { value: likely * MINUTE },
  most: { value: most * MINUTE },
})

/** Seven accesses with what they require and exclude, and jobs with chance needs: the same for the same seed. */
export const chanceBuild = (jobs: number, seed: number): Build => {
  const random = seeded(seed)
  const time = () => 1 + Math.floor(random() * 30)
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)]!
  const ids = ['a', 'b', 'c', 'd', 'e', 'f', 'g']
  const accesses: AccessRow[] = [
    ['a', time(), time()],
    ['b', time(), time(), { excludes: ['a'] }],
    ['c', time(), time(), { requires: ['a'] }],
    ['d', time(), time(), { requires: random() < 0.5 ? ['b'] : [] }],
    ['e', time(), time(), { excludes: random() < 0.5 ? ['d'] : ['c'], isOpen: random() < 0.5 }],
    ['f', time(), time(), { isOpen: random() < 0.5 }],
    ['g', time(), time(), { requires: ['f'], excludes: random() < 0.5 ? ['e'] : [] }],
  ]
  const rows: JobRow[] = Array.from({ length: jobs }, (_, i) => {
    const needs = Array.from({ length: i }, (_, j) => `J${j}`).filter(() => random() < 0.25)
    const likely = 5 + Math.floor(random() * 60)
    return [`J${i}`, random() < 0.15 ? [] : [pick(ids)], needs, { time: minutes(likely * 0.7, likely, likely * 2) }]
  })
  return smallBuild(accesses, rows)
}

/** Walks through the steps as hands would, and says what is wrong with them; adds up opening and closing. */
export const walk = (
  build: Build,
  steps: readonly PlanStep[],
): { wrong: string[]; openings: number; open: string[] } => {
  const { accesses, jobs } = build.collections
  const open = new Set(Object.values(accesses).flatMap(({ id, isOpen }) => (isOpen ? [id] : [])))
  const done = new Set(Object.values(jobs).flatMap(({ id, status }) => (status === 'done' ? [id] : [])))
  const wrong: string[] = []
  let openings = 0
  for (const step of steps) {
    if (step.kind === 'wait') continue
    if (step.kind === 'job') {
      const job = jobs[step.id]!
      for (const id of job.accesses ?? []) if (!open.has(id)) wrong.push(`${step.id} without ${id}`)
      for (const id of job.needs?.jobs ?? []) if (!done.has(id)) wrong.push(`${step.id} before ${id}`)
      done.add(step.id)
      continue
    }
    openings += step.time
    const access = accesses[step.id]!
    if (step.kind === 'open') {
      if (open.has(step.id)) wrong.push(`${step.id} opened twice`)
      for (const id of access.requires ?? []) if (!open.has(id)) wrong.push(`${step.id} opened without ${id}`)
      for (const other of open)
        if (access.excludes?.includes(other) || accesses[other]!.excludes?.includes(step.id))
          wrong.push(`${step.id} opened beside ${other}`)
      open.add(step.id)
    } else {
      if (!open.has(step.id)) wrong.push(`${step.id} closed twice`)
      open.delete(step.id)
      for (const other of open)
        if (accesses[other]!.requires?.includes(step.id)) wrong.push(`${step.id} closed under ${other}`)
    }
  }
  return { wrong, openings, open: [...open] }
}

/** Every order that keeps the needs. */
export function* ordersOf(build: Build, among: readonly string[]): Generator<string[]> {
  const jobs = build.collections.jobs
  function* next(done: readonly string[]): Generator<string[]> {
    if (done.length === among.length) yield [...done]
    for (const id of among)
      if (!done.includes(id) && (jobs[id]!.needs?.jobs ?? []).every((other) => done.includes(other)))
        yield* next([...done, id])
  }
  yield* next([])
}

/**
 * Least time of opening and closing for one order: all ways of what stays open between the jobs are tried, so it owes
 * nothing to the planner's own rule. `close` says what must be closed at the end.
 */
export const leastFor = (
  build: Build,
  order: readonly string[],
  close: (access: string, used: boolean) => boolean,
): number => {
  const all = Object.values(build.collections.accesses)
  const standing = all.filter(({ isOpen }) => isOpen).map(({ id }) => id)
  const sets = setsOf(build)
  const used = new Set(order.flatMap((id) => build.collections.jobs[id]!.accesses ?? []))
  const cost = (from: ReadonlySet<string>, to: ReadonlySet<string>): number =>
    all.reduce(
      (sum, { id, open, close: closing }) =>
        sum + (to.has(id) && !from.has(id) ? open!.value : 0) + (from.has(id) && !to.has(id) ? closing!.value : 0),
      0,
    )
  let states = new Map<ReadonlySet<string>, number>([[new Set(standing), 0]])
  for (const id of order) {
    const after = new Map<ReadonlySet<string>, number>()
    for (const set of sets) {
      if (!(build.collections.jobs[id]!.accesses ?? []).every((access) => set.has(access))) continue
      after.set(set, Math.min(...[...states].map(([from, sum]) => sum + cost(from, set))))
    }
    states = after
  }
  return Math.min(
    ...[...states].map(
      ([set, sum]) =>
        sum +
        all.reduce(
          (more, { id, close: closing }) => more + (set.has(id) && close(id, used.has(id)) ? closing!.value : 0),
          0,
        ),
    ),
  )
}

/** All sets of accesses that can be open together. */
const setsOf = (build: Build): ReadonlySet<string>[] => {
  const all = Object.values(build.collections.accesses)
  return Array.from(
    { length: 2 ** all.length },
    (_, mask) => new Set(all.filter((_, i) => mask & (1 << i)).map(({ id }) => id)),
  ).filter((set) =>
    all.every(
      ({ id, requires, excludes }) =>
        !set.has(id) ||
        ((requires ?? []).every((other) => set.has(other)) && !(excludes ?? []).some((other) => set.has(other))),
    ),
  )
}
