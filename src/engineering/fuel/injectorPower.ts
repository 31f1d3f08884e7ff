/**
 * Brake power that the injectors can feed.   P = n·Q·D / b
 *   n  number of injectors            1     1 … 24
 *   Q  static flow of each injector   kg/s  1e-4 … 0.1
 *   D  duty limit                     1     0.05 … 1
 *   b  specific fuel consumption      kg/J  3e-8 … 4e-7
 *   P  power                          W
 * Errors: `out-of-range`, `not-whole`. Limits: fuel only; air, pump and lines may give out earlier.
 * Source: definition of BSFC [from memory, Heywood section 2.8].
 */
import { calculation, quantity, result } from '../calculation.ts'
import {
  CC_PER_MINUTE,
  DUTY_CAUTION,
  definition,
  HORSEPOWER,
  LAMBDA_LIMIT,
  LB_PER_HOUR,
  LB_PER_HP_HOUR,
  tradeRule,
  workshopSheet,
} from './sources.ts'

export const injectorPower = calculation({
  id: 'injector-power',
  title: 'Power that the injectors can feed',
  inputs: {
    count: quantity('ratio', { symbol: 'n', min: 1, max: 24, whole: true, about: 'number of injectors' }),
    flow: quantity('massFlow', {
      symbol: 'Q',
      min: 1e-4,
      max: 0.1,
      plausible: [1e-3, 0.03],
      about: 'static flow of each injector, in this fuel at this pressure',
    }),
    duty: quantity('ratio', { symbol: 'D', min: 0.05, max: 1, plausible: [0.5, 0.9], about: 'highest duty allowed' }),
    specificConsumption: quantity('specificFuelConsumption', {
      symbol: 'b',
      min: 3e-8,
      max: 4e-7,
      plausible: [6e-8, 2.5e-7],
      about: 'brake specific fuel consumption at the stated lambda',
    }),
  },
  outputs: { power: result('power', { symbol: 'P', about: 'brake power that this fuel feeds' }) },
  formula: '{power} = {count} × {flow} × {duty} / {specificConsumption}',
  sources: [definition],
  cautions: [DUTY_CAUTION],
  limits: [LAMBDA_LIMIT, 'Fuel only: air, pump and lines may give out earlier.'],
  checks: [
    {
      inputs: { count: 4, flow: 19 * LB_PER_HOUR, duty: 0.8, specificConsumption: 0.5 * LB_PER_HP_HOUR },
      output: 'power',
      expected: 121.6 * HORSEPOWER,
      tolerance: { rel: 5e-4 },
      because: 'printed to four digits',
      source: workshopSheet,
      evidence: 'published',
    },
    // Six of 450 cc/min at 100 %: the rule says 450 hp. At 0.55 lb/(hp·h) and 744 kg/m³ fuel itself gives 483 hp.
    {
      inputs: { count: 6, flow: 450 * CC_PER_MINUTE * 744, duty: 1, specificConsumption: 0.55 * LB_PER_HP_HOUR },
      output: 'power',
      expected: 450 * HORSEPOWER,
      tolerance: { rel: 0.15 },
      because: '“very rough”',
      source: tradeRule,
      evidence: 'common practice',
    },
  ],
  compute: ({ count, flow, duty, specificConsumption }) => ({ power: (count * flow * duty) / specificConsumption }),
})
