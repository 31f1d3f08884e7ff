/**
 * Preferred values of IEC 60063: E3 … E192, one decade each, and every value between two limits.
 *
 * E24 and what derives from it are the standard's own list, not a formula: round(10^(i/24), 1 decimal) misses eight of
 * the 24. E192 is the formula round(10^(i/192), 2 decimals) with the standard's one exception, 9.20 where the formula
 * says 9.19; E96 and E48 are every second of the series above.
 *
 * Source: IEC 60063:2015, as tabled at en.wikipedia.org “E series of preferred numbers” and qsl.net/g4usp [read]; the exception
 * 9.20 [from memory]. Tolerances: the same pages.
 */
import { refuse } from '../../units/problem.ts'

const E24 = [10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91]
const E192 = Array.from({ length: 192 }, (_, i) => (i === 185 ? 920 : Math.round(100 * 10 ** (i / 192))))
const every = (list: readonly number[], step: number): readonly number[] => list.filter((_, i) => i % step === 0)

/** One decade of each series as whole numbers: two digits up to E24, three from E48. */
export const DECADES = {
  E3: every(E24, 8),
  E6: every(E24, 4),
  E12: every(E24, 2),
  E24,
  E48: every(E192, 4),
  E96: every(E192, 2),
  E192,
} as const satisfies Record<string, readonly number[]>

export type Series = keyof typeof DECADES
export const SERIES = Object.keys(DECADES) as readonly Series[]

/** Tolerance that goes with a series by custom of the standard; E3 has none of its own (over 20 %). */
export const CUSTOMARY_TOLERANCE: Readonly<Record<Series, number | undefined>> = {
  E3: undefined,
  E6: 0.2,
  E12: 0.1,
  E24: 0.05,
  E48: 0.02,
  E96: 0.01,
  E192: 0.005,
}

/** Every value of a series from `least` to `most` (Ω, F, H alike), rising, ends included. Refuses an empty or unbounded span. */
export function preferredValues(series: Series, least: number, most: number): number[] {
  if (!(least > 0) || !(most >= least) || !Number.isFinite(most))
    throw refuse(
      'out-of-range',
      `Preferred values from ${least} to ${most} were asked for.`,
      'Give a least value above 0 and a most value that is not below it.',
    )
  const decade = DECADES[series]
  const digits = decade[0]! >= 100 ? 2 : 1
  const found: number[] = []
  for (let power = Math.floor(Math.log10(least)) - 1; power <= Math.ceil(Math.log10(most)); power += 1) {
    for (const digitsOf of decade) {
      // Text, because 4.7 × 10⁻⁹ by multiplication is not the double nearest to 4.7e-9.
      const value = Number(`${digitsOf}e${power - digits}`)
      if (value >= least && value <= most) found.push(value)
    }
  }
  return found
}

/** The value of a series nearest to `value` by ratio, since series are spaced by ratio. */
export function nearestPreferred(series: Series, value: number): number {
  const around = preferredValues(series, value / 10, value * 10)
  const apart = (candidate: number): number => Math.abs(Math.log(candidate / value))
  return around.reduce((best, candidate) => (apart(candidate) < apart(best) ? candidate : best))
}
