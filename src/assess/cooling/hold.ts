/**
 * What a pressure-hold test tells. A rate only with the trapped gas volume known and with the liquid's contraction and the
 * hoses' give corrected for; else tight, not tight, or it cannot tell.
 */
import { coolantExpansion } from '../../engineering/cooling/coolantExpansion.ts'
import { pressureHold } from '../../engineering/cooling/pressureHold.ts'
import { combine, type Datum, entered, isKnown, lackOf, step } from '../chain/chain.ts'
import type { CoolingFacts } from './facts.ts'

export type HoldAnswer = 'tight' | 'not tight' | 'cannot tell'
export interface Hold {
  readonly answer: HoldAnswer
  readonly because: string
  readonly next: string
  /** Liquid that leaks, m³/s; only where a rate may be named. */
  readonly rate: Datum
  readonly expected: Datum
  /** Above the cap or warm: the test itself was wrong. */
  readonly wrong?: string
}

/** K above which coolant counts as not cold: skin and steam. Common practice, no published source. */
const WARM = 313.15
/** K by which gas and liquid may differ between two readings and still be called steady. */
const STEADY = 0.5
/** Share of the pressure that hoses alone may give in the first minutes. Common practice, no published source. */
const CREEP = 0.1
const KELVIN_GAS = 0.0035

export const holdOf = (facts: CoolingFacts): Hold | undefined => {
  const { cooling, outsidePressure } = facts
  const test = cooling.hold
  if (!test) return undefined
  const start = entered(test.startPressure, 'start pressure of the pressure-hold test')
  const end = entered(test.endPressure, 'end pressure of the pressure-hold test')
  const [cold, hot] = [
    entered(test.startTemperature, 'temperature at the start of the pressure-hold test'),
    entered(test.endTemperature, 'temperature at the end of the pressure-hold test'),
  ]
  const absolute = (gauge: Datum, at: string): Datum =>
    combine([gauge, outsidePressure], (p = 0, p0 = 0) => p + p0, `Absolute pressure at the ${at} = gauge + outside`)
  const shrink = step(coolantExpansion, {
    volume: entered(cooling.coolantVolume, 'volume of coolant'),
    glycol: facts.glycol,
    cold,
    hot,
  }).growth
  const found = step(pressureHold, {
    gasVolume: entered(test.gasVolume, 'trapped gas volume'),
    startPressure: absolute(start, 'start'),
    endPressure: absolute(end, 'end'),
    startTemperature: cold,
    endTemperature: hot,
    contraction: combine(
      [shrink],
      (growth = 0) => -growth,
      'Contraction = −growth of the coolant between both readings',
    ),
    hoseGive: entered(test.hoseGive, 'give of the hoses'),
    outside: outsidePressure,
    time: entered(test.time, 'time of the pressure-hold test'),
  })
  const rate = found.liquidRate
  const read = [start, end, cold, hot].map((datum) => (isKnown(datum) ? datum : undefined))
  const [startRead, endRead, coldRead, hotRead] = read
  if (!startRead || !endRead || !coldRead || !hotRead || !test.time)
    return {
      rate,
      expected: found.withoutLeak,
      answer: 'cannot tell',
      because: 'Not all of its readings are entered.',
      next: `Enter ${(lackOf([start, end, cold, hot, entered(test.time, 'time of the pressure-hold test')])?.missing ?? []).join(', ')}.`,
    }
  const wrong =
    cooling.capPressure && startRead.value > cooling.capPressure.value * 1.001
      ? 'The test pressure was above the cap’s: never test above what the cap holds.'
      : Math.max(coldRead.value, hotRead.value) > WARM
        ? 'The system was warm: test it cold, and never open it hot.'
        : undefined
  const drop = startRead.value - endRead.value
  const doubt = Math.hypot(startRead.plusMinus, endRead.plusMinus)
  const base = { rate, expected: found.withoutLeak, ...(wrong === undefined ? {} : { wrong }) }
  if (isKnown(rate)) {
    const low = rate.value - rate.plusMinus
    const high = rate.value + rate.plusMinus
    if (low > 0)
      return {
        ...base,
        answer: 'not tight',
        because: 'More pressure went than temperature, contraction and hoses account for.',
        next: 'Look for it cold, by eye and paper, from the cap down.',
      }
    return high < 0
      ? {
          ...base,
          answer: 'cannot tell',
          because:
            'More pressure is left than temperature, contraction and hoses allow: a figure of the test is wrong.',
          next: 'Read both temperatures again, let the gas settle after pumping, and hold it once more.',
        }
      : {
          ...base,
          answer: 'tight',
          because: `No leak shows; one of ${(high * 3.6e9).toFixed(0)} ml/h would.`,
          next: 'Nothing; hold it for longer to look for less.',
        }
  }
  const moved = Math.abs(hotRead.value - coldRead.value)
  const steady = moved <= STEADY + Math.hypot(coldRead.plusMinus, hotRead.plusMinus)
  // With the gas volume unknown the liquid's contraction can account for any fall in pressure.
  const byGas = (startRead.value + 101325) * KELVIN_GAS * moved
  const lack = lackOf([rate])
  const wants = lack && lack.missing.length > 0 ? lack.missing : ['figures that can hold together']
  if (steady && drop <= doubt + byGas)
    return {
      ...base,
      answer: 'tight',
      because: `It fell by no more than the gauge’s ± in ${(test.time.value / 60).toFixed(0)} min at steady temperature.`,
      next: 'Nothing; a slow seep may still hide: look again after a week of use.',
    }
  if (steady && drop > doubt + byGas + CREEP * startRead.value)
    return {
      ...base,
      answer: 'not tight',
      because: 'It fell by more than gauge, temperature and the give of hoses make likely.',
      next: `Look for it cold, by eye and paper. For a rate: ${wants.join(', ')}.`,
    }
  return {
    ...base,
    answer: 'cannot tell',
    because: steady
      ? 'The fall may be the give of the hoses.'
      : 'The temperature moved, and shrinking coolant alone can take that pressure.',
    next: `Hold it again for longer at steady temperature; for a rate: ${wants.join(', ')}.`,
  }
}
