/** What the sheets, the readings and the full-load case say about the fuel system: known with ±, or lacking by name. */
import { FUELS } from '../../engineering/fuel/fuels.ts'
import type { Build, Sheet } from '../../model/build.ts'
import { airChain } from '../air/chain.ts'
import { combine, type Datum, entered, isKnown, known, lacking } from '../chain/chain.ts'
import { type Measured, measured } from '../chain/readings.ts'
import type { Solved } from '../solveCases.ts'
import { type Demand, demandOf } from './demand.ts'
import { hotDensity } from './hotDensity.ts'
import { pumpVolts } from './pumpVolts.ts'

/** Standard atmosphere (ISO 2533). */
export const ATMOSPHERE = 101325

/** What a reading may stand for on this sheet. One list, so that a screen can offer it. */
export const READINGS = {
  'fuel-pump-volts': 'voltage',
  'fuel-rail-pressure': 'pressureGauge',
  'fuel-filter-loss': 'pressureDifference',
  'injector-static-flow': 'massFlow',
  'tank-warming-rate': 'temperatureDifference',
} as const

export interface FuelFacts extends Demand {
  readonly build: Build
  readonly fuel: Sheet<'fuel'>
  readonly full: Solved | undefined
  /** Boost above the atmosphere at target power. */
  readonly boost: Datum
  /** At 15 °C. */
  readonly density: Datum
  /** As it flows, in the hottest tank. */
  readonly hotDensity: Datum
  readonly viscosity: Datum
  /** Rail above its reference, as measured where it was. */
  readonly rail: Datum
  /** Across the pump, before losses. */
  readonly railAcrossPump: Datum
  /** Across the injectors. */
  readonly railAcrossInjectors: Datum
  readonly dutyLimit: Datum
  readonly volts: Datum
  readonly solvedVolts: Datum
  readonly amps: Datum
  readonly hidden: readonly string[]
  readonly readings: { readonly [S in keyof typeof READINGS]: Measured | undefined }
}

/**
 * Above the air outside, at the engine: what a regulator on the manifold adds and what works against an injector. From the
 * air chain, which has lost some of it on the way; where that lacks something the ratio alone, which is never less.
 */
const boostOf = (build: Build, full: Solved | undefined): Datum => {
  const { engine, air } = build.sheets
  if (engine?.charging === 'none') return known(0, 0, 'No charger: no boost.')
  const { manifold, intake } = airChain(build, full)
  const boost = combine(
    [manifold.pressure, intake.outsidePressure],
    (inside = 0, outside = 0) => inside - outside,
    'Boost = manifold pressure − pressure outside',
  )
  const [inside, outside] = [manifold.pressure, intake.outsidePressure]
  if (isKnown(boost) && isKnown(inside) && isKnown(outside))
    return known(
      boost.value,
      boost.plusMinus,
      `Boost = manifold pressure of the air chain ${(inside.value / 1e3).toFixed(1)} kPa − outside ${(outside.value / 1e3).toFixed(1)} kPa = ${(boost.value / 1e3).toFixed(1)} kPa`,
      ...inside.working,
    )
  const lack = isKnown(boost) ? [] : boost.missing
  return combine(
    [entered(air?.pressureRatio, 'pressure ratio at target power')],
    (ratio = 1) => (ratio - 1) * ATMOSPHERE,
    `Boost = (pressure ratio − 1) × 101.325 kPa, at a standard atmosphere (ISO 2533) with nothing lost on the way: the most it can be${lack.length > 0 ? `, for want of ${lack.slice(0, 3).join(', ')}` : ''}`,
  )
}

export const factsOf = (build: Build, full: Solved | undefined): FuelFacts => {
  const fuel = build.sheets.fuel ?? {}
  const readings = Object.fromEntries(
    Object.entries(READINGS).map(([subject, kind]) => [subject, measured(build, subject, kind)]),
  ) as FuelFacts['readings']
  const boost = boostOf(build, full)
  const rail = readings['fuel-rail-pressure'] ?? entered(fuel.railPressure, 'rail pressure')
  const reference = fuel.railReference
  const noReference = lacking('what the rail pressure is referenced to')
  const solved = pumpVolts(build, full)
  return {
    build,
    fuel,
    full,
    ...demandOf(build),
    boost,
    density: entered(fuel.density, 'density of the fuel'),
    hotDensity: hotDensity(fuel),
    viscosity:
      fuel.fuel === undefined
        ? lacking('fuel')
        : known(
            FUELS[fuel.fuel].viscosity,
            0,
            `Viscosity of ${fuel.fuel} at 20 °C: US DOE AFDC fuel property tables; blends by logarithms over volume (common practice)`,
          ),
    rail,
    railAcrossPump:
      reference === undefined
        ? noReference
        : reference === 'manifold'
          ? combine([rail, boost], (a = 0, b = 0) => a + b, 'Across the pump: rail above manifold + boost')
          : rail,
    railAcrossInjectors:
      reference === undefined
        ? noReference
        : reference === 'manifold'
          ? rail
          : combine([rail, boost], (a = 0, b = 0) => a - b, 'Across the injectors: rail above atmosphere − boost'),
    dutyLimit:
      fuel.dutyLimit === undefined ? lacking('duty limit') : known(fuel.dutyLimit, 0, 'duty limit, as entered'),
    volts: readings['fuel-pump-volts'] ?? solved.volts,
    solvedVolts: solved.volts,
    amps: solved.amps,
    hidden: solved.hidden,
    readings,
  }
}
