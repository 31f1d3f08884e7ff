/** The brakes of each axle: what a unit of line pressure is worth at the road, and the torque at a pressure. */
import { discBrake } from '../../engineering/brakes/discBrake.ts'
import { drumBrake } from '../../engineering/brakes/drumBrake.ts'
import { shoeFactors } from '../../engineering/brakes/shoeFactors.ts'
import { type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import type { BrakeFacts } from './facts.ts'

export const AXLES = ['front', 'rear'] as const
export type Axle = (typeof AXLES)[number]

export interface AxleBrakes {
  readonly kind: 'disc' | 'drum' | undefined
  /** Clamping or spreading force. */
  readonly force: Datum
  readonly torque: Datum
  readonly road: Datum
  /** Brake force of the axle over line pressure, m². */
  readonly gain: Datum
  readonly leading?: Datum
  readonly trailing?: Datum
}

/** At one end of its ±, without it. */
const shifted = (datum: Datum, shift: -1 | 0 | 1 | undefined): Datum =>
  shift === undefined || !isKnown(datum) ? datum : known(datum.value + shift * datum.plusMinus)

const shoesOf = (
  facts: BrakeFacts,
  axle: Axle,
  friction: Datum,
  shift: -1 | 0 | 1 | undefined,
): readonly [Datum, Datum] => {
  const shoes = axle === 'front' ? facts.brakes.frontShoes : facts.brakes.rearShoes
  const kind = shoes?.kind
  if (kind === undefined) {
    const gap = lacking(`kind of shoes in the ${axle} drums`)
    return [gap, gap]
  }
  const second = kind === 'two leading' ? 'leading' : 'trailing'
  if (shoes?.leading || kind === 'duo-servo') {
    const leading = entered(shoes?.leading, `factor of the leading shoe, ${axle}`)
    const other = shoes?.trailing ?? (kind === 'two leading' ? shoes?.leading : undefined)
    return [
      shifted(leading, shift),
      shifted(entered(other, `factor of the ${second === 'leading' ? 'second' : 'trailing'} shoe, ${axle}`), shift),
    ]
  }
  const radius = axle === 'front' ? facts.brakes.frontRadius : facts.brakes.rearRadius
  const factors = step(shoeFactors, {
    friction,
    drum: entered(radius, `radius of the ${axle} drums`),
    pivot: entered(shoes?.pivot, `pivot of the shoes from the middle of the drum, ${axle} (or the shoes’ factors)`),
    arm: entered(shoes?.arm, `arm of the wheel cylinder’s push, ${axle}`),
    start: entered(shoes?.start, `angle at which the lining begins, ${axle}`),
    end: entered(shoes?.end, `angle at which the lining ends, ${axle}`),
  })
  return [factors.leading, factors[second]]
}

/** `shift`: friction at the low end of its ± (−1), as entered (0) or at the high end (1), then without its ±. */
export const axleBrakes = (facts: BrakeFacts, axle: Axle, pressure: Datum, shift?: -1 | 0 | 1): AxleBrakes => {
  const { brakes, tyre } = facts
  const range = axle === 'front' ? facts.frontFriction : facts.rearFriction
  const friction = shifted(range, shift)
  const [kind, area, radius] =
    axle === 'front'
      ? [brakes.frontKind, brakes.frontPistonArea, brakes.frontRadius]
      : [brakes.rearKind, brakes.rearPistonArea, brakes.rearRadius]
  if (kind === undefined) {
    const gap = lacking(`disc or drum at the ${axle}`)
    return { kind, force: gap, torque: gap, road: gap, gain: gap }
  }
  const pistons = entered(area, `piston area of one ${axle} brake`)
  if (kind === 'disc') {
    const { clamp, torque, road, gain } = step(discBrake, {
      pressure,
      pistons,
      friction,
      radius: entered(radius, `effective radius of the ${axle} discs`),
      tyre,
    })
    return { kind, force: clamp, torque, road, gain }
  }
  const [leading, trailing] = shoesOf(facts, axle, friction, shift)
  const { spread, torque, road, gain } = step(drumBrake, {
    pressure,
    piston: pistons,
    first: leading,
    second: trailing,
    drum: entered(radius, `radius of the ${axle} drums`),
    tyre,
  })
  return { kind, force: spread, torque, road, gain, leading, trailing }
}
