/** Oil, breather, exhaust, heat beside it, heater and steering pump: stations with their figures. */
import type { Build } from '../../model/build.ts'
import type { Chain, Station } from '../chain/chain.ts'
import { type BackPressure, backPressureOf } from './backPressure.ts'
import { type Breather, breatherOf } from './breather.ts'
import { type Heater, heaterOf, type Steering, steeringOf } from './cabin.ts'
import { type ServiceFacts, serviceFactsOf } from './facts.ts'
import { type NearHot, nearHotOf } from './nearHeat.ts'
import { type OilPressure, oilPressureOf } from './oilPressure.ts'
import { oilStations } from './oilStations.ts'
import { cabinStations, exhaustStations, nearStations } from './otherStations.ts'
import { type Oil, oilOf, type TurboOil, turboOilOf } from './turboOil.ts'

export interface ServicesChain extends Chain {
  readonly id: 'services'
  readonly facts: ServiceFacts
  readonly oil: Oil
  readonly pressure: OilPressure
  readonly turbo: TurboOil
  readonly breather: Breather
  readonly back: BackPressure
  readonly near: readonly NearHot[]
  readonly heater: Heater
  readonly steering: Steering
}

export const servicesChain = (build: Build): ServicesChain => {
  const facts = serviceFactsOf(build)
  const oil = oilOf(facts)
  const pressure = oilPressureOf(facts)
  const turbo = turboOilOf(facts, oil, pressure)
  const breather = breatherOf(facts, oil.hotTemperature)
  const back = backPressureOf(facts)
  const near = nearHotOf(facts)
  const heater = heaterOf(facts)
  const steering = steeringOf(facts)
  const stations: readonly Station[] = [
    ...oilStations({ facts, oil, pressure, turbo, breather }),
    ...exhaustStations(facts, back),
    ...nearStations(facts, near),
    ...cabinStations(facts, heater, steering),
  ]
  return {
    id: 'services',
    title: 'Oil, exhaust and cabin services',
    stations,
    facts,
    oil,
    pressure,
    turbo,
    breather,
    back,
    near,
    heater,
    steering,
  }
}
