/**
 * Torque at which a tube yields.   Ty = k·Re·π·(D⁴ − (D − 2s)⁴)/(16·D)
 *   Re  yield strength  Pa   5e7 … 2e9
 *   D   outside         m    0.01 … 0.3
 *   s   wall            m    2e-4 … 0.15
 *   Ty  torque at yield  N·m
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: steady torque on a sound tube; no fatigue, no weld.
 * Source: von Mises, shear yield = 0.577 of that in tension, Shigley [from memory]; worked figure below [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { TUBE_HOLDS, torsionModulus, tubeInputs } from './shaftShear.ts'
import { mechanics } from './sources.ts'

const worked: Source = {
  title: 'MecMovies, torsion: 40 mm outside, J = 171 805.85 mm⁴ (30 mm inside), 50 MPa in shear allowed',
  where: '430 N·m, before rounding 429.51 N·m',
  how: 'read',
}
/** 1/√3. */
const MISES = 0.5773502692

export const shaftYield = calculation({
  id: 'shaft-yield-torque',
  title: 'Torque at which a propeller shaft’s tube yields',
  inputs: {
    strength: quantity('stress', {
      symbol: 'Re',
      min: 5e7,
      max: 2e9,
      plausible: [2e8, 8e8],
      about: 'yield strength of the tube in tension, by its maker',
    }),
    ...tubeInputs,
  },
  outputs: { torque: result('torque', { symbol: 'Ty', about: 'torque at which the tube begins to yield' }) },
  constants: { mises: { symbol: 'k', value: MISES, unit: '1', source: mechanics } },
  conditions: [TUBE_HOLDS],
  formula: '{torque} = {mises} × {strength} × π × ({diameter}⁴ − ({diameter} − 2 × {wall})⁴) / (16 × {diameter})',
  sources: [mechanics, worked],
  cautions: ['A propeller shaft is made and balanced by a specialist; a qualified person must inspect it.'],
  limits: ['Steady torque on a sound tube. Fatigue, welds, splines and joints give out below it.'],
  checks: [
    {
      inputs: { strength: 50e6 / MISES, diameter: 0.04, wall: 0.005 },
      output: 'torque',
      expected: 429.51,
      tolerance: { rel: 1e-4 },
      because: 'five digits printed',
      source: worked,
      evidence: 'published',
    },
  ],
  compute: ({ strength, diameter, wall }) => ({ torque: MISES * strength * torsionModulus(diameter, wall) }),
})
