/** What every rule is given: the build, its static circuit and the solved cases. Made once an assessment. */
import type { Build } from '../model/build.ts'
import { type Circuit, circuitOf } from './circuit.ts'
import { believed, type Impossible } from './door/believed.ts'
import { type Solved, solveBelieved } from './solveCases.ts'

export interface Context {
  /** Without the figures that cannot be. */
  readonly build: Build
  readonly impossible: readonly Impossible[]
  readonly circuit: Circuit
  readonly cases: readonly Solved[]
  /** Pump volts, power supported…: rules write, the assessment hands on. SI. */
  readonly figures: Record<string, number>
}

export const contextOf = (entered: Build): Context => {
  const { build, impossible } = believed(entered)
  return {
    build,
    impossible,
    circuit: circuitOf(build),
    cases: Object.values(build.collections.cases).map((kase) => solveBelieved(build, kase)),
    figures: {},
  }
}
