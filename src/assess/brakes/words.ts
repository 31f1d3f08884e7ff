/** How rules of brakes put figures and what is common to all of them. */
import { type Datum, isKnown, type Known } from '../chain/chain.ts'
import { waitsFor } from '../chain/judged.ts'
import type { Verdict } from '../finding.ts'
import { list, QUALIFIED_BRAKES } from '../make.ts'

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

export const linesOfWorking = (...data: readonly Datum[]): string[] =>
  data
    .flatMap((datum) => (isKnown(datum) ? datum.working : []))
    .filter((line, index, all) => all.indexOf(line) === index)

/** Verdict, sentence and datum of what cannot be told. */
export const unknownFor = (
  what: string,
  ...data: readonly Datum[]
): { verdict: Verdict; says: string; todo: string; missing: string } => {
  const { missing, says } = waitsFor(...data)
  return {
    verdict: 'unknown',
    says: `${what} is not known${says === '' ? `: ${list(missing)} ${missing.length === 1 ? 'is' : 'are'} missing` : ''}.${says === '' ? '' : ` ${says}`}`,
    todo: says === '' ? `Enter ${list(missing)}.` : 'Mend what is said above.',
    missing: list(missing),
  }
}
