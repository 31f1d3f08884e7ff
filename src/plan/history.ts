/** What the build tells of its builder: hours by week, and how long jobs took against their estimates. */
import type { Build } from '../model/build.ts'
import { daysBetween } from './arrival.ts'
import { expectedTime, variance } from './threePoint.ts'

/** Time worked in each of the last weeks, s, oldest first, back to the first sitting. The week that ends today is the last. */
export const weeksOf = (build: Build, today: string): number[] => {
  const sittings = Object.values(build.collections.records).flatMap(({ kind, when, hours }) => {
    if (kind !== 'sitting' || when === undefined || hours === undefined) return []
    const ago = daysBetween(when.slice(0, 10), today)
    return ago < 0 ? [] : [{ week: Math.floor(ago / 7), time: hours.value }]
  })
  const weeks: number[] = new Array(Math.max(0, ...sittings.map(({ week }) => week + 1))).fill(0)
  for (const { week, time } of sittings) weeks[week]! += time
  return weeks.reverse()
}

/** The builder's mean pace, s of work in a week; `undefined` before the third week of sittings. */
export const paceOf = (build: Build, today: string): number | undefined => {
  const weeks = weeksOf(build, today)
  return weeks.length < FEWEST_WEEKS ? undefined : weeks.reduce((sum, week) => sum + week, 0) / weeks.length
}
/** With fewer weeks chance says more than habit; a choice, no published source. */
export const FEWEST_WEEKS = 3

/** One job that is over: the log of what it took against its mean estimate, and the estimate's own relative spread. */
export interface Outcome {
  readonly job: string
  readonly ratio: number
  readonly spread: number
}

export const outcomesOf = (build: Build): Outcome[] =>
  Object.values(build.collections.jobs).flatMap(({ id, status, time, spent }) => {
    if ((status !== 'done' && status !== 'closed') || time === undefined || !spent || spent.value <= 0) return []
    const estimate = { least: time.least.value, likely: time.likely.value, most: time.most.value }
    if (!(estimate.least <= estimate.likely && estimate.likely <= estimate.most)) return []
    const mean = expectedTime(estimate)
    return [{ job: id, ratio: Math.log(spent.value / mean), spread: Math.sqrt(variance(estimate)) / mean }]
  })

/**
 * What jobs take against their estimates: factor e^bias, and the scatter that the three estimates do not hold.
 * Normal with unknown mean and variance, learnt from the outcomes and drawn towards a stated beginning: no bias, ± a
 * factor of e^0.5; scatter e^0.3, worth four jobs. Both are choices, no published source.
 */
export interface Bias {
  readonly mean: number
  /** Of the mean. */
  readonly deviation: number
  readonly scatter: number
  readonly jobs: number
}
const BEGIN = { deviation: 0.5, scatter: 0.3, weight: 4 }

export const biasOf = (outcomes: readonly Outcome[]): Bias => {
  const count = outcomes.length
  // A drawn time has a log a little below that of its mean.
  const logs = outcomes.map(({ ratio, spread }) => ratio + spread ** 2 / 2)
  const raw = count === 0 ? 0 : logs.reduce((sum, log) => sum + log, 0) / count
  const squares = logs.reduce((sum, log) => sum + (log - raw) ** 2, 0)
  const total = (BEGIN.weight * BEGIN.scatter ** 2 + squares) / (BEGIN.weight + Math.max(0, count - 1))
  const precision = count / total + 1 / BEGIN.deviation ** 2
  const own = count === 0 ? 0 : outcomes.reduce((sum, { spread }) => sum + spread ** 2, 0) / count
  return {
    mean: ((count / total) * raw) / precision,
    deviation: Math.sqrt(1 / precision),
    // What the three estimates already hold is drawn from them; less than nothing more is nothing more.
    scatter: Math.sqrt(Math.max(0, total - own)),
    jobs: count,
  }
}
