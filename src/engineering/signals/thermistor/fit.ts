/**
 * A thermistor's curve from readings in any order, or from a table: Steinhart–Hart (exact through three, least squares
 * through more) and the B form, with residuals and a ± carried from the readings.
 *
 * The ± is a 95 % half width like every ± here. Where the readings have one, it is carried and widened by the ratio
 * in which they disagree more than they should (Birge); where they have none, it comes from the scatter, which takes
 * more readings than coefficients; else it is `undefined`: the data cannot tell.
 */
import { type Problem, Refusal } from '../../../units/problem.ts'
import { linearFit, studentT95 } from '../../numerics/linearFit.ts'
import type { Interval } from '../interval.ts'
import { betaCurve, type Curve, type SteinhartHart, steinhartHartCurve } from './curve.ts'

export interface ThermistorReading {
  /** K */
  readonly temperature: number
  /** Ω */
  readonly resistance: number
  /** ± K */
  readonly temperaturePlusMinus?: number
  /** ± Ω */
  readonly resistancePlusMinus?: number
}

export interface ThermistorFit extends Curve {
  readonly form: 'steinhart-hart' | 'beta'
  readonly coefficients: SteinhartHart | { readonly beta: number; readonly resistance25: number }
  /** ± K of the curve at a resistance; `undefined` when the readings cannot tell. */
  plusMinusAt(resistance: number): number | undefined
  /** K, curve less reading, in the order given. */
  readonly residuals: readonly number[]
  readonly largestResidual: number
  /** How many times more the readings disagree than their own ± explain; `undefined` without ± or spare readings. */
  readonly disagreement: number | undefined
  /** K spanned by the readings; beyond it the curve is a guess. */
  readonly span: Interval
}

const T25 = 298.15
const celsius = (temperature: number): string => `${Number((temperature - 273.15).toFixed(2))} °C`

export function readingProblems(readings: readonly ThermistorReading[], least: number): Problem[] {
  const found: Problem[] = []
  if (readings.length < least)
    found.push({
      code: 'missing-input',
      path: 'readings',
      says: `${readings.length} readings were given, ${least} are needed.`,
      todo: 'Take one in melting ice, one warm, one in boiling water, each after the sensor has settled.',
    })
  readings.forEach(({ temperature, resistance, temperaturePlusMinus = 0, resistancePlusMinus = 0 }, i) => {
    if (!(temperature > 0) || !(resistance > 0) || !Number.isFinite(temperature) || !Number.isFinite(resistance))
      found.push({
        code: 'out-of-range',
        path: `readings/${i + 1}`,
        says: `Reading ${i + 1} (${temperature} K, ${resistance} Ω) is no temperature and resistance above zero.`,
        todo: 'Measure again, sensor unplugged from the car.',
      })
    else if (!(temperaturePlusMinus >= 0) || !(resistancePlusMinus >= 0))
      found.push({
        code: 'negative-plus-minus',
        path: `readings/${i + 1}`,
        says: `The ± of reading ${i + 1} is negative.`,
        todo: 'Enter 0 or more.',
      })
  })
  if (found.length > 0) return found
  const sorted = readings.map((reading, i) => ({ ...reading, i })).sort((a, b) => a.temperature - b.temperature)
  const rising = sorted.length > 1 && sorted.slice(1).every((each, k) => each.resistance > sorted[k]!.resistance)
  if (rising)
    found.push({
      code: 'not-ntc',
      path: 'readings',
      says: 'Resistance rises with temperature: this is a platinum or other rising sensor, not a falling (NTC) one.',
      todo: 'Use its table as a linear or platinum sensor.',
    })
  else
    for (let k = 1; k < sorted.length; k += 1) {
      const [cold, hot] = [sorted[k - 1]!, sorted[k]!]
      if (cold.temperature === hot.temperature || hot.resistance >= cold.resistance)
        found.push({
          code: 'not-monotone',
          path: `readings/${hot.i + 1}`,
          says: `From ${celsius(cold.temperature)} (${cold.resistance} Ω) to ${celsius(hot.temperature)} (${hot.resistance} Ω) resistance does not fall.`,
          todo: 'Measure both again, the water stirred and the sensor left in it until the meter stands still.',
        })
    }
  return found
}

interface Prepared {
  readonly logs: readonly number[]
  readonly inverse: readonly number[]
  readonly weights: readonly number[] | undefined
}

/** ± are 95 % half widths; weights want σ. */
const SIGMAS = 1.959963984540054

