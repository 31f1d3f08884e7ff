/** The cooling calculations in the order a person meets them. */
import type { Calculation } from '../calculation.ts'
import { coolantBoiling } from './coolantBoiling.ts'
import { coolantExpansion } from './coolantExpansion.ts'
import { coolantHeat } from './coolantHeat.ts'
import { coolantProperties } from './coolantProperties.ts'
import { fanSpeed } from './fanSpeed.ts'
import { pressureHold } from './pressureHold.ts'
import { radiatorAirFlow } from './radiatorAirFlow.ts'
import { radiatorTemperature } from './radiatorTemperature.ts'
import { ramPressure } from './ramPressure.ts'

export const coolingCalculations: readonly Calculation[] = [
  coolantHeat,
  coolantProperties,
  ramPressure,
  fanSpeed,
  radiatorAirFlow,
  radiatorTemperature,
  coolantBoiling,
  coolantExpansion,
  pressureHold,
]
