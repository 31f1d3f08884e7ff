/**
 * Conductance of an exchanger from its measured effectiveness.   UA = N·Cmin, N where f(N, Cr) = ε
 *   flow  arrangement  one of crossflow, both unmixed, crossflow, lesser mixed, crossflow, greater mixed, counterflow, parallel flow
 *   ε     effectiveness     1    0 … 0.999
 *   Ch    hot stream        W/K  0.1 … 1e6
 *   Cc    cold stream       W/K  0.1 … 1e6
 *   N     number of units   1
 *   UA    conductance       W/K
 * Errors: `out-of-range` (an effectiveness of 1 or more: sensors swapped or heat-soaked), `no-answer` (more than this flow
 *   arrangement can give). Limits: steady state; ε on the lesser heat capacity rate.
 * Source: Kays & London; Incropera & DeWitt, table 11.3 [from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { unitsOf } from './effectiveness.ts'
import { arrangementInput, fChart, incropera, kaysLondon, rateInput } from './sources.ts'

export const exchangerConductance = calculation({
  id: 'exchanger-conductance',
  title: 'Conductance of a heat exchanger from its effectiveness',
  inputs: {
    arrangement: arrangementInput,
    effectiveness: quantity('ratio', {
      symbol: 'ε',
      min: 0,
      max: 0.999,
      plausible: [0.2, 0.95],
      about: 'effectiveness on the lesser heat capacity rate (1 or more: sensors swapped or heat-soaked)',
    }),
    hotRate: rateInput('Ch', 'hot stream: mass flow times specific heat'),
    coldRate: rateInput('Cc', 'cold stream: mass flow times specific heat'),
  },
  outputs: {
    units: result('ratio', { symbol: 'N', about: 'number of transfer units' }),
    conductance: result('heatCapacityRate', { symbol: 'UA', about: 'conductance of the exchanger' }),
  },
  formula:
    'f({units}, lesser/greater rate) = {effectiveness} for {arrangement}\n{conductance} = {units} × min({hotRate}, {coldRate})',
  sources: [kaysLondon, incropera],
  cautions: [],
  limits: ['Steady state. Near the most that an arrangement can give, a small error of ε is a large one of UA.'],
  checks: [
    {
      inputs: { arrangement: 'crossflow, both unmixed', effectiveness: 0.61, hotRate: 50, coldRate: 30 },
      output: 'conductance',
      expected: 40.23,
      tolerance: { rel: 2e-3 },
      because: 'the source takes the customary fit; the exact series gives 40.25',
      source: { ...fChart, where: 'fchartsoftware.com, hs30.htm, example 2' },
      evidence: 'published',
    },
    {
      inputs: { arrangement: 'crossflow, both unmixed', effectiveness: 0.755, hotRate: 1889, coldRate: 4197 },
      output: 'conductance',
      expected: 39.7 * 100,
      tolerance: { rel: 0.02 },
      because: 'the book reads NTU off a chart; the exact series gives 2.08, an area of 39.3 m²',
      source: { ...incropera, where: 'example 11.3, finned crossflow, U 100 W/(m²·K)' },
      evidence: 'published',
    },
  ],
  compute: ({ arrangement, effectiveness, hotRate, coldRate }) => {
    const lesser = Math.min(hotRate, coldRate)
    const units = unitsOf(arrangement, effectiveness, lesser / Math.max(hotRate, coldRate))
    return { units, conductance: units * lesser }
  },
})
