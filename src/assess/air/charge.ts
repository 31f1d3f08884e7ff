/** Compressor, charge cooler, its water loop, and the heat that water stores in a short pull. */
import { chargeAfterCooler } from '../../engineering/air/chargeAfterCooler.ts'
import { compressionTemperature } from '../../engineering/air/compressionTemperature.ts'
import { isentropicTemperature } from '../../engineering/air/isentropicTemperature.ts'
import { AIR_HEAT } from '../../engineering/air/sources.ts'
import { coolantProperties } from '../../engineering/cooling/coolantProperties.ts'
import { coupledExchangers } from '../../engineering/heat/coupledExchangers.ts'
import { heatExchanger } from '../../engineering/heat/heatExchanger.ts'
import { storedHeat } from '../../engineering/heat/storedHeat.ts'
import { combine, type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import { type AirFacts, ATMOSPHERE } from './facts.ts'
import type { Intake } from './intake.ts'

const CROSSFLOW = 'crossflow, both unmixed'
/** At which the liquid’s properties are taken: they move by 1 % over 20 K. */
const LOOP_TEMPERATURE = 313.15

export interface Charge {
  readonly reckonedHot: Datum
  readonly hot: Datum
  /** That the readings, where there are any, imply; over 1 no compressor can. */
  readonly impliedEfficiency: Datum | undefined
  /** By effectiveness–NTU from the conductance, else as the sheet expects. */
  readonly expected: Datum
  readonly expectedBy: 'effectiveness–NTU' | 'the sheet'
  readonly effectiveness: Datum
  readonly reckonedCold: Datum
  readonly cold: Datum
  readonly reckonedOut: Datum
  readonly out: Datum
  readonly heat: Datum
  readonly pumpFlow: Datum
  readonly flow: Datum
  readonly loopRate: Datum
  readonly waterRise: Datum
  readonly frontRate: Datum
  readonly frontHeat: Datum
  readonly frontAirOut: Datum
  readonly timeConstant: Datum
  readonly waterAfterPull: Datum
  readonly chargeAfterPull: Datum
}

export const chargeOf = (facts: AirFacts, intake: Intake): Charge => {
  const { air, readings, outsideTemperature, chargeRate } = facts
  const cooler = air.chargeCooler
  const ratio = entered(air.pressureRatio, 'pressure ratio')
  const efficiency = entered(air.compressorEfficiency, 'compressor efficiency')
  // The temperature hangs on the ratio alone, so it does not wait for the altitude.
  const outletPressure = combine([ratio], (r = 1) => r * ATMOSPHERE, 'Pressure ratio × 101.325 kPa')
  const reckonedHot = step(compressionTemperature, {
    temperature: intake.temperature,
    pressure: ATMOSPHERE,
    outletPressure,
    efficiency,
  }).outletTemperature
  const measuredHot = readings['charge-temperature-before-cooler']
  const hot = measuredHot ?? reckonedHot
  const lossFree = step(isentropicTemperature, {
    temperature: intake.temperature,
    pressure: ATMOSPHERE,
    outletPressure,
  })
  const impliedEfficiency = measuredHot
    ? combine(
        [lossFree.outletTemperature, intake.temperature, measuredHot],
        (ideal = 0, into = 0, out = 1) => (ideal - into) / (out - into),
        'η = (loss-free temperature − intake temperature) / (measured temperature − intake temperature)',
      )
    : undefined

  const water = cooler?.kind === 'air to water'
  const conductance = entered(cooler?.conductance, 'conductance of the charge cooler')
  const front = entered(cooler?.loop?.frontConductance, 'conductance of the front exchanger')
  const coldAirFlow = entered(
    cooler?.coldAirFlow,
    water ? 'air flow through the front exchanger' : 'cold air flow through the charge cooler',
  )
  const frontRate = combine(
    [coldAirFlow, intake.outsideDensity],
    (flow = 0, rho = 0) => flow * rho * AIR_HEAT.value,
    `Heat capacity rate of the cold air: flow × density × ${AIR_HEAT.value} J/(kg·K)`,
  )
  const pumpFlow = combine(
    [
      entered(cooler?.loop?.flow, 'flow of the water loop'),
      entered(cooler?.loop?.flowVoltage, 'voltage at which the water loop’s flow is known'),
      facts.pump.volts,
    ],
    (flow = 0, rated = 1, volts = 0) => (flow * volts) / rated,
    'Flow × volts at the pump / volts at which it is known: a centrifugal pump on its own loop (affinity laws; volts for speed is common practice)',
  )
  const flow = readings['charge-cooler-water-flow'] ?? pumpFlow
  const glycol = entered(cooler?.loop?.glycolFraction, 'glycol in the water loop')
  const liquid = step(coolantProperties, { glycol, temperature: LOOP_TEMPERATURE })
  const loopRate = combine(
    [flow, liquid.density, liquid.specificHeat],
    (q = 0, rho = 0, c = 0) => q * rho * c,
    'Heat capacity rate of the loop: flow × density × specific heat',
  )
  const coupled = step(coupledExchangers, {
    coolerConductance: conductance,
    frontConductance: front,
    chargeRate,
    loopRate,
    frontRate,
    chargeIn: hot,
    outside: outsideTemperature,
  })
  const single = step(heatExchanger, {
    arrangement: CROSSFLOW,
    conductance,
    hotRate: chargeRate,
    coldRate: frontRate,
    hotIn: hot,
    coldIn: outsideTemperature,
  })
  const byUnits = !water
    ? single.effectiveness
    : cooler?.coldReference === 'ambient air'
      ? coupled.againstAir
      : coupled.againstWater
  const bySheet = entered(cooler?.expectedEffectiveness, 'effectiveness of the charge cooler (a reading)')
  const expectedBy = isKnown(byUnits) ? 'effectiveness–NTU' : 'the sheet'
  const expected = isKnown(byUnits) ? byUnits : bySheet
  const effectiveness = readings['charge-cooler-effectiveness'] ?? expected
  const fromLoop = coupled.waterIn
  const reckonedCold =
    cooler?.coldReference === 'ambient air'
      ? outsideTemperature
      : isKnown(fromLoop)
        ? fromLoop
        : lacking('temperature of the water into the cooler (reading charge-cooler-water-in)')
  const cold =
    cooler?.coldReference === 'ambient air' ? reckonedCold : (readings['charge-cooler-water-in'] ?? reckonedCold)
  // The heat needs the flow, the temperature does not: it must not wait for lambda.
  const after = step(chargeAfterCooler, {
    inlet: hot,
    effectiveness,
    coldReference: cold,
    chargeRate: isKnown(chargeRate) ? chargeRate : 1,
  })
  const reckonedOut = cooler ? after.outlet : hot
  const out = readings['charge-temperature-after-cooler'] ?? reckonedOut
  const heat = !cooler
    ? known(0, 0, 'No charge cooler.')
    : combine([chargeRate, hot, out], (c = 0, a = 0, b = 0) => c * (a - b), 'Heat = charge rate × (in − out)')

  const warmConductance = combine(
    [coupled.againstWater, chargeRate],
    (e = 0, c = 0) => e * c,
    'Conductance from charge to water: ε × charge rate',
  )
  // Of the water as it enters the cooler, so that the store settles where the steady loop does.
  const coldConductance = combine(
    [coupled.heat, coupled.waterIn, outsideTemperature],
    (q = 0, water = 1, air = 0) => q / (water - air),
    'Conductance from water to outside air: steady heat / (water into the cooler − outside air)',
  )
  const mass = combine(
    [entered(cooler?.loop?.volume, 'volume of the water loop'), liquid.density],
    (v = 0, rho = 0) => v * rho,
    'Mass of the water = volume × density',
  )
  const stored = step(storedHeat, {
    mass,
    specificHeat: liquid.specificHeat,
    warmConductance,
    warmSide: hot,
    coldConductance,
    coldSide: outsideTemperature,
    heat: 0,
    start: outsideTemperature,
    time: entered(air.pull, 'length of a short pull'),
  })
  const frontHeat = water ? heat : known(0, 0, 'No water loop.')
  return {
    reckonedHot,
    hot,
    impliedEfficiency,
    expected,
    expectedBy,
    effectiveness,
    reckonedCold,
    cold,
    reckonedOut,
    out,
    heat,
    pumpFlow,
    flow,
    loopRate,
    waterRise: combine([heat, loopRate], (q = 0, c = 1) => q / c, 'Rise of the water = heat / loop rate'),
    frontRate,
    frontHeat,
    frontAirOut: combine(
      [outsideTemperature, heat, frontRate],
      (t = 0, q = 0, c = 1) => t + q / c,
      'Air out = outside air + heat / its rate, once steady',
    ),
    timeConstant: stored.timeConstant,
    waterAfterPull: stored.temperature,
    chargeAfterPull: step(chargeAfterCooler, {
      inlet: hot,
      effectiveness: cooler?.coldReference === 'ambient air' ? coupled.againstWater : effectiveness,
      coldReference: stored.temperature,
      chargeRate,
    }).outlet,
  }
}
