/**
 * Vapour that a warming tank pushes out.   V = U·(ΔT/T + Δpv/(p − pv))
 *   U    space above the fuel            m³  1e-6 … 10
 *   T1   temperature before              K   250 … 340
 *   T2   temperature after               K   250 … 340
 *   pv1  vapour pressure before          Pa  0 … 200000
 *   pv2  vapour pressure after           Pa  0 … 200000
 *   p    pressure in the tank            Pa  50000 … 200000
 *   V    volume pushed out               m³
 *   k    the same as a share of U        1
 * Errors: `out-of-range`, `inconsistent-inputs` (vapour pressure at or above the tank’s: the fuel boils).
 * Limits: space saturated with vapour; small steps. Source: US EPA AP-42 chapter 7.1, vapour space expansion factor [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const ap42: Source = {
  title: 'Vapour space expansion factor K = ΔT/T + Δpv/(p − pv)',
  where: 'US EPA AP-42 chapter 7.1, equation 1-5',
  how: 'memory',
}
const short: Source = {
  title: 'Vapour space expansion factor of liquids of little vapour pressure: 0.0018 per °F',
  where: 'US EPA AP-42 chapter 7.1, equation 1-12',
  how: 'memory',
}

export const vapourGrowth = calculation({
  id: 'vapour-growth',
  title: 'Vapour that a warming tank pushes out',
  inputs: {
    space: quantity('volume', {
      symbol: 'U',
      min: 1e-6,
      max: 10,
      plausible: [1e-3, 0.2],
      about: 'space above the fuel',
    }),
    before: quantity('temperature', { symbol: 'T1', min: 250, max: 340, about: 'temperature before' }),
    after: quantity('temperature', { symbol: 'T2', min: 250, max: 340, about: 'temperature after' }),
    vapourBefore: quantity('pressureAbsolute', { symbol: 'pv1', min: 0, max: 2e5, about: 'vapour pressure before' }),
    vapourAfter: quantity('pressureAbsolute', { symbol: 'pv2', min: 0, max: 2e5, about: 'vapour pressure after' }),
    pressure: quantity('pressureAbsolute', { symbol: 'p', min: 5e4, max: 2e5, about: 'absolute pressure in the tank' }),
  },
  outputs: {
    volume: result('volume', { symbol: 'V', about: 'vapour and air pushed out' }),
    share: result('ratio', { symbol: 'k', about: 'the same as a share of the space' }),
  },
  formula:
    '{share} = 2 ({after} − {before}) / ({after} + {before}) + ({vapourAfter} − {vapourBefore}) / ({pressure} − ({vapourBefore} + {vapourAfter}) / 2)\n{volume} = {space} × {share}',
  sources: [ap42],
  cautions: ['What leaves is petrol vapour, heavier than air: it runs along the floor to a flame or a spark.'],
  limits: [
    'A space already full of vapour, warmed in a small step. At and above its boiling point a fuel makes vapour as fast as heat comes in.',
  ],
  conditions: [
    {
      at: 'vapourAfter',
      holds: ({ vapourBefore, vapourAfter, pressure }) => Math.max(vapourBefore, vapourAfter) < pressure,
      says: 'The vapour pressure reaches the pressure in the tank: the fuel boils.',
      todo: 'Lower the fuel’s temperature, or take the vapour from the heat that goes in.',
    },
  ],
  checks: [
    {
      inputs: {
        space: 1,
        before: 288.15,
        after: 288.15 + 10 / 1.8,
        vapourBefore: 0,
        vapourAfter: 0,
        pressure: 101325,
      },
      output: 'share',
      expected: 0.018,
      tolerance: { rel: 0.08 },
      because: 'two digits, for warm summer tanks of 95 °F; here 64 °F',
      source: short,
      evidence: 'published',
    },
    {
      inputs: { space: 1, before: 300, after: 300, vapourBefore: 30000, vapourAfter: 30001, pressure: 1e5 },
      output: 'share',
      expected: 1 / 69999.5,
      tolerance: { rel: 1e-6 },
      because: 'law: air stays, its pressure falls by what the vapour gains',
      source: ap42,
      evidence: 'law',
    },
  ],
  compute: ({ space, before, after, vapourBefore, vapourAfter, pressure }) => {
    const share =
      (2 * (after - before)) / (after + before) +
      (vapourAfter - vapourBefore) / (pressure - (vapourBefore + vapourAfter) / 2)
    return { share, volume: space * share }
  },
})
