/** What every rule is given: the build, its static circuit and the solved cases. Made once an assessment. */
import type { Build } from '../model/build.ts'
import { type Circuit, circuitOf } from './circuit.ts'
import { type Solved, solveCase } from './solveCases.ts'

export interface Context {
  readonly build: Build
  readonly circuit: Circuit
  readonly cases: readonly Solved[]
  /** Pump volts, power supported…: rules write, the assessment hands on. SI. */
  readonly figures: Record<string, number>
}

export const contextOf = (build: Build): Context => ({
  build,
  circuit: circuitOf(build),
  cases: Object.values(build.collections.cases).map((kase) => solveCase(build, kase)),
  figures: {},
})
