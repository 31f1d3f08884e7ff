/**
 * Litres against resistance from a fill test: the tank filled can by can, the sender read after each.
 *
 * The can's own error is in every can alike and adds up; the error of filling it to its mark is new each time and adds by
 * squares. Between two readings any curve that never turns is possible, so the sure bounds there are the two readings.
 *
 * Caution: petrol. Outdoors, tank and can earthed to each other, no source of ignition, extinguisher at hand.
 */
import { type Problem, Refusal } from '../../../units/problem.ts'
import { monotoneCurve } from '../../numerics/monotoneCurve.ts'
import type { Interval } from '../interval.ts'

export const FILL_CAUTION =
  'Petrol: outdoors, tank and can earthed to each other, no source of ignition, extinguisher at hand.'

export interface FillReading {
  /** m³ poured since the reading before (the first: since empty, 0 for the empty tank). */
  readonly added: number
  /** Ω after it has settled. */
  readonly resistance: number
}

export interface FillTest {
  /** m³ at a resistance, the likely curve; `undefined` beyond the readings. */
  volumeAt(resistance: number): number | undefined
  /** m³ between which it surely lies (95 % for the cans); `undefined` beyond the readings. */
  boundsAt(resistance: number): Interval | undefined
  readonly points: readonly { readonly resistance: number; readonly volume: number; readonly plusMinus: number }[]
}

export interface CanError {
  /** ± share of the can's mark against a true measure, the same in every can. */
  readonly scale: number
  /** ± m³ of filling it to the mark, each time anew. */
  readonly each: number
}

/** Throws `Refusal`: `missing-input`, `out-of-range`, `not-monotone`. */
export function fillTest(readings: readonly FillReading[], can: CanError): FillTest {
  const problems: Problem[] = []
  if (readings.length < 3)
    problems.push({
      code: 'missing-input',
      path: 'readings',
      says: `${readings.length} readings were given, three are needed.`,
      todo: `Read the sender empty and after every can. ${FILL_CAUTION}`,
    })
  if (!(can.scale >= 0) || !(can.each >= 0))
    problems.push({
      code: 'negative-plus-minus',
      path: 'can',
      says: 'A ± of the can is negative.',
      todo: 'Enter 0 or more.',
    })
  let [volume, cans] = [0, 0]
  const points = readings.map(({ added, resistance }, i) => {
    if (!(added >= 0) || (i > 0 && added === 0) || !(resistance >= 0) || !Number.isFinite(resistance))
      problems.push({
        code: 'out-of-range',
        path: `readings/${i + 1}`,
        says: `Reading ${i + 1} adds ${added} m³ and shows ${resistance} Ω.`,
        todo: 'Enter what was poured since the reading before, and the settled resistance.',
      })
    volume += added
    if (added > 0) cans += 1
    return { resistance, volume, plusMinus: Math.hypot(can.scale * volume, can.each * Math.sqrt(cans)) }
  })
  const down = points.length > 1 && points.at(-1)!.resistance < points[0]!.resistance
  points.slice(1).forEach((point, i) => {
    const before = points[i]!
    if (down ? point.resistance >= before.resistance : point.resistance <= before.resistance)
      problems.push({
        code: 'not-monotone',
        path: `readings/${i + 2}`,
        says: `From reading ${i + 1} (${before.resistance} Ω) to reading ${i + 2} (${point.resistance} Ω) the sender does not move the way it moves elsewhere.`,
        todo: 'At the ends leave out readings where the float stands still; elsewhere read again, the liquid at rest.',
      })
  })
  if (problems.length > 0) throw new Refusal(problems)
  const rising = down ? [...points].reverse() : points
  const curve = monotoneCurve(
    rising.map(({ resistance }) => resistance),
    rising.map((point) => point.volume),
  )
  return {
    points,
    volumeAt: curve.at,
    boundsAt(resistance) {
      if (curve.at(resistance) === undefined) return undefined
      const i = rising.findIndex((point) => point.resistance >= resistance)
      const around = rising[i]!.resistance === resistance ? [rising[i]!] : [rising[i - 1]!, rising[i]!]
      return {
        low: Math.min(...around.map((point) => point.volume - point.plusMinus)),
        high: Math.max(...around.map((point) => point.volume + point.plusMinus)),
      }
    },
  }
}
