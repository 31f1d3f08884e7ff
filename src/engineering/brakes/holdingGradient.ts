/**
 * Gradient that a braked rear axle holds.   Gb = z/√(1 − z²), Gu = k·q/(1 − k·h/L), Gd = k·q/(1 + k·h/L)
 *   z   efficiency             1    0 … 0.99
 *   q   share on the rear      1    0.02 … 0.98
 *   h   centre of gravity      m    0 … 2
 *   L   wheelbase              m    0.5 … 8
 *   k   adhesion               1    0.05 … 1.2
 *   Gb  by the brake           1
 *   Gu  facing uphill          1
 *   Gd  facing downhill        1
 * Errors: `out-of-range`, `inconsistent-inputs` (height and adhesion too great for the wheelbase). Limits: rigid springs, dry road.
 * Source: Gillespie, chapters 1 and 3, loads on a grade [from memory]; sine and tangent tables.
 */
import { calculation, quantity, result } from '../calculation.ts'
import { gillespie, gradientTable } from './sources.ts'

export const holdingGradient = calculation({
  id: 'holding-gradient',
  title: 'Gradient that a parking brake on the rear axle holds',
  inputs: {
    efficiency: quantity('ratio', {
      symbol: 'z',
      min: 0,
      max: 0.99,
      plausible: [0.05, 0.5],
      about: 'holding force over weight',
    }),
    share: quantity('ratio', {
      symbol: 'q',
      min: 0.02,
      max: 0.98,
      plausible: [0.3, 0.7],
      about: 'share of the mass on the rear axle, on level ground',
    }),
    height: quantity('length', {
      symbol: 'h',
      min: 0,
      max: 2,
      plausible: [0.3, 1],
      about: 'height of the centre of gravity',
    }),
    wheelbase: quantity('length', { symbol: 'L', min: 0.5, max: 8, plausible: [1.5, 4], about: 'wheelbase' }),
    adhesion: quantity('ratio', {
      symbol: 'k',
      min: 0.05,
      max: 1.2,
      plausible: [0.2, 0.9],
      about: 'adhesion between tyre and road',
    }),
  },
  outputs: {
    brake: result('ratio', { symbol: 'Gb', about: 'gradient that the brake’s force holds' }),
    uphill: result('ratio', { symbol: 'Gu', about: 'gradient at which the rear tyres slide, facing uphill' }),
    downhill: result('ratio', { symbol: 'Gd', about: 'gradient at which the rear tyres slide, facing downhill' }),
  },
  formula:
    '{brake} = {efficiency} / √(1 − {efficiency}²)\n{uphill} = {adhesion} × {share} / (1 − {adhesion} × {height} / {wheelbase})\n{downhill} = {adhesion} × {share} / (1 + {adhesion} × {height} / {wheelbase})',
  sources: [gillespie, gradientTable],
  cautions: ['Chock the wheels on any slope: a figure holds no car.'],
  limits: ['The rear axle alone is braked; wheels and springs are thought stiff; the road is even.'],
  conditions: [
    {
      at: 'height',
      holds: ({ height, wheelbase, adhesion }) => adhesion * height < wheelbase,
      says: 'Height and adhesion are too great for this wheelbase: the car would tip backwards before it slides.',
      todo: 'Check the height of the centre of gravity and the wheelbase.',
    },
  ],
  checks: [
    {
      inputs: { efficiency: 0.1961, share: 0.4, height: 0.5, wheelbase: 2.4, adhesion: 0.8 },
      output: 'brake',
      expected: 0.2,
      tolerance: { rel: 5e-4 },
      because: 'sine printed to four digits',
      source: gradientTable,
      evidence: 'published',
    },
    {
      // By hand, the loads of the slope: 0.5 of the mass at the rear, 0.5/2.4 of the height, k 0.6: 0.3/0.875.
      inputs: { efficiency: 0.2, share: 0.5, height: 0.5, wheelbase: 2.4, adhesion: 0.6 },
      output: 'uphill',
      expected: 0.342857,
      tolerance: { rel: 1e-5 },
      because: 'worked by hand',
      source: { ...gillespie, how: 'computed' },
      evidence: 'law',
    },
    {
      // The same facing downhill: 0.3/1.125.
      inputs: { efficiency: 0.2, share: 0.5, height: 0.5, wheelbase: 2.4, adhesion: 0.6 },
      output: 'downhill',
      expected: 0.266667,
      tolerance: { rel: 1e-5 },
      because: 'worked by hand',
      source: { ...gillespie, how: 'computed' },
      evidence: 'law',
    },
  ],
  compute: ({ efficiency, share, height, wheelbase, adhesion }) => {
    const lever = (adhesion * height) / wheelbase
    return {
      brake: efficiency / Math.sqrt(1 - efficiency * efficiency),
      uphill: (adhesion * share) / (1 - lever),
      downhill: (adhesion * share) / (1 + lever),
    }
  },
})
