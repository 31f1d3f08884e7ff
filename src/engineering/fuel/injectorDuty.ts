/**
 * Duty of the injectors at a power.   D = P·b / (n·Q)
 *   P  brake power                    W     0 … 2e6
 *   b  specific fuel consumption      kg/J  3e-8 … 4e-7
 *   n  number of injectors            1     1 … 24
 *   Q  static flow of each injector   kg/s  1e-4 … 0.1
 *   D  duty                           1
 * Errors: `out-of-range`, `not-whole`. Limits: dead time not counted; a duty above 1 means that the power cannot be fed.
 * Source: definition of BSFC [from memory, Heywood section 2.8].
 */
import { calculation, quantity, result } from '../calculation.ts'
import {
  DUTY_CAUTION,
  definition,
  HORSEPOWER,
  LAMBDA_LIMIT,
  LB_PER_HOUR,
  LB_PER_HP_HOUR,
  tradeDuty,
  workshopSheet,
} from './sources.ts'

export const injectorDuty = calculation({
  id: 'injector-duty',
  title: 'Injector duty at a power',
  inputs: {
    power: quantity('power', {
      symbol: 'P',
      min: 0,
      max: 2e6,
      plausible: [2e4, 1e6],
      about: 'brake power at the flywheel',
    }),
    specificConsumption: quantity('specificFuelConsumption', {
      symbol: 'b',
      min: 3e-8,
      max: 4e-7,
      plausible: [6e-8, 2.5e-7],
      about: 'brake specific fuel consumption at the stated lambda',
    }),
    count: quantity('ratio', { symbol: 'n', min: 1, max: 24, whole: true, about: 'number of injectors' }),
    flow: quantity('massFlow', {
      symbol: 'Q',
      min: 1e-4,
      max: 0.1,
      plausible: [1e-3, 0.03],
      about: 'static flow of each injector, in this fuel at this pressure',
    }),
  },
  outputs: { duty: result('ratio', { symbol: 'D', about: 'duty, 1 is always open' }) },
  formula: '{duty} = {power} × {specificConsumption} / ({count} × {flow})',
  sources: [definition],
  cautions: [DUTY_CAUTION],
  limits: [
    LAMBDA_LIMIT,
    'Share of fuel only: dead time adds to the commanded pulse and is not in this figure. Above 1 the power cannot be fed.',
  ],
  checks: [
    {
      inputs: {
        power: 200 * HORSEPOWER,
        specificConsumption: 0.5 * LB_PER_HP_HOUR,
        count: 4,
        flow: 31.25 * LB_PER_HOUR,
      },
      output: 'duty',
      expected: 0.8,
      tolerance: { rel: 1e-4 },
      because: 'printed to four digits',
      source: workshopSheet,
      evidence: 'published',
    },
    {
      inputs: {
        power: 121.6 * HORSEPOWER,
        specificConsumption: 0.5 * LB_PER_HP_HOUR,
        count: 4,
        flow: 19 * LB_PER_HOUR,
      },
      output: 'duty',
      expected: 0.8,
      tolerance: { rel: 1e-4 },
      because: 'printed to four digits',
      source: workshopSheet,
      evidence: 'published',
    },
    {
      inputs: {
        power: 200 * HORSEPOWER,
        specificConsumption: 0.5 * LB_PER_HP_HOUR,
        count: 4,
        flow: 31.25 * LB_PER_HOUR,
      },
      output: 'duty',
      expected: 0.8,
      tolerance: { abs: 0.05 },
      because: '“about”',
      source: tradeDuty,
      evidence: 'common practice',
    },
  ],
  compute: ({ power, specificConsumption, count, flow }) => ({ duty: (power * specificConsumption) / (count * flow) }),
})
