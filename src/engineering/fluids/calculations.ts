/** The fluid calculations in the order a person meets them. */
import type { Calculation } from '../calculation.ts'
import { fuelExpansion } from './fuelExpansion.ts'
import { lossByPoint } from './lossByPoint.ts'
import { petrolVapourPressure } from './petrolVapourPressure.ts'
import { pipeLoss } from './pipeLoss.ts'
import { pumpHeat } from './pumpHeat.ts'
import { sealedSpace } from './sealedSpace.ts'
import { suctionMargin } from './suctionMargin.ts'

export const fluidCalculations: readonly Calculation[] = [
  pipeLoss,
  lossByPoint,
  petrolVapourPressure,
  fuelExpansion,
  suctionMargin,
  pumpHeat,
  sealedSpace,
]
