/**
 * Temperature of a mass of liquid between a warm and a cold side.   τ = m·c/(K1 + K2), T = T∞ + (T0 − T∞)·e^(−t/τ)
 *   m   mass                     kg        1e-7 … 1000
 *   c   specific heat            J/(kg·K)  100 … 1e4
 *   K1  to the warm side         W/K       0 … 1e5
 *   T1  warm side                K         220 … 700
 *   K2  to the cold side         W/K       0 … 1e5
 *   T2  cold side                K         220 … 700
 *   P   heat put in besides      W         -1e6 … 1e6
 *   T0  at the start             K         220 … 700
 *   t   time                     s         0 … 1e5
 *   τ   time constant            s
 *   T∞  without end              K
 *   T   after that time          K
 * Errors: `out-of-range`, `no-answer` (nothing carries heat away: no time constant). Limits: the liquid well mixed; conductances constant.
 * Source: Incropera & DeWitt, chapter 5, lumped capacitance [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { conductanceInput, temperatureInput } from './sources.ts'

export const lumped: Source = {
  title: 'Incropera & DeWitt, Fundamentals of Heat and Mass Transfer',
  where: 'chapter 5, lumped capacitance',
  how: 'memory',
}
const wattInput = quantity('power', {
  symbol: 'P',
  min: -1e6,
  max: 1e6,
  about: 'heat put in besides, 0 for none',
})
export const storeInputs = {
  mass: quantity('mass', { symbol: 'm', min: 1e-7, max: 1000, plausible: [0.5, 30], about: 'mass of liquid' }),
  specificHeat: quantity('specificHeat', {
    symbol: 'c',
    min: 100,
    max: 1e4,
    plausible: [2500, 4300],
    about: 'its specific heat',
  }),
  warmConductance: conductanceInput('K1', 'conductance to the warm side: ε × lesser rate'),
  warmSide: temperatureInput('T1', 'temperature of the warm side'),
  coldConductance: conductanceInput('K2', 'conductance to the cold side: ε × lesser rate'),
  coldSide: temperatureInput('T2', 'temperature of the cold side'),
  heat: wattInput,
  start: temperatureInput('T0', 'temperature of the liquid at the start'),
}
/** Junction of a thermocouple, 7.06e-4 m, as the book’s example 5.1: h 400 W/(m²·K), c 400 J/(kg·K), ρ 8500 kg/m³. */
const D = 7.06e-4
const junction = {
  mass: (8500 * Math.PI * D ** 3) / 6,
  specificHeat: 400,
  warmConductance: 400 * Math.PI * D ** 2,
  warmSide: 473.15,
  coldConductance: 0,
  coldSide: 473.15,
  heat: 0,
  start: 298.15,
}

export const storedHeat = calculation({
  id: 'stored-heat',
  title: 'Temperature of a liquid that stores heat',
  inputs: {
    ...storeInputs,
    time: quantity('time', { symbol: 't', min: 0, max: 1e5, plausible: [0, 3600], about: 'time since the start' }),
  },
  outputs: {
    timeConstant: result('time', { symbol: 'τ', about: 'time constant' }),
    end: result('temperature', { symbol: 'T∞', about: 'temperature it would settle at' }),
    temperature: result('temperature', { symbol: 'T', about: 'temperature after that time' }),
  },
  formula:
    '{timeConstant} = {mass} × {specificHeat} / ({warmConductance} + {coldConductance})\n{end} = ({warmConductance} × {warmSide} + {coldConductance} × {coldSide} + {heat}) / ({warmConductance} + {coldConductance})\n{temperature} = {end} + ({start} − {end}) × exp(−{time} / {timeConstant})',
  sources: [lumped],
  cautions: [],
  limits: [
    'Liquid well mixed, metal and hoses not counted (they add to the store); conductances and both sides constant.',
  ],
  checks: [
    {
      inputs: { ...junction, time: 5.2 },
      output: 'temperature',
      expected: 472.15,
      tolerance: { abs: 0.05 },
      because: 'the book prints 5.2 s, two digits, for 199 °C',
      source: { ...lumped, where: 'example 5.1, thermocouple junction' },
      evidence: 'published',
    },
    {
      inputs: { ...junction, time: 0 },
      output: 'timeConstant',
      expected: 1,
      tolerance: { rel: 1e-3 },
      because: 'the junction is sized for 1 s, its diameter printed to three digits',
      source: { ...lumped, where: 'example 5.1, thermocouple junction' },
      evidence: 'published',
    },
  ],
  compute: ({ mass, specificHeat, warmConductance, warmSide, coldConductance, coldSide, heat, start, time }) => {
    const sum = warmConductance + coldConductance
    const timeConstant = (mass * specificHeat) / sum
    const end = (warmConductance * warmSide + coldConductance * coldSide + heat) / sum
    return { timeConstant, end, temperature: end + (start - end) * Math.exp(-time / timeConstant) }
  },
})
