/**
 * Shear in a tube by torque.   τ = 16·T·D/(π·(D⁴ − (D − 2s)⁴))
 *   T  torque          N·m  0 … 1e5
 *   D  outside         m    0.01 … 0.3
 *   s  wall            m    2e-4 … 0.15
 *   τ  shear           Pa
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: the tube itself; welds and yokes are weaker.
 * Source: elastic torsion of a round tube, Shigley [from memory]; worked figure below [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { mechanics } from './sources.ts'

const worked: Source = {
  title: 'MecMovies, torsion: 114 mm outside, 102 mm inside, 5000 N·m',
  where: 'J = 5 954 575 mm⁴, 47.86 MPa',
  how: 'read',
}
/** m³: torque over shear at the outside. */
export const torsionModulus = (diameter: number, wall: number): number =>
  (Math.PI * (diameter ** 4 - (diameter - 2 * wall) ** 4)) / (16 * diameter)
export const tubeInputs = {
  diameter: quantity('length', {
    symbol: 'D',
    min: 0.01,
    max: 0.3,
    plausible: [0.04, 0.13],
    about: 'outside of the tube',
  }),
  wall: quantity('length', { symbol: 's', min: 2e-4, max: 0.15, plausible: [1.2e-3, 5e-3], about: 'wall of the tube' }),
}
export const TUBE_HOLDS = {
  at: 'wall',
  holds: ({ diameter, wall }: { readonly diameter: number; readonly wall: number }) => 2 * wall <= diameter,
  says: 'The wall is thicker than half of the outside.',
  todo: 'Measure the wall at an end, or take half of the outside for a solid shaft.',
} as const

export const shaftShear = calculation({
  id: 'shaft-shear',
  title: 'Shear in a propeller shaft’s tube',
  inputs: {
    torque: quantity('torque', { symbol: 'T', min: 0, max: 1e5, plausible: [100, 6000], about: 'torque in the shaft' }),
    ...tubeInputs,
  },
  outputs: { shear: result('stress', { symbol: 'τ', about: 'shear at the outside of the tube' }) },
  conditions: [TUBE_HOLDS],
  formula: '{shear} = 16 × {torque} × {diameter} / (π × ({diameter}⁴ − ({diameter} − 2 × {wall})⁴))',
  sources: [mechanics, worked],
  cautions: ['A propeller shaft is made and balanced by a specialist; a qualified person must inspect it.'],
  limits: [
    'The sound tube alone: weld, yoke, slip spline and joint each have their own limit, and a dent or rust takes the most.',
  ],
  checks: [
    {
      inputs: { torque: 5000, diameter: 0.114, wall: 0.006 },
      output: 'shear',
      expected: 47.86e6,
      tolerance: { rel: 2e-4 },
      because: 'four digits printed',
      source: worked,
      evidence: 'published',
    },
  ],
  compute: ({ torque, diameter, wall }) => ({ shear: torque / torsionModulus(diameter, wall) }),
})
