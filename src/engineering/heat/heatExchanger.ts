/**
 * What a heat exchanger does, by effectiveness and number of transfer units.   N = UA/Cmin, Q = ε·Cmin·(Th1 − Tc1)
 *   flow  arrangement  one of crossflow, both unmixed, crossflow, lesser mixed, crossflow, greater mixed, counterflow, parallel flow
 *   UA    conductance            W/K  0 … 1e5
 *   Ch    hot stream             W/K  0.1 … 1e6
 *   Cc    cold stream            W/K  0.1 … 1e6
 *   Th1   hot stream in          K    220 … 700
 *   Tc1   cold stream in         K    220 … 700
 *   N     number of units        1
 *   ε     effectiveness          1
 *   Q     heat                   W
 *   Th2   hot stream out         K
 *   Tc2   cold stream out        K
 * Errors: `out-of-range`, `inconsistent-inputs` (hot colder than cold). Limits: steady, constant properties, no loss outside.
 * Source: Kays & London; Incropera & DeWitt, table 11.3 [from memory]; crossflow by Mason's exact series.
 */
import { calculation, result } from '../calculation.ts'
import { effectivenessOf } from './effectiveness.ts'
import {
  arrangementInput,
  conductanceInput,
  fChart,
  incropera,
  kaysLondon,
  rateInput,
  temperatureInput,
} from './sources.ts'

export const heatExchanger = calculation({
  id: 'heat-exchanger',
  title: 'What a heat exchanger does',
  inputs: {
    arrangement: arrangementInput,
    conductance: conductanceInput('UA', 'conductance of the whole exchanger at these flows'),
    hotRate: rateInput('Ch', 'hot stream: mass flow times specific heat'),
    coldRate: rateInput('Cc', 'cold stream: mass flow times specific heat'),
    hotIn: temperatureInput('Th1', 'hot stream in'),
    coldIn: temperatureInput('Tc1', 'cold stream in'),
  },
  outputs: {
    units: result('ratio', { symbol: 'N', about: 'number of transfer units' }),
    effectiveness: result('ratio', { symbol: 'ε', about: 'effectiveness on the lesser heat capacity rate' }),
    heat: result('power', { symbol: 'Q', about: 'heat that passes' }),
    hotOut: result('temperature', { symbol: 'Th2', about: 'hot stream out' }),
    coldOut: result('temperature', { symbol: 'Tc2', about: 'cold stream out' }),
  },
  formula:
    '{units} = {conductance} / min({hotRate}, {coldRate})\n{effectiveness} = f({units}, lesser/greater rate) for {arrangement}\n{heat} = {effectiveness} × min({hotRate}, {coldRate}) × ({hotIn} − {coldIn})\n{hotOut} = {hotIn} − {heat} / {hotRate}\n{coldOut} = {coldIn} + {heat} / {coldRate}',
  sources: [kaysLondon, incropera],
  cautions: [],
  limits: [
    'Steady state, even flow over the whole core, no loss to the surroundings. Conductance falls with flow: it belongs to these flows.',
  ],
  conditions: [
    {
      at: 'coldIn',
      holds: (given) => given.hotIn >= given.coldIn,
      says: 'The hot stream is colder than the cold one, so this exchanger would heat what it should cool.',
      todo: 'Look whether the two temperatures are swapped, or the engine bay heats the cold side.',
    },
  ],
  checks: [
    {
      inputs: {
        arrangement: 'crossflow, both unmixed',
        conductance: 75,
        hotRate: 50,
        coldRate: 30,
        hotIn: 400,
        coldIn: 300,
      },
      output: 'effectiveness',
      expected: 0.7632,
      tolerance: { rel: 0.012 },
      because: 'the source takes the customary fit; the exact series gives 0.7557',
      source: { ...fChart, where: 'fchartsoftware.com, hs30.htm, example 1' },
      evidence: 'published',
    },
    {
      inputs: {
        arrangement: 'crossflow, both unmixed',
        conductance: 100,
        hotRate: 100,
        coldRate: 100,
        hotIn: 400,
        coldIn: 300,
      },
      output: 'effectiveness',
      expected: 0.476,
      tolerance: { abs: 6e-4 },
      because: 'printed to three digits',
      source: { ...kaysLondon, where: 'crossflow, both unmixed: N 1, Cr 1' },
      evidence: 'published',
    },
    {
      inputs: {
        arrangement: 'counterflow',
        conductance: 8524 / 43.2,
        hotRate: 0.1 * 2131,
        coldRate: 0.2 * 4178,
        hotIn: 373.15,
        coldIn: 303.15,
      },
      output: 'coldOut',
      expected: 40.2 + 273.15,
      tolerance: { abs: 0.06 },
      because: 'printed to 0.1 K; conductance from the printed heat and mean temperature difference',
      source: { ...incropera, where: 'example 11.1, counterflow oil cooler' },
      evidence: 'published',
    },
  ],
  compute: ({ arrangement, conductance, hotRate, coldRate, hotIn, coldIn }) => {
    const lesser = Math.min(hotRate, coldRate)
    const units = conductance / lesser
    const effectiveness = effectivenessOf(arrangement, units, lesser / Math.max(hotRate, coldRate))
    const heat = effectiveness * lesser * (hotIn - coldIn)
    return { units, effectiveness, heat, hotOut: hotIn - heat / hotRate, coldOut: coldIn + heat / coldRate }
  },
})
