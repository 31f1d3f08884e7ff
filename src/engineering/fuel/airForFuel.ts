/**
 * Air that goes with a fuel flow.   A = M·λ·s
 *   M  fuel flow                   kg/s  0 … 1
 *   λ  lambda                      1     0.5 … 2
 *   s  air to fuel at lambda 1     1     5 … 20
 *   A  air flow                    kg/s
 * Errors: `out-of-range`. Limits: lambda turns fuel into air and never multiplies the fuel.
 * Source: definition of lambda, Heywood section 3.4 [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { LAMBDA_LIMIT } from './sources.ts'

const heywood: Source = {
  title: 'Heywood, Internal Combustion Engine Fundamentals: isooctane needs 15.13 kg of air per kg, ethanol 9.00',
  where: 'table D.4',
  how: 'memory',
}

export const airForFuel = calculation({
  id: 'air-for-fuel',
  title: 'Air that goes with a fuel flow',
  inputs: {
    fuel: quantity('massFlow', {
      symbol: 'M',
      min: 0,
      max: 1,
      plausible: [1e-5, 0.1],
      about: 'fuel flow of the engine',
    }),
    lambda: quantity('ratio', { symbol: 'λ', min: 0.5, max: 2, plausible: [0.7, 1.1], about: 'lambda at that flow' }),
    stoichiometric: quantity('ratio', {
      symbol: 's',
      min: 5,
      max: 20,
      plausible: [6, 15.5],
      about: 'air to fuel by mass at lambda 1',
    }),
  },
  outputs: { air: result('massFlow', { symbol: 'A', about: 'air flow of the engine' }) },
  formula: '{air} = {fuel} × {lambda} × {stoichiometric}',
  sources: [heywood],
  cautions: [],
  limits: [LAMBDA_LIMIT],
  checks: [
    {
      inputs: {
        fuel: 0.01,
        lambda: 1,
        stoichiometric: (8 + 18 / 4) * ((31.998 + 3.773 * 28.16) / (12.011 * 8 + 1.008 * 18)),
      },
      output: 'air',
      expected: 0.1513,
      tolerance: { rel: 1e-3 },
      because: 'printed to four digits; stoichiometry from the atoms of C8H18',
      source: heywood,
      evidence: 'published',
    },
  ],
  compute: ({ fuel, lambda, stoichiometric }) => ({ air: fuel * lambda * stoichiometric }),
})
