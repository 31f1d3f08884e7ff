/**
 * How hot the coolant must be to get rid of a heat.   T1 = Ta + Q/(ε·Cmin), T2 = T1 − Q/Cw
 *   Q   heat                     W    0 … 1e6
 *   UA  conductance              W/K  1 … 1e5
 *   Cw  coolant                  W/K  1 … 1e6
 *   Ca  air                      W/K  1 … 1e6
 *   Ta  air into the core        K    220 … 400
 *   ε   effectiveness            1
 *   T1  coolant into the core    K
 *   T2  coolant out of the core  K
 *   T3  air out of the core      K
 * Errors: `out-of-range`. Limits: steady, crossflow both unmixed, thermostat fully open.
 * Source: Kays & London; Incropera & DeWitt, table 11.3 [from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { effectivenessOf } from '../heat/effectiveness.ts'
import { incropera, kaysLondon } from '../heat/sources.ts'

const rate = (symbol: string, about: string) =>
  quantity('heatCapacityRate', { symbol, min: 1, max: 1e6, plausible: [100, 2e4], about })
const gas = { heat: 3.77e5, conductance: 100 * 39.7, coolantRate: 1889, airRate: 4197, airIn: 308.15 }

export const radiatorTemperature = calculation({
  id: 'radiator-temperature',
  title: 'How hot the coolant gets, for the radiator to shed a heat',
  inputs: {
    heat: quantity('power', { symbol: 'Q', min: 0, max: 1e6, plausible: [3e3, 2e5], about: 'heat to be shed' }),
    conductance: quantity('heatCapacityRate', {
      symbol: 'UA',
      min: 1,
      max: 1e5,
      plausible: [300, 6000],
      about: 'conductance of the radiator at these flows',
    }),
    coolantRate: rate('Cw', 'coolant: mass flow times specific heat'),
    airRate: rate('Ca', 'air: mass flow times specific heat'),
    airIn: quantity('temperature', {
      symbol: 'Ta',
      min: 220,
      max: 400,
      plausible: [250, 340],
      about: 'air into the core, warmed by whatever stands before it',
    }),
  },
  outputs: {
    effectiveness: result('ratio', { symbol: 'ε', about: 'effectiveness on the lesser heat capacity rate' }),
    coolantIn: result('temperature', { symbol: 'T1', about: 'coolant into the core: what the engine lets out' }),
    coolantOut: result('temperature', { symbol: 'T2', about: 'coolant out of the core' }),
    airOut: result('temperature', { symbol: 'T3', about: 'air out of the core' }),
  },
  formula:
    '{effectiveness} = f({conductance} / min, min/max of {coolantRate} and {airRate}), crossflow, both unmixed\n{coolantIn} = {airIn} + {heat} / ({effectiveness} × min({coolantRate}, {airRate}))\n{coolantOut} = {coolantIn} − {heat} / {coolantRate}\n{airOut} = {airIn} + {heat} / {airRate}',
  sources: [kaysLondon, incropera],
  cautions: ['Hot coolant scalds: never open the system hot.'],
  limits: [
    'Steady, thermostat fully open, even flow over the core. Conductance belongs to these flows; scale and bent fins take from it.',
  ],
  checks: [
    {
      inputs: gas,
      output: 'coolantIn',
      expected: 573.15,
      tolerance: { abs: 2 },
      because: 'the book’s area of 39.7 m² is read off a chart',
      source: { ...incropera, where: 'example 11.3: gas in at 300 °C, 3.77e5 W, water in at 35 °C' },
      evidence: 'published',
    },
    {
      inputs: gas,
      output: 'airOut',
      expected: 398.15,
      tolerance: { abs: 0.4 },
      because: 'heat printed to three digits',
      source: { ...incropera, where: 'example 11.3: water out at 125 °C' },
      evidence: 'published',
    },
  ],
  compute: ({ heat, conductance, coolantRate, airRate, airIn }) => {
    const lesser = Math.min(coolantRate, airRate)
    const effectiveness = effectivenessOf(
      'crossflow, both unmixed',
      conductance / lesser,
      lesser / Math.max(coolantRate, airRate),
    )
    const coolantIn = airIn + heat / (effectiveness * lesser)
    return { effectiveness, coolantIn, coolantOut: coolantIn - heat / coolantRate, airOut: airIn + heat / airRate }
  },
})
