/**
 * Readings of one thing over the months: a straight line through them with its 95 % interval. What scatter can explain is
 * not called a trend.
 */
import { linearFit, studentT95 } from '../../engineering/numerics/linearFit.ts'
import type { Build } from '../../model/build.ts'
import { formatQuantity } from '../../units/index.ts'
import type { Kind } from '../../units/kinds.ts'
import { byTime } from '../commissioning/evidence.ts'
import type { Verdict } from '../finding.ts'

export interface Watched {
  /** Subject of its readings. */
  readonly subject: string
  readonly title: string
  readonly kind: Kind
  readonly unit: string
  /** The way that is worse; both for a trim. */
  readonly worse: 'falling' | 'rising' | 'either'
  /** SI in 30 days: slower than this it is called steady. Common practice, no published source. */
  readonly matters: number
  readonly how: string
  readonly means: string
  readonly caution: string
}
const IDLING =
  'The engine runs: out of gear, brake on, in the open air, clear of fan and belts; hot oil and metal burn.'
export const WATCHED: readonly Watched[] = [
  {
    subject: 'crank volts',
    title: 'Crank volts',
    kind: 'voltage',
    unit: 'V',
    worse: 'falling',
    matters: 0.1,
    how: 'Least volts at the battery’s posts while it cranks, after a night’s rest.',
    means: 'battery, its clamps, earth strap, starter',
    caution: 'Out of gear, brake on; hands, hair and leads clear of fan and belts; no rings at the battery.',
  },
  {
    subject: 'hot idle oil pressure',
    title: 'Oil pressure at hot idle',
    kind: 'pressureGauge',
    unit: 'bar',
    worse: 'falling',
    matters: 20e3,
    how: 'After half an hour’s drive, at warm idle.',
    means: 'bearings, pump, oil diluted with fuel, the gauge',
    caution: IDLING,
  },
  {
    subject: 'trim at idle',
    title: 'Fuel trim at hot idle',
    kind: 'ratio',
    unit: '%',
    worse: 'either',
    matters: 0.02,
    how: 'The controller’s long-term trim, warm, everything off.',
    means: 'air leak, injectors, fuel pressure, sensor',
    caution: IDLING,
  },
  {
    subject: 'trim at cruise',
    title: 'Fuel trim at cruise',
    kind: 'ratio',
    unit: '%',
    worse: 'either',
    matters: 0.02,
    how: 'From a log of a steady drive, never read by whoever drives.',
    means: 'fuel pressure, filter, injectors, air meter',
    caution: 'Nobody reads a figure while driving: log it, or a second person reads.',
  },
]

export interface Point {
  /** s since 1970. */
  readonly at: number
  readonly value: number
  readonly plusMinus: number | undefined
}
export interface Trend {
  readonly watched: Watched
  readonly points: readonly Point[]
  readonly verdict: Verdict
  readonly says: string
  readonly missing?: string
  /** Per 30 days, SI, with the half-width of its 95 % interval. */
  readonly slope?: { readonly value: number; readonly plusMinus: number }
}
const MONTH = 30 * 86_400
/** Fewer readings fit any line. */
const LEAST = 3

export const trendOf = (build: Build, watched: Watched): Trend => {
  const points = byTime(
    Object.values(build.collections.readings).filter(
      ({ subject, quantity, when }) => subject === watched.subject && quantity === watched.kind && when !== undefined,
    ),
  ).map(({ value, plusMinus, when }): Point => ({ at: Date.parse(when!) / 1000, value, plusMinus }))
  const base = { watched, points }
  const show = (value: number, plusMinus?: number): string =>
    formatQuantity(watched.kind, value as never, { unit: watched.unit, ...(plusMinus ? { plusMinus } : {}) })
  const last = points.at(-1)
  const now = last ? `Last ${show(last.value, last.plusMinus)}. ` : ''
  const start = points[0]?.at ?? 0
  const fit =
    points.length < LEAST
      ? undefined
      : linearFit(
          points.map(({ at }) => [1, (at - start) / MONTH]),
          points.map(({ value }) => value),
        )
  if (!fit || fit.freedom < 1) {
    const more = Math.max(1, LEAST - points.length)
    return {
      ...base,
      verdict: 'unknown',
      says: `${now}Too few to tell a trend.`,
      missing: `${more} more ${more === 1 ? 'reading' : 'readings'}, on other days`,
    }
  }
  // Scatter from the residuals, or what the instrument leaves open where that is more.
  const own = points.map(({ plusMinus }) => (plusMinus ?? 0) / 1.96)
  const spread = Math.max(fit.chiSquared / fit.freedom, own.reduce((sum, each) => sum + each * each, 0) / own.length)
  const value = fit.coefficients[1]!
  const plusMinus = studentT95(fit.freedom) * Math.sqrt(spread * fit.covariance[1]![1]!)
  const slope = { value, plusMinus }
  const monthly = `${show(Math.abs(value), plusMinus)} in 30 days`
  const way = value < 0 ? 'down' : 'up'
  if (Math.abs(value) + plusMinus <= watched.matters)
    return { ...base, slope, verdict: 'sound', says: `${now}Steady: ${way} ${monthly}.` }
  if (Math.abs(value) <= plusMinus)
    return {
      ...base,
      slope,
      verdict: 'unknown',
      says: `${now}No trend that scatter does not explain, and none that it rules out: ${way} ${monthly}.`,
      missing: 'more readings, further apart',
    }
  const falls = value < 0
  const worse = watched.worse === 'either' || (watched.worse === 'falling') === falls
  return {
    ...base,
    slope,
    verdict: worse ? 'marginal' : 'sound',
    says: `${now}It ${falls ? 'falls' : 'rises'} by ${monthly}.${worse ? ` Look at ${watched.means}.` : ''}`,
  }
}
