/** Every calculation there is, in the order a person meets them. A calculation that is not listed here does not exist. */
import { airCalculations } from './air/calculations.ts'
import { brakeCalculations } from './brakes/calculations.ts'
import type { Calculation } from './calculation.ts'
import { coolingCalculations } from './cooling/calculations.ts'
import { drivelineCalculations } from './driveline/calculations.ts'
import { bundleFactor } from './electrical/bundleFactor.ts'
import { chargeAcceptance } from './electrical/chargeAcceptance.ts'
import { conductorCurrent } from './electrical/conductorCurrent.ts'
import { conductorResistance } from './electrical/conductorResistance.ts'
import { conductorTemperature } from './electrical/conductorTemperature.ts'
import { batteryRuntime } from './electrical/energy/batteryRuntime.ts'
import { parkedTime } from './electrical/energy/parkedTime.ts'
import { fuseHold } from './electrical/fuseHold.ts'
import { bundleDiameter } from './electrical/loom/bundleDiameter.ts'
import { adiabaticHeating } from './electrical/protection/adiabatic.ts'
import { fuseDerating } from './electrical/protection/fuseDerating.ts'
import { fusingCurrent } from './electrical/protection/fusing.ts'
import { transientHeating } from './electrical/protection/transient.ts'
import { publishedRating } from './electrical/publishedRating.ts'
import { tableResistance } from './electrical/tableResistance.ts'
import { voltageDrop } from './electrical/voltageDrop.ts'
import { fixingCalculations } from './fixings/calculations.ts'
import { fluidCalculations } from './fluids/calculations.ts'
import { fuelCalculations } from './fuel/calculations.ts'
import { heatCalculations } from './heat/calculations.ts'
import { serviceCalculations } from './services/calculations.ts'
import { signalCalculations } from './signals/calculations.ts'

export const calculations: readonly Calculation[] = [
  conductorResistance,
  tableResistance,
  voltageDrop,
  conductorTemperature,
  conductorCurrent,
  bundleFactor,
  bundleDiameter,
  publishedRating,
  chargeAcceptance,
  batteryRuntime,
  parkedTime,
  fuseHold,
  fuseDerating,
  adiabaticHeating,
  transientHeating,
  fusingCurrent,
  ...fuelCalculations,
  ...fluidCalculations,
  ...airCalculations,
  ...heatCalculations,
  ...coolingCalculations,
  ...brakeCalculations,
  ...drivelineCalculations,
  ...serviceCalculations,
  ...fixingCalculations,
  ...signalCalculations,
]

export const calculationOf = (id: string): Calculation | undefined => calculations.find((calc) => calc.id === id)
