/**
 * Power that an air flow supports.   P = ṁ/(b·λ·A)
 *   ṁ  dry air                  kg/s  1e-4 … 5
 *   b  specific consumption     kg/J  4e-8 … 3e-7
 *   λ  lambda                   1     0.5 … 1.5
 *   A  air to fuel at lambda 1  1     3 … 20
 *   P  power                    W
 * Errors: `out-of-range`. Limits: b is fuel burnt per work at this λ, and stays what it is as the air changes.
 * Source: definition of specific consumption and lambda.
 */
import { calculation, quantity, result } from '../calculation.ts'
import { POUND } from '../exactUnits.ts'
import { burnInputs, MATCHING } from './airForPower.ts'
import { turboMatching } from './sources.ts'

export const powerFromAir = calculation({
  id: 'power-from-air',
  title: 'Power that an air flow supports',
  inputs: {
    air: quantity('massFlow', {
      symbol: 'ṁ',
      min: 1e-4,
      max: 5,
      plausible: [0.005, 1],
      about: 'dry air through the engine',
    }),
    ...burnInputs,
  },
  outputs: { power: result('power', { symbol: 'P', about: 'power at the crank that this air supports' }) },
  formula: '{power} = {air} / ({specificConsumption} × {lambda} × {stoichiometric})',
  sources: [turboMatching],
  cautions: [],
  limits: ['Consumption and lambda of the same running point; ignition angle set back for knock raises consumption.'],
  checks: [
    {
      inputs: { air: (44 * POUND) / 60, ...MATCHING },
      output: 'power',
      expected: 400 * 745.69987158227,
      tolerance: { rel: 1.2e-3 },
      because: 'printed to three digits',
      source: turboMatching,
      evidence: 'published',
    },
  ],
  compute: ({ air, specificConsumption, lambda, stoichiometric }) => ({
    power: air / (specificConsumption * lambda * stoichiometric),
  }),
})
