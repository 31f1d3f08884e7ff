/**
 * Air that a power burns.   ṁ = P·b·λ·A
 *   P  power                    W     100 … 2e6
 *   b  specific consumption     kg/J  4e-8 … 3e-7
 *   λ  lambda                   1     0.5 … 1.5
 *   A  air to fuel at lambda 1  1     3 … 20
 *   ṁ  dry air                  kg/s
 * Errors: `out-of-range`. Limits: b is fuel burnt per work at this λ; λ then turns fuel into air and is never counted twice.
 * Source: definition of specific consumption and lambda.
 */
import { calculation, quantity, result } from '../calculation.ts'
import { POUND } from '../exactUnits.ts'
import { turboMatching } from './sources.ts'

const HORSEPOWER = 745.69987158227
export const burnInputs = {
  specificConsumption: quantity('specificFuelConsumption', {
    symbol: 'b',
    min: 4e-8,
    max: 3e-7,
    plausible: [6e-8, 1.3e-7],
    about: 'fuel actually used per work, at this lambda',
  }),
  lambda: quantity('ratio', { symbol: 'λ', min: 0.5, max: 1.5, plausible: [0.75, 1.05], about: 'lambda at full load' }),
  stoichiometric: quantity('ratio', {
    symbol: 'A',
    min: 3,
    max: 20,
    plausible: [6, 16],
    about: 'air to fuel by mass at lambda 1, of this fuel',
  }),
}
/** 0.55 lb/(hp·h) and 12 to 1, the ratio given as lambda 12/14.7. */
export const MATCHING = {
  specificConsumption: (0.55 * POUND) / (HORSEPOWER * 3600),
  lambda: 12 / 14.7,
  stoichiometric: 14.7,
}

export const airForPower = calculation({
  id: 'air-for-power',
  title: 'Air that a power burns',
  inputs: {
    power: quantity('power', { symbol: 'P', min: 100, max: 2e6, plausible: [1e4, 8e5], about: 'power at the crank' }),
    ...burnInputs,
  },
  outputs: { air: result('massFlow', { symbol: 'ṁ', about: 'dry air by mass' }) },
  formula: '{air} = {power} × {specificConsumption} × {lambda} × {stoichiometric}',
  sources: [turboMatching],
  cautions: [],
  limits: ['Consumption and lambda of the same running point.'],
  checks: [
    {
      inputs: { power: 400 * HORSEPOWER, ...MATCHING },
      output: 'air',
      expected: (44 * POUND) / 60,
      tolerance: { rel: 1.2e-3 },
      because: 'printed to three digits',
      source: turboMatching,
      evidence: 'published',
    },
  ],
  compute: ({ power, specificConsumption, lambda, stoichiometric }) => ({
    air: power * specificConsumption * lambda * stoichiometric,
  }),
})
