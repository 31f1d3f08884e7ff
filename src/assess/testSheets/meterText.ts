/** What a person types off a meter's face. */
import { parseQuantity } from '../../units/parse.ts'
import { refuse } from '../../units/problem.ts'
import type { SheetQuantity } from './types.ts'

/** Ω kept for a meter that shows no continuity: beyond what any hand meter shows. */
export const OPEN_OHMS = 1e9
/** The words of meters for a way that is open. */
const OPEN = /^(ol|o\.l|0l|open|inf(inity)?|∞|no continuity)\.?$/i

const KIND = { volts: ['voltage', 'V'], ohms: ['resistance', 'Ω'], amps: ['current', 'A'] } as const

/** In V, Ω or A; a bare number is in that unit. Throws `Refusal` where nothing, or no such quantity, was typed. */
export const meterValue = (quantity: SheetQuantity, typed: string): number => {
  const text = typed.trim()
  const [kind, unit] = KIND[quantity]
  if (text === '')
    throw refuse(
      'no-reading',
      'No number was typed.',
      `Type what the meter shows, in ${unit}${quantity === 'ohms' ? '; OL where it shows no continuity' : ''}.`,
    )
  if (quantity === 'ohms' && OPEN.test(text)) return OPEN_OHMS
  return parseQuantity(kind, /^[-+−]?[\d.,]+$/.test(text) ? `${text} ${unit}` : text).value
}
