/** The tank of the fuel sheet against the litres that its level sender was given or found: one tank, two records of it. */
import type { Build } from '../../model/build.ts'
import type { Verdict } from '../finding.ts'
import { list, own, percent } from '../make.ts'
import { knownOf } from '../signals/known.ts'
import { levelSheet } from '../signals/levels.ts'

export interface TankSender {
  readonly name: string
  readonly verdict: Verdict
  readonly says: string
  readonly todo: string
  readonly missing: readonly string[]
}
/** Share by which a shape drawn with a rule may be off. Common practice, no published source. */
const SHAPE = 0.05
const litres = (volume: number): string => `${(volume * 1e3).toFixed(1)} l`

/** Undefined where the fuel sheet names no sender. */
export const tankSender = (build: Build): TankSender | undefined => {
  const tank = build.sheets.fuel?.tank
  const record = own(build.collections.levelSenders, tank?.sender ?? '')
  if (!tank || !record) return undefined
  const { capacity, from, missing, problems } = levelSheet(knownOf(build, { cases: {} }), record)
  const lacks = [
    ...(tank.volume ? [] : ['volume of the tank']),
    ...(capacity === undefined ? missing.filter((datum) => !datum.startsWith('reserve')) : []),
  ]
  if (!tank.volume || capacity === undefined)
    return {
      name: record.name,
      verdict: 'unknown',
      says: ['Whether tank and level sender agree is not known.', ...problems.map(({ says }) => says)].join(' '),
      todo: lacks.length > 0 ? `Enter ${list(lacks)}.` : 'Mend what is said above.',
      missing: lacks.length > 0 ? lacks : ['figures of the level sender that agree with one another'],
    }
  const volume = tank.volume.value
  const doubt = tank.volume.plusMinus ?? 0
  const off = capacity - volume
  // A fill test stops where filling stops: less than the whole tank is as it should be, more is not.
  const wrong = from === 'fill test' ? off > doubt : Math.abs(off) > Math.max(SHAPE * volume, doubt)
  const reached = from === 'fill test' && !wrong ? `, ${percent(capacity / volume)} of it` : ''
  return {
    name: record.name,
    verdict: wrong ? 'marginal' : 'sound',
    says: `The fuel sheet gives the tank ${litres(volume)}; ${record.name} has ${litres(capacity)} by ${from === 'fill test' ? 'its fill test' : 'tank and sender'}${reached}.`,
    todo: wrong
      ? `One of both is wrong, and with it the expansion space or the gauge: ${from === 'fill test' ? 'look at the litres of the fill test, and at the tank’s plate' : 'measure the tank again, or fill it by the can'}.`
      : 'Nothing by this arithmetic; have the tank and its vent inspected.',
    missing: [],
  }
}
