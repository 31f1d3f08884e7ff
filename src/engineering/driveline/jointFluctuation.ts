/**
 * How a joint at an angle changes the speed behind it.   ωmax = ω/cos β; ωmin = ω·cos β; u = (ωmax − ωmin)/ω = sin β·tan β
 *   β     angle of the joint  rad    0 … 0.785
 *   ω     speed before it     rad/s  0 … 2000
 *   ωmax  greatest speed      rad/s
 *   ωmin  least speed         rad/s
 *   u     fluctuation         1
 * Errors: `out-of-range`. Limits: one joint of cross and yokes; twice up and down in each turn.
 * Source: Hooke’s joint, textbooks of mechanisms; worked figure below [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { RPM } from '../exactUnits.ts'
import { jointHandbook } from './sources.ts'

const worked: Source = {
  title: 'Hooke’s joint at 1200 r.p.m. with 100 r.p.m. of fluctuation, askfilo.com',
  where: 'cos β = 0.9592: 1251 and 1151 r.p.m. (the angle itself is misprinted there)',
  how: 'read',
}

export const jointFluctuation = calculation({
  id: 'joint-fluctuation',
  title: 'How a joint at an angle changes the speed behind it',
  inputs: {
    angle: quantity('angle', { symbol: 'β', min: 0, max: 0.785, plausible: [0, 0.2], about: 'angle of the joint' }),
    speed: quantity('angularSpeed', {
      symbol: 'ω',
      min: 0,
      max: 2000,
      plausible: [0, 900],
      about: 'speed of the shaft before it',
    }),
  },
  outputs: {
    greatest: result('angularSpeed', { symbol: 'ωmax', about: 'greatest speed behind it' }),
    least: result('angularSpeed', { symbol: 'ωmin', about: 'least speed behind it' }),
    share: result('ratio', { symbol: 'u', about: 'fluctuation, greatest less least, over the speed' }),
  },
  formula: '{greatest} = {speed} / cos {angle}\n{least} = {speed} × cos {angle}\n{share} = sin {angle} × tan {angle}',
  sources: [jointHandbook, worked],
  cautions: [],
  limits: [
    'One joint of a cross in two yokes, not a constant-velocity joint. Torque behind it swings by the same share.',
  ],
  checks: [
    {
      inputs: { angle: Math.acos(0.9592), speed: 1200 * RPM },
      output: 'greatest',
      expected: 1251 * RPM,
      tolerance: { abs: 0.5 * RPM },
      because: 'last digit printed',
      source: worked,
      evidence: 'published',
    },
    {
      inputs: { angle: Math.acos(0.9592), speed: 1200 * RPM },
      output: 'least',
      expected: 1151 * RPM,
      tolerance: { abs: 0.5 * RPM },
      because: 'last digit printed',
      source: worked,
      evidence: 'published',
    },
  ],
  compute: ({ angle, speed }) => ({
    greatest: speed / Math.cos(angle),
    least: speed * Math.cos(angle),
    share: Math.sin(angle) * Math.tan(angle),
  }),
})
