/** When will it be done? Two dates with their chance, what holds them most, and what would move them. */
import type { Build } from '../model/build.ts'
import { type Problem, refuse } from '../units/problem.ts'
import { type Arrival, arrivalOf, dayAfter, daysBetween } from './arrival.ts'
import { biasOf, FEWEST_WEEKS, outcomesOf, weeksOf } from './history.ts'
import type { Plan } from './plan.ts'
import { type Course, drawCourses, finishOf, type SimulatedTask } from './simulate.ts'

export interface ForecastOptions {
  /** YYYY-MM-DD */
  readonly today: string
  /** Time in a week, s: what the builder says, in place of the mean of the sittings so far. */
  readonly pace?: number
  /** Parts that come so many days later than they are due. */
  readonly late?: Readonly<Record<string, number>>
  /** Jobs that are not done. */
  readonly drop?: readonly string[]
  readonly seed?: number
}
export interface Forecast {
  readonly milestone?: { readonly id: string; readonly name: string }
  /** YYYY-MM-DD by which it is done in so many of 100 cases. Absent where nobody can know: see `unknown`. */
  readonly dates?: { readonly in50: string; readonly in80: string }
  readonly sentence: string
  /** Where the hours come from. */
  readonly pace?: { readonly mean: number; readonly from: 'sittings' | 'said'; readonly weeks: number }
  /** Jobs take this many times their estimates, from the jobs that are over: 50 % and the 80 % interval. */
  readonly factor: { readonly middle: number; readonly low: number; readonly high: number; readonly jobs: number }
  /** What the date would gain, mean days, if this took no time or were here today. */
  readonly holds: readonly {
    readonly kind: 'job' | 'part'
    readonly id: string
    readonly name: string
    readonly days: number
  }[]
  /** Parts that nobody can date: the dates suppose them here when they are needed. */
  readonly supposed: readonly Arrival[]
  readonly unknown: readonly Problem[]
}

const COURSES = 2000
const HOLD_COURSES = 200
/** Spread of a week's hours about what a builder says of them, as a share; a choice, no published source. */
const SAID_SPREAD = 0.5

export const forecastOf = (build: Build, plan: Plan, options: ForecastOptions): Forecast => {
  const { drop = [], late = {}, seed = 1 } = options
  for (const id of drop)
    if (!Object.hasOwn(build.collections.jobs, id))
      throw refuse('no-job', `There is no job “${id}” to drop.`, 'See the jobs with "swapwright plan".')
  for (const id of Object.keys(late))
    if (!Object.hasOwn(build.collections.parts, id))
      throw refuse('no-part', `There is no part “${id}” to come late.`, 'Name a part of the build by its id.')
  const bias = biasOf(outcomesOf(build))
  const factor = {
    middle: Math.exp(bias.mean),
    // 1.2816: the tenth part of a normal distribution lies beyond it on either side.
    low: Math.exp(bias.mean - 1.2816 * bias.deviation),
    high: Math.exp(bias.mean + 1.2816 * bias.deviation),
    jobs: bias.jobs,
  }
  const { tasks, names, arrivals, supposed } = tasksOf(build, plan, options.today, late, drop)
  const head = { ...(plan.milestone === undefined ? {} : { milestone: plan.milestone }), factor, supposed }
  const name = plan.milestone?.name ?? 'All jobs'
  const weeks = weeksFor(build, options)
  if (weeks === undefined) {
    const missing = {
      code: 'no-pace',
      path: 'records',
      says: 'No date can be given: how many hours a week go into the car is unknown.',
      todo: `Record the sittings (${FEWEST_WEEKS} weeks of them), or say the hours a week.`,
    }
    return { ...head, sentence: missing.says, holds: [], unknown: [missing, ...plan.unknown] }
  }
  const pace = { mean: mean(weeks.list), from: weeks.from, weeks: weeks.observed }
  if (tasks.length === 0)
    return { ...head, pace, sentence: `${name}: nothing is left to do.`, holds: [], unknown: plan.unknown }
  const courses = drawCourses(tasks, weeks.list, bias, COURSES, seed)
  const days = courses
    .map((course) =>
      finishOf(
        tasks,
        course,
        arrivals.map(({ day }) => day),
      ),
    )
    .sort((a, b) => a - b)
  const at = (share: number) => days[Math.min(days.length - 1, Math.ceil(share * days.length) - 1)]!
  const [half, most] = [at(0.5), at(0.8)]
  if (!Number.isFinite(most))
    return {
      ...head,
      pace,
      sentence: `${name}: not within twenty years at this pace.`,
      holds: [],
      unknown: plan.unknown,
    }
  const dates = { in50: dayAfter(options.today, Math.ceil(half)), in80: dayAfter(options.today, Math.ceil(most)) }
  return {
    ...head,
    pace,
    dates,
    sentence: `${name}: as likely as not by ${dates.in50}, and in eight of ten cases by ${dates.in80}${
      supposed.length === 0
        ? ''
        : `, if ${supposed.length === 1 ? 'a part' : `${supposed.length} parts`} without a date ${supposed.length === 1 ? 'is' : 'are'} here when needed`
    }.`,
    holds: holdsOf(tasks, names, arrivals, courses.slice(0, HOLD_COURSES)),
    unknown: plan.unknown,
  }
}

