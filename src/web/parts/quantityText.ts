/** A stored quantity as the builder wrote it, and what they type back to one. */
import type { Measure } from '../../model/measure.ts'
import { formatQuantity, type Kind, type Of, parseQuantity } from '../../units/index.ts'
import { rememberUnit } from './units.ts'

export const measureText = <K extends Kind>(kind: K, measure: Measure<K> | undefined): string =>
  measure === undefined ? '' : formatQuantity(kind, measure.value, { unit: measure.unit, plusMinus: measure.plusMinus })

/**
 * Undefined for an empty text: the datum is then not known. A number alone keeps the unit that stood there before.
 * Throws Refusal for text that is no quantity of the kind.
 */
export const readMeasure = <K extends Kind>(kind: K, text: string, before?: Measure<K>): Measure<K> | undefined => {
  if (text.trim() === '') return undefined
  const { value, plusMinus, unit } = parseQuantity(kind, text, before?.unit ? { unit: before.unit } : {})
  rememberUnit(kind, unit)
  return { value: value as Of<K>, ...(plusMinus === undefined ? {} : { plusMinus }), unit }
}
