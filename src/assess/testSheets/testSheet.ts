/** Test sheets and the judging of readings: the door. */
import type { Build } from '../../model/build.ts'
import { circuitSheet } from './circuitSheet.ts'
import { firstPowerSheet } from './firstPower.ts'
import type { TestSheet } from './types.ts'

export { judgeReading } from './judge.ts'
export { type Confirmation, type LineStanding, sheetStanding } from './standing.ts'
export { canUntake, confirmRepair, type HowTaken, mendReading, takeReading, tickLine, untake } from './take.ts'
export type * from './types.ts'

export const FIRST_POWER = 'first-power'

/** Of a circuit by id, or of first power. Throws `Refusal` where there is no such circuit or case. */
export const testSheet = (build: Build, circuit: string, caseId?: string): TestSheet =>
  circuit === FIRST_POWER ? firstPowerSheet(build, caseId) : circuitSheet(build, circuit, caseId)
