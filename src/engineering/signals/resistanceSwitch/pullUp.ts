/** The standard pull-up that keeps the states of a switch that exists furthest apart. Every candidate is tried. */
import { Refusal } from '../../../units/problem.ts'
import { within } from '../interval.ts'
import { readSwitch, type SwitchReading } from './bands.ts'
import type { InputCircuit } from './circuit.ts'
import type { Part } from './design.ts'
import type { Surroundings, Switch } from './levels.ts'

export interface PullUpChoice {
  readonly pullUp: Part
  readonly reading: SwitchReading
  /** Every candidate with its smallest gap, V, in the order given; `undefined` where leakage or earth offset overwhelms it. */
  readonly tried: readonly { readonly pullUp: Part; readonly gap: number | undefined }[]
}

/** Throws `Refusal`: what `readSwitch` refuses when every candidate is refused; `missing-input` without a candidate. */
export function bestPullUp(
  circuit: Omit<InputCircuit, 'pullUp'>,
  made: Switch,
  around: Surroundings,
  candidates: readonly Part[],
): PullUpChoice {
  let best: { pullUp: Part; reading: SwitchReading } | undefined
  let refused: Refusal | undefined
  const tried = candidates.map((pullUp) => {
    try {
      const reading = readSwitch({ ...circuit, pullUp: within(pullUp.nominal, pullUp.tolerance) }, made, around)
      if (!best || reading.smallest.gap > best.reading.smallest.gap) best = { pullUp, reading }
      return { pullUp, gap: reading.smallest.gap }
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      refused = error
      return { pullUp, gap: undefined }
    }
  })
  if (best) return { ...best, tried }
  throw (
    refused ??
    new Refusal([
      {
        code: 'missing-input',
        path: 'pullUps',
        says: 'There is no pull-up to choose from.',
        todo: 'Name a series and its span, or what is in the drawer.',
      },
    ])
  )
}
