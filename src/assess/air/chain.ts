/** The air chain: stations from outside to the cylinders, the water loop of the charge cooler beside them. */
import { engineAirFlow } from '../../engineering/air/engineAirFlow.ts'
import { humidAirDensity } from '../../engineering/air/humidAirDensity.ts'
import { powerFromAir } from '../../engineering/air/powerFromAir.ts'
import type { Build } from '../../model/build.ts'
import { type Chain, combine, type Datum, entered, figure, lacking, type Station, step } from '../chain/chain.ts'
import { supersede } from '../chain/readings.ts'
import { deviceName } from '../make.ts'
import { type Solved, solveCase } from '../solveCases.ts'
import { type Charge, chargeOf } from './charge.ts'
import { type AirFacts, airFactsOf } from './facts.ts'
import { type Intake, intakeOf, pipesOf } from './intake.ts'

export interface AirStation extends Station {
  /** On the line of the air itself, or on the water loop beside it. */
  readonly line: 'air' | 'water'
}
export interface AirChain extends Chain {
  readonly id: 'air'
  readonly stations: readonly AirStation[]
  readonly facts: AirFacts
  readonly intake: Intake
  readonly charge: Charge
  /** Into the cylinders. */
  readonly manifold: {
    readonly pressure: Datum
    readonly temperature: Datum
    readonly loss: Datum
    readonly air: Datum
  }
  readonly power: Datum
}

