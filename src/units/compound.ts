/**
 * Quantities in two units: 5 ft 6 in · 5'6" · 2 m 30 cm · 1 h 30 min · 2 lb 4 oz, and the spoken short forms
 * 2 m 30 (2.30 m), 5 ft 6 (inches) and 1 h 30 (minutes).
 */
import { findUnit } from './find.ts'
import type { Kind } from './kinds.ts'
import { readNumber } from './number.ts'
import { refuse } from './problem.ts'
import { spanToSi, type Unit } from './table.ts'

/** For the kinds that are spoken in two units: larger unit → the unit that a bare second number is in. */
const SMALLER: Readonly<Partial<Record<Kind, Readonly<Record<string, string>>>>> = {
  length: { m: 'cm', ft: 'in' },
  mass: { kg: 'g', lb: 'oz' },
  time: { h: 'min', min: 's', day: 'h' },
}

const FIRST = /^([+-]?)\s*(\d+)\s*([a-zA-Z']+)\s*(?=[\d.,])/

export interface CompoundRead {
  readonly value: number
  readonly unit: Unit
}

/** SI value of a compound, with the larger unit as the one that was typed; undefined when the text is none. */
export const readCompound = (kind: Kind, text: string): CompoundRead | undefined => {
  const smaller = SMALLER[kind]
  const first = FIRST.exec(text)
  if (smaller === undefined || first === null) return undefined
  const [whole, sign, count, symbol = ''] = first
  const larger = findUnit(kind, symbol)?.unit
  const second = readNumber(text.slice(whole.length))
  const implied = larger === undefined ? undefined : smaller[larger.symbol]
  if (larger === undefined || implied === undefined || second === undefined) return undefined
  const lesser = findUnit(kind, second.rest === '' ? implied : second.rest)?.unit
  if (lesser === undefined) return undefined

  const [big, small] = [spanToSi(larger, Number(count)), spanToSi(lesser, second.value)]
  if (lesser.times / lesser.per >= larger.times / larger.per || second.value < 0 || small >= spanToSi(larger, 1))
    throw refuse(
      'unreadable-quantity',
      `In "${text}" the second part is not less than one ${larger.symbol}.`,
      `Write one number, such as ${count}.5 ${larger.symbol}.`,
    )
  // "2 m 5" is 2.05 m to some and 2.5 m to others; with two digits everybody agrees. Inches and minutes are counted.
  if (second.rest === '' && larger.symbol === 'm' && !/^\d\d$/.test(second.written))
    throw refuse(
      'ambiguous-number',
      `"${text}" can be read in more than one way.`,
      `Write ${count}.05 m, ${count}.5 m or ${count} m 05 cm, as it was meant.`,
    )
  // Decimal pairs are put together as one literal: 2 m 30 is then exactly the double of 2.3.
  const total =
    larger.symbol === 'm' && lesser.symbol === 'cm' ? (Number(count) * 100 + second.value) / 100 : big + small
  return { value: sign === '-' ? -total : total, unit: larger }
}
