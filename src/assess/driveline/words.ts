/** How rules of the driveline put figures, what is common to them, and how one thing is held to another. */
import { DEGREE, RPM } from '../../engineering/exactUnits.ts'
import type { Known } from '../chain/chain.ts'
import type { Verdict } from '../finding.ts'

export const HOLDS = 'The arithmetic holds; a qualified person must inspect it.'
const QUALIFIED =
  'At best the arithmetic holds; a qualified person must inspect driveline, mounts and their brackets before the car is driven.'
const SPECIALIST = 'A propeller shaft is made, shortened, welded and balanced by a specialist.'
export const UNDER =
  'Firm, level ground, wheels chocked, the car on stands and shaken before anyone goes under; a car without its propeller shaft rolls in gear, and a shaft that comes free falls.'
export const LIFTED =
  'A raised car can fall or roll: brakes of the low axle locked, chocks on both sides, stands or blocks under the raised axle, never a jack alone, nobody in or under it; fuel low or the tank full, caps tight, no flame.'

export const BASE = {
  system: 'driveline',
  subject: 'sheet/driveline',
  cautions: [QUALIFIED, SPECIALIST, UNDER],
} as const

const withSpread = ({ value, plusMinus }: Known, unit: string, scale = 1, digits = 0): string =>
  `${(value / scale).toFixed(digits)}${plusMinus / scale >= 0.5 * 10 ** -digits ? ` ± ${(plusMinus / scale).toFixed(digits)}` : ''}${unit}`
export const newtonMetres = (figure: Known): string => withSpread(figure, ' N·m')
export const newtons = (figure: Known): string => withSpread(figure, ' N')
export const kilograms = (figure: Known): string => withSpread(figure, ' kg')
export const metres = (figure: Known): string => withSpread(figure, ' m', 1, 2)
export const revs = (figure: Known): string => withSpread(figure, ' rpm', RPM)
export const degrees = (figure: Known): string => withSpread(figure, '°', DEGREE, 1)
export const kmh = (figure: Known): string => withSpread(figure, ' km/h', 1 / 3.6)

export const gearName = (at: number): string => `${at + 1}${['st', 'nd', 'rd'][at] ?? 'th'} gear`

/** Load against what is stood, with the ± of both. */
export const against = (load: Known, stood: Known): Verdict =>
  load.value - load.plusMinus > stood.value + stood.plusMinus
    ? 'no-go'
    : load.value + load.plusMinus > stood.value - stood.plusMinus
      ? 'marginal'
      : 'sound'
