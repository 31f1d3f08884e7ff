/** How rules of brakes put figures and what is common to all of them. */
import type { Known } from '../chain/chain.ts'
import { QUALIFIED_BRAKES } from '../make.ts'

export const HOLDS = 'The arithmetic holds; a qualified person must inspect the brakes.'
export const FLUID_CAUTION =
  'Brake fluid burns skin and eyes and strips paint; use it from a sealed tin, never refill with what was bled.'
export const STANDS_CAUTION =
  'Firm, level ground, wheels chocked, the car on stands and shaken before anyone goes under; dust of old linings may be asbestos: wipe it wet, never blow.'
export const ANTI_LOCK_WORK =
  'work of a brake specialist with the maker’s procedure: the unit, its sensors and its pipes are not sized, altered or probed here'

export const BASE = {
  system: 'brakes',
  subject: 'sheet/brakes',
  cautions: [QUALIFIED_BRAKES, FLUID_CAUTION, STANDS_CAUTION],
} as const

const plusMinus = (text: string, spread: number, digits: (value: number) => string): string =>
  spread > 0 ? `${text} ± ${digits(spread)}` : text
export const newtons = ({ value, plusMinus: spread }: Known): string =>
  `${plusMinus(value.toFixed(0), spread, (each) => each.toFixed(0))} N`
export const bars = ({ value }: Known): string => `${(value / 1e5).toFixed(0)} bar`
export const kilopascals = ({ value }: Known): string => `${(value / 1e3).toFixed(0)} kPa`
export const rate = (value: number): string => value.toFixed(2)
export const millimetres = ({ value, plusMinus: spread }: Known): string =>
  `${plusMinus((value * 1e3).toFixed(1), spread, (each) => (each * 1e3).toFixed(1))} mm`
export const percent = ({ value, plusMinus: spread }: Known): string =>
  `${plusMinus((value * 100).toFixed(0), spread, (each) => (each * 100).toFixed(0))} %`
export const kelvins = (value: number): string => `${value.toFixed(0)} K`
