/**
 * One sitting: so many hours, this is apart, these parts are here. Which jobs, in which order?
 *
 * A mixed-integer program over a few spells; from one spell to the next something is closed so that what it excludes can
 * open. Jobs count with the time kept in 80 of 100 cases, the closing that the end asks for is reserved. Best is the
 * worth of the jobs done, less the time of opening and closing: a job is worth its mean hours, halved for every
 * milestone that lies between it and the next one.
 */
import type { Build } from '../model/build.ts'
import type { Problem } from '../units/problem.ts'
import { closedBy, shutFor, withRequired } from './accessOrder.ts'
import { type Bound, type BoundJob, bind } from './bind.ts'
import { has, membersOf } from './bits.ts'
import { cautionsOf } from './cautions.ts'
import type { Solve } from './solver.ts'
import { type Bracket, type PlanStep, stepsOf } from './steps.ts'

export const ENDS = ['apart', 'drivable', 'closed'] as const
export interface SittingOptions {
  /** s */
  readonly time: number
  /** YYYY-MM-DD */
  readonly today: string
  /** Ids of accesses open now; without it, those that the build says. */
  readonly apart?: readonly string[]
  /** Ids of parts that are here besides those that the build knows of. */
  readonly here?: readonly string[]
  /** What the car must be at the end: as far apart as it comes, fit to drive, all closed. */
  readonly end?: (typeof ENDS)[number]
  /** What there is; without an answer a job that needs it may be chosen, and says so. */
  readonly person?: boolean
  readonly dry?: boolean
  readonly daylight?: boolean
}
/** Times in s. */
export interface Sitting {
  readonly steps: readonly PlanStep[]
  readonly brackets: readonly Bracket[]
  readonly jobs: readonly string[]
  /** Opening, closing and 80 % times together. */
  readonly time: number
  readonly openings: number
  /** Nothing worth more goes into the time with as many change-overs as one sitting has (`SPELLS`). */
  readonly proven: boolean
  /** Opening and closing take longer than the work is worth, whatever is chosen. */
  readonly dear: boolean
  /** Accesses that stay open at the end. */
  readonly left: readonly { readonly id: string; readonly name: string }[]
  /** Jobs behind what is open in this sitting, that did not fit: what each would need besides. */
  readonly whileThere: readonly {
    readonly id: string
    readonly title: string
    readonly time: number
    readonly lacks: readonly string[]
  }[]
  /** What to have at hand, and what to know before beginning, in sentences. */
  readonly ready: {
    readonly parts: readonly string[]
    readonly tools: readonly string[]
    readonly person: boolean
    readonly dry: boolean
    readonly daylight: boolean
    readonly cautions: readonly string[]
  }
  /** Why nothing fits, when nothing does. */
  readonly nothing?: string
  readonly problems: readonly Problem[]
  readonly unknown: readonly Problem[]
}

/** So much more than opening and closing counts work where no work is worth them. */
const DEAR = 100
/** More change-overs than this do not go into an evening. */
const SPELLS = 3

