/** What the sheets, the readings and the full-load case say about the air: known with ±, or lacking by name. */
import { airForPower } from '../../engineering/air/airForPower.ts'
import { AIR_HEAT } from '../../engineering/air/sources.ts'
import { FUELS } from '../../engineering/fuel/fuels.ts'
import type { Build, Sheet } from '../../model/build.ts'
import { combine, type Datum, entered, known, lacking, step } from '../chain/chain.ts'
import { type DeviceVolts, deviceVolts } from '../chain/deviceVolts.ts'
import { type Measured, measured } from '../chain/readings.ts'
import { demandOf } from '../fuel/demand.ts'
import type { Solved } from '../solveCases.ts'

/** What a reading may stand for on this sheet. */
export const AIR_READINGS = {
  'outside-pressure': 'pressureAbsolute',
  'intake-air-temperature': 'temperature',
  'intake-pressure-loss': 'pressureDifference',
  'charge-temperature-before-cooler': 'temperature',
  'charge-temperature-after-cooler': 'temperature',
  'charge-cooler-effectiveness': 'ratio',
  'charge-cooler-water-in': 'temperature',
  'charge-cooler-water-flow': 'volumeFlow',
  'charge-pressure-loss': 'pressureDifference',
} as const
export type AirReadings = { readonly [S in keyof typeof AIR_READINGS]: Measured | undefined }

/** Silicone hose and drawn aluminium: smooth. Common practice, no published source. */
export const PIPE_ROUGHNESS = 1.5e-6
export const ATMOSPHERE = 101325

export interface AirFacts {
  readonly build: Build
  readonly air: Sheet<'air'>
  readonly outsideTemperature: Datum
  readonly altitude: Datum
  readonly humidity: Datum
  readonly target: Datum
  readonly consumption: Datum
  readonly lambda: Datum
  readonly stoichiometric: Datum
  /** Air that the target power burns. */
  readonly needed: Datum
  /** Its heat capacity rate. */
  readonly chargeRate: Datum
  readonly charged: boolean
  readonly pump: DeviceVolts
  readonly readings: AirReadings
}

export const airFactsOf = (build: Build, full: Solved | undefined): AirFacts => {
  const { engine, vehicle, fuel } = build.sheets
  const air = build.sheets.air ?? {}
  const readings = Object.fromEntries(
    Object.entries(AIR_READINGS).map(([subject, kind]) => [subject, measured(build, subject, kind)]),
  ) as AirReadings
  const kase = Object.values(build.collections.cases).find(({ engine: state }) => state === 'full load')
  const { target, consumption } = demandOf(build)
  const lambda = entered(fuel?.lambda, 'lambda at full load')
  const stoichiometric =
    fuel?.fuel === undefined
      ? lacking('fuel')
      : known(FUELS[fuel.fuel].stoichiometric, 0, `Air to fuel of ${fuel.fuel} at lambda 1`)
  const needed = step(airForPower, { power: target, specificConsumption: consumption, lambda, stoichiometric }).air
  return {
    build,
    air,
    readings,
    target,
    consumption,
    lambda,
    stoichiometric,
    needed,
    outsideTemperature: kase
      ? entered(kase.ambient, 'ambient temperature of the full-load case')
      : lacking('an operating case at full load'),
    altitude: entered(vehicle?.altitude, 'altitude of the place it works at'),
    humidity: entered(air.humidity, 'humidity of the air outside'),
    chargeRate: combine(
      [needed],
      (flow = 0) => flow * AIR_HEAT.value,
      `Heat capacity rate of the charge: air needed × ${AIR_HEAT.value} J/(kg·K)`,
    ),
    charged: engine?.charging !== 'none' && engine?.charging !== undefined ? true : air.pressureRatio !== undefined,
    pump: deviceVolts(build, full, air.chargeCooler?.pump, 'the pump of the charge cooler'),
  }
}
