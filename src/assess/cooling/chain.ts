/** The cooling chain: stations from the heat of the fuel to the air behind the radiator, the cap and the header. */
import { AIR_HEAT } from '../../engineering/air/sources.ts'
import { coolantBoiling } from '../../engineering/cooling/coolantBoiling.ts'
import { coolantExpansion } from '../../engineering/cooling/coolantExpansion.ts'
import { coolantHeat } from '../../engineering/cooling/coolantHeat.ts'
import { coolantProperties } from '../../engineering/cooling/coolantProperties.ts'
import { radiatorTemperature } from '../../engineering/cooling/radiatorTemperature.ts'
import { sealedSpace } from '../../engineering/fluids/sealedSpace.ts'
import { timeToTemperature } from '../../engineering/heat/timeToTemperature.ts'
import type { Build } from '../../model/build.ts'
import {
  type Chain,
  combine,
  type Datum,
  entered,
  figure,
  isKnown,
  known,
  lacking,
  type Station,
  step,
} from '../chain/chain.ts'
import { supersede } from '../chain/readings.ts'
import { deviceName, list } from '../make.ts'
import { type Solved, solveCase } from '../solveCases.ts'
import { type AirSide, airSideOf } from './airSide.ts'
import { type CoolingFacts, coolingFactsOf } from './facts.ts'
import { type Hold, holdOf } from './hold.ts'

export interface CoolingStation extends Station {
  /** On the loop of the coolant, in the stream of air that crosses it, or in the closed system as a whole. */
  readonly line: 'coolant' | 'air' | 'system'
}
export interface CoolingChain extends Chain {
  readonly id: 'cooling'
  readonly stations: readonly CoolingStation[]
  readonly facts: CoolingFacts
  readonly airSide: AirSide
  readonly coolant: Datum
  readonly reckonedCoolant: Datum
  readonly boiling: Datum
  readonly margin: Datum
  readonly growth: Datum
  readonly headerPressure: Datum
  /** Until it boils at target power; lacking with a refusal where it never does. */
  readonly timeToBoil: Datum
  /** Engine power that it can hold for good with the margin that is wanted. */
  readonly capacity: Datum
  readonly hold: Hold | undefined
}

/** K to boiling that local boiling in the head asks for. Common practice, no published source. */
export const MARGIN = 10
/** Raoult’s law against printed tables, K. */
const BOILING_DOUBT = 2
/** At which the coolant’s properties are taken. */
const HOT = 368.15

