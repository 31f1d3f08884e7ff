/** Sizes of the drawing, px at its natural scale; text is 12 px and up there, so the drawing is never shown smaller. */
import type { Part } from './diagram.ts'

/** From one pin's column to the next: a pin's name on its left, its volts on its right. */
export const COLUMN = 96
/** Of the first column from the left edge of its symbol. */
export const INSET = 34
/** Lead above and below a symbol: room for the volts at the pin. */
export const LEAD = 22
/** Room beside a symbol for its name. */
const NAME = 136
/** Beside an earth that wires leave downwards, for its mark and name. */
const EARTH_NAME = 150
/** A wire's label: what it is, what it carries, what was found. */
export const LABEL = { width: 142, height: 48 }

export interface Size {
  readonly width: number
  readonly height: number
}
const BARS: Partial<Record<Part['form'], number>> = {
  rail: 54,
  battery: 54,
  alternator: 54,
  'battery-return': 54,
  earth: 58,
  splice: 26,
}
/** Pins on a block: lead, name of the pin, name of the device. */
export const BLOCK = { pin: 34, name: 52 }

export const blockBody = (part: Part): { readonly top: number; readonly bottom: number } => {
  const has = (side: 'top' | 'bottom'): boolean => part.ports.some((port) => port.side === side)
  const top = has('top') ? LEAD : 0
  return { top, bottom: top + BLOCK.name + (has('top') ? BLOCK.pin : 0) + (has('bottom') ? BLOCK.pin : 0) }
}

export const sizeOf = (part: Part): Size => {
  const bar = BARS[part.form]
  if (part.form === 'splice') return { width: part.columns > 1 ? (part.columns - 1) * COLUMN + 20 : 74, height: bar! }
  if (part.form === 'earth' && part.ports.some(({ side }) => side === 'bottom'))
    return { width: part.columns * COLUMN + 2 * EARTH_NAME, height: bar! }
  // As wide as its name, within reason.
  if (bar !== undefined) {
    const name = Math.min(320, part.name.length * 7.2 + (part.form === 'rail' ? 8 : 40))
    return { width: Math.max(210, name, part.columns * COLUMN), height: bar }
  }
  if (part.form === 'block') {
    const { bottom } = blockBody(part)
    const low = part.ports.some(({ side }) => side === 'bottom') ? LEAD : 0
    return { width: Math.max(150, part.columns * COLUMN), height: bottom + low }
  }
  if (part.form === 'connector') return { width: INSET + NAME, height: 52 }
  return { width: INSET + (part.columns - 1) * COLUMN + NAME, height: 2 * LEAD + 48 }
}

export const columnX = (column: number): number => INSET + column * COLUMN
