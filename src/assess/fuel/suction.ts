/** Margin of the pump's inlet against vapour: hot fuel, low tank, at sea level and high up. */
import { petrolVapourPressure } from '../../engineering/fluids/petrolVapourPressure.ts'
import { suctionMargin } from '../../engineering/fluids/suctionMargin.ts'
import { airPressure } from '../../engineering/signals/airPressure.ts'
import { combine, type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import { ATMOSPHERE, type FuelFacts } from './facts.ts'
import { flowAtLoss, type Loss, ventLoss } from './losses.ts'

/** Where the margin is also looked at, m: a high pass. */
export const HIGH = 2000

export const vapourPressureAt = (facts: FuelFacts, temperature: Datum): Datum => {
  const { fuel } = facts.fuel
  if (fuel === undefined) return lacking('fuel')
  if (fuel === 'E85' || fuel === 'methanol')
    return lacking(`vapour pressure of ${fuel} (the relation here is for petrol)`)
  return step(petrolVapourPressure, {
    reid: entered(facts.fuel.reidPressure, 'Reid vapour pressure of the fuel'),
    temperature,
  }).vapourPressure
}

export interface Suction {
  readonly loss: Datum
  readonly vapourPressure: Datum
  /** Above boiling and above what the pump needs. */
  readonly margin: Datum
  readonly marginHigh: Datum
  /** m³/s that the suction side lets through at sea level; undefined: no limit in reach. */
  readonly mostFlow: Datum | undefined
}
/** m³/s: 3600 l/h, beyond any pump of a car. */
const FAR = 1e-3

export const suctionOf = (facts: FuelFacts, line: Loss, flow: Datum, burnt: Datum): Suction => {
  const vapourPressure = vapourPressureAt(facts, entered(facts.fuel.hotTemperature, 'hottest fuel in the tank'))
  const loss = line.at(flow)
  const lift = entered(facts.fuel.pump?.lift, 'height of the pump’s inlet above the lowest fuel level')
  const need: Datum = facts.fuel.pump?.inletNeed
    ? entered(facts.fuel.pump.inletNeed, 'what the pump needs at its inlet')
    : known(0, 0, 'What the pump needs at its inlet above vapour is not entered: only boiling itself is counted.')
  const vent = ventLoss(facts)
  const vacuum =
    vent.gaps.length > 0 ? known(0, 0, 'Vacuum by the vent not counted: its data are not entered.') : vent.at(burnt)
  const above = (air: Datum, lost: Datum): Datum => {
    const surfacePressure = combine(
      [air, vacuum],
      (a = 0, b = 0) => a - b,
      'Air pressure less the vacuum that the vent leaves',
    )
    const boils = isKnown(surfacePressure) && isKnown(vapourPressure) && vapourPressure.value >= surfacePressure.value
    // The calculation refuses a liquid that boils where it lies; here that is an answer, and no figure is in doubt.
    const there = boils
      ? combine(
          [surfacePressure, vapourPressure],
          (p = 0, pv = 0) => p - pv,
          'The fuel boils in the tank itself: pressure on it less its vapour pressure, height and loss not counted',
        )
      : step(suctionMargin, {
          surfacePressure,
          height: combine([lift], (h = 0) => -h, 'Fuel above the inlet'),
          loss: lost,
          vapourPressure,
          density: facts.hotDensity,
        }).margin
    const left = combine([there, need], (a = 0, b = 0) => a - b, 'Margin less what the pump needs')
    return isKnown(left) && isKnown(there) && isKnown(need)
      ? known(left.value, left.plusMinus, ...there.working, ...need.working)
      : left
  }
  const sea = known(ATMOSPHERE, 0, 'Standard atmosphere (ISO 2533)')
  const still = above(sea, known(0))
  const limit =
    isKnown(still) && line.gaps.length === 0 ? flowAtLoss(line.pressure, Math.max(still.value, 0), FAR) : undefined
  return {
    loss,
    vapourPressure,
    margin: above(sea, loss),
    marginHigh: above(step(airPressure, { altitude: HIGH, seaLevelPressure: ATMOSPHERE }).pressure, loss),
    mostFlow: !isKnown(still)
      ? still
      : line.gaps.length > 0
        ? lacking(...line.gaps)
        : still.value <= 0
          ? known(0, 0, 'The fuel boils at the inlet before anything flows.')
          : limit === undefined
            ? undefined
            : known(limit, 0, 'Flow at which the suction loss has eaten the margin'),
  }
}
