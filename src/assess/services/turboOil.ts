/** Oil to the turbocharger and back: viscosity hot and cold, what the feed passes, what reaches it, what the drain takes. */
import { pipeLoss } from '../../engineering/fluids/pipeLoss.ts'
import { oilDrain } from '../../engineering/services/oilDrain.ts'
import { oilFeed, RESTRICTOR } from '../../engineering/services/oilFeed.ts'
import { oilViscosity } from '../../engineering/services/oilViscosity.ts'
import { J300 } from '../../engineering/services/sources.ts'
import { streamHeat } from '../../engineering/services/streamHeat.ts'
import { PIPE_ROUGHNESS } from '../air/facts.ts'
import { combine, type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import type { ServiceFacts } from './facts.ts'
import type { OilPressure } from './oilPressure.ts'

/** Of new oil by warming, share of its density for a kelvin: Incropera & DeWitt, table A.5, engine oil [from memory]. */
const SWELLS = 7e-4
/** J/(kg·K): the same table, 2118 at 350 K to 2251 at 380 K. */
const OIL_HEAT = known(
  2190,
  70,
  'Specific heat of engine oil: 2118 at 350 K to 2251 J/(kg·K) at 380 K, Incropera & DeWitt, table A.5 [from memory]',
)
const [WARM, HOT] = [313.15, 373.15]
/** K from 100 °C within which the grade alone says how thick the oil is. */
const AT_HUNDRED = 3
/** Volume of what leaves the bearings over that of its oil: foam. Common practice, no published source. */
export const FOAM = 4

export interface Oil {
  readonly hotTemperature: Datum
  readonly at100: Datum
  readonly hot: Datum
  readonly cold: Datum
  readonly hotDensity: Datum
  readonly rise: Datum
}

const densityAt = (density: Datum, temperature: Datum): Datum =>
  combine(
    [density, temperature],
    (rho = 0, t = 0) => rho * (1 - SWELLS * (t - 288.15)),
    `Density = density at 15 °C × (1 − ${SWELLS} × kelvin above it): Incropera & DeWitt, table A.5 [from memory]`,
  )

export const oilOf = ({ oil, readings }: ServiceFacts): Oil => {
  const hotTemperature = readings['oil-temperature'] ?? entered(oil.hotTemperature, 'temperature of the hot oil')
  const coldTemperature = entered(oil.coldTemperature, 'temperature of the oil at the coldest start')
  const range = oil.grade && J300.grades[oil.grade]
  const at100 = oil.viscosity100
    ? entered(oil.viscosity100, 'viscosity of the oil at 100 °C')
    : range
      ? known(
          (range[0] + range[1]) / 2,
          (range[1] - range[0]) / 2,
          `Viscosity at 100 °C of grade ${oil.grade}: ${range[0] * 1e6} to ${range[1] * 1e6} mm²/s, ${J300.source.title}; none entered`,
        )
      : lacking('viscosity of the oil at 100 °C')
  const at = (temperature: Datum): Datum => {
    if (isKnown(temperature) && isKnown(at100) && !oil.viscosity40 && Math.abs(temperature.value - HOT) <= AT_HUNDRED)
      return at100
    return step(oilViscosity, {
      first: entered(oil.viscosity40, 'viscosity of the oil at 40 °C'),
      firstTemperature: WARM,
      second: at100,
      secondTemperature: HOT,
      temperature,
    }).viscosity
  }
  const density = entered(oil.density, 'density of the oil at 15 °C')
  const hotDensity = densityAt(density, hotTemperature)
  return {
    hotTemperature,
    at100,
    hot: at(hotTemperature),
    cold: at(coldTemperature),
    hotDensity,
    rise: step(streamHeat, {
      heat: entered(oil.heat, 'heat that the oil takes up at full load'),
      flow: entered(oil.flow, 'oil flow through the engine'),
      density: hotDensity,
      specificHeat: OIL_HEAT,
    }).change,
  }
}

export interface TurboOil {
  /** Most that the feed passes, hot, with nothing behind it. */
  readonly mostHot: Datum
  readonly mostCold: Datum
  readonly reynolds: Datum
  readonly need: Datum
  readonly neededOnSheet: Datum
  readonly feedLoss: Datum
  readonly restrictorLoss: Datum
  readonly atInlet: Datum
  readonly slope: Datum
  readonly drainHot: Datum
  readonly drainCold: Datum
  /** Drain half full, hot, over what comes. */
  readonly inHand: Datum
}

export const turboOilOf = (facts: ServiceFacts, oil: Oil, pressure: OilPressure): TurboOil => {
  const { oil: sheet, readings } = facts
  const bore = entered(sheet.turboFeedBore, 'bore of the turbocharger’s oil feed')
  const length = entered(sheet.turboFeedLength, 'length of the turbocharger’s oil feed')
  const restrictor = sheet.turboRestrictor ? entered(sheet.turboRestrictor, 'bore of the restrictor') : bore
  const coefficient = known(
    RESTRICTOR.value,
    RESTRICTOR.plusMinus,
    `Discharge coefficient: ${RESTRICTOR.source.title} [read at ${RESTRICTOR.source.where}]`,
  )
  const feed = (across: Datum, density: Datum, viscosity: Datum) =>
    step(oilFeed, {
      pressure: across,
      bore,
      length,
      restrictor,
      coefficient,
      density,
      viscosity,
      roughness: PIPE_ROUGHNESS,
    })
  const hot = feed(pressure.top, oil.hotDensity, oil.hot)
  const coldDensity = densityAt(
    entered(sheet.density, 'density of the oil at 15 °C'),
    entered(sheet.coldTemperature, 'temperature of the oil at the coldest start'),
  )
  const cold = feed(
    sheet.relief
      ? entered(sheet.relief, 'pressure of the relief valve')
      : lacking('pressure of the oil’s relief valve'),
    coldDensity,
    oil.cold,
  )
  const neededOnSheet = entered(sheet.turboNeed, 'oil that the turbocharger takes hot')
  const need = readings['turbo-oil-flow'] ?? neededOnSheet
  const pipe = step(pipeLoss, {
    flow: need,
    bore,
    length,
    roughness: PIPE_ROUGHNESS,
    fittings: 0,
    density: oil.hotDensity,
    viscosity: oil.hot,
  }).loss
  const restrictorLoss = combine(
    [need, restrictor, coefficient, oil.hotDensity],
    (q = 0, r = 1, c = 1, rho = 0) => (rho / 2) * ((4 * q) / (c * Math.PI * r * r)) ** 2,
    'Restrictor, or entry of the feed: ρ/2 × (flow / (coefficient × area))²',
  )
  const fall = entered(sheet.turboDrainFall, 'fall of the turbocharger’s drain')
  const slope = combine(
    [fall, entered(sheet.turboDrainLength, 'length of the turbocharger’s drain')],
    (height = 0, along = 1) => height / along,
    'Slope = fall / length of the drain',
  )
  const drain = (viscosity: Datum): Datum =>
    isKnown(slope) && slope.value <= 0
      ? known(0, 0, 'The drain does not fall: nothing runs')
      : step(oilDrain, {
          bore: entered(sheet.turboDrainBore, 'bore of the turbocharger’s drain'),
          slope,
          viscosity,
          roughness: PIPE_ROUGHNESS,
        }).flow
  const drainHot = drain(oil.hot)
  return {
    mostHot: hot.flow,
    mostCold: cold.flow,
    reynolds: hot.reynolds,
    need,
    neededOnSheet,
    feedLoss: pipe,
    restrictorLoss,
    atInlet: combine(
      [pressure.top, pipe, restrictorLoss],
      (p = 0, a = 0, b = 0) => p - a - b,
      'Pressure at the turbocharger = hot oil pressure at the highest speed read − pipe − restrictor',
    ),
    slope,
    drainHot,
    drainCold: drain(oil.cold),
    inHand: combine([drainHot, need], (takes = 0, comes = 1) => takes / comes, 'Drain half full, hot / oil that comes'),
  }
}
