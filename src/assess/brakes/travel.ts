/** Way of the pedal: fluid taken by each axle against bore and stroke, with both circuits whole or one of them empty. */
import { brakeFluidVolume } from '../../engineering/brakes/brakeFluidVolume.ts'
import { pedalTravel } from '../../engineering/brakes/pedalTravel.ts'
import { combine, type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import { AXLES, type Axle } from './axles.ts'
import type { BrakeFacts } from './facts.ts'
import type { PedalRow } from './pedalSheet.ts'

interface Fluid {
  readonly touch: Datum
  readonly pressed: Datum
}
/** A chamber of the tandem cylinder while both circuits hold. */
export interface Chamber {
  readonly name: string
  /** Way of its piston against the other, beyond closed ports. */
  readonly way: Datum
  readonly stroke: Datum
}
export interface Travel {
  readonly row: PedalRow
  /** Of each axle, at its pressure in this stop; nothing in a circuit that is thought empty. */
  readonly fluid: Readonly<Record<Axle, Fluid>>
  /** Stroke that an empty chamber runs through. */
  readonly lost: Datum
  readonly first: Datum
  readonly travel: Datum
  readonly used: Datum
  readonly left: Datum
  readonly pedal: Datum
  /** Empty with one circuit, and where one is thought failed. */
  readonly chambers: readonly Chamber[]
}

const NOTHING = known(0, 0, 'This circuit is thought empty.')

const fluidOf = (facts: BrakeFacts, axle: Axle, pressure: Datum): Fluid => {
  const { brakes } = facts
  const { travel } = brakes
  const front = axle === 'front'
  const { touch, pressed } = step(brakeFluidVolume, {
    pistons: entered(front ? brakes.frontPistonArea : brakes.rearPistonArea, `piston area of one ${axle} brake`),
    clearance: entered(
      front ? travel?.frontClearance : travel?.rearClearance,
      `way of the ${axle} pistons to first touch`,
    ),
    brake: entered(front ? travel?.frontTake : travel?.rearTake, `fluid that one ${axle} brake takes at 10 MPa`),
    hoses: entered(front ? travel?.frontHoses : travel?.rearHoses, `swelling of the ${axle} hoses at 10 MPa`),
    pressure,
  })
  return { touch, pressed }
}

const scaled = (datum: Datum, share: number): Datum =>
  share === 1 ? datum : combine([datum], (all = 0) => share * all, 'One diagonal: half of the axle’s fluid')
const sum = (a: Datum, b: Datum): Datum =>
  combine([a, b], (x = 0, y = 0) => x + y, 'Fluid = front + rear, of the circuits that hold')

/** Strokes of both chambers: that of the push rod is what the floating piston’s leaves. */
const strokesOf = ({ brakes }: BrakeFacts) => {
  const { travel } = brakes
  const stroke = entered(travel?.stroke, 'stroke of the master cylinder')
  const floating = entered(travel?.floatingStroke, 'stroke of the floating piston’s chamber')
  const pushed =
    isKnown(stroke) && isKnown(floating) && floating.value >= stroke.value
      ? lacking('a stroke of the floating piston’s chamber that is less than the whole stroke')
      : combine(
          [stroke, floating],
          (all = 0, part = 0) => all - part,
          'Push rod’s chamber = whole stroke − floating piston’s',
        )
  return { stroke, floating, pushed }
}

export const travelOf = (facts: BrakeFacts, row: PedalRow): Travel => {
  const { brakes, bore, pedal: ratio } = facts
  const { circuits, travel } = brakes
  const { stroke, floating, pushed } = strokesOf(facts)
  const failed = row.state === 'first circuit failed' || row.state === 'second circuit failed'
  const empty: Axle | undefined =
    failed && circuits === 'front and rear' ? (row.state === 'first circuit failed' ? 'front' : 'rear') : undefined
  const share = failed && circuits === 'diagonal' ? 0.5 : 1
  const fluid = Object.fromEntries(
    AXLES.map((axle) => {
      const whole =
        axle === empty
          ? { touch: NOTHING, pressed: NOTHING }
          : fluidOf(facts, axle, axle === 'front' ? row.line : row.rearPressure)
      return [axle, { touch: scaled(whole.touch, share), pressed: scaled(whole.pressed, share) }]
    }),
  ) as Record<Axle, Fluid>
  const feeds = travel?.floatingFeeds
  const strokeFor = (axle: Axle): Datum =>
    feeds === undefined ? lacking('which axle the floating piston’s chamber feeds') : feeds === axle ? floating : pushed
  const lost = !failed
    ? known(0, 0, 'Both chambers hold: no stroke is lost.')
    : circuits === undefined
      ? lacking('how the circuits are split')
      : empty === undefined
        ? combine(
            [floating, pushed],
            (a = 0, b = 0) => Math.max(a, b),
            'Stroke lost: the longer chamber, the worse of both',
          )
        : strokeFor(empty)
  const found = step(pedalTravel, {
    ratio,
    bore,
    idle: entered(travel?.idle, 'play of the push rod and way until the ports are closed'),
    lost,
    touch: sum(fluid.front.touch, fluid.rear.touch),
    pressed: sum(fluid.front.pressed, fluid.rear.pressed),
    stroke,
  })
  const wayOf = (pressed: Datum): Datum =>
    combine(
      [pressed, bore],
      (volume = 0, d = 1) => volume / ((Math.PI * d * d) / 4),
      'Way in the chamber = fluid / piston area',
    )
  const half = (): Datum => scaled(sum(fluid.front.pressed, fluid.rear.pressed), 0.5)
  const chambers: readonly Chamber[] =
    failed || circuits === undefined || circuits === 'single'
      ? []
      : circuits === 'diagonal'
        ? [
            { name: 'the floating piston’s chamber', way: wayOf(half()), stroke: floating },
            { name: 'the push rod’s chamber', way: wayOf(half()), stroke: pushed },
          ]
        : AXLES.map((axle) => ({
            name: `the ${axle} circuit’s chamber`,
            way: wayOf(fluid[axle].pressed),
            stroke: strokeFor(axle),
          }))
  return {
    row,
    fluid,
    lost,
    first: found.first,
    travel: found.travel,
    used: found.used,
    left: found.left,
    pedal: entered(travel?.pedal, 'way of the pedal from rest to what stops it'),
    chambers,
  }
}
