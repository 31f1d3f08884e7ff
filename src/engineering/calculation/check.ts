/** Holds a calculation to a figure from outside. */
import type { Calculation, Check, Inputs, Outputs } from './declare.ts'
import { run } from './run.ts'

export interface Held {
  readonly holds: boolean
  readonly got: number
  readonly expected: number
  /** Largest difference allowed, in the output's SI unit. */
  readonly allowed: number
}

/** `moved`: how many tolerances to move the expected figure, for the test that a check can fail. Throws what `run` throws. */
export function hold<I extends Inputs, O extends Outputs>(calc: Calculation<I, O>, check: Check<I>, moved = 0): Held {
  const allowed = 'rel' in check.tolerance ? check.tolerance.rel * Math.abs(check.expected) : check.tolerance.abs
  const got = run(calc, check.inputs).outputs[check.output]!
  const expected = check.expected + moved * allowed
  return { holds: Math.abs(got - expected) <= allowed, got, expected, allowed }
}

/** Neither a law alone nor common practice is a figure from outside. */
export const isOutside = (check: { readonly evidence: string }): boolean =>
  check.evidence === 'published' || check.evidence === 'library'
