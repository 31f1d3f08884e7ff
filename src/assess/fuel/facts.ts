/** What the sheets, the readings and the full-load case say about the fuel system: known with ±, or lacking by name. */
import { FUELS } from '../../engineering/fuel/fuels.ts'
import { otherFuel } from '../../engineering/fuel/otherFuel.ts'
import type { Build, Sheet } from '../../model/build.ts'
import { combine, type Datum, entered, known, lacking, step } from '../chain/chain.ts'
import { type Measured, measured } from '../chain/readings.ts'
import type { Solved } from '../solveCases.ts'
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

export interface FuelFacts {
  readonly build: Build
  readonly fuel: Sheet<'fuel'>
  readonly full: Solved | undefined
  readonly target: Datum
  /** Boost above the atmosphere at target power. */
  readonly boost: Datum
  /** Of the fuel in use. */
  readonly consumption: Datum
  readonly density: Datum
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

const consumptionOf = (fuel: Sheet<'fuel'>): Datum => {
  const own = entered(fuel.specificConsumption, 'specific fuel consumption')
  if (fuel.consumptionFuel === undefined || fuel.consumptionFuel === fuel.fuel) return own
  if (fuel.fuel === undefined) return lacking('fuel')
  const [before, after] = [FUELS[fuel.consumptionFuel], FUELS[fuel.fuel]]
  return step(otherFuel, {
    consumption: own,
    heat: before.heatingValue,
    density: before.density,
    otherHeat: after.heatingValue,
    otherDensity: after.density,
  }).otherConsumption
}

export const factsOf = (build: Build, full: Solved | undefined): FuelFacts => {
  const { engine, air } = build.sheets
  const fuel = build.sheets.fuel ?? {}
  const readings = Object.fromEntries(
    Object.entries(READINGS).map(([subject, kind]) => [subject, measured(build, subject, kind)]),
  ) as FuelFacts['readings']
  const boost =
    engine?.charging === 'none'
      ? known(0, 0, 'No charger: no boost.')
      : combine(
          [entered(air?.pressureRatio, 'pressure ratio at target power')],
          (ratio = 1) => (ratio - 1) * ATMOSPHERE,
          'Boost = (pressure ratio − 1) × 101.325 kPa, at a standard atmosphere (ISO 2533)',
        )
  const rail = readings['fuel-rail-pressure'] ?? entered(fuel.railPressure, 'rail pressure')
  const reference = fuel.railReference
  const noReference = lacking('what the rail pressure is referenced to')
  const solved = pumpVolts(build, full)
  return {
    build,
    fuel,
    full,
    target: entered(engine?.targetPower, 'target power'),
    boost,
    consumption: consumptionOf(fuel),
    density: entered(fuel.density, 'density of the fuel'),
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
