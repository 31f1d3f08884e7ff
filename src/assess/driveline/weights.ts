/** What the car weighs where: four scales, the height by tilting, and what the other engine does to the axles. */
import { cornerWeights } from '../../engineering/driveline/cornerWeights.ts'
import { swappedLoads } from '../../engineering/driveline/swappedLoads.ts'
import { tiltHeight } from '../../engineering/driveline/tiltHeight.ts'
import { entered, step } from '../chain/chain.ts'
import type { DrivelineFacts } from './facts.ts'

export const weightsOf = ({ sheet, wheelbase }: DrivelineFacts) => {
  const { corners, tilt, swap } = sheet
  const other = tilt?.raised === 'front' ? 'rear' : tilt?.raised === 'rear' ? 'front' : 'low'
  return {
    corners: step(cornerWeights, {
      frontLeft: entered(corners?.frontLeft, 'scale under the front left wheel'),
      frontRight: entered(corners?.frontRight, 'scale under the front right wheel'),
      rearLeft: entered(corners?.rearLeft, 'scale under the rear left wheel'),
      rearRight: entered(corners?.rearRight, 'scale under the rear right wheel'),
      wheelbase,
      frontTrack: entered(sheet.frontTrack, 'front track'),
      rearTrack: entered(sheet.rearTrack, 'rear track'),
    }),
    tilt: step(tiltHeight, {
      total: entered(tilt?.total, 'mass of the car as tilted'),
      level: entered(tilt?.level, `mass on the ${other} axle with the car level`),
      tilted: entered(tilt?.tilted, `mass on the ${other} axle with the car tilted`),
      wheelbase,
      rise: entered(tilt?.rise, 'height that the axle was raised by'),
      axleHeight: entered(tilt?.axleHeight, 'height of the middle of the wheels'),
    }),
    swap: step(swappedLoads, {
      front: entered(swap?.frontBefore, 'mass on the front axle with the old engine'),
      rear: entered(swap?.rearBefore, 'mass on the rear axle with the old engine'),
      wheelbase,
      out: entered(swap?.out, 'mass of the old engine with all that went with it'),
      outAt: entered(swap?.outAt, 'place of the old engine’s centre'),
      in: entered(swap?.in, 'mass of the new engine with all that came with it'),
      inAt: entered(swap?.inAt, 'place of the new engine’s centre'),
    }),
  }
}
export type Weights = ReturnType<typeof weightsOf>
