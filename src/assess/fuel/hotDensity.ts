/**
 * Density of the fuel as it flows: a pump moves litres and an engine burns kilograms, and hot petrol has fewer of them.
 * The density entered is that at 15 °C, as every data sheet of a fuel has it (EN 228).
 */
import { fuelExpansion } from '../../engineering/fluids/fuelExpansion.ts'
import type { Build } from '../../model/build.ts'
import { combine, type Datum, entered, isKnown, known, step } from '../chain/chain.ts'

/** ± where the temperature or the law is not known: 35 K, from 15 to 50 °C, at 1.2e-3/K of petrol (table 54B). */
const UNKNOWN_HEAT = 0.042

export const hotDensity = (fuel: NonNullable<Build['sheets']['fuel']>): Datum => {
  const cold = entered(fuel.density, 'density of the fuel')
  if (!isKnown(cold)) return cold
  const petrol = fuel.fuel === 'E0' || fuel.fuel === 'E5' || fuel.fuel === 'E10'
  if (petrol && fuel.hotTemperature) {
    const { correction } = step(fuelExpansion, {
      density: cold.value,
      volume: 1e-3,
      temperature: 288.15,
      otherTemperature: entered(fuel.hotTemperature, 'hottest fuel in the tank'),
    })
    if (isKnown(correction)) {
      const hot = combine(
        [cold, correction],
        (rho = 0, c = 1) => rho * c,
        'Density at the hottest = density at 15 °C × C',
      )
      return isKnown(hot) ? known(hot.value, hot.plusMinus, ...correction.working, ...hot.working) : hot
    }
  }
  return known(
    cold.value,
    Math.hypot(cold.plusMinus, cold.value * UNKNOWN_HEAT),
    `Density at 15 °C, as entered; ± ${(UNKNOWN_HEAT * 100).toFixed(1)} % for fuel of up to 50 °C, ${petrol ? 'for the hottest fuel is not entered, or out of range' : 'for the relation here is for petrol'}`,
  )
}
