/** What sheets and readings say about oil, exhaust and cabin services: known with ±, or lacking by name. */
import type { Build, Sheet } from '../../model/build.ts'
import { type AirFacts, airFactsOf } from '../air/facts.ts'
import { intakeOf } from '../air/intake.ts'
import { combine, type Datum, entered, known } from '../chain/chain.ts'
import { type Measured, measured } from '../chain/readings.ts'

/** What a reading may stand for on these sheets. */
export const SERVICE_READINGS = {
  'hot idle oil pressure': 'pressureGauge',
  'oil-temperature': 'temperature',
  'turbo-oil-flow': 'volumeFlow',
  'blow-by-flow': 'volumeFlow',
  'crankcase-pressure': 'pressureDifference',
  'exhaust-back-pressure': 'pressureGauge',
  'exhaust-surface': 'temperature',
  'heater-coolant-flow': 'volumeFlow',
} as const
export type ServiceReadings = { readonly [S in keyof typeof SERVICE_READINGS]: Measured | undefined }

export interface ServiceFacts {
  readonly build: Build
  readonly oil: Sheet<'oil'>
  readonly exhaust: Sheet<'exhaust'>
  readonly cabin: Sheet<'cabin'>
  readonly readings: ServiceReadings
  readonly turbo: boolean
  readonly air: AirFacts
  readonly outsidePressure: Datum
  /** At target power. */
  readonly airFlow: Datum
  readonly fuelFlow: Datum
  readonly targetSpeed: Datum
  readonly idleSpeed: Datum
}

export const serviceFactsOf = (build: Build): ServiceFacts => {
  const { oil = {}, exhaust = {}, cabin = {}, engine, fuel } = build.sheets
  const air = airFactsOf(build, undefined)
  const readings = Object.fromEntries(
    Object.entries(SERVICE_READINGS).map(([subject, kind]) => [subject, measured(build, subject, kind)]),
  ) as ServiceReadings
  return {
    build,
    oil,
    exhaust,
    cabin,
    readings,
    air,
    turbo: engine?.charging === 'turbocharger',
    outsidePressure: intakeOf(air).outsidePressure,
    airFlow: air.needed,
    fuelFlow: combine(
      [air.target, air.consumption],
      (p = 0, b = 0) => p * b,
      'Fuel at target power = power × specific consumption',
    ),
    targetSpeed: entered(engine?.targetSpeed, 'engine speed of the target power'),
    idleSpeed: entered(cabin.idleSpeed ?? fuel?.idleSpeed, 'idle speed'),
  }
}

/** What the sheet holds, or else a published range with its source. */
export const enteredOr = (
  measure: { readonly value: number; readonly plusMinus?: number | undefined } | undefined,
  name: string,
  usual: { readonly value: number; readonly plusMinus: number; readonly source: { readonly title: string } },
): Datum =>
  measure ? entered(measure, name) : known(usual.value, usual.plusMinus, `${name}: none entered; ${usual.source.title}`)