export const planSitting = (build: Build, options: SittingOptions, solve: Solve): Sitting => {
  const bound = bind(build, {
    milestone: null,
    today: options.today,
    ...(options.apart === undefined ? {} : { apart: options.apart }),
  })
  const end = options.end ?? 'apart'
  const unknown = [...bound.unknown]
  const mustClose = (access: number): boolean => {
    if (end === 'apart') return false
    return end === 'closed' || bound.accesses[access]!.access.drivable !== true
  }
  const lacks = bound.jobs.map((job) => lacking(job, options))
  const fits = candidates(bound, lacks, options.time)
  const reserve = bound.open.reduce((sum, at) => sum + (mustClose(at) ? bound.accesses[at]!.close : 0), 0)
  const worth = worthOf(build, bound)
  const until = performance.now() + ALLOWED * 1000
  const ask = (weight: number) =>
    choose(bound, fits, (job) => weight * worth(job), options.time, mustClose, solve, until)
  const able = reserve <= options.time && fits.length > 0
  let { order, proven } = able ? ask(1) : { order: [], proven: true }
  // An evening with nothing done is no better than one spent mostly on opening; it only says so.
  const dear = able && order.length === 0
  if (dear) ({ order, proven } = ask(DEAR))
  const { steps, brackets, openings } = stepsOf(bound, order, new Map(), (access) => !mustClose(access))
  const chosen = order.map((at) => bound.jobs[at]!)
  const touchedNow = withRequired(bound.graph, [...bound.open, ...chosen.flatMap(({ accesses }) => accesses)])
  const openLast = openAtEnd(bound, order).filter((access) => !mustClose(access))
  if (end === 'drivable')
    for (const access of openAtEnd(bound, order))
      if (bound.accesses[access]!.access.drivable === undefined)
        unknown.push({
          code: 'drivable-unknown',
          path: `accesses/${bound.accesses[access]!.id}/drivable`,
          says: `Whether the car can be driven with ${bound.accesses[access]!.name} is unknown; it is closed at the end.`,
          todo: 'Say whether it can.',
        })
  const ids = new Set(chosen.map(({ id }) => id))
  return {
    steps,
    brackets,
    jobs: chosen.map(({ id }) => id),
    time: openings + chosen.reduce((sum, { mostly }) => sum + mostly, 0),
    openings,
    proven,
    dear: dear && order.length > 0,
    left: openLast.map((at) => ({ id: bound.accesses[at]!.id, name: bound.accesses[at]!.name })),
    whileThere: bound.jobs
      .map((job, at) => ({ job, at }))
      .filter(
        ({ job }) =>
          !ids.has(job.id) && job.accesses.length > 0 && job.accesses.every((access) => has(touchedNow, access)),
      )
      .map(({ job, at }) => ({
        id: job.id,
        title: job.title,
        time: job.mostly,
        lacks: [
          ...lacks[at]!,
          ...job.before.flatMap((other) =>
            ids.has(bound.jobs[other]!.id) ? [] : [`“${bound.jobs[other]!.title}” first`],
          ),
        ],
      }))
      .sort((a, b) => a.lacks.length - b.lacks.length || a.time - b.time)
      .slice(0, 8),
    ready: {
      parts: unique(chosen.flatMap(({ job }) => job.needs?.parts ?? [])).map(
        (id) => build.collections.parts[id]?.name ?? id,
      ),
      tools: unique(chosen.flatMap(({ job }) => job.needs?.tools ?? [])),
      person: chosen.some(({ job }) => job.needs?.person),
      dry: chosen.some(({ job }) => job.needs?.dry),
      daylight: chosen.some(({ job }) => job.needs?.daylight),
      cautions: cautionsOf(bound, chosen),
    },
    ...(order.length > 0 ? {} : { nothing: whyNothing(bound, lacks, reserve, options.time) }),
    problems: bound.problems,
    unknown,
  }
}

/** Seconds for all programs of one answer together. */
const ALLOWED = 0.6

const choose = (
  bound: Bound,
  fits: readonly number[],
  worth: (job: BoundJob) => number,
  time: number,
  mustClose: (access: number) => boolean,
  solve: Solve,
  /** Of performance.now(), ms. */
  until: number,
): { order: number[]; proven: boolean } => {
  const shut = closedBy(bound.graph)
  const spelled = new Set<number>()
  let best: { order: number[]; value: number } = { order: [], value: Number.NEGATIVE_INFINITY }
  for (;;) {
    const program = makeProgram(bound, fits, worth, time, mustClose, spelled)
    const found = solve(program.text, Math.max(0.05, (until - performance.now()) / 1000))
    const order = program.order(found.values)
    const { openings } = stepsOf(bound, order, new Map(), (access) => !mustClose(access))
    const total = openings + order.reduce((sum, job) => sum + bound.jobs[job]!.mostly, 0)
    const value = order.reduce((sum, job) => sum + worth(bound.jobs[job]!), 0) - openings
    if (total <= time + 1e-3 && value > best.value) best = { order, value }
    // The program knew of less than the car asks for only if the car's value is less.
    if (value >= found.objective * 3600 - 1 && total <= time + 1e-3) return { order, proven: found.optimal }
    const used = [
      ...new Set([
        ...bound.open,
        ...order.flatMap((job) => membersOf(withRequired(bound.graph, bound.jobs[job]!.accesses))),
      ]),
    ]
    const crossed = used.filter((a) => !spelled.has(a) && used.some((b) => has(shut[a]!, b)))
    if (crossed.length === 0 || performance.now() > until) return { order: best.order, proven: false }
    for (const access of crossed) spelled.add(access)
  }
}

const unique = (list: readonly string[]): string[] => [...new Set(list)]

