/** Figures of a sheet as a meter shows them. */
import { asTyped, UNIT } from '../faults/typed.ts'
import { OPEN_OHMS } from './meterText.ts'
import type { Expectation, SheetQuantity, SheetTest } from './types.ts'

const shown = (value: number, quantity: SheetQuantity): string => {
  const size = Math.abs(value)
  const places = quantity === 'ohms' ? (size < 10 ? 2 : size < 100 ? 1 : 0) : size < 100 ? 2 : 1
  const text = value.toFixed(places)
  return Number(text) === 0 ? (0).toFixed(places) : text
}

/** `unit`: the one it was typed in, where that is known. */
export const figureOf = (value: number, quantity: SheetQuantity, unit?: string): string =>
  quantity === 'ohms' && value >= OPEN_OHMS
    ? 'no continuity'
    : (asTyped(value, quantity, unit) ?? `${shown(value, quantity)} ${UNIT[quantity]}`)

/** `13.13 ± 0.28 V`; a lopsided tolerance as its two limits. */
export const expectedText = ({ value, least, most }: Expectation, quantity: SheetQuantity): string => {
  if (value === null) return quantity === 'ohms' ? 'no continuity' : 'nothing steady'
  // Ohms that are all tolerance: what counts is the limit above.
  if (quantity === 'ohms' && least <= 0) return `under ${figureOf(most, quantity)}`
  const [below, above] = [value - least, most - value]
  return Math.abs(below - above) < 0.1 * Math.max(below, above)
    ? `${shown(value, quantity)} ± ${figureOf(Math.max(below, above), quantity)}`
    : `${shown(least, quantity)} to ${figureOf(most, quantity)}`
}

/** What was read, as it is judged: ohms less those of the leads, where they are known. */
export const readText = (
  {
    value,
    unit,
    leadResistance,
  }: {
    readonly value: number
    readonly unit?: string | undefined
    readonly leadResistance?: { readonly value: number } | undefined
  },
  quantity: SheetQuantity,
): string => {
  const leads = quantity === 'ohms' && value < OPEN_OHMS ? (leadResistance?.value ?? 0) : 0
  return leads === 0
    ? figureOf(value, quantity, unit)
    : `${figureOf(value - leads, quantity, unit)} (${figureOf(value, quantity, unit)} less ${figureOf(leads, quantity)} of leads)`
}

/** What should be read at a line, or what that hangs on. */
export const expectedOf = ({ expect, missing, quantity }: SheetTest): string =>
  expect ? expectedText(expect, quantity) : `not known: ${missing ?? 'what to expect there'} is not entered`
