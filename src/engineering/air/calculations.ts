/** The air calculations in the order a person meets them. */
import type { Calculation } from '../calculation.ts'
import { airForPower } from './airForPower.ts'
import { airViscosity } from './airViscosity.ts'
import { chargeAfterCooler } from './chargeAfterCooler.ts'
import { chargeCoolerEffectiveness } from './chargeCoolerEffectiveness.ts'
import { compressionTemperature } from './compressionTemperature.ts'
import { engineAirFlow } from './engineAirFlow.ts'
import { humidAirDensity } from './humidAirDensity.ts'
import { isentropicTemperature } from './isentropicTemperature.ts'
import { powerFromAir } from './powerFromAir.ts'
import { standardAtmosphere } from './standardAtmosphere.ts'

export const airCalculations: readonly Calculation[] = [
  standardAtmosphere,
  humidAirDensity,
  airViscosity,
  airForPower,
  isentropicTemperature,
  compressionTemperature,
  chargeCoolerEffectiveness,
  chargeAfterCooler,
  engineAirFlow,
  powerFromAir,
]
