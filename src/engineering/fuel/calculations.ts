/** The fuel calculations in the order a person meets them. */
import type { Calculation } from '../calculation.ts'
import { airForFuel } from './airForFuel.ts'
import { benchStaticFlow } from './benchStaticFlow.ts'
import { fuelBlend } from './fuelBlend.ts'
import { injectorDemand } from './injectorDemand.ts'
import { injectorDuty } from './injectorDuty.ts'
import { injectorPower } from './injectorPower.ts'
import { injectorPressure } from './injectorPressure.ts'
import { injectorPulse } from './injectorPulse.ts'
import { otherFuel } from './otherFuel.ts'
import { pumpDemand } from './pumpDemand.ts'
import { pumpFlow } from './pumpFlow.ts'
import { vapourGrowth } from './vapourGrowth.ts'

export const fuelCalculations: readonly Calculation[] = [
  injectorDemand,
  injectorDuty,
  injectorPower,
  injectorPressure,
  injectorPulse,
  benchStaticFlow,
  pumpDemand,
  pumpFlow,
  fuelBlend,
  otherFuel,
  airForFuel,
  vapourGrowth,
]
