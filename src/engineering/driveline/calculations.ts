/** The driveline’s calculations in the order a person meets them: from the crankshaft to the road, then the car’s weights. */
import type { Calculation } from '../calculation.ts'
import { clutchTorque } from './clutchTorque.ts'
import { cornerWeights } from './cornerWeights.ts'
import { cruisingRevs } from './cruisingRevs.ts'
import { drivelineTorque } from './drivelineTorque.ts'
import { engineTorque } from './engineTorque.ts'
import { jointAngle } from './jointAngle.ts'
import { jointFluctuation } from './jointFluctuation.ts'
import { jointLimit } from './jointLimit.ts'
import { jointPair } from './jointPair.ts'
import { mountReaction } from './mountReaction.ts'
import { shaftShear } from './shaftShear.ts'
import { shaftYield } from './shaftYield.ts'
import { swappedLoads } from './swappedLoads.ts'
import { tiltHeight } from './tiltHeight.ts'
import { tyreTorque } from './tyreTorque.ts'
import { whirlingSpeed } from './whirlingSpeed.ts'

export const drivelineCalculations: readonly Calculation[] = [
  engineTorque,
  clutchTorque,
  drivelineTorque,
  mountReaction,
  shaftShear,
  shaftYield,
  whirlingSpeed,
  jointAngle,
  jointFluctuation,
  jointPair,
  jointLimit,
  tyreTorque,
  cruisingRevs,
  cornerWeights,
  tiltHeight,
  swappedLoads,
]
