/** What a person types off a meter's face. */
import { parseQuantity } from '../../units/parse.ts'
import { refuse } from '../../units/problem.ts'
import { KIND, UNIT } from '../faults/typed.ts'
import type { SheetQuantity } from './types.ts'

/** Ω kept for a meter that shows no continuity: beyond what any hand meter shows. */
export const OPEN_OHMS = 1e9
/** The words of meters for a way that is open. */
const OPEN = /^(ol|o\.l|0l|open|inf(inity)?|∞|no continuity)\.?$/i

/** `value` in V, Ω or A; `unit` where one was typed, to be shown again; `step`: last digit of volts that was typed (V). */
export interface MeterReading {
  readonly value: number
  readonly unit?: string
  readonly step?: number
}

/** A bare number is in V, Ω or A. Throws `Refusal` where nothing, or no such quantity, was typed. */
export const meterReading = (quantity: SheetQuantity, typed: string): MeterReading => {
  const text = typed.trim()
  const [kind, plain] = [KIND[quantity], UNIT[quantity]]
  if (text === '')
    throw refuse(
      'no-reading',
      'No number was typed.',
      `Type what the meter shows, in ${plain}${quantity === 'ohms' ? '; OL where it shows no continuity' : ''}.`,
    )
  if (quantity === 'ohms' && OPEN.test(text)) return { value: OPEN_OHMS }
  const isBare = /^[-+−]?[\d.,]+$/.test(text)
  const { value, unit } = parseQuantity(kind, isBare ? `${text} ${plain}` : text)
  const step = quantity === 'volts' ? stepOf(text, unit) : undefined
  return { value, ...(isBare ? {} : { unit }), ...(step === undefined ? {} : { step }) }
}

/** What the last digit is worth (V); undefined for a bare 0, which people write for 0.00, and for figures without one. */
const stepOf = (text: string, unit: string): number | undefined => {
  const digits = /^[-+−]?(\d*(?:[.,](\d*))?)(?![\d.,eE])/.exec(text)
  if (!digits?.[1] || digits[1] === '0') return undefined
  return parseQuantity('voltage', `${10 ** -(digits[2]?.length ?? 0)} ${unit}`).value
}
