/** What signals are judged by: a build with its solved cases. A rule's context has it, and so has a finished assessment. */
import type { Build } from '../../model/build.ts'
import type { Circuit } from '../circuit.ts'
import { circuitOf } from '../circuit.ts'
import type { Finding } from '../finding.ts'
import type { CaseSolution } from '../solveCases.ts'

export interface Known {
  readonly build: Build
  readonly circuit: Circuit
  readonly cases: readonly Pick<CaseSolution, 'case' | 'voltages' | 'currents' | 'solved'>[]
}

export interface Judged {
  readonly findings: readonly Finding[]
  readonly cases: Readonly<Record<string, CaseSolution>>
}

export const knownOf = (build: Build, { cases }: Pick<Judged, 'cases'>): Known => ({
  build,
  circuit: circuitOf(build),
  cases: Object.values(cases),
})
