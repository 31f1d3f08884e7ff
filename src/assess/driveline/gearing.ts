/** Road speed in each gear, and the revs of long journeys, with the engine and gears now and before. */
import { cruisingRevs } from '../../engineering/driveline/cruisingRevs.ts'
import { roadSpeed } from '../../engineering/signals/speed/roadSpeed.ts'
import { type Datum, isKnown, known, lacking, step } from '../chain/chain.ts'
import type { DrivelineFacts, Gears } from './facts.ts'

export interface GearRow {
  readonly ratio: number
  /** m/s at 1000 turns a minute. */
  readonly per1000: Datum
  /** m/s at the engine’s greatest speed. */
  readonly atLimit: Datum
}
export interface Gearing {
  readonly rows: readonly GearRow[]
  /** Engine speed in top gear at the cruising speed. */
  readonly cruise: Datum
  readonly limit: Datum
}
export interface BothGearings {
  readonly now: Gearing
  readonly before: Gearing | undefined
}

const gearingOf = (gears: Gears, limit: Datum, cruise: Datum): Gearing => {
  const { ratios, finalDrive, tyre } = gears
  const top = ratios.length === 0 ? lacking('ratios of the gears') : known(Math.min(...ratios))
  return {
    rows: ratios.map((ratio) => {
      const given = { gear: known(ratio), finalDrive, radius: tyre }
      const speeds = step(roadSpeed, { ...given, engineSpeed: isKnown(limit) ? limit : known(0) })
      return { ratio, per1000: speeds.per1000, atLimit: isKnown(limit) ? speeds.speed : limit }
    }),
    cruise: step(cruisingRevs, { speed: cruise, gear: top, finalDrive, radius: tyre }).engine,
    limit,
  }
}

export const gearingsOf = (facts: DrivelineFacts): BothGearings => ({
  now: gearingOf(facts.now, facts.engineLimit, facts.cruise),
  before: facts.before && gearingOf(facts.before, facts.beforeLimit, facts.cruise),
})
