/** The rules of protection, in the order of design: sources, pairs of fuse and wire, the fuse itself, bad inputs, a wrong supply. */
import { badFuseFindings } from './protection/badFuses.ts'
import { chargingFuseFindings } from './protection/chargingFuse.ts'
import { fuseFindings } from './protection/fuseAgainstConductor.ts'
import { fuseItselfFindings } from './protection/fuseItself.ts'
import { heldReturnFindings } from './protection/heldReturns.ts'
import { supplyFindings } from './protection/limitedSupplies.ts'
import { notProtectedFindings } from './protection/notProtected.ts'
import { unfusedFindings } from './protection/unfusedStretch.ts'
import { unknownStallFindings } from './protection/unknownStalls.ts'
import { batteryReversedFindings } from './wrongSupply/batteryReversed.ts'
import { overVoltageFindings } from './wrongSupply/jumpStart.ts'

export const PROTECTION_RULES = [
  unfusedFindings,
  supplyFindings,
  fuseFindings,
  heldReturnFindings,
  unknownStallFindings,
  fuseItselfFindings,
  chargingFuseFindings,
  badFuseFindings,
  notProtectedFindings,
  batteryReversedFindings,
  overVoltageFindings,
] as const
