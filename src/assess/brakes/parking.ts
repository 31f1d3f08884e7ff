/** The parking brake on both rear wheels: what it holds, what the tyres let it hold, and the force that a gradient takes. */
import { holdingGradient } from '../../engineering/brakes/holdingGradient.ts'
import { parkingBrake } from '../../engineering/brakes/parkingBrake.ts'
import { DRY_ROAD } from '../../engineering/brakes/yardsticks.ts'
import { combine, type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import { axleBrakes } from './axles.ts'
import type { BrakeFacts, LoadName } from './facts.ts'

export interface Parking {
  readonly load: LoadName
  /** Greatest force allowed on the grip. */
  readonly limit: Datum
  readonly pull: Datum
  readonly road: Datum
  readonly efficiency: Datum
  /** Gradients: asked; held by the brake at the greatest force; at which the rear tyres slide. */
  readonly asked: Datum
  readonly brake: Datum
  readonly uphill: Datum
  readonly downhill: Datum
  /** Force on the grip that the gradient asked takes. */
  readonly needed: Datum
}

/** Torque of one wheel over force × radius. Standing, shoes may be pushed to turn either way. */
const factorOf = (facts: BrakeFacts): Datum => {
  const { parking, rearKind, rearShoes } = facts.brakes
  if (parking?.factor) return entered(parking.factor, 'factor of the parking brake’s shoes')
  if (parking?.radius) return lacking('factor of the parking brake’s own shoes')
  if (rearKind === 'disc')
    return combine([facts.rearFriction], (friction = 0) => 2 * friction, 'Factor of a disc = 2 × friction')
  // Their factor forwards is not theirs backwards, and the car may stand either way.
  if (rearKind === 'drum' && rearShoes?.kind === 'two leading')
    return lacking('factor of the two leading shoes when they turn backwards (parking brake’s factor)')
  const { leading, trailing } = axleBrakes(facts, 'rear', known(1e6))
  return leading === undefined || trailing === undefined
    ? lacking('disc or drum at the rear')
    : combine(
        [leading, trailing],
        (a = 0, b = 0) => a + b,
        'Factor of drums = leading + other shoe; the same turned backwards',
      )
}

const askedIn = ({ brakes, yardstick }: BrakeFacts): Datum =>
  brakes.parking?.gradient
    ? entered(brakes.parking.gradient, 'gradient that the parking brake must hold')
    : yardstick
      ? known(
          yardstick.parking.gradient,
          0,
          `${(yardstick.parking.gradient * 100).toFixed(0)} %: gradient to be held laden by ${yardstick.name} [from memory]`,
        )
      : lacking('gradient that the parking brake must hold')

const limitIn = ({ brakes, yardstick }: BrakeFacts): Datum => {
  const { force, by } = brakes.parking ?? {}
  if (force) return entered(force, 'greatest force on the parking brake’s grip')
  if (by === undefined) return lacking('whether hand or foot works the parking brake')
  return yardstick
    ? known(
        yardstick.parking[by],
        0,
        `Greatest ${by} force by ${yardstick.name}: ${yardstick.parking[by]} N [from memory]`,
      )
    : lacking('greatest force on the parking brake’s grip')
}

export const parkingOf = (facts: BrakeFacts, load: LoadName): Parking => {
  const { parking, rearRadius } = facts.brakes
  const { rear, total, height } = facts.loads[load]
  const limit = limitIn(facts)
  const asked = askedIn(facts)
  const { pull, road, efficiency } = step(parkingBrake, {
    force: limit,
    ratio: entered(parking?.ratio, 'lever ratio of the parking brake'),
    cables: entered(parking?.cables, 'efficiency of the parking brake’s cables'),
    wheel: entered(parking?.wheel, 'force on each rear shoe or pad over its cable’s pull'),
    factor: factorOf(facts),
    radius: parking?.radius
      ? entered(parking.radius, 'radius of the parking brake’s drum')
      : entered(rearRadius, 'radius of the rear brakes'),
    tyre: facts.tyre,
    mass: total,
  })
  const road2 = {
    share: combine([rear, total], (part = 0, all = 1) => part / all, 'Share on the rear axle = its mass / whole mass'),
    height,
    wheelbase: facts.wheelbase,
    adhesion: known(DRY_ROAD, 0, `Adhesion of a good dry road: ${DRY_ROAD} [from memory]`),
  }
  // The tyres’ limit needs no parking brake: it is told even where the brake’s own figures are missing.
  const slide = step(holdingGradient, { ...road2, efficiency: 0 })
  return {
    load,
    limit,
    pull,
    road,
    efficiency,
    asked,
    brake: step(holdingGradient, { ...road2, efficiency }).brake,
    uphill: slide.uphill,
    downhill: slide.downhill,
    needed: combine(
      [limit, efficiency, asked],
      (most = 0, z = 1, gradient = 0) => (most * gradient) / Math.sqrt(1 + gradient * gradient) / z,
      'Force on the grip = greatest force × weight’s share down the slope, G / √(1 + G²), / efficiency',
    ),
  }
}

/** Facing the worse way. */
export const slidesAt = ({ uphill, downhill }: Parking): Datum =>
  isKnown(uphill) && isKnown(downhill)
    ? uphill.value < downhill.value
      ? uphill
      : downhill
    : isKnown(uphill)
      ? downhill
      : uphill
