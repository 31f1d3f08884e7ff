/** A plain SI figure for people: the fallback where no preferred unit is known, and the form used in refusals. */
import { KINDS, type Kind } from '../../units/kinds.ts'

/** Writes an SI value of a kind. The doors pass one that knows each person's preferred unit. */
export type Show = (kind: Kind, si: number, plusMinus?: number) => string

/** Up to `digits` significant digits, without the trailing zeros that a person would not write. */
export function plain(value: number, digits = 5): string {
  if (value === 0) return '0'
  const size = Math.abs(value)
  if (size >= 1e-3 && size < 1e7) return String(Number(value.toPrecision(digits)))
  const [mantissa, exponent] = value.toExponential(digits - 1).split('e')
  return `${Number(mantissa)}e${Number(exponent)}`
}

export const withUnit = (kind: Kind, text: string): string =>
  KINDS[kind].si === '1' ? text : `${text} ${KINDS[kind].si}`

export const showSi: Show = (kind, si, plusMinus) =>
  withUnit(kind, plusMinus === undefined || plusMinus === 0 ? plain(si) : `${plain(si)} ± ${plain(plusMinus, 2)}`)
