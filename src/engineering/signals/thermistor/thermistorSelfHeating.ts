/**
 * By how much a thermistor's own current warms it.   ΔT = P/δ,  P = Vs²·R/(Rp + R)²
 *   Vs  supply of the pull-up              V    0.5 … 60
 *   Rp  pull-up                            Ω    1 … 1e7
 *   R   thermistor now                     Ω    0.1 … 1e8
 *   δ   dissipation constant where it sits  W/K  1e-5 … 10
 *   P   heat in the thermistor             W
 *   ΔT  it reads too warm by               K
 * Errors: `out-of-range`. Limits: steady; δ of its sheet holds in still air, in stirred liquid it is several times larger.
 * Source: definition of the dissipation constant, as thermistor makers state it.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'
import { selfHeating } from './divider.ts'

const maker: Source = {
  title: 'Heat dissipation constant: the power that warms the thermistor by 1 °C in equilibrium, δ = P/(T1 − T2)',
  where: 'mmc.co.jp, NTC thermistors, solution 05',
  how: 'read',
}
const sheet: Source = {
  title: 'EPCOS B57885S data sheet (February 2009): δ about 4 mW/K in air',
  where: 'dtsheet.com 356761, page 2',
  how: 'read',
}
const DELTA = 4e-3

export const thermistorSelfHeating = calculation({
  id: 'thermistor-self-heating',
  title: 'By how much a thermistor’s own current warms it',
  inputs: {
    supply: quantity('voltage', {
      symbol: 'Vs',
      min: 0.5,
      max: 60,
      plausible: [3, 15],
      about: 'supply of the pull-up',
    }),
    pullUp: quantity('resistance', { symbol: 'Rp', min: 1, max: 1e7, plausible: [100, 1e5], about: 'pull-up' }),
    resistance: quantity('resistance', {
      symbol: 'R',
      min: 0.1,
      max: 1e8,
      plausible: [50, 1e6],
      about: 'thermistor now',
    }),
    dissipation: quantity('heatCapacityRate', {
      symbol: 'δ',
      min: 1e-5,
      max: 10,
      plausible: [1e-3, 0.1],
      about: 'dissipation constant where it sits',
    }),
  },
  outputs: {
    power: result('power', { symbol: 'P', about: 'heat in the thermistor' }),
    rise: result('temperatureDifference', { symbol: 'ΔT', about: 'it reads too warm by' }),
  },
  formula: '{power} = {supply}² × {resistance} / ({pullUp} + {resistance})²\n{rise} = {power} / {dissipation}',
  sources: [maker, sheet],
  cautions: [],
  limits: ['Steady state. δ of a data sheet holds in still air; in stirred liquid it is several times larger.'],
  checks: [
    {
      // 5 V over two equal resistances of 1562.5 Ω: 2.5 V and 1.6 mA, which is 4 mW.
      inputs: { supply: 5, pullUp: 1562.5, resistance: 1562.5, dissipation: DELTA },
      output: 'rise',
      expected: 1,
      tolerance: { abs: 1e-9 },
      because: 'the definition: the power of the data sheet’s constant warms it by 1 K',
      source: maker,
      evidence: 'published',
    },
  ],
  compute: ({ supply, pullUp, resistance, dissipation }) => {
    const rise = selfHeating(supply, pullUp, resistance, dissipation)
    return { power: rise * dissipation, rise }
  },
})
