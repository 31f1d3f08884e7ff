/** Every calculation there is, in the order a person meets them. A calculation that is not listed here does not exist. */
import { chargeCoolerEffectiveness } from './air/chargeCoolerEffectiveness.ts'
import { compressionTemperature } from './air/compressionTemperature.ts'
import { isentropicTemperature } from './air/isentropicTemperature.ts'
import type { Calculation } from './calculation.ts'
import { conductorCurrent } from './electrical/conductorCurrent.ts'
import { conductorResistance } from './electrical/conductorResistance.ts'
import { conductorTemperature } from './electrical/conductorTemperature.ts'
import { fuseHold } from './electrical/fuseHold.ts'
import { tableResistance } from './electrical/tableResistance.ts'
import { voltageDrop } from './electrical/voltageDrop.ts'
import { injectorDemand } from './fuel/injectorDemand.ts'
import { injectorDuty } from './fuel/injectorDuty.ts'
import { injectorPower } from './fuel/injectorPower.ts'
import { injectorPressure } from './fuel/injectorPressure.ts'
import { pumpDemand } from './fuel/pumpDemand.ts'
import { pumpFlow } from './fuel/pumpFlow.ts'

export const calculations: readonly Calculation[] = [
  conductorResistance,
  tableResistance,
  voltageDrop,
  conductorTemperature,
  conductorCurrent,
  fuseHold,
  injectorDemand,
  injectorDuty,
  injectorPower,
  injectorPressure,
  pumpDemand,
  pumpFlow,
  isentropicTemperature,
  compressionTemperature,
  chargeCoolerEffectiveness,
]

export const calculationOf = (id: string): Calculation | undefined => calculations.find((calc) => calc.id === id)
