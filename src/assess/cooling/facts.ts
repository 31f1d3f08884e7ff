/** What the sheets, the readings, the circuits and the air chain say about cooling: known with ±, or lacking by name. */
import { PART_SHARE, SHARE } from '../../engineering/cooling/coolantHeat.ts'
import { FUELS } from '../../engineering/fuel/fuels.ts'
import type { Build, Sheet } from '../../model/build.ts'
import { type AirChain, airChain } from '../air/chain.ts'
import { type Datum, entered, isKnown, known, lacking } from '../chain/chain.ts'
import { type DeviceVolts, deviceVolts } from '../chain/deviceVolts.ts'
import { type Measured, measured } from '../chain/readings.ts'
import type { Solved } from '../solveCases.ts'

/** What a reading may stand for on this sheet. */
export const COOLING_READINGS = {
  'radiator-air-flow': 'volumeFlow',
  'coolant-flow': 'volumeFlow',
  'coolant-temperature-climb': 'temperature',
  'cap-opening-pressure': 'pressureGauge',
} as const
export type CoolingReadings = { readonly [S in keyof typeof COOLING_READINGS]: Measured | undefined }

export interface CoolingFacts {
  readonly build: Build
  readonly cooling: Sheet<'cooling'>
  readonly air: AirChain
  readonly outsideTemperature: Datum
  readonly outsidePressure: Datum
  readonly outsideDensity: Datum
  readonly sustained: Datum
  readonly target: Datum
  readonly consumption: Datum
  readonly heatingValue: Datum
  /** Of the power held for long. */
  readonly share: Datum
  /** Of the target power. */
  readonly fullShare: Datum
  readonly glycol: Datum
  readonly cap: Datum
  readonly thermostat: Datum
  /** Of the first fan; all fans are taken to get the same. */
  readonly fan: DeviceVolts
  readonly readings: CoolingReadings
}

export const coolingFactsOf = (build: Build, full: Solved | undefined): CoolingFacts => {
  const cooling = build.sheets.cooling ?? {}
  const air = airChain(build, full)
  const readings = Object.fromEntries(
    Object.entries(COOLING_READINGS).map(([subject, kind]) => [subject, measured(build, subject, kind)]),
  ) as CoolingReadings
  const { fuel } = build.sheets
  const sustained = entered(cooling.sustainedPower, 'power held for long, as on a climb')
  const { target } = air.facts
  // Heywood's range is that of maximum power alone. Below it, and at full throttle and low speed, which a climb is, the
  // share is larger: no part of the target power is published from which the narrow range would hold.
  const partLoad = isKnown(sustained) && isKnown(target) && sustained.value < target.value
  const fullShare = cooling.heatShare
    ? entered(cooling.heatShare, 'share of the heat to the coolant')
    : known(
        SHARE.value,
        SHARE.plusMinus,
        'Share of the fuel’s heat to the coolant at maximum power: 17 to 26 %, Heywood table 12.1 [from memory]; none entered',
      )
  return {
    build,
    cooling,
    air,
    readings,
    outsideTemperature: air.facts.outsideTemperature,
    outsidePressure: air.intake.outsidePressure,
    outsideDensity: air.intake.outsideDensity,
    sustained,
    target,
    consumption: air.facts.consumption,
    heatingValue:
      fuel?.fuel === undefined
        ? lacking('fuel')
        : known(FUELS[fuel.fuel].heatingValue, 0, `Lower heating value of ${fuel.fuel}, nominal`),
    fullShare,
    share:
      cooling.heatShare || !partLoad
        ? fullShare
        : known(
            PART_SHARE.value,
            PART_SHARE.plusMinus,
            'Share of the fuel’s heat to the coolant below maximum power: sources differ, 17 to 35 %; none entered. Flow × rise of the coolant on that climb gives this engine’s own.',
          ),
    glycol: entered(cooling.glycolFraction, 'glycol in the coolant'),
    cap: readings['cap-opening-pressure'] ?? entered(cooling.capPressure, 'pressure of the cap'),
    thermostat: entered(cooling.thermostat, 'opening temperature of the thermostat'),
    fan: deviceVolts(build, full, cooling.fans?.[0], 'the radiator fan'),
  }
}
