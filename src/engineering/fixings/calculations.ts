/** The calculations of fixings and fittings in the order a person meets them: bolts first, then holes, pipes and cables. */
import type { Calculation } from '../calculation.ts'
import { boltPreload } from './boltPreload.ts'
import { boltTorque } from './boltTorque.ts'
import { cableBend } from './cableBend.ts'
import { clearanceHole } from './clearanceHole.ts'
import { flareSize } from './flareSize.ts'
import { flareTorque } from './flareTorque.ts'
import { hoseBend } from './hoseBend.ts'
import { passageClearance } from './passageClearance.ts'
import { proofLoad } from './proofLoad.ts'
import { ringTerminal } from './ringTerminal.ts'
import { rivetNut } from './rivetNut.ts'
import { rivetNutTorque } from './rivetNutTorque.ts'
import { stressArea } from './stressArea.ts'
import { tubeBend } from './tubeBend.ts'

export const fixingCalculations: readonly Calculation[] = [
  stressArea,
  proofLoad,
  boltTorque,
  boltPreload,
  clearanceHole,
  rivetNut,
  rivetNutTorque,
  ringTerminal,
  flareSize,
  flareTorque,
  tubeBend,
  hoseBend,
  cableBend,
  passageClearance,
]
