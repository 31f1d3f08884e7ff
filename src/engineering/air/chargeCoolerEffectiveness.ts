/**
 * Effectiveness of a charge cooler from three temperatures.   ε = (T1 − T2) / (T1 − Tc)
 *   T1  charge temperature into the cooler     K  230 … 600
 *   T2  charge temperature out of the cooler   K  230 … 600
 *   Tc  cold reference                         K  220 … 420
 *   ε   effectiveness                          1
 *   ΔT  temperature taken out                  K
 * Errors: `out-of-range`, `inconsistent-inputs` (charge not at least 5 K above the cold reference; below 0 or above 1). Limits: steady state,
 *   air the lesser heat capacity rate; the cold reference must be named.
 * Source: Incropera & DeWitt, chapter 11 [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const incropera: Source = {
  title: 'Incropera & DeWitt, Fundamentals of Heat and Mass Transfer',
  where: 'chapter 11',
  how: 'memory',
}
const LEAST_DIFFERENCE = 5

export const chargeCoolerEffectiveness = calculation({
  id: 'charge-cooler-effectiveness',
  title: 'Effectiveness of a charge cooler',
  inputs: {
    inlet: quantity('temperature', {
      symbol: 'T1',
      min: 230,
      max: 600,
      plausible: [300, 480],
      about: 'charge temperature into the cooler',
    }),
    outlet: quantity('temperature', {
      symbol: 'T2',
      min: 230,
      max: 600,
      plausible: [270, 360],
      about: 'charge temperature out of the cooler',
    }),
    coldReference: quantity('temperature', {
      symbol: 'Tc',
      min: 220,
      max: 420,
      plausible: [250, 335],
      about: 'cold reference: air into the front exchanger, or water into the cooler',
    }),
  },
  outputs: {
    effectiveness: result('ratio', { symbol: 'ε', about: 'effectiveness against the stated cold reference' }),
    drop: result('temperatureDifference', { symbol: 'ΔT', about: 'temperature taken out of the charge' }),
  },
  formula: '{effectiveness} = ({inlet} − {outlet}) / ({inlet} − {coldReference})\n{drop} = {inlet} − {outlet}',
  sources: [incropera],
  cautions: ['Two coolers compare only against the same cold reference, at equal air flow.'],
  limits: [
    'Steady state; a short pull on a water loop shows heat stored, not effectiveness. Equal to ε of the ε–NTU method only where the charge has the lesser heat capacity rate.',
  ],
  conditions: [
    {
      at: 'coldReference',
      holds: (given) => given.inlet - given.coldReference >= LEAST_DIFFERENCE,
      says: `The charge is not at least ${LEAST_DIFFERENCE} K hotter than the cold reference, so effectiveness has no meaning.`,
      todo: 'Take readings under boost, or look at the sensors.',
    },
    {
      at: 'outlet',
      holds: (given) => given.outlet >= given.coldReference,
      says: 'The charge would leave the cooler colder than its cold reference: an effectiveness over 1, which none has.',
      todo: 'Look whether the outlet and the cold reference are swapped, or the cold reference was read elsewhere or later (heat soak).',
    },
    {
      at: 'outlet',
      holds: (given) => given.outlet <= given.inlet,
      says: 'The charge would leave the cooler hotter than it went in.',
      todo: 'Look whether the two sensors are swapped, or the cooler is soaked with heat from standing.',
    },
  ],
  checks: [
    {
      inputs: { inlet: 573.15, outlet: 373.15, coldReference: 308.15 },
      output: 'effectiveness',
      expected: 0.755,
      tolerance: { abs: 6e-4 },
      because: 'printed to three digits',
      source: { ...incropera, where: 'example 11.3: gas 300 to 100 °C, water in at 35 °C, gas the lesser rate' },
      evidence: 'published',
    },
    {
      inputs: { inlet: 400, outlet: 300, coldReference: 300 },
      output: 'effectiveness',
      expected: 1,
      tolerance: { abs: 1e-12 },
      because: 'cooled to the reference is all there is',
      source: incropera,
      evidence: 'law',
    },
  ],
  compute: ({ inlet, outlet, coldReference }) => ({
    effectiveness: (inlet - outlet) / (inlet - coldReference),
    drop: inlet - outlet,
  }),
})