const lacking = ({ job, waits }: BoundJob, options: SittingOptions): string[] => [
  ...waits.filter(({ part }) => !options.here?.includes(part)).map(({ name }) => name),
  ...(job.needs?.person && options.person === false ? ['another person'] : []),
  ...(job.needs?.dry && options.dry === false ? ['dry weather'] : []),
  ...(job.needs?.daylight && options.daylight === false ? ['daylight'] : []),
]

/** A job and all that must come before it. */
const chainOf = (bound: Bound, job: number): Set<number> => {
  const chain = new Set<number>()
  const waiting = [job]
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    if (chain.has(at)) continue
    chain.add(at)
    waiting.push(...bound.jobs[at]!.before)
  }
  return chain
}

/** Jobs that could go into the time at all, with all that they need first. */
const candidates = (bound: Bound, lacks: readonly (readonly string[])[], time: number): number[] => {
  const standing = new Set(bound.open)
  return bound.jobs.flatMap((_, job) => {
    const chain = [...chainOf(bound, job)]
    if (chain.some((at) => lacks[at]!.length > 0)) return []
    const accesses = membersOf(
      withRequired(
        bound.graph,
        chain.flatMap((at) => bound.jobs[at]!.accesses),
      ),
    )
    const opening = accesses.reduce((sum, at) => sum + (standing.has(at) ? 0 : bound.accesses[at]!.open), 0)
    return chain.reduce((sum, at) => sum + bound.jobs[at]!.mostly, opening) <= time ? [job] : []
  })
}

/** 1 for the next milestone with open jobs and those before it, a half for the one after it, and so on. */
const worthOf = (build: Build, bound: Bound): ((job: BoundJob) => number) => {
  const order = (job: BoundJob): number | undefined =>
    job.job.milestone === undefined ? undefined : build.collections.milestones[job.job.milestone]?.order
  const ranks = [...new Set(bound.jobs.flatMap((job) => order(job) ?? []))].sort((a, b) => a - b)
  return (job) => {
    const own = order(job)
    return job.expected * 0.5 ** (own === undefined ? ranks.length : ranks.indexOf(own))
  }
}

/**
 * The program. `spelled` accesses may open and close from spell to spell, and those of them that exclude each other are
 * never open together; all others open at most once and stay. With fewer spelled accesses it asks for less, so an answer
 * that holds in the car is the best for any number of them.
 */
