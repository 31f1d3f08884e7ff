/** What the figures of the first start say. SI; a ± that reaches over a limit gives `unknown`, not the better side. */
import type { Build } from '../../model/build.ts'
import { formatQuantity } from '../../units/index.ts'
import type { Kind } from '../../units/kinds.ts'
import {
  CHARGE_OFF,
  CRANKING,
  CRANKING_SPREAD,
  OIL_CRANKING,
  OIL_FIRST_IDLE,
  OIL_NOTHING,
  PRIME_LONGEST,
  RAIL_FALL,
  RAIL_OFF,
  RAIL_PAUSE,
  TIMING_CLOSE,
  TIMING_OFF,
} from './bounds.ts'
import type { Figure, Judged } from './types.ts'

type Figures = Readonly<Record<string, Figure>>
const show = (kind: Kind, value: number, unit: string, plusMinus?: number): string =>
  formatQuantity(kind, value as never, { unit, ...(plusMinus === undefined ? {} : { plusMinus }) })
const bar = (value: number): string => show('pressureGauge', value, 'bar')
const least = ({ value, plusMinus }: Figure): number => value - (plusMinus ?? 0)
const most = ({ value, plusMinus }: Figure): number => value + (plusMinus ?? 0)
const tooWide = (what: string): Judged => ({
  verdict: 'unknown',
  says: `The ± of ${what} reaches over the limit: it may be either.`,
  missing: `${what}, read closer`,
})

/** Oil pressure, Pa gauge, against the least that is wanted. */
const oil = (pressure: Figure, wanted: number, where: string): Judged => {
  if (most(pressure) < OIL_NOTHING)
    return {
      verdict: 'no-go',
      says: `No oil pressure ${where}.`,
      next: { says: 'Look for an empty filter, an unprimed pump, a feed or gauge that is blocked; do not start it.' },
    }
  if (least(pressure) >= wanted)
    return { verdict: 'sound', says: `${bar(wanted)} are wanted ${where} (common practice).` }
  if (most(pressure) < wanted)
    return {
      verdict: 'marginal',
      says: `Less than the ${bar(wanted)} that are usual ${where} (common practice); the engine’s maker has the last word.`,
      next: { says: 'Read it with a second gauge; a slow starter or thick cold oil gives less.' },
    }
  return tooWide('the oil pressure')
}
export const judgeOil = ({ pressure }: Figures): Judged => oil(pressure!, OIL_CRANKING, 'while cranking')
export const judgeRunningOil = ({ pressure }: Figures): Judged => oil(pressure!, OIL_FIRST_IDLE, 'at a cold idle')

export const judgeCranking = ({ lowest, highest }: Figures): Judged => {
  const [low, high] = [lowest!.value, highest!.value]
  if (low <= 0)
    return {
      verdict: 'no-go',
      says: 'The controller loses the trigger: it shows no speed while the engine turns.',
      next: { says: 'Polarity, air gap, screen, tooth count; look at the trigger record again.' },
    }
  if (high < low)
    return {
      verdict: 'unknown',
      says: 'The highest is below the lowest.',
      missing: 'both figures, the right way round',
    }
  const rpm = (value: number): string => show('angularSpeed', value, 'rpm')
  if (high / low > CRANKING_SPREAD || low < CRANKING[0] || high > CRANKING[1])
    return {
      verdict: 'no-go',
      says: `${rpm(low)} to ${rpm(high)} is no steady cranking speed: ${rpm(CRANKING[0])} to ${rpm(CRANKING[1])}, the highest at most ${CRANKING_SPREAD} times the lowest, is usual (common practice).`,
      next: { says: 'Tooth count, missing teeth, polarity; then a tired battery or starter.' },
    }
  return { verdict: 'sound', says: `Steady, and within what a starter gives (common practice).` }
}

