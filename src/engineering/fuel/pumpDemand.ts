/**
 * Volume flow that the engine takes from the pump.   V = P·b / ρ
 *   P  brake power                 W      1 … 2e6
 *   b  specific fuel consumption   kg/J   3e-8 … 4e-7
 *   ρ  fuel density                kg/m³  600 … 900
 *   V  volume flow                 m³/s
 * Errors: `out-of-range`. Limits: what the engine burns; return, jet pump and margin are not in it.
 * Source: definition of BSFC [from memory, Heywood section 2.8].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { boschInjectors, definition, HORSEPOWER, LAMBDA_LIMIT, LB_PER_HP_HOUR, US_GALLON } from './sources.ts'

const pumpArticle: Source = {
  title:
    'Article “How to calculate fuel pump flow requirements”: 400 hp at 0.60 lb/(hp·h), 6.2 lb/US gal, 38.7 US gal/h',
  where: 'asian-model-collection.com',
  how: 'read',
}

export const pumpDemand = calculation({
  id: 'pump-demand',
  title: 'Fuel pump flow needed for a power',
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
    density: quantity('density', {
      symbol: 'ρ',
      min: 600,
      max: 900,
      plausible: [700, 800],
      about: 'density of the fuel as it is in the pump',
    }),
  },
  outputs: { flow: result('volumeFlow', { symbol: 'V', about: 'fuel volume flow that the engine takes' }) },
  formula: '{flow} = {power} × {specificConsumption} / {density}',
  sources: [definition],
  cautions: [
    'Compare with the pump at its real voltage and real pressure, filter and line losses included, never with its free-flow figure.',
  ],
  limits: [LAMBDA_LIMIT, 'What the engine burns; return flow, jet pump and margin come on top.'],
  checks: [
    {
      inputs: {
        power: 400 * HORSEPOWER,
        specificConsumption: 0.6 * LB_PER_HP_HOUR,
        density: (6.2 * 0.45359237) / US_GALLON,
      },
      output: 'flow',
      expected: (38.7 * US_GALLON) / 3600,
      tolerance: { rel: 1.3e-3 },
      because: 'printed to three digits',
      source: pumpArticle,
      evidence: 'published',
    },
    {
      inputs: { power: 1e5, specificConsumption: 0.0124 / 1e5, density: 744 },
      output: 'flow',
      expected: 1e-3 / 60,
      tolerance: { rel: 1e-6 },
      because: 'petrol, printed conversion: 744 g/min is 1000 cm³/min',
      source: boschInjectors,
      evidence: 'published',
    },
  ],
  compute: ({ power, specificConsumption, density }) => ({ flow: (power * specificConsumption) / density }),
})
