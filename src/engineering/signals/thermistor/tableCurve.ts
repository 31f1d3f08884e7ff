/**
 * A thermistor's curve straight from its table, for one that Steinhart–Hart does not follow: monotone between rows, in the
 * logarithm of resistance against 1/T, where every NTC is nearly straight. Nothing beyond the table.
 */
import { Refusal } from '../../../units/problem.ts'
import { type MonotoneCurve, monotoneCurve } from '../../numerics/monotoneCurve.ts'
import type { Interval } from '../interval.ts'
import { readingProblems, type ThermistorReading } from './fit.ts'

export interface TableCurve {
  /** K; `undefined` beyond the table. */
  temperatureOf(resistance: number): number | undefined
  /** Ω; `undefined` beyond the table. */
  resistanceOf(temperature: number): number | undefined
  /** K and Ω that the table spans. */
  readonly temperatures: Interval
  readonly resistances: Interval
}

/** Throws `Refusal` as a fit does: `missing-input` (under three rows), `out-of-range`, `not-monotone`, `not-ntc`. */
export function tableCurve(rows: readonly ThermistorReading[]): TableCurve {
  const problems = readingProblems(rows, 3)
  if (problems.length > 0) throw new Refusal(problems)
  const sorted = [...rows].sort((a, b) => a.resistance - b.resistance)
  const curve: MonotoneCurve = monotoneCurve(
    sorted.map(({ resistance }) => Math.log(resistance)),
    sorted.map(({ temperature }) => 1 / temperature),
  )
  const [hot, cold] = [sorted[0]!, sorted.at(-1)!]
  // The ends as entered, not through logarithm and back, so that the table's own end rows are inside.
  const inverse = (resistance: number): number | undefined =>
    resistance < hot.resistance || resistance > cold.resistance
      ? undefined
      : curve.at(Math.min(curve.high, Math.max(curve.low, Math.log(resistance))))
  return {
    temperatures: { low: cold.temperature, high: hot.temperature },
    resistances: { low: hot.resistance, high: cold.resistance },
    temperatureOf(resistance) {
      const found = inverse(resistance)
      return found === undefined ? undefined : 1 / found
    },
    resistanceOf(temperature) {
      if (!(temperature >= cold.temperature) || temperature > hot.temperature) return undefined
      let [low, high] = [curve.low, curve.high]
      for (let turn = 0; turn < 60; turn += 1) {
        const mid = (low + high) / 2
        if (curve.at(mid)! < 1 / temperature) low = mid
        else high = mid
      }
      return Math.exp((low + high) / 2)
    },
  }
}
