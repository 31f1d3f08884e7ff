/**
 * Judges a whole build. Pure; runs in a browser; reads stored readings, never logs.
 * Findings come worst first, then by rule and key, so that the same build gives the same list.
 */
import type { Build } from '../model/build.ts'
import { airFindings } from './air/airRules.ts'
import { brakeFindings } from './brakes/brakeRules.ts'
import { conductorFindings } from './conductorRules.ts'
import { type Context, contextOf } from './context.ts'
import { coolingFindings } from './cooling/coolingRules.ts'
import { missingFindings, unsolvedFindings } from './dataRules.ts'
import { builtWrongFindings } from './door/builtWrong.ts'
import { impossibleFindings } from './door/doorRules.ts'
import { noFeedFindings } from './door/noFeed.ts'
import { drivelineFindings } from './driveline/drivelineRules.ts'
import { backFeedFindings } from './earths/backFeedRules.ts'
import { raisedEarthFindings, sensorErrorFindings } from './earths/earthRules.ts'
import { keyOffFindings } from './earths/keyOffRules.ts'
import { machineReturnFindings } from './earths/machineReturn.ts'
import { openWireFindings } from './earths/openWireRules.ts'
import { type EarthRow, earthsOf } from './earths/raised.ts'
import { type SensorErrorRow, sensorErrorsOf } from './earths/sensorError.ts'
import { strapFindings } from './earths/strapRules.ts'
import { type EnergyRow, energyOf } from './energy/energy.ts'
import { balanceFindings, parkedFindings, reserveFindings } from './energy/energyRules.ts'
import { type Finding, VERDICTS } from './finding.ts'
import { FUEL_RULES } from './fuel/fuelRules.ts'
import { PROTECTION_RULES } from './fuseRules.ts'
import { insulationFindings } from './insulationRules.ts'
import { loomFindings } from './loom/loomRules.ts'
import { materialFindings } from './materialRules.ts'
import { integrityFindings, restrictedFindings, returnFindings } from './modelRules.ts'
import { registerFindings } from './register/registerRules.ts'
import { serviceFindings } from './services/servicesRules.ts'
import { sensorReturnFindings, signalPinFindings } from './signalRules.ts'
import { levelFindings } from './signals/levelRules.ts'
import { outputFindings } from './signals/outputRules.ts'
import { sensorFindings } from './signals/sensorRules.ts'
import { switchFindings } from './signals/switchRules.ts'
import { trackFindings } from './signals/tracks.ts'
import type { CaseSolution } from './solveCases.ts'
import { canFindings } from './unseen/canRules.ts'
import { coilFindings } from './unseen/coilRules.ts'
import { loadDumpFindings } from './unseen/loadDumpRules.ts'
import { distanceFindings, screenFindings } from './unseen/screenRules.ts'
import { voltageFindings } from './voltageRules.ts'

export type { Finding } from './finding.ts'
export type { CaseSolution } from './solveCases.ts'

export interface Assessment {
  readonly findings: readonly Finding[]
  readonly cases: Readonly<Record<string, CaseSolution>>
  /** SI: pumpVolts, pumpFlow, powerSupportedByPump, injectorDuty, chargeTemperature, powerSupportedByAir, boilMargin, coolantTemperature, pedalForce, batteryReserve, parkedTime; absent where not known. */
  readonly figures: Readonly<Record<string, number>>
  /** Earth points by case, farthest from the battery's negative post first. */
  readonly earths: readonly EarthRow[]
  /** Sensors moved by their earths, by case, largest first. */
  readonly sensorErrors: readonly SensorErrorRow[]
  /** Given and taken, by case. */
  readonly energy: readonly EnergyRow[]
}

const RULES: readonly ((context: Context) => readonly Finding[])[] = [
  impossibleFindings,
  builtWrongFindings,
  integrityFindings,
  restrictedFindings,
  returnFindings,
  machineReturnFindings,
  noFeedFindings,
  ...PROTECTION_RULES,
  conductorFindings,
  insulationFindings,
  voltageFindings,
  missingFindings,
  unsolvedFindings,
  signalPinFindings,
  sensorReturnFindings,
  raisedEarthFindings,
  sensorErrorFindings,
  switchFindings,
  sensorFindings,
  trackFindings,
  levelFindings,
  outputFindings,
  strapFindings,
  backFeedFindings,
  keyOffFindings,
  openWireFindings,
  balanceFindings,
  reserveFindings,
  parkedFindings,
  coilFindings,
  screenFindings,
  distanceFindings,
  canFindings,
  loadDumpFindings,
  materialFindings,
  loomFindings,
  ...FUEL_RULES,
  airFindings,
  coolingFindings,
  brakeFindings,
  drivelineFindings,
  serviceFindings,
  registerFindings,
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
      context.cases.map(
        ({ case: id, voltages, currents, temperatures, plusMinus, solved, missing, assumed, oscillating, notes }) => [
          id,
          {
            case: id,
            voltages,
            currents,
            temperatures,
            ...(plusMinus === undefined ? {} : { plusMinus }),
            solved,
            missing,
            assumed,
            oscillating,
            notes,
          },
        ],
      ),
    ),
    figures: context.figures,
    earths: earthsOf(context),
    sensorErrors: sensorErrorsOf(context),
    energy: energyOf(context),
  }
}
