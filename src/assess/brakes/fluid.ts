/** The brake fluid: what it boils at by kind and age or by a tester, against a temperature that was measured, never reckoned. */
import { fluidBoiling } from '../../engineering/brakes/fluidBoiling.ts'
import { combine, type Datum, entered, known, lacking, step } from '../chain/chain.ts'
import type { BrakeFacts } from './facts.ts'

export interface FluidHeat {
  readonly entered: Datum
  /** The reading, else what is entered. */
  readonly temperature: Datum
  readonly boiling: Datum
  readonly margin: Datum
  /** The boiling point is what a tester found. */
  readonly tested: boolean
  /** Older than the wet point can be relied on, and not tested. */
  readonly old: boolean
}

export const fluidOf = (facts: BrakeFacts): FluidHeat => {
  const { kind, age, boiling: found, temperature: typed } = facts.brakes.fluid ?? {}
  const written = entered(typed, 'hottest brake fluid, measured at a caliper or wheel cylinder')
  const temperature = facts.readings['brake-fluid-temperature'] ?? written
  const boiling: Datum = found
    ? entered(found, 'boiling point of the fluid by a tester')
    : kind === 'other'
      ? lacking('boiling point of the fluid by a tester')
      : kind === undefined || age === undefined
        ? lacking(
            ...(kind === undefined ? ['kind of brake fluid'] : []),
            ...(age === undefined ? ['age of the brake fluid'] : []),
          )
        : step(fluidBoiling, {
            fluid: kind,
            water: age === 'just filled' ? 'dry' : 'wet',
            // The boiling point does not hang on it.
            temperature: known(373.15, 0, 'Any temperature: the boiling point does not hang on it.'),
          }).boiling
  return {
    entered: written,
    temperature,
    boiling,
    margin: combine(
      [boiling, temperature],
      (b = 0, t = 0) => b - t,
      'Margin = boiling point − hottest fluid, as measured',
    ),
    tested: found !== undefined,
    old: found === undefined && age === 'more than two years',
  }
}
