/** What a person types off a meter's face. */
import { parseQuantity } from '../../units/parse.ts'
import { refuse } from '../../units/problem.ts'
import { KIND, UNIT } from '../faults/typed.ts'
import type { SheetQuantity } from './types.ts'

/** Ω kept for a meter that shows no continuity: beyond what any hand meter shows. */
export const OPEN_OHMS = 1e9
/** The words of meters for a way that is open. */
const OPEN = /^(ol|o\.l|0l|open|inf(inity)?|∞|no continuity)\.?$/i

/** `value` in V, Ω or A; `unit` where one was typed, to be shown again. */
export interface MeterReading {
  readonly value: number
  readonly unit?: string
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
  if (/^[-+−]?[\d.,]+$/.test(text)) return { value: parseQuantity(kind, `${text} ${plain}`).value }
  const { value, unit } = parseQuantity(kind, text)
  return { value, unit }
}
