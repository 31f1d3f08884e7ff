/** The brake calculations in the order a person meets them: from the pedal to the tyre, then heat, parking and vacuum. */
import type { Calculation } from '../calculation.ts'
import { brakeBalance } from './brakeBalance.ts'
import { brakeFluidVolume } from './brakeFluidVolume.ts'
import { brakeHeat } from './brakeHeat.ts'
import { discBrake } from './discBrake.ts'
import { drumBrake } from './drumBrake.ts'
import { fluidBoiling } from './fluidBoiling.ts'
import { holdingGradient } from './holdingGradient.ts'
import { parkingBrake } from './parkingBrake.ts'
import { pedalNeeded } from './pedalNeeded.ts'
import { pedalPressure } from './pedalPressure.ts'
import { pedalTravel } from './pedalTravel.ts'
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
  brakeFluidVolume,
  pedalTravel,
  stoppingDistance,
  brakeHeat,
  fluidBoiling,
  parkingBrake,
  holdingGradient,
  vacuumStrokes,
]
