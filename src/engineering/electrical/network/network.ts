/**
 * Direct-current solution of a whole network: node voltages (V, reference 0) and element currents (A, from `a` to `b`).
 *   Σ currents leaving a node = 0, by Newton iteration on the elements' laws (`elements.ts`)
 * Constant-power loads: the upper solution, found by raising the power from nothing; collapse, floating islands and
 * relays that never come to rest are reported, never guessed.
 * Errors: `Refusal` with every problem of the network (duplicate id, zero or negative resistance, missing coil…).
 * Limits: steady direct current; conductances should not spread over more than about eleven powers of ten.
 * Source: nodal analysis as in any circuits textbook; published networks in the tests beside this file.
 */
import type { Network } from './elements.ts'
import { prepare } from './prepare.ts'
import type { NetworkSolution } from './report.ts'

export type * from './elements.ts'
export { type Overrides, type PreparedNetwork, prepare } from './prepare.ts'
export type { NetworkSolution } from './report.ts'

export const solveNetwork = (
  network: Network,
  options: { readonly start?: ReadonlyMap<string, number | null> } = {},
): NetworkSolution => prepare(network).solve(options)
