/**
 * A straight-line sensor from data-sheet points, from readings, or checked at two points.
 *
 * `input` is volts, or the share of the supply for a ratiometric sensor; `value` is SI of whatever it measures. Through
 * two points exactly, through more by least squares; ± like a thermistor's fit: carried from the readings, else from
 * their scatter, else `undefined`.
 */
import { type Problem, Refusal, refuse } from '../../../units/problem.ts'
import { linearFit, studentT95 } from '../../numerics/linearFit.ts'

export interface LinearPoint {
  readonly input: number
  readonly value: number
  /** ± of the value, 95 % half width. */
  readonly plusMinus?: number
}

export interface LinearSensor {
  /** value = offset + slope · input */
  readonly slope: number
  readonly offset: number
  valueOf(input: number): number
  inputOf(value: number): number
  plusMinusAt(input: number): number | undefined
  /** Line less point, in the order given. */
  readonly residuals: readonly number[]
}

const SIGMAS = 1.959963984540054

/** Throws `Refusal`: `missing-input` (under two points), `not-a-number`, `no-slope`. */
export function linearSensor(points: readonly LinearPoint[]): LinearSensor {
  const problems: Problem[] = []
  if (points.length < 2)
    problems.push({
      code: 'missing-input',
      path: 'points',
      says: `${points.length} points were given, two are needed.`,
      todo: 'Take the two ends of the data sheet’s line, or measure at two known values far apart.',
    })
  points.forEach(({ input, value, plusMinus = 0 }, i) => {
    if (![input, value, plusMinus].every(Number.isFinite) || plusMinus < 0)
      problems.push({
        code: 'not-a-number',
        path: `points/${i + 1}`,
        says: `Point ${i + 1} (${input}, ${value} ± ${plusMinus}) cannot be used.`,
        todo: 'Enter a number for each, the ± 0 or more.',
      })
  })
  if (problems.length > 0) throw new Refusal(problems)
  const weighted = points.every(({ plusMinus = 0 }) => plusMinus > 0)
  const fit = linearFit(
    points.map(({ input }) => [1, input]),
    points.map(({ value }) => value),
    weighted ? points.map(({ plusMinus }) => (SIGMAS / plusMinus!) ** 2) : undefined,
  )
  const [offset, slope] = fit?.coefficients ?? []
  const flat = points.every(({ value }) => value === points[0]!.value)
  if (!fit || offset === undefined || slope === undefined || flat)
    throw refuse(
      'no-slope',
      'These points give no slope: their inputs or their values are all alike.',
      'Take points further apart; a sensor that never moves is stuck or not fed.',
      'points',
    )
  const spread = fit.freedom > 0 ? Math.sqrt(fit.chiSquared / fit.freedom) : undefined
  const factor = weighted
    ? SIGMAS * Math.max(1, spread ?? 1)
    : spread === undefined
      ? undefined
      : studentT95(fit.freedom) * spread
  const [[c00, c01], [, c11]] = fit.covariance as unknown as readonly [
    readonly [number, number],
    readonly [number, number],
  ]
  return {
    slope,
    offset,
    valueOf: (input) => offset + slope * input,
    inputOf: (value) => (value - offset) / slope,
    plusMinusAt: (input) =>
      factor === undefined ? undefined : factor * Math.sqrt(Math.max(0, c00 + 2 * c01 * input + c11 * input * input)),
    residuals: fit.residuals.map((residual) => -residual),
  }
}

export interface TwoPointCheck {
  /** Data sheet's value less the known one, at each point. */
  readonly errors: readonly [number, number]
  /** The line through both points, over the data sheet's: 1 is right. */
  readonly gain: number
  /** What the data sheet's line shows too much where the sensor should show 0. */
  readonly zeroError: number
  /** Whether each error is explained by its own ± and `allowed` (the data sheet's error); `undefined` when a ± is missing. */
  readonly agrees: boolean | undefined
}

/** A data sheet's line held to two known values (atmosphere and a hand pump, empty and full, closed and open). */
export function twoPointCheck(
  sheet: LinearSensor,
  known: readonly [LinearPoint, LinearPoint],
  allowed: number,
): TwoPointCheck {
  const through = linearSensor(known)
  const errors = known.map(({ input, value }) => sheet.valueOf(input) - value) as [number, number]
  const bounds = known.map(({ plusMinus }) => (plusMinus === undefined ? undefined : plusMinus + allowed))
  return {
    errors,
    gain: sheet.slope / through.slope,
    zeroError: sheet.valueOf(through.inputOf(0)),
    agrees: bounds.some((bound) => bound === undefined)
      ? undefined
      : errors.every((error, i) => Math.abs(error) <= bounds[i]!),
  }
}

/** Value by which a raised earth shifts a straight-line sensor: ΔV in the input's own unit, so 0.1 V on a span of 4 V is 2.5 % of span. */
export const earthShift = ({ slope }: LinearSensor, offset: number): number => slope * offset