const mean = (list: readonly number[]): number => list.reduce((sum, value) => sum + value, 0) / list.length

/** The builder's weeks; with a pace said, those weeks stretched to it, or a few weeks spread about it. */
const weeksFor = (
  build: Build,
  { today, pace }: ForecastOptions,
): { list: number[]; from: 'sittings' | 'said'; observed: number } | undefined => {
  const own = weeksOf(build, today)
  const known = own.length >= FEWEST_WEEKS && mean(own) > 0
  if (pace === undefined) return known ? { list: own, from: 'sittings', observed: own.length } : undefined
  if (known) return { list: own.map((week) => (week * pace) / mean(own)), from: 'said', observed: own.length }
  const spread = [-1.5, -1, -0.5, 0, 0, 0.5, 1, 1.5].map((step) => pace * (1 + step * SAID_SPREAD))
  return { list: spread, from: 'said', observed: 0 }
}

interface Tasks {
  readonly tasks: SimulatedTask[]
  readonly names: { readonly id: string; readonly name: string }[]
  readonly arrivals: { readonly id: string; readonly name: string; readonly day: number }[]
  readonly supposed: Arrival[]
}

/** The plan's steps as tasks: what is opened before a job and closed after it goes with it. */
const tasksOf = (
  build: Build,
  plan: Plan,
  today: string,
  late: Readonly<Record<string, number>>,
  drop: readonly string[],
): Tasks => {
  const arrivals: { id: string; name: string; day: number }[] = []
  const supposed = new Map<string, Arrival>()
  const tasks: (SimulatedTask & { openings: number })[] = []
  const names: { id: string; name: string }[] = []
  const place = new Map<string, number>()
  let opening = 0
  for (const step of plan.steps) {
    if (step.kind === 'wait') continue
    if (step.kind !== 'job') {
      if (step.kind === 'close' && tasks.length > 0) tasks[tasks.length - 1]!.openings += step.time
      else opening += step.time
      continue
    }
    if (drop.includes(step.id)) continue
    const job = build.collections.jobs[step.id]!
    const parts = (job.needs?.parts ?? []).flatMap((id) => {
      const part = Object.hasOwn(build.collections.parts, id) ? build.collections.parts[id] : undefined
      const arrival = arrivalOf(id, part, today)
      if (arrival === undefined && late[id] === undefined) return []
      if (arrival !== undefined && arrival.due === undefined) supposed.set(id, arrival)
      const known = arrivals.findIndex((other) => other.id === id)
      if (known >= 0) return [known]
      const due = arrival?.due === undefined ? 0 : daysBetween(today, arrival.due)
      return [arrivals.push({ id, name: part?.name ?? id, day: due + (late[id] ?? 0) }) - 1]
    })
    place.set(step.id, tasks.length)
    names.push({ id: step.id, name: step.title })
    tasks.push({
      time:
        step.known && job.time
          ? { least: job.time.least.value, likely: job.time.likely.value, most: job.time.most.value }
          : step.time,
      spent: step.known ? (job.spent?.value ?? 0) : 0,
      openings: opening,
      before: (job.needs?.jobs ?? []).flatMap((id) => place.get(id) ?? []),
      parts,
    })
    opening = 0
  }
  return { tasks, names, arrivals, supposed: [...supposed.values()] }
}

/** The same courses with one job taking no time, or one part here today. */
const holdsOf = (
  tasks: readonly SimulatedTask[],
  names: Tasks['names'],
  arrivals: Tasks['arrivals'],
  courses: readonly Course[],
): Forecast['holds'] => {
  const days = arrivals.map(({ day }) => day)
  const finish = courses.map((course) => finishOf(tasks, course, days))
  const gain = (other: (course: Course) => number): number =>
    courses.reduce((sum, course, i) => sum + Math.max(0, finish[i]! - other(course)), 0) / courses.length
  const jobs = tasks.map((_, at) => ({
    kind: 'job' as const,
    id: names[at]!.id,
    name: names[at]!.name,
    days: gain((course) => finishOf(tasks, course, days, at)),
  }))
  const parts = arrivals.map(({ id, name }, part) => ({
    kind: 'part' as const,
    id,
    name,
    days: gain((course) => finishOf(tasks, course, days.with(part, 0))),
  }))
  return [...jobs, ...parts]
    .filter((hold) => Number.isFinite(hold.days) && hold.days > 0.05)
    .sort((a, b) => b.days - a.days)
    .slice(0, 8)
}