export const coolingChain = (build: Build, full: Solved | undefined): CoolingChain => {
  const facts = coolingFactsOf(build, full)
  const { cooling, readings, outsideTemperature, glycol } = facts
  const heatAt = (power: Datum, share: Datum): Datum =>
    step(coolantHeat, {
      power,
      specificConsumption: facts.consumption,
      heatingValue: facts.heatingValue,
      share,
    }).heat
  const heat = heatAt(facts.sustained, facts.share)
  const pumpFlow = combine(
    [
      entered(cooling.pumpFlow, 'flow of the coolant pump'),
      entered(cooling.pumpFlowSpeed, 'engine speed at which that flow is known'),
      entered(cooling.sustainedEngineSpeed, 'engine speed of that climb'),
    ],
    (flow = 0, at = 1, speed = 0) => (flow * speed) / at,
    'Coolant flow = known flow × engine speed / its engine speed (affinity laws)',
  )
  const flow = readings['coolant-flow'] ?? pumpFlow
  const liquid = step(coolantProperties, { glycol, temperature: HOT })
  const coolantRate = combine(
    [flow, liquid.density, liquid.specificHeat],
    (q = 0, rho = 0, c = 0) => q * rho * c,
    'Heat capacity rate of the coolant: flow × density × specific heat',
  )
  const airSide = airSideOf(facts)
  const airRate = combine(
    [airSide.flow, facts.outsideDensity],
    (q = 0, rho = 0) => q * rho * AIR_HEAT.value,
    `Heat capacity rate of the air: flow × density × ${AIR_HEAT.value} J/(kg·K)`,
  )
  // What the front exchanger of the charge cooler gives off warms the radiator's air, less on a climb than at target power.
  const { charge } = facts.air
  const frontHeat = build.sheets.air?.chargeCooler ? charge.heat : known(0, 0, 'No charge cooler.')
  const airIn = combine(
    [outsideTemperature, frontHeat, facts.sustained, facts.target, airRate],
    (t = 0, q = 0, p = 0, target = 1, rate = 1) => t + (q * Math.min(p / target, 1)) / rate,
    'Air into the core = outside + heat of the charge cooler, in proportion to power / rate of the air',
  )
  const radiator = step(radiatorTemperature, {
    heat,
    conductance: entered(cooling.radiatorConductance, 'conductance of the radiator'),
    coolantRate,
    airRate,
    airIn,
  })
  // Below the thermostat's opening the radiator is not given all of the flow: the thermostat holds the coolant there.
  const reckonedCoolant = combine(
    [radiator.coolantIn, facts.thermostat],
    (needed = 0, opens = 0) => Math.max(needed, opens),
    'Coolant = the greater of what the radiator needs and what the thermostat holds',
  )
  const climb = readings['coolant-temperature-climb']
  const coolant = climb ?? reckonedCoolant
  const open = entered(cooling.thermostatOpen, 'temperature at which the thermostat is fully open')
  const boilingAt = step(coolantBoiling, { outside: facts.outsidePressure, cap: facts.cap, glycol })
  const boiling = isKnown(boilingAt.boilingPoint)
    ? {
        ...known(
          boilingAt.boilingPoint.value,
          Math.hypot(boilingAt.boilingPoint.plusMinus, BOILING_DOUBT),
          ...boilingAt.boilingPoint.working,
          `± ${BOILING_DOUBT} K added: Raoult’s law against printed tables`,
        ),
      }
    : boilingAt.boilingPoint
  const margin = combine([boiling, coolant], (b = 0, t = 0) => b - t, 'Margin = boiling point − coolant temperature')
  const growth = step(coolantExpansion, {
    volume: entered(cooling.coolantVolume, 'volume of coolant'),
    glycol,
    cold: entered(cooling.fillTemperature, 'temperature at which it is filled'),
    hot: coolant,
  }).growth
  const headerCold = entered(cooling.headerSpace, 'gas space of the header, cold')
  const left = combine([headerCold, growth], (v = 0, more = 0) => v - more, 'Gas left = gas space, cold − growth')
  const headerPressure: Datum =
    isKnown(left) && left.value <= 0
      ? {
          missing: [],
          problems: [
            {
              code: 'header-full',
              says: 'The coolant grows by more than the header has room for: no gas is left to press.',
              todo: 'Fill less, cold, or fit a larger header.',
            },
          ],
        }
      : step(sealedSpace, {
          pressure: facts.outsidePressure,
          space: headerCold,
          temperature: entered(cooling.fillTemperature, 'temperature at which it is filled'),
          // Steam is not counted: the cap’s own limit is judged on the gas alone.
          vapour: 0,
          spaceAfter: left,
          temperatureAfter: coolant,
          vapourAfter: 0,
        }).rise
  const mass = combine(
    [entered(cooling.coolantVolume, 'volume of coolant'), liquid.density],
    (v = 0, rho = 0) => v * rho,
    'Mass of the coolant = volume × density',
  )
  const between = combine(
    [radiator.effectiveness, coolantRate, airRate],
    (effect = 0, a = 0, b = 0) => effect * Math.min(a, b),
    'Conductance between the ends: ε × lesser rate',
  )
  const timeToBoil = step(timeToTemperature, {
    mass,
    specificHeat: liquid.specificHeat,
    warmConductance: 0,
    warmSide: outsideTemperature,
    coldConductance: between,
    coldSide: airIn,
    heat: heatAt(facts.target, facts.fullShare),
    start: facts.thermostat,
    reached: boiling,
  }).time
  // What the thermostat holds says nothing of what the radiator can do: then its own need counts. All of the rise above
  // outside goes with power, the front exchanger’s included.
  const atWork = climb && isKnown(facts.thermostat) && climb.value > facts.thermostat.value ? climb : radiator.coolantIn
  const capacity = combine(
    [facts.sustained, boiling, atWork, outsideTemperature],
    (p = 0, b = 0, t = 1, out = 0) => (p * (b - MARGIN - out)) / (t - out),
    `Power it holds for good = climb power × (boiling point − ${MARGIN} K − outside) / (coolant that the radiator needs − outside)`,
  )
  const hold = holdOf(facts)

  const stations: CoolingStation[] = [
    {
      id: 'engine',
      line: 'coolant',
      name: 'Engine',
      about: 'at the power it holds for long',
      sensor: 'Coolant temperature sensor in the head’s outlet, before the thermostat, tip in the stream.',
      figures: [
        figure('sustained', 'power held for long', 'P', 'power', facts.sustained, 'entered'),
        figure(
          'share',
          'share of the fuel to the coolant',
          's',
          'ratio',
          facts.share,
          cooling.heatShare ? 'entered' : 'computed',
        ),
        figure('heat', 'heat into the coolant', 'Q', 'power', heat),
      ],
    },
    {
      id: 'thermostat',
      line: 'coolant',
      name: 'Thermostat',
      about: 'holds the coolant until the radiator needs it all',
      sensor: 'Second coolant sensor after the thermostat shows when it opens.',
      figures: [
        figure('opens', 'opens at', 'To', 'temperature', facts.thermostat, 'entered'),
        figure('fully-open', 'fully open at', 'Tf', 'temperature', open, 'entered'),
        supersede('coolant', 'coolant on the climb', 'T1', 'temperature', reckonedCoolant, climb),
      ],
    },
    {
      id: 'flow',
      line: 'coolant',
      name: 'Coolant pump',
      about: 'thermostat open, at the engine speed of the climb',
      sensor: 'Coolant sensors into and out of the radiator: their difference is heat over flow.',
      figures: [
        supersede('coolant-flow', 'flow', 'q', 'volumeFlow', pumpFlow, readings['coolant-flow']),
        figure(
          'coolant-rise',
          'warms in the engine by',
          'ΔT',
          'temperatureDifference',
          combine([heat, coolantRate], (q = 0, c = 1) => q / c, 'Rise = heat / coolant rate'),
        ),
      ],
    },
    {
      id: 'air',
      line: 'air',
      name: 'Fan and ram air',
      about: cooling.fans
        ? `${list(cooling.fans.map((id) => deviceName(build, id)))}, at solved volts`
        : 'no fan entered',
      sensor: 'Vane anemometer over a grid of the core, fan running, car standing; volts at the fan’s own terminals.',
      figures: [
        figure('fan-volts', 'volts at the fan, full load', 'U', 'voltage', facts.fan.volts),
        figure('fan-current', 'its current, in the energy balance', 'I', 'current', facts.fan.amps),
        figure('ram', 'ram pressure', 'Δpr', 'pressureDifference', airSide.ram),
        supersede(
          'radiator-air',
          'air through the core',
          'V',
          'volumeFlow',
          airSide.reckoned,
          readings['radiator-air-flow'],
        ),
        figure('air-in', 'air into the core', 'Ta', 'temperature', airIn),
      ],
    },
    {
      id: 'radiator',
      line: 'coolant',
      name: 'Radiator',
      about: 'by effectiveness–NTU, crossflow',
      sensor: 'Surface sensors under insulation on the top and bottom hose necks.',
      capacity,
      figures: [
        figure('radiator-effectiveness', 'effectiveness', 'ε', 'ratio', radiator.effectiveness),
        figure('radiator-in', 'coolant must enter at', 'T1', 'temperature', radiator.coolantIn),
        figure('radiator-out', 'coolant leaves at', 'T2', 'temperature', radiator.coolantOut),
        figure('radiator-air-out', 'air leaves at', 'T3', 'temperature', radiator.airOut),
        figure('capacity', 'power it holds for good', 'P', 'power', capacity),
      ],
    },
    {
      id: 'cap',
      line: 'system',
      name: 'Cap and boiling',
      about: 'by cap, mix and altitude',
      sensor: 'Pressure sensor in the header’s gas space: it also shows a weak cap.',
      figures: [
        supersede(
          'cap-pressure',
          'cap holds',
          'Δp',
          'pressureGauge',
          entered(cooling.capPressure, 'pressure of the cap'),
          readings['cap-opening-pressure'],
          'entered',
        ),
        figure('boiling', 'boils at', 'Tb', 'temperature', boiling),
        figure('margin', 'margin on the climb', 'ΔT', 'temperatureDifference', margin),
        figure('time-to-boil', 'full power, from thermostat heat, until it boils', 't', 'time', timeToBoil),
      ],
    },
    {
      id: 'header',
      line: 'system',
      name: 'Header',
      about: 'room for the coolant to grow',
      sensor: 'Level sensor in the header, wired so that an open wire reads as low.',
      figures: [
        figure('growth', 'coolant grows by', 'ΔV', 'volume', growth),
        figure(
          'header-space',
          'gas space, cold',
          'V',
          'volume',
          entered(cooling.headerSpace, 'gas space of the header, cold'),
          'entered',
        ),
        figure('header-pressure', 'pressure by that alone', 'Δp', 'pressureGauge', headerPressure),
      ],
    },
  ]
  const test = cooling.hold
  stations.push({
    id: 'hold',
    line: 'system',
    name: 'Tightness',
    about: hold
      ? `pressure-hold test: ${hold.answer}`
      : 'no pressure-hold test yet: cold, never above the cap’s pressure',
    figures: [
      figure(
        'hold-start',
        'held at',
        'p1',
        'pressureGauge',
        entered(test?.startPressure, 'start pressure of the pressure-hold test'),
        'entered',
      ),
      figure(
        'hold-end',
        'fell to',
        'p2',
        'pressureGauge',
        entered(test?.endPressure, 'end pressure of the pressure-hold test'),
        'entered',
      ),
      figure(
        'hold-rate',
        'leak rate, as liquid',
        'ql',
        'volumeFlow',
        hold?.rate ?? lacking('a pressure-hold test with the trapped gas volume known'),
      ),
    ],
  })
  return {
    id: 'cooling',
    title: 'Cooling',
    stations,
    facts,
    airSide,
    coolant,
    reckonedCoolant,
    boiling,
    margin,
    growth,
    headerPressure,
    timeToBoil,
    capacity,
    hold,
  }
}

/** The chain of a build by itself, for a screen that tries something: only the full-load case is solved. */
export const coolingChainOf = (build: Build): CoolingChain => {
  const kase = Object.values(build.collections.cases).find(({ engine }) => engine === 'full load')
  return coolingChain(build, kase === undefined ? undefined : solveCase(build, kase))
}
