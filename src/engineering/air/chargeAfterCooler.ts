/**
 * Charge temperature after a cooler of known effectiveness.   T2 = T1 − ε·(T1 − Tc)
 *   T1  charge into the cooler   K    230 … 600
 *   ε   effectiveness            1    0 … 1
 *   Tc  cold reference           K    220 … 420
 *   Ca  charge                   W/K  0.1 … 1e6
 *   T2  charge out               K
 *   Q   heat taken out           W
 * Errors: `out-of-range` (an effectiveness over 1: sensors swapped), `inconsistent-inputs`. Limits: steady, charge the lesser rate.
 * Source: Incropera & DeWitt, chapter 11 [from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { incropera, rateInput } from '../heat/sources.ts'

export const chargeAfterCooler = calculation({
  id: 'charge-after-cooler',
  title: 'Charge temperature after a cooler',
  inputs: {
    inlet: quantity('temperature', {
      symbol: 'T1',
      min: 230,
      max: 600,
      plausible: [300, 480],
      about: 'charge temperature into the cooler',
    }),
    effectiveness: quantity('ratio', {
      symbol: 'ε',
      min: 0,
      max: 1,
      plausible: [0.4, 0.95],
      about: 'effectiveness against that cold reference (over 1: two sensors swapped or heat-soaked)',
    }),
    coldReference: quantity('temperature', {
      symbol: 'Tc',
      min: 220,
      max: 420,
      plausible: [250, 335],
      about: 'cold reference: air into the front exchanger, or water into the cooler',
    }),
    chargeRate: rateInput('Ca', 'charge: mass flow times specific heat'),
  },
  outputs: {
    outlet: result('temperature', { symbol: 'T2', about: 'charge temperature out of the cooler' }),
    heat: result('power', { symbol: 'Q', about: 'heat taken out of the charge' }),
  },
  formula:
    '{outlet} = {inlet} − {effectiveness} × ({inlet} − {coldReference})\n{heat} = {chargeRate} × ({inlet} − {outlet})',
  sources: [incropera],
  cautions: [],
  limits: [
    'Steady state, the charge the lesser heat capacity rate; the cold reference must be the one ε was measured against.',
  ],
  conditions: [
    {
      at: 'coldReference',
      holds: (given) => given.coldReference <= given.inlet,
      says: 'The cold reference is hotter than the charge: the cooler would heat it.',
      todo: 'Look whether the two sensors are swapped, or the water is soaked with heat.',
    },
  ],
  checks: [
    {
      inputs: { inlet: 573.15, effectiveness: 0.755, coldReference: 308.15, chargeRate: 1889 },
      output: 'outlet',
      expected: 373.15,
      tolerance: { abs: 0.2 },
      because: 'effectiveness printed to three digits',
      source: { ...incropera, where: 'example 11.3: gas 300 to 100 °C, water in at 35 °C' },
      evidence: 'published',
    },
    {
      inputs: { inlet: 573.15, effectiveness: 0.755, coldReference: 308.15, chargeRate: 1889 },
      output: 'heat',
      expected: 3.77e5,
      tolerance: { rel: 4e-3 },
      because: 'printed to three digits',
      source: { ...incropera, where: 'example 11.3: 3.77e5 W' },
      evidence: 'published',
    },
  ],
  compute: ({ inlet, effectiveness, coldReference, chargeRate }) => {
    const outlet = inlet - effectiveness * (inlet - coldReference)
    return { outlet, heat: chargeRate * (inlet - outlet) }
  },
})