export const airChain = (build: Build, full: Solved | undefined): AirChain => {
  const facts = airFactsOf(build, full)
  const { air, readings, charged } = facts
  const intake = intakeOf(facts)
  const charge = chargeOf(facts, intake)
  const cooler = air.chargeCooler
  const ratio = entered(air.pressureRatio, 'pressure ratio')
  const boosted = combine(
    [intake.pressure, ratio],
    (p = 0, r = 1) => p * r,
    'Pressure out = pressure into the compressor × pressure ratio',
  )
  const temperature = charged ? charge.out : intake.temperature
  const chargeDensity = step(humidAirDensity, { pressure: boosted, temperature, humidity: 0 }).density
  const after = pipesOf(facts, 'after the compressor', facts.needed, chargeDensity, temperature)
  const coolerLoss = entered(cooler?.chargeLoss, 'pressure that the charge cooler loses')
  const reckonedLoss = combine(
    cooler ? [coolerLoss, after.loss] : [after.loss],
    (...losses) => losses.reduce((sum, loss) => sum + loss, 0),
    cooler ? 'Cooler + pipes after the compressor' : 'Pipes after the compressor',
  )
  const chargeLoss = readings['charge-pressure-loss'] ?? reckonedLoss
  const pressure = charged
    ? combine([boosted, chargeLoss], (p = 0, lost = 0) => p - lost, 'Manifold pressure = compressor out − loss')
    : intake.pressure
  const engine = step(engineAirFlow, {
    sweptVolume: entered(build.sheets.engine?.sweptVolume, 'swept volume'),
    speed: entered(build.sheets.engine?.targetSpeed, 'engine speed at target power'),
    volumetricEfficiency: entered(air.volumetricEfficiency, 'volumetric efficiency'),
    pressure,
    temperature,
  })
  const dry = combine(
    [engine.air, intake.dryShare],
    (m = 0, x = 1) => m * x,
    'Dry air = air × share of dry air: vapour burns nothing',
  )
  const { power } = step(powerFromAir, {
    air: dry,
    specificConsumption: facts.consumption,
    lambda: facts.lambda,
    stoichiometric: facts.stoichiometric,
  })

  const stations: AirStation[] = [
    {
      id: 'outside',
      line: 'air',
      name: 'Outside air',
      about: 'hottest day of the full-load case, at the altitude it works at',
      sensor: 'The controller’s barometer; or its manifold sensor, key on and engine stopped.',
      figures: [
        figure('outside-temperature', 'temperature', 'T0', 'temperature', facts.outsideTemperature, 'entered'),
        supersede(
          'outside-pressure',
          'pressure',
          'p0',
          'pressureAbsolute',
          intake.standardPressure,
          readings['outside-pressure'],
        ),
        figure('outside-density', 'density, moist', 'ρ0', 'density', intake.outsideDensity),
      ],
    },
    {
      id: 'intake',
      line: 'air',
      name: 'Intake mouth',
      about:
        air.intakeZone === undefined
          ? 'where it draws is not entered; heat soak shows as a rise'
          : `draws from ${build.collections.zones[air.intakeZone]?.name ?? air.intakeZone}`,
      sensor: 'Air temperature sensor in the pipe before the compressor, in the stream and not on hot metal.',
      figures: [
        supersede(
          'intake-temperature',
          'temperature',
          'T1',
          'temperature',
          intake.reckonedTemperature,
          readings['intake-air-temperature'],
          air.intakeTemperature ? 'entered' : 'computed',
        ),
        figure('intake-rise', 'above outside', 'ΔT', 'temperatureDifference', intake.rise),
        figure('intake-lost', 'air lost to warming', 'x', 'ratio', intake.lost),
      ],
    },
    {
      id: 'filter',
      line: 'air',
      name: 'Filter and pipe',
      about: 'up to the compressor, at the flow of the target power',
      sensor: 'Pressure tapping between filter and compressor, flush with the wall of a straight piece.',
      figures: [
        figure('air-needed', 'air that target power needs', 'ṁ', 'massFlow', facts.needed),
        supersede(
          'intake-loss',
          'pressure lost',
          'Δp',
          'pressureDifference',
          intake.reckonedLoss,
          readings['intake-pressure-loss'],
        ),
        figure('filter-loss', 'of it in the filter', 'Δpf', 'pressureDifference', intake.filterLoss),
        figure('intake-velocity', 'fastest in the pipe', 'v', 'speed', intake.velocity),
      ],
    },
  ]
  if (charged)
    stations.push({
      id: 'compressor',
      line: 'air',
      name: 'Compressor',
      about: 'at the pressure ratio of the target power',
      sensor: 'Air temperature sensor within 0.2 m of its outlet; pressure beside it.',
      figures: [
        figure('compressor-pressure', 'pressure out', 'p2', 'pressureAbsolute', boosted),
        supersede(
          'compressor-temperature',
          'temperature out',
          'T2',
          'temperature',
          charge.reckonedHot,
          readings['charge-temperature-before-cooler'],
        ),
        charge.impliedEfficiency
          ? figure('compressor-efficiency', 'efficiency, by readings', 'η', 'ratio', charge.impliedEfficiency)
          : figure(
              'compressor-efficiency',
              'efficiency',
              'η',
              'ratio',
              entered(air.compressorEfficiency, 'compressor efficiency'),
              'entered',
            ),
      ],
    })
  if (charged && cooler) {
    stations.push({
      id: 'cooler',
      line: 'air',
      name: cooler.kind === 'air to water' ? 'Charge cooler, air to water' : 'Charge cooler, air to air',
      about: `cold reference: ${cooler.coldReference === 'ambient air' ? 'air into the front exchanger' : 'water into the cooler'}; effectiveness reckoned by ${charge.expectedBy}`,
      sensor:
        'Air temperature sensors just before and just after the core, of one make and lag; and one in the cold reference.',
      figures: [
        supersede(
          'effectiveness',
          'effectiveness',
          'ε',
          'ratio',
          charge.expected,
          readings['charge-cooler-effectiveness'],
          charge.expectedBy === 'the sheet' ? 'entered' : 'computed',
        ),
        supersede(
          'cold-reference',
          cooler.coldReference === 'ambient air' ? 'air into the front' : 'water into the cooler',
          'Tc',
          'temperature',
          charge.reckonedCold,
          cooler.coldReference === 'ambient air' ? undefined : readings['charge-cooler-water-in'],
        ),
        supersede(
          'charge-out',
          'charge out',
          'T3',
          'temperature',
          charge.reckonedOut,
          readings['charge-temperature-after-cooler'],
        ),
        figure('charge-heat', 'heat taken out', 'Q', 'power', charge.heat),
      ],
    })
    if (cooler.kind === 'air to water')
      stations.push(
        {
          id: 'loop',
          line: 'water',
          name: 'Water loop and pump',
          about:
            cooler.pump === undefined ? 'no pump entered' : `${deviceName(build, cooler.pump)}, at its solved volts`,
          sensor: 'Water temperature sensors into and out of the cooler; volts at the pump’s own terminals.',
          figures: [
            figure('pump-volts', 'volts at the pump, full load', 'U', 'voltage', facts.pump.volts),
            figure('pump-current', 'its current', 'I', 'current', facts.pump.amps),
            supersede('loop-flow', 'flow', 'q', 'volumeFlow', charge.pumpFlow, readings['charge-cooler-water-flow']),
            figure('water-rise', 'water warms in the cooler by', 'ΔT', 'temperatureDifference', charge.waterRise),
          ],
        },
        {
          id: 'front',
          line: 'water',
          name: 'Front exchanger',
          about: 'in the nose, before the radiator',
          sensor: 'Air temperature sensor before it, clear of the radiator’s warm air.',
          figures: [
            figure('front-heat', 'heat given off, steady', 'Q', 'power', charge.frontHeat),
            figure('front-air-out', 'air out of it, into the radiator', 'T', 'temperature', charge.frontAirOut),
          ],
        },
        {
          id: 'store',
          line: 'water',
          name: 'Heat in the water',
          about: 'a short pull from cold water; steady heat comes only after some time constants',
          sensor: 'The two water sensors, logged at 10 Hz or more; note their lag.',
          figures: [
            figure('time-constant', 'time constant', 'τ', 'time', charge.timeConstant),
            figure('water-after-pull', 'water after the pull', 'Tw', 'temperature', charge.waterAfterPull),
            figure('charge-after-pull', 'charge out after the pull', 'T3', 'temperature', charge.chargeAfterPull),
          ],
        },
      )
  }
  if (charged)
    stations.push({
      id: 'charge-pipe',
      line: 'air',
      name: 'Charge pipe',
      about: 'from the compressor to the throttle',
      sensor: 'Pressure at the compressor’s outlet against pressure in the manifold, throttle wide open.',
      figures: [
        supersede(
          'charge-loss',
          'pressure lost, cooler included',
          'Δp',
          'pressureDifference',
          reckonedLoss,
          readings['charge-pressure-loss'],
        ),
        figure('charge-velocity', 'fastest in the pipe', 'v', 'speed', after.velocity),
      ],
    })
  stations.push({
    id: 'engine',
    line: 'air',
    name: 'Manifold and engine',
    about: build.sheets.engine?.name ?? 'no engine entered',
    sensor: 'Manifold pressure sensor above the plenum, hose falling to it; air temperature sensor in the plenum.',
    capacity: power,
    figures: [
      figure('manifold-pressure', 'pressure', 'p', 'pressureAbsolute', pressure),
      figure('manifold-temperature', 'temperature', 'T', 'temperature', temperature),
      figure('manifold-density', 'density', 'ρ', 'density', engine.density),
      figure('air-taken', 'air that it takes', 'ṁ', 'massFlow', engine.air),
      figure('power', 'power that air supports', 'P', 'power', power),
    ],
  })
  return {
    id: 'air',
    title: 'Air',
    stations,
    facts,
    intake,
    charge,
    manifold: { pressure, temperature, loss: charged ? chargeLoss : lacking('a charger'), air: engine.air },
    power,
  }
}

/** The chain of a build by itself, for a screen that tries something: only the full-load case is solved. */
export const airChainOf = (build: Build): AirChain => {
  const kase = Object.values(build.collections.cases).find(({ engine }) => engine === 'full load')
  return airChain(build, kase === undefined ? undefined : solveCase(build, kase))
}
