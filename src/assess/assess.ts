/**
 * Judges a whole build. Pure; runs in a browser; reads stored readings, never logs.
 * Findings come worst first, then by rule and key, so that the same build gives the same list.
 */
import type { Build } from '../model/build.ts'
import { airFindings } from './airRules.ts'
import { conductorFindings } from './conductorRules.ts'
import { type Context, contextOf } from './context.ts'
import { missingFindings, unsolvedFindings } from './dataRules.ts'
import { type Finding, VERDICTS } from './finding.ts'
import { injectorFindings, pumpFindings } from './fuelRules.ts'
import { fuseFindings, unfusedFindings } from './fuseRules.ts'
import { materialFindings } from './materialRules.ts'
import { integrityFindings, restrictedFindings, returnFindings } from './modelRules.ts'
import { sensorReturnFindings, signalPinFindings } from './signalRules.ts'
import type { CaseSolution } from './solveCases.ts'
import { voltageFindings } from './voltageRules.ts'

export type { Finding } from './finding.ts'
export type { CaseSolution } from './solveCases.ts'

export interface Assessment {
  readonly findings: readonly Finding[]
  readonly cases: Readonly<Record<string, CaseSolution>>
  /** SI: pumpVolts, pumpFlow, powerSupportedByPump, injectorDuty, chargeTemperature; absent where not known. */
  readonly figures: Readonly<Record<string, number>>
}

const RULES: readonly ((context: Context) => readonly Finding[])[] = [
  integrityFindings,
  restrictedFindings,
  returnFindings,
  unfusedFindings,
  fuseFindings,
  conductorFindings,
  voltageFindings,
  missingFindings,
  unsolvedFindings,
  signalPinFindings,
  sensorReturnFindings,
  materialFindings,
  pumpFindings,
  injectorFindings,
  airFindings,
]

const byWorst = (a: Finding, b: Finding): number =>
  VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict) || compare(a.rule, b.rule) || compare(a.key, b.key)
// Code units, not the machine's language: the list must not change from one computer to the next.
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

export const assess = (build: Build): Assessment => {
  const context = contextOf(build)
  const findings = RULES.flatMap((rule) => rule(context)).sort(byWorst)
  return {
    findings,
    cases: Object.fromEntries(
      context.cases.map(({ case: id, voltages, currents, solved, missing, assumed, oscillating, notes }) => [
        id,
        { case: id, voltages, currents, solved, missing, assumed, oscillating, notes },
      ]),
    ),
    figures: context.figures,
  }
}
