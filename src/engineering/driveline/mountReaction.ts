/**
 * What torque does to a pair of mounts.   ΔN = T/s; heavy side W + ΔN, light side W − ΔN
 *   T   torque held      N·m  0 … 3e4
 *   s   between mounts   m    0.05 … 2
 *   W   weight on each   N    0 … 2e4
 *   ΔN  force by torque  N
 *   Nh  heavy side       N
 *   Nl  light side       N
 * Errors: `out-of-range`. Limits: the pair alone holds the torque; slow, no shock.
 * Source: a couple is force × distance; worked figure below [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { mechanics } from './sources.ts'

const worked: Source = {
  title: 'Moment of a couple, numerade.com: 21 N at 0.4 m',
  where: '8.4 N·m',
  how: 'read',
}

export const mountReaction = calculation({
  id: 'mount-reaction',
  title: 'What the torque does to a pair of engine mounts',
  inputs: {
    torque: quantity('torque', {
      symbol: 'T',
      min: 0,
      max: 3e4,
      plausible: [50, 6000],
      about: 'torque that the mounts hold: at the gearbox’s output; of a transverse engine at the axle',
    }),
    span: quantity('length', {
      symbol: 's',
      min: 0.05,
      max: 2,
      plausible: [0.2, 1.2],
      about: 'between the two mounts, or arm from the roll axis to the torque stay',
    }),
    weight: quantity('force', {
      symbol: 'W',
      min: 0,
      max: 2e4,
      plausible: [200, 2500],
      about: 'weight that rests on each mount; 0 for a torque stay',
    }),
  },
  outputs: {
    change: result('force', { symbol: 'ΔN', about: 'force on each mount by the torque' }),
    heavy: result('force', { symbol: 'Nh', about: 'on the side that is pressed down' }),
    light: result('force', { symbol: 'Nl', about: 'on the side that is lifted; below 0 the mount is pulled' }),
  },
  formula: '{change} = {torque} / {span}\n{heavy} = {weight} + {change}\n{light} = {weight} − {change}',
  sources: [mechanics, worked],
  cautions: ['Mounts, their brackets and welds are structure: a qualified person must inspect them.'],
  limits: [
    'Held by this pair alone, slowly. A dropped clutch gives up to twice as much for a moment; braking by the engine turns it round.',
  ],
  checks: [
    {
      inputs: { torque: 8.4, span: 0.4, weight: 0 },
      output: 'change',
      expected: 21,
      tolerance: { rel: 1e-9 },
      because: 'exact as printed',
      source: worked,
      evidence: 'published',
    },
  ],
  compute: ({ torque, span, weight }) => {
    const change = torque / span
    return { change, heavy: weight + change, light: weight - change }
  },
})
