/** The brake calculations in the order a person meets them: from the pedal to the tyre, then heat and vacuum. */
import type { Calculation } from '../calculation.ts'
import { brakeBalance } from './brakeBalance.ts'
import { brakeHeat } from './brakeHeat.ts'
import { discBrake } from './discBrake.ts'
import { drumBrake } from './drumBrake.ts'
import { pedalNeeded } from './pedalNeeded.ts'
import { pedalPressure } from './pedalPressure.ts'
import { servoHelp } from './servoHelp.ts'
import { shoeFactors } from './shoeFactors.ts'
import { stoppingDistance } from './stoppingDistance.ts'
import { vacuumStrokes } from './vacuumStrokes.ts'

export const brakeCalculations: readonly Calculation[] = [
  pedalPressure,
  servoHelp,
  discBrake,
  shoeFactors,
  drumBrake,
  brakeBalance,
  pedalNeeded,
  stoppingDistance,
  brakeHeat,
  vacuumStrokes,
]
