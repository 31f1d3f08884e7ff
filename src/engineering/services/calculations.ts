/** Oil, breather, exhaust and cabin services in the order a person meets them. */
import type { Calculation } from '../calculation.ts'
import { blowBy } from './blowBy.ts'
import { exhaustGas } from './exhaustGas.ts'
import { oilDrain } from './oilDrain.ts'
import { oilFeed } from './oilFeed.ts'
import { oilViscosity } from './oilViscosity.ts'
import { pumpDrive } from './pumpDrive.ts'
import { radiantHeat } from './radiantHeat.ts'
import { streamHeat } from './streamHeat.ts'

export const serviceCalculations: readonly Calculation[] = [
  oilViscosity,
  oilFeed,
  oilDrain,
  streamHeat,
  blowBy,
  exhaustGas,
  radiantHeat,
  pumpDrive,
]