const makeProgram = (
  bound: Bound,
  fits: readonly number[],
  worth: (job: BoundJob) => number,
  time: number,
  mustClose: (access: number) => boolean,
  spelled: ReadonlySet<number>,
): { text: string; order: (values: ReadonlyMap<string, number>) => number[] } => {
  const { graph, accesses, jobs, open } = bound
  const shut = closedBy(graph)
  const needs = new Map(fits.map((job) => [job, membersOf(withRequired(graph, jobs[job]!.accesses))]))
  const used = accesses
    .map((_, at) => at)
    .filter((at) => open.includes(at) || [...needs.values()].some((n) => n.includes(at)))
  const spells = Array.from({ length: spelled.size === 0 ? 1 : SPELLS }, (_, p) => p)
  const last = spells.length - 1
  const isSpelled = (job: number): boolean => needs.get(job)!.some((access) => spelled.has(access))
  const x = (job: number): string[] => (isSpelled(job) ? spells.map((p) => `x${job}_${p}`) : [`x${job}`])
  // Hours, so that no figure in the program is far from one.
  const h = (seconds: number): string => (seconds / 3600).toFixed(9)
  const gain: string[] = []
  const spent: string[] = []
  const rows: string[] = []
  const binaries: string[] = []
  const charge = (name: string, seconds: number): void => {
    gain.push(`- ${h(seconds)} ${name}`)
    spent.push(`+ ${h(seconds)} ${name}`)
  }
  for (const job of fits) {
    const mine = x(job)
    binaries.push(...mine)
    for (const name of mine) {
      gain.push(`+ ${h(worth(jobs[job]!))} ${name}`)
      spent.push(`+ ${h(jobs[job]!.mostly)} ${name}`)
    }
    if (mine.length > 1) rows.push(`${mine.join(' + ')} <= 1`)
    for (const access of needs.get(job)!)
      if (spelled.has(access)) for (const p of spells) rows.push(`x${job}_${p} - y${access}_${p} <= 0`)
      else rows.push(`${mine.join(' + ')} - y${access} <= 0`)
    for (const other of jobs[job]!.before) rows.push(`${mine.join(' + ')} - ${x(other).join(' - ')} <= 0`)
    if (isSpelled(job))
      for (const other of chainOf(bound, job))
        if (other !== job && isSpelled(other))
          for (const p of spells)
            rows.push(
              `x${job}_${p} - ${spells
                .filter((q) => q <= p)
                .map((q) => `x${other}_${q}`)
                .join(' - ')} <= 0`,
            )
  }
  for (const access of used) {
    const { open: opening, close: closing } = accesses[access]!
    const standing = open.includes(access)
    if (!spelled.has(access)) {
      const y = `y${access}`
      binaries.push(y)
      if (standing) rows.push(`${y} = 1`)
      charge(y, (standing ? 0 : opening) + (mustClose(access) ? closing : 0))
    } else
      for (const p of spells) {
        const y = `y${access}_${p}`
        binaries.push(y)
        const [o, c] = [`o${access}_${p}`, `c${access}_${p}`]
        // o − c is the change; both cost, so only one of them is ever more than nothing.
        rows.push(p === 0 ? `${y} - ${o} + ${c} = ${standing ? 1 : 0}` : `${y} - y${access}_${p - 1} - ${o} + ${c} = 0`)
        charge(o, opening)
        charge(c, closing)
        if (p === last && mustClose(access)) charge(y, closing)
      }
    for (const other of graph.requires[access]!) {
      if (!used.includes(other)) continue
      for (const p of spells)
        rows.push(
          `y${access}${spelled.has(access) ? `_${p}` : ''} - y${other}${spelled.has(other) ? `_${p}` : ''} <= 0`,
        )
    }
  }
  const apart = [...spelled].flatMap((a) => [...spelled].filter((b) => a < b && has(shut[a]!, b)).map((b) => [a, b]))
  for (const [a, b] of apart) for (const p of spells) rows.push(`y${a}_${p} + y${b}_${p} <= 1`)
  const text = [
    'Maximize',
    ` worth: ${gain.join('\n ')}`,
    'Subject To',
    ` hours: ${spent.join('\n ')} <= ${h(time)}`,
    ...[...new Set(rows)].map((row, i) => ` r${i}: ${row}`),
    'Binaries',
    ` ${binaries.join('\n ')}`,
    'End',
  ].join('\n')
  const order = (values: ReadonlyMap<string, number>): number[] => {
    const spellOf = new Map<number, number>()
    for (const job of fits) {
      const p = x(job).findIndex((name) => (values.get(name) ?? 0) > 0.5)
      if (p >= 0) spellOf.set(job, isSpelled(job) ? p : -1)
    }
    // A job without a spell is done as soon as all before it are.
    const place = (job: number): number =>
      Math.max(spellOf.get(job)!, ...jobs[job]!.before.filter((other) => spellOf.has(other)).map(place))
    const chosen = [...spellOf.keys()].map((job) => ({ job, at: Math.max(0, place(job)) }))
    return spells.flatMap((p) => {
      const here = chosen.filter(({ at }) => at === p).map(({ job }) => job)
      const list: number[] = []
      while (here.length > 0) {
        const next = here.findIndex((job) => jobs[job]!.before.every((other) => !here.includes(other)))
        list.push(...here.splice(next, 1))
      }
      return list
    })
  }
  return { text, order }
}

const openAtEnd = (bound: Bound, order: readonly number[]): number[] => {
  const shut = closedBy(bound.graph)
  let open = new Set(bound.open)
  for (const job of order) {
    const needs = withRequired(bound.graph, bound.jobs[job]!.accesses)
    const shuts = shutFor(shut, needs)
    open = new Set([...[...open].filter((access) => !has(shuts, access)), ...membersOf(needs)])
  }
  return [...open]
}

const whyNothing = (bound: Bound, lacks: readonly (readonly string[])[], reserve: number, time: number): string => {
  if (bound.jobs.length === 0) return 'There are no open jobs.'
  if (reserve > time) return 'Closing what is apart takes longer than the sitting.'
  if (lacks.every((list) => list.length > 0))
    return 'Every job lacks something: a part, a helper, dry weather or light.'
  return 'No job fits into the time with what has to be opened, done first and closed.'
}