export const judgeTiming = ({ lamp, shown }: Figures): Judged => {
  const off = lamp!.value - shown!.value
  const band = Math.hypot(lamp!.plusMinus ?? 0, shown!.plusMinus ?? 0)
  const degrees = show('angle', Math.abs(off), '°', band > 0 ? band : undefined)
  const side = off > 0 ? 'earlier' : 'later'
  if (Math.abs(off) + band <= TIMING_CLOSE)
    return { verdict: 'sound', says: `The lamp is within 1° of what the controller commands (common practice).` }
  if (Math.abs(off) - band > TIMING_OFF)
    return {
      verdict: 'no-go',
      says: `The spark comes ${degrees} ${side} than the controller believes: an engine is holed that way.`,
      next: { says: 'Mend the trigger offset in the controller, then read both again.' },
    }
  return {
    verdict: 'marginal',
    says: `The spark comes ${degrees} ${side} than the controller believes; 1° is within reach.`,
    next: { says: 'Mend the trigger offset in the controller, then read both again.' },
  }
}

/** Rail pressures Pa gauge, pause s. A fall alone does not tell a leak outside from a check valve inside the pump. */
export const judgeRail = ({ on, after, pause }: Figures, build: Build): Judged => {
  const set = build.sheets.fuel?.railPressure?.value
  if (set === undefined)
    return {
      verdict: 'unknown',
      says: `${bar(on!.value)} with the pump on; whether that is right cannot be told.`,
      missing: 'rail pressure on the fuel sheet',
      next: { says: 'Enter the rail pressure on Fuel.', at: { bench: 'fuel' } },
    }
  if (pause!.value < RAIL_PAUSE)
    return {
      verdict: 'unknown',
      says: 'The pause was too short to tell a slow leak.',
      missing: 'the pressure after five minutes',
    }
  const [low, high] = [set * (1 - RAIL_OFF), set * (1 + RAIL_OFF)]
  if (most(on!) < low || least(on!) > high)
    return {
      verdict: 'no-go',
      says: `${bar(on!.value)} with the pump on is more than ${RAIL_OFF * 100} % off the ${bar(set)} of the fuel sheet.`,
      next: { says: 'Regulator, its hose, return, pump’s volts; or mend the fuel sheet. Then read again.' },
    }
  if (least(on!) < low || most(on!) > high) return tooWide('the rail pressure')
  const fall = (on!.value - after!.value) / on!.value
  const says = `It fell by ${(fall * 100).toFixed(0)} % in ${show('time', pause!.value, 'min')}.`
  if (fall > RAIL_FALL)
    return {
      verdict: 'marginal',
      says: `${says} A check valve, a regulator or an injector may let it back; so may a joint: look at each again.`,
      next: { says: 'Wipe every joint under pressure once more, then pinch off (never crush) to find where it goes.' },
    }
  return { verdict: 'sound', says: `${says} The figures hold; a qualified person must inspect the fuel system.` }
}

export const judgePrime = ({ time }: Figures): Judged =>
  least(time!) > PRIME_LONGEST
    ? {
        verdict: 'no-go',
        says: `The pump runs on for more than ${PRIME_LONGEST} s with the engine still (common practice): after a crash it would go on pumping.`,
        next: { says: 'Let the controller switch it, and set its priming time.' },
      }
    : { verdict: 'sound', says: `Within ${PRIME_LONGEST} s (common practice).` }

/** Volts at the battery against the alternator’s set-point. */
export const judgeCharge = ({ volts }: Figures, build: Build): Judged => {
  const set = Object.values(build.collections.devices).flatMap(({ spec }) =>
    spec.kind === 'alternator' && spec.setpoint ? [spec.setpoint.value as number] : [],
  )[0]
  if (set === undefined)
    return {
      verdict: 'unknown',
      says: `${show('voltage', volts!.value, 'V')} at the battery; whether that is right cannot be told.`,
      missing: 'set-point of the alternator',
      next: { says: 'Enter the alternator’s set-point on Circuits.', at: { bench: 'circuits' } },
    }
  const off = volts!.value - set
  const says = `The alternator is set to ${show('voltage', set, 'V')}.`
  if (off > CHARGE_OFF)
    return {
      verdict: 'no-go',
      says: `${says} The battery is overcharged: it boils, and lamps and controllers suffer.`,
      next: { says: 'Stop the engine; regulator and its sense wire.' },
    }
  return off >= -CHARGE_OFF
    ? { verdict: 'sound', says }
    : {
        verdict: 'marginal',
        says: `${says} At idle, with much switched on, or on an empty battery it is less; else the charging lead drops too much.`,
        next: { says: 'Read again at 2000 1/min with everything off.' },
      }
}
