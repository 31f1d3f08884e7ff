/**
 * Static flow that each injector must have.   Q = P·b / (n·D)
 *   P  brake power                      W     1 … 2e6
 *   b  specific fuel consumption        kg/J  3e-8 … 4e-7
 *   n  number of injectors              1     1 … 24
 *   D  duty limit                       1     0.05 … 1
 *   Q  static flow of each injector     kg/s
 *   M  fuel flow of the whole engine    kg/s
 * Errors: `out-of-range`, `not-whole`. Limits: BSFC at the stated lambda; equal injectors, all in use.
 * Source: definition of BSFC [from memory, Heywood section 2.8].
 */
import { calculation, quantity, result } from '../calculation.ts'
import {
  boschInjectors,
  DUTY_CAUTION,
  definition,
  HORSEPOWER,
  heywood,
  LAMBDA_LIMIT,
  LB_PER_HOUR,
  LB_PER_HP_HOUR,
  tradeDuty,
  workshopSheet,
} from './sources.ts'

export const injectorDemand = calculation({
  id: 'injector-demand',
  title: 'Injector size needed for a power',
  inputs: {
    power: quantity('power', {
      symbol: 'P',
      min: 1,
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
    duty: quantity('ratio', {
      symbol: 'D',
      min: 0.05,
      max: 1,
      plausible: [0.5, 0.9],
      about: 'duty that the injectors are planned to reach',
    }),
  },
  outputs: {
    flow: result('massFlow', { symbol: 'Q', about: 'static flow of each injector' }),
    engineFlow: result('massFlow', { symbol: 'M', about: 'fuel flow of the whole engine' }),
  },
  formula:
    '{engineFlow} = {power} × {specificConsumption}\n{flow} = {power} × {specificConsumption} / ({count} × {duty})',
  sources: [definition],
  cautions: [DUTY_CAUTION],
  limits: [
    LAMBDA_LIMIT,
    'Equal injectors, all in use; flow at the pressure the injector really sees, in the fuel really used.',
  ],
  checks: [
    {
      inputs: { power: 200 * HORSEPOWER, specificConsumption: 0.5 * LB_PER_HP_HOUR, count: 4, duty: 0.8 },
      output: 'flow',
      expected: 31.25 * LB_PER_HOUR,
      tolerance: { rel: 1e-4 },
      because: 'printed to four digits',
      source: workshopSheet,
      evidence: 'published',
    },
    {
      inputs: { power: 1e6, specificConsumption: 270 / 3.6e9, count: 1, duty: 1 },
      output: 'engineFlow',
      expected: 0.075,
      tolerance: { rel: 5e-3 },
      because: '75 µg/J beside 270 g/kWh, two digits',
      source: heywood,
      evidence: 'published',
    },
    {
      inputs: { power: 1e5, specificConsumption: 0.0124 / 1e5, count: 1, duty: 1 },
      output: 'flow',
      expected: (1000 / 60) * 0.744e-3,
      tolerance: { rel: 1e-6 },
      because: 'law: a fuel flow given whole to one injector at full duty is its size; 1000 cm³/min is 744 g/min',
      source: boschInjectors,
      evidence: 'law',
    },
    {
      inputs: { power: 200 * HORSEPOWER, specificConsumption: 0.5 * LB_PER_HP_HOUR, count: 4, duty: 0.8 },
      output: 'flow',
      expected: (100 * LB_PER_HOUR) / 4 / 0.8,
      tolerance: { rel: 1e-4 },
      because: 'the planned 80 % asks for a quarter more than 100 %',
      source: tradeDuty,
      evidence: 'common practice',
    },
  ],
  compute: ({ power, specificConsumption, count, duty }) => {
    const engineFlow = power * specificConsumption
    return { engineFlow, flow: engineFlow / (count * duty) }
  },
})
