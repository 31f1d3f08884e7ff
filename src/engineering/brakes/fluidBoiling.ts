/**
 * Least boiling point of a brake fluid, and its margin.   Tb by table, D = Tb − T
 *   f   fluid        one of DOT 3, DOT 4, DOT 5, DOT 5.1
 *   w   water in it  one of dry, wet
 *   T   temperature  K   233 … 673
 *   Tb  boils at     K
 *   D   margin       K
 * Errors: `out-of-range`. Limits: the least that the standard lets a fluid have, at sea level; no altitude effect.
 * Source: FMVSS 116 (49 CFR 571.116), S5.1.1 and S5.1.2, as quoted at adelaideoil.com [read].
 */
import { calculation, choice, quantity, result } from '../calculation.ts'
import { brakeFluidStandard } from './sources.ts'

export const FLUIDS = ['DOT 3', 'DOT 4', 'DOT 5', 'DOT 5.1'] as const
export type Fluid = (typeof FLUIDS)[number]

const ICE = 273.15
/** °C, as printed. Wet: after the standard’s humidification. */
const BOILS: Readonly<Record<Fluid, { readonly dry: number; readonly wet: number }>> = {
  'DOT 3': { dry: 205, wet: 140 },
  'DOT 4': { dry: 230, wet: 155 },
  'DOT 5': { dry: 260, wet: 180 },
  'DOT 5.1': { dry: 260, wet: 180 },
}

const at = (fluid: Fluid, water: 'dry' | 'wet', boiling: number) => ({
  inputs: { fluid, water, temperature: 373.15 },
  output: 'boiling',
  expected: boiling + ICE,
  tolerance: { abs: 0.5 },
  because: 'printed to 1 °C',
  source: brakeFluidStandard,
  evidence: 'published' as const,
})

export const fluidBoiling = calculation({
  id: 'brake-fluid-boiling',
  title: 'Boiling point of brake fluid and its margin',
  inputs: {
    fluid: choice(FLUIDS, { symbol: 'f', about: 'kind of fluid, as on its tin' }),
    water: choice(['dry', 'wet'], {
      symbol: 'w',
      about: 'dry: straight from a sealed tin; wet: after it has taken up water',
    }),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 233,
      max: 673,
      plausible: [253, 523],
      about: 'temperature of the fluid, measured where it is hottest',
    }),
  },
  outputs: {
    boiling: result('temperature', { symbol: 'Tb', about: 'least boiling point of that fluid' }),
    margin: result('temperatureDifference', { symbol: 'D', about: 'margin before it boils' }),
  },
  formula: '{boiling} = table of {fluid}, {water}\n{margin} = {boiling} − {temperature}',
  sources: [brakeFluidStandard],
  cautions: [
    'Boiled fluid is a pedal that falls to the floor. A qualified person must inspect the brakes before the car is driven.',
  ],
  limits: [
    'The least that the standard allows a fluid of that kind; a good one has more, an old one may have less than wet.',
    'At the pressure of sea level: the effect of altitude is left out, no source for it is at hand.',
  ],
  checks: [
    at('DOT 3', 'dry', 205),
    at('DOT 3', 'wet', 140),
    at('DOT 4', 'dry', 230),
    at('DOT 4', 'wet', 155),
    at('DOT 5', 'dry', 260),
    at('DOT 5.1', 'wet', 180),
    {
      // By hand: 155 − 100 °C.
      inputs: { fluid: 'DOT 4', water: 'wet', temperature: 373.15 },
      output: 'margin',
      expected: 55,
      tolerance: { abs: 0.5 },
      because: 'boiling point printed to 1 °C',
      source: { ...brakeFluidStandard, how: 'computed' },
      evidence: 'law',
    },
  ],
  compute: ({ fluid, water, temperature }) => {
    const boiling = BOILS[fluid][water] + ICE
    return { boiling, margin: boiling - temperature }
  },
})