function prepare(readings: readonly ThermistorReading[], slope: (log: number) => number): Prepared {
  const logs = readings.map(({ resistance }) => Math.log(resistance))
  const known = readings.every((each) => (each.temperaturePlusMinus ?? 0) > 0 || (each.resistancePlusMinus ?? 0) > 0)
  return {
    logs,
    inverse: readings.map(({ temperature }) => 1 / temperature),
    weights: known
      ? readings.map(({ temperature, resistance, temperaturePlusMinus = 0, resistancePlusMinus = 0 }, i) => {
          const ofTemperature = temperaturePlusMinus / temperature ** 2
          const ofResistance = (slope(logs[i]!) * resistancePlusMinus) / resistance
          return (SIGMAS / Math.hypot(ofTemperature, ofResistance)) ** 2
        })
      : undefined,
  }
}

function fitted(
  readings: readonly ThermistorReading[],
  form: ThermistorFit['form'],
  columns: (log: number) => readonly number[],
  curveOf: (coefficients: readonly number[]) => { curve: Curve; coefficients: ThermistorFit['coefficients'] },
  slopeOf: (coefficients: readonly number[], log: number) => number,
): ThermistorFit {
  const count = columns(1).length
  const problems = readingProblems(readings, count)
  if (problems.length > 0) throw new Refusal(problems)
  const rough = prepare(readings, () => 0)
  const rows = rough.logs.map(columns)
  const first = linearFit(rows, rough.inverse)
  const undetermined = (): Refusal =>
    new Refusal([
      {
        code: 'no-answer',
        path: 'readings',
        says: 'These readings lie so close together that they give no curve.',
        todo: 'Spread them: ice, warm, boiling.',
      },
    ])
  if (!first) throw undetermined()
  const { weights } = prepare(readings, (log) => slopeOf(first.coefficients, log))
  const fit = linearFit(rows, rough.inverse, weights)
  if (!fit) throw undetermined()
  const logs = [Math.min(...rough.logs), Math.max(...rough.logs)] as const
  if (
    ![...logs, 0].filter((log) => log >= logs[0] && log <= logs[1]).every((log) => slopeOf(fit.coefficients, log) > 0)
  )
    throw new Refusal([
      {
        code: 'not-monotone',
        path: 'readings',
        says: 'The curve through these readings turns back between them.',
        todo: 'One of them is wrong: measure them again, or leave out the odd one.',
      },
    ])
  const { curve, coefficients } = curveOf(fit.coefficients)
  const spread = fit.freedom > 0 ? fit.chiSquared / fit.freedom : undefined
  const disagreement = weights && spread !== undefined ? Math.sqrt(spread) : undefined
  /** Half width in 1/T = factor × √(gᵀ C g). */
  const factor = weights
    ? SIGMAS * Math.max(1, disagreement ?? 1)
    : spread === undefined
      ? undefined
      : studentT95(fit.freedom) * Math.sqrt(spread)
  const residuals = readings.map(({ temperature, resistance }) => curve.temperatureOf(resistance) - temperature)
  const temperatures = readings.map(({ temperature }) => temperature)
  return {
    ...curve,
    form,
    coefficients,
    plusMinusAt(resistance) {
      if (factor === undefined) return undefined
      const g = columns(Math.log(resistance))
      const variance = g.reduce(
        (sum, gi, i) => sum + g.reduce((inner, gj, j) => inner + gi * gj * fit.covariance[i]![j]!, 0),
        0,
      )
      return curve.temperatureOf(resistance) ** 2 * factor * Math.sqrt(Math.max(0, variance))
    },
    residuals,
    largestResidual: Math.max(...residuals.map(Math.abs)),
    disagreement,
    span: { low: Math.min(...temperatures), high: Math.max(...temperatures) },
  }
}

/** Throws `Refusal`: `missing-input` (under three), `out-of-range`, `not-monotone`, `not-ntc`, `no-answer`. */
export const fitSteinhartHart = (readings: readonly ThermistorReading[]): ThermistorFit =>
  fitted(
    readings,
    'steinhart-hart',
    (log) => [1, log, log ** 3],
    ([a, b, c]) => {
      const coefficients = { a: a!, b: b!, c: c! }
      return { curve: steinhartHartCurve(coefficients), coefficients }
    },
    ([, b, c], log) => b! + 3 * c! * log * log,
  )

/** From two readings on; `beta` K, `resistance25` Ω at 25 °C. */
export const fitBeta = (readings: readonly ThermistorReading[]): ThermistorFit =>
  fitted(
    readings,
    'beta',
    (log) => [1, log],
    ([a, b]) => {
      const beta = 1 / b!
      const resistance25 = Math.exp((1 / T25 - a!) * beta)
      return { curve: betaCurve(beta, resistance25, T25), coefficients: { beta, resistance25 } }
    },
    ([, b]) => b!,
  )
