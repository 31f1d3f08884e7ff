/** Outside air, intake mouth, filter and pipes up to the compressor. */
import { airViscosity } from '../../engineering/air/airViscosity.ts'
import { humidAirDensity } from '../../engineering/air/humidAirDensity.ts'
import { standardAtmosphere } from '../../engineering/air/standardAtmosphere.ts'
import { lossByPoint } from '../../engineering/fluids/lossByPoint.ts'
import { pipeLoss } from '../../engineering/fluids/pipeLoss.ts'
import { combine, type Datum, entered, lacking, step } from '../chain/chain.ts'
import { own } from '../make.ts'
import { type AirFacts, PIPE_ROUGHNESS } from './facts.ts'

export interface Intake {
  /** By altitude alone. */
  readonly standardPressure: Datum
  readonly outsidePressure: Datum
  readonly outsideDensity: Datum
  readonly dryShare: Datum
  /** As entered or as the zone makes it, before any reading. */
  readonly reckonedTemperature: Datum
  readonly temperature: Datum
  readonly rise: Datum
  /** Share of the air that the warming costs. */
  readonly lost: Datum
  readonly filterLoss: Datum
  readonly pipesLoss: Datum
  readonly reckonedLoss: Datum
  readonly loss: Datum
  readonly velocity: Datum
  readonly pressure: Datum
}

type Side = 'before the compressor' | 'after the compressor'
/** Loss of the pipes of one side at this flow, and the highest velocity in them. */
export const pipesOf = (
  { air }: AirFacts,
  side: Side,
  massFlow: Datum,
  density: Datum,
  temperature: Datum,
): { readonly loss: Datum; readonly velocity: Datum } => {
  const pipes = (air.pipes ?? []).filter((pipe) => pipe.side === side)
  if (pipes.length === 0) {
    const none = lacking(`pipes ${side}: bore, length, bends`)
    return { loss: none, velocity: none }
  }
  const flow = combine([massFlow, density], (m = 0, rho = 1) => m / rho, 'Volume flow = mass flow / density there')
  const viscosity = step(airViscosity, { temperature, density }).kinematic
  const each = pipes.map((pipe) =>
    step(pipeLoss, {
      flow,
      bore: entered(pipe.bore, `bore of ${pipe.name}`),
      length: entered(pipe.length, `length of ${pipe.name}`),
      fittings: entered(pipe.fittings, `bends of ${pipe.name}`),
      roughness: PIPE_ROUGHNESS,
      density,
      viscosity,
    }),
  )
  return {
    loss: combine(
      each.map(({ loss }) => loss),
      (...losses) => losses.reduce((sum, loss) => sum + loss, 0),
      `Sum over ${pipes.map(({ name }) => name).join(', ')}`,
    ),
    velocity: combine(
      each.map(({ velocity }) => velocity),
      (...all) => Math.max(...all),
      'Fastest of these pipes',
    ),
  }
}

/** Density that the sheet of a filter is taken at: air at 20 °C and 1013 hPa. */
const SHEET_DENSITY = 1.204

export const intakeOf = (facts: AirFacts): Intake => {
  const { build, air, readings, outsideTemperature, needed } = facts
  // A barometer knows the weather; the standard atmosphere only the altitude.
  const { pressure: standardPressure } = step(standardAtmosphere, { altitude: facts.altitude })
  const outsidePressure = readings['outside-pressure'] ?? standardPressure
  const outside = step(humidAirDensity, {
    pressure: outsidePressure,
    temperature: outsideTemperature,
    humidity: facts.humidity,
  })
  const zone = air.intakeZone === undefined ? undefined : own(build.collections.zones, air.intakeZone)
  const reckonedTemperature = air.intakeTemperature
    ? entered(air.intakeTemperature, 'intake temperature')
    : zone
      ? entered(zone.ambient, `highest temperature of ${zone.name}`)
      : lacking('intake temperature')
  const temperature = readings['intake-air-temperature'] ?? reckonedTemperature
  const density = step(humidAirDensity, { pressure: outsidePressure, temperature, humidity: 0 }).density
  const filterLoss = step(lossByPoint, {
    knownFlow: entered(air.filter?.flow, 'flow and loss of the air filter'),
    knownLoss: entered(air.filter?.loss, 'flow and loss of the air filter'),
    knownDensity: SHEET_DENSITY,
    flow: combine([needed, density], (m = 0, rho = 1) => m / rho, 'Volume flow = mass flow / density there'),
    density,
  }).loss
  const { loss: pipesLoss, velocity } = pipesOf(facts, 'before the compressor', needed, density, temperature)
  const reckonedLoss = combine([filterLoss, pipesLoss], (a = 0, b = 0) => a + b, 'Filter + pipes before the compressor')
  const loss = readings['intake-pressure-loss'] ?? reckonedLoss
  return {
    standardPressure,
    outsidePressure,
    outsideDensity: outside.density,
    dryShare: outside.dryShare,
    reckonedTemperature,
    temperature,
    rise: combine([temperature, outsideTemperature], (a = 0, b = 0) => a - b, 'Intake air − outside air'),
    lost: combine(
      [outsideTemperature, temperature],
      (out = 1, into = 1) => 1 - out / into,
      'Air lost to warming: 1 − outside temperature / intake temperature, both absolute',
    ),
    filterLoss,
    pipesLoss,
    reckonedLoss,
    loss,
    velocity,
    pressure: combine([outsidePressure, loss], (p = 0, lost = 0) => p - lost, 'Outside pressure − loss'),
  }
}
