/**
 * Torque that a plate clutch passes before it slips.   worn in: Tw = n·μ·F·(D + d)/4; new: Tn = n·μ·F·(D³ − d³)/(3·(D² − d²))
 *   F   clamping force        N    100 … 1e5
 *   μ   friction              1    0.05 … 0.8
 *   D   lining, outside       m    0.05 … 0.6
 *   d   lining, inside        m    0.02 … 0.58
 *   n   rubbing faces         1    1 … 20
 *   Tw  torque, worn in       N·m
 *   Tn  torque, new lining    N·m
 * Errors: `out-of-range`, `not-whole`, `inconsistent-inputs`. Limits: clean, dry, not hot; friction as a range.
 * Source: Shigley, uniform wear and uniform pressure; Khurmi, Theory of Machines, example 10.23 [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { mechanics } from './sources.ts'

const khurmi: Source = {
  title: 'Khurmi and Gupta, Theory of Machines, chapter 10, plate clutch',
  where: '300 and 200 mm, 0.1 N/mm² at the inside (3142 N), 0.3, both sides: 235.65 N·m',
  how: 'memory',
}
const facing: Source = {
  title: 'Coefficient of friction of clutch facing, curioustab.com',
  where: 'organic facing about 0.35 to 0.45',
  how: 'read',
}
const EXAMPLE = { clamp: 3142, friction: 0.3, outer: 0.3, inner: 0.2, faces: 2 }

export const clutchTorque = calculation({
  id: 'clutch-torque',
  title: 'Torque that a plate clutch passes before it slips',
  inputs: {
    clamp: quantity('force', {
      symbol: 'F',
      min: 100,
      max: 1e5,
      plausible: [2000, 2e4],
      about: 'clamping force of the cover at the thickness of the plate',
    }),
    friction: quantity('ratio', {
      symbol: 'μ',
      min: 0.05,
      max: 0.8,
      plausible: [0.25, 0.5],
      about: 'friction of the lining, with its range',
    }),
    outer: quantity('length', {
      symbol: 'D',
      min: 0.05,
      max: 0.6,
      plausible: [0.15, 0.3],
      about: 'outside of the lining',
    }),
    inner: quantity('length', {
      symbol: 'd',
      min: 0.02,
      max: 0.58,
      plausible: [0.1, 0.22],
      about: 'inside of the lining',
    }),
    faces: quantity('ratio', { symbol: 'n', min: 1, max: 20, whole: true, about: 'rubbing faces, two for each plate' }),
  },
  outputs: {
    worn: result('torque', { symbol: 'Tw', about: 'torque once the lining is worn in: wear even over the lining' }),
    fresh: result('torque', { symbol: 'Tn', about: 'torque of a new lining: pressure even over it' }),
  },
  conditions: [
    {
      at: 'inner',
      holds: ({ outer, inner }) => inner < outer,
      says: 'The lining’s inside is not smaller than its outside.',
      todo: 'Measure both diameters of the lining.',
    },
  ],
  formula:
    '{worn} = {faces} × {friction} × {clamp} × ({outer} + {inner}) / 4\n{fresh} = {faces} × {friction} × {clamp} × ({outer}³ − {inner}³) / (3 × ({outer}² − {inner}²))',
  sources: [mechanics, khurmi, facing],
  cautions: ['Dust of old linings may be asbestos: wipe it wet, never blow.'],
  limits: [
    'Clean, dry and not hot. Friction falls with heat and oil, the clamping force with wear: judge by the worn-in figure at the low end of its ±.',
  ],
  checks: [
    {
      inputs: EXAMPLE,
      output: 'worn',
      expected: 235.65,
      tolerance: { abs: 0.01 },
      because: 'last digit printed',
      source: khurmi,
      evidence: 'published',
    },
    {
      // Of a full disc even pressure acts at two thirds of the radius.
      inputs: { clamp: 3000, friction: 0.4, outer: 0.6, inner: 0.02, faces: 1 },
      output: 'fresh',
      expected: (0.4 * 3000 * 0.6) / 3,
      tolerance: { rel: 2e-3 },
      because: 'an inside of 20 mm in 600 mm is near to none',
      source: mechanics,
      evidence: 'law',
    },
  ],
  compute: ({ clamp, friction, outer, inner, faces }) => ({
    worn: (faces * friction * clamp * (outer + inner)) / 4,
    fresh: (faces * friction * clamp * (outer ** 3 - inner ** 3)) / (3 * (outer ** 2 - inner ** 2)),
  }),
})
