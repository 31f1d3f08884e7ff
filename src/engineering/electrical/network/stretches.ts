import type { Compiled } from './compiled.ts'
import { PARAMETERS, stretchOf } from './laws.ts'

/** Voltage across element e. */
export const across = (c: Compiled, v: Float64Array, e: number): number => v[c.a[e]!]! - v[c.b[e]!]!

/** The stretch of its law that each element is on: a change can open a second stable solution. */
export const stretches = (c: Compiled, v: Float64Array): Uint8Array => {
  const result = new Uint8Array(c.size)
  for (let e = 0; e < c.size; e++) result[e] = stretchOf(c.law[e]!, c.parameters, e * PARAMETERS, across(c, v, e))
  return result
}
