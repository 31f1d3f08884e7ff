/** The declared calculations of this folder, in the order a person meets them. */
import type { Calculation } from '../calculation.ts'
import { airPressure } from './airPressure.ts'
import { boilingWaterAtAltitude } from './boilingWaterAtAltitude.ts'
import { cylinderVolume } from './level/cylinderVolume.ts'
import { dampingTime } from './level/dampingTime.ts'
import { gaugeReading } from './level/gaugeReading.ts'
import { barometricCheck } from './linear/barometricCheck.ts'
import { converterStep } from './linear/converterStep.ts'
import { ratiometricPressure } from './linear/ratiometricPressure.ts'
import { twoTrackDifference } from './linear/twoTrackDifference.ts'
import { clampEnergy } from './outputs/clampEnergy.ts'
import { coilCurrent } from './outputs/coilCurrent.ts'
import { coilDwell } from './outputs/coilDwell.ts'
import { injectorCurrent } from './outputs/injectorCurrent.ts'
import { pulsedCurrent } from './outputs/pulsedCurrent.ts'
import { platinumResistance } from './platinumResistance.ts'
import { pullUpBand } from './resistanceSwitch/pullUpBand.ts'
import { revCounterDrive } from './speed/revCounterDrive.ts'
import { revCounterPulses } from './speed/revCounterPulses.ts'
import { roadSpeed } from './speed/roadSpeed.ts'
import { speedometerGear } from './speed/speedometerGear.ts'
import { speedSensorCount } from './speed/speedSensorCount.ts'
import { tyreError } from './speed/tyreError.ts'
import { thermistorBeta } from './thermistor/thermistorBeta.ts'
import { thermistorSelfHeating } from './thermistor/thermistorSelfHeating.ts'
import { thermistorThreePoint } from './thermistor/thermistorThreePoint.ts'
import { waterBoilingPoint } from './waterBoilingPoint.ts'

export const signalCalculations: readonly Calculation[] = [
  thermistorThreePoint,
  thermistorBeta,
  thermistorSelfHeating,
  boilingWaterAtAltitude,
  waterBoilingPoint,
  airPressure,
  platinumResistance,
  pullUpBand,
  converterStep,
  ratiometricPressure,
  barometricCheck,
  twoTrackDifference,
  gaugeReading,
  cylinderVolume,
  dampingTime,
  roadSpeed,
  speedSensorCount,
  speedometerGear,
  tyreError,
  revCounterPulses,
  revCounterDrive,
  coilDwell,
  coilCurrent,
  injectorCurrent,
  clampEnergy,
  pulsedCurrent,
]
