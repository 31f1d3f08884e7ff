/**
 * Speed at which a tubular shaft whirls.   ωc = (π/L)²·√(E/ρ)·√(D² + (D − 2s)²)/4
 *   L   length between joints  m      0.1 … 4
 *   D   outside                m      0.01 … 0.3
 *   s   wall                   m      2e-4 … 0.15
 *   E   modulus                Pa     1e10 … 4e11
 *   ρ   density                kg/m³  1000 … 9000
 *   ωc  critical speed         rad/s
 *   ωh  half of it             rad/s
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: an even tube, freely held at both ends, first mode.
 * Source: Euler–Bernoulli beam, simply supported (Timoshenko; SAE AE-7) [from memory]; worked figures below [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { INCH, POUND, PSI, RPM } from '../exactUnits.ts'
import { TUBE_HOLDS, tubeInputs } from './shaftShear.ts'
import { jointHandbook } from './sources.ts'

const steel: Source = {
  title: 'Driveshaft critical speed, calcady.com',
  where: '45 in, 3.5 in, wall 0.083 in, 30·10⁶ lbf/in², 0.283 lb/in³: 11 390 rpm',
  how: 'read',
}
const aluminium: Source = {
  title: 'Calculator of a shaft maker, quoted at supramania.com, post 832094',
  where: '39 in, 3.00 in, wall 0.125 in, 10·10⁶ lbf/in², 0.098 lb/in³: 12 480 rpm',
  how: 'read',
}
const beam: Source = { title: 'Timoshenko, Vibration Problems in Engineering: simply supported beam', how: 'memory' }
const half: Source = {
  title:
    'Dana, note to its driveshaft calculator, quoted at supramania.com, post 832094; ocdriveshaft.com, shaft length',
  where: 'a joint at an angle shakes twice a turn, and does so to the shaft’s harm near half the critical speed',
  how: 'read',
}
const perCubicInch = POUND / INCH ** 3

/** Share of the critical speed up to which a shaft is used. */
export const WHIRL_SHARE = {
  value: 0.75,
  source: {
    title:
      'Driveshaft critical speed, machinecalcs.com: 0.75 of the first critical speed; SAE AE-7 has the same [from memory]',
    how: 'read',
  },
} as const

export const whirlingSpeed = calculation({
  id: 'shaft-whirling-speed',
  title: 'Speed at which a propeller shaft whirls',
  inputs: {
    length: quantity('length', {
      symbol: 'L',
      min: 0.1,
      max: 4,
      plausible: [0.4, 2],
      about: 'length from joint to joint, or to the centre bearing',
    }),
    ...tubeInputs,
    modulus: quantity('stress', { symbol: 'E', min: 1e10, max: 4e11, about: 'modulus of elasticity' }),
    density: quantity('density', { symbol: 'ρ', min: 1000, max: 9000, about: 'density' }),
  },
  outputs: {
    critical: result('angularSpeed', { symbol: 'ωc', about: 'critical speed of the shaft' }),
    half: result('angularSpeed', { symbol: 'ωh', about: 'half of it, where joints at an angle shake it' }),
  },
  conditions: [TUBE_HOLDS],
  formula:
    '{critical} = (π / {length})² × √({modulus} / {density}) × √({diameter}² + ({diameter} − 2 × {wall})²) / 4\n{half} = {critical} / 2',
  sources: [beam, jointHandbook, steel, aluminium, half],
  cautions: [
    'A shaft near its critical speed bends, breaks and is thrown out. It is made and balanced by a specialist; never drive to find the speed.',
  ],
  limits: [
    'An even, straight, balanced tube held freely at stiff ends. Yokes, slip joint, dents and soft mounts lower it: true shafts whirl at less.',
  ],
  checks: [
    {
      inputs: {
        length: 45 * INCH,
        diameter: 3.5 * INCH,
        wall: 0.083 * INCH,
        modulus: 30e6 * PSI,
        density: 0.283 * perCubicInch,
      },
      output: 'critical',
      expected: 11390 * RPM,
      tolerance: { rel: 1.5e-3 },
      because: 'its second moment of area is printed as 1.302 in⁴, which is 1.301',
      source: steel,
      evidence: 'published',
    },
    {
      inputs: {
        length: 39 * INCH,
        diameter: 3 * INCH,
        wall: 0.125 * INCH,
        modulus: 10e6 * PSI,
        density: 0.098 * perCubicInch,
      },
      output: 'critical',
      expected: 12480 * RPM,
      tolerance: { rel: 4e-3 },
      because: 'foam of unstated weight inside the tube',
      source: aluminium,
      evidence: 'published',
    },
  ],
  compute: ({ length, diameter, wall, modulus, density }) => {
    const critical =
      ((Math.PI / length) ** 2 * Math.sqrt(modulus / density) * Math.hypot(diameter, diameter - 2 * wall)) / 4
    return { critical, half: critical / 2 }
  },
})
