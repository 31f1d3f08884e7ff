import { z } from 'zod'
import { KINDS, type Kind, type Of } from '../units/kinds.ts'

/** A stored quantity: SI value, optional ± (half-width of a 95 % interval, SI) and the unit the builder typed. */
export interface Measure<K extends Kind = Kind> {
  value: Of<K>
  plusMinus?: number | undefined
  unit?: string | undefined
}

/** Schema of a measure of one kind. `sign: 'positive'` refuses zero and below, `'non-negative'` refuses below zero. */
export const measure = <K extends Kind>(kind: K, sign: 'any' | 'positive' | 'non-negative' = 'any') => {
  const value =
    sign === 'positive' ? z.number().positive() : sign === 'non-negative' ? z.number().nonnegative() : z.number()
  return z
    .strictObject({
      value: value.describe(`${KINDS[kind].title}, ${KINDS[kind].si}`),
      plusMinus: z.number().nonnegative().optional(),
      unit: z.string().max(20).optional(),
    })
    .meta({ quantity: kind }) as unknown as z.ZodType<Measure<K>>
}
