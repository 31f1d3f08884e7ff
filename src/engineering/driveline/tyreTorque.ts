/**
 * Torque that the driven tyres pass to the road before they spin.   rear: F = μ·g·m2/(1 − μ·h/L); front: F = μ·g·m1/(1 + μ·h/L); all: F = μ·g·m; T = F·r
 *   W   driven wheels           one of front, rear, all
 *   m1  mass on the front axle  kg    50 … 2e4
 *   m2  mass on the rear axle   kg    50 … 2e4
 *   h   centre of gravity       m     0 … 2.5
 *   L   wheelbase               m     0.8 … 8
 *   μ   grip of the tyres       1     0.05 … 1.6
 *   r   rolling radius          m     0.1 … 1
 *   F   drive force             N
 *   T   torque at the axle      N·m
 *   a   acceleration            m/s²
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: level road, both wheels of an axle alike.
 * Source: Gillespie, chapter 2 [from memory]; worked figures below [read].
 */
import { calculation, choice, quantity, result, type Source } from '../calculation.ts'
import { G, GRAVITY } from '../exactUnits.ts'
import { vehicleDynamics } from './sources.ts'

const mass = (symbol: string, about: string) =>
  quantity('mass', { symbol, min: 50, max: 2e4, plausible: [150, 2500], about })
const noTransfer: Source = {
  title: 'Rear-wheel drive with 48 % on its driven wheels, friction 0.60, wyzant.com',
  where: 'greatest acceleration 2.82 m/s²',
  how: 'read',
}
const transfer: Source = {
  title: 'Vehicle acceleration: effect of load transfer, slideshare.net, lecture of B. Waluyo',
  where: 'm·a = μ·(RR + m·a·h/b); 1.8 t, 2.6 m, 0.7 m, midway, 0.7; answer reckoned from it here',
  how: 'computed',
}
/** Peak grip of a car’s tyre on dry asphalt or concrete. */
export const DRY_GRIP = {
  value: 0.85,
  plusMinus: 0.05,
  source: {
    title: 'Wong, Theory of Ground Vehicles, table of average values: dry asphalt and concrete, peak 0.8 to 0.9',
    how: 'memory',
  },
} as const

export const tyreTorque = calculation({
  id: 'tyre-torque',
  title: 'Torque that the driven tyres pass before they spin',
  inputs: {
    driven: choice(['front', 'rear', 'all'], { symbol: 'W', about: 'driven wheels' }),
    frontMass: mass('m1', 'mass on the front axle, standing'),
    rearMass: mass('m2', 'mass on the rear axle, standing'),
    height: quantity('length', {
      symbol: 'h',
      min: 0,
      max: 2.5,
      plausible: [0.35, 1],
      about: 'height of the centre of gravity',
    }),
    wheelbase: quantity('length', { symbol: 'L', min: 0.8, max: 8, plausible: [1.8, 3.8], about: 'wheelbase' }),
    grip: quantity('ratio', { symbol: 'μ', min: 0.05, max: 1.6, plausible: [0.6, 1.2], about: 'grip of the tyres' }),
    radius: quantity('length', { symbol: 'r', min: 0.1, max: 1, plausible: [0.24, 0.42], about: 'rolling radius' }),
  },
  outputs: {
    force: result('force', { symbol: 'F', about: 'drive force at the point of spinning' }),
    torque: result('torque', { symbol: 'T', about: 'torque at the driven axle, or axles, together' }),
    acceleration: result('acceleration', { symbol: 'a', about: 'acceleration' }),
  },
  constants: { gravity: { symbol: 'g', value: G, unit: 'm/s²', source: GRAVITY } },
  conditions: [
    {
      at: 'height',
      holds: ({ driven, frontMass, rearMass, height, wheelbase, grip }) =>
        driven === 'front' || (frontMass + rearMass) * grip * height < frontMass * wheelbase,
      says: 'With this grip the front wheels would leave the road.',
      todo: 'Look at the height of the centre of gravity and at the grip.',
    },
  ],
  formula:
    '{force} = {grip} × {gravity} × {rearMass} / (1 − {grip} × {height} / {wheelbase}) with {driven} = rear\n{force} = {grip} × {gravity} × {frontMass} / (1 + {grip} × {height} / {wheelbase}) with {driven} = front\n{force} = {grip} × {gravity} × ({frontMass} + {rearMass}) with {driven} = all\n{torque} = {force} × {radius}\n{acceleration} = {force} / ({frontMass} + {rearMass})',
  sources: [vehicleDynamics, noTransfer, transfer],
  cautions: [],
  limits: [
    'Level road, left and right alike; a live axle unloads one wheel by the shaft’s torque, so less is passed by an open differential.',
  ],
  checks: [
    {
      inputs: { driven: 'rear', frontMass: 520, rearMass: 480, height: 0, wheelbase: 2.5, grip: 0.6, radius: 0.3 },
      output: 'acceleration',
      expected: 2.82,
      tolerance: { abs: 0.005 },
      because: 'last digit printed',
      source: noTransfer,
      evidence: 'published',
    },
    {
      inputs: { driven: 'rear', frontMass: 900, rearMass: 900, height: 0.7, wheelbase: 2.6, grip: 0.7, radius: 0.3 },
      output: 'acceleration',
      expected: (0.7 * G * 0.5) / (1 - (0.7 * 0.7) / 2.6),
      tolerance: { rel: 1e-9 },
      because: 'the printed equation solved for a',
      source: transfer,
      evidence: 'law',
    },
    {
      inputs: { driven: 'front', frontMass: 900, rearMass: 900, height: 0.7, wheelbase: 2.6, grip: 0.7, radius: 0.3 },
      output: 'acceleration',
      expected: (0.7 * G * 0.5) / (1 + (0.7 * 0.7) / 2.6),
      tolerance: { rel: 1e-9 },
      because: 'the printed equation solved for a',
      source: transfer,
      evidence: 'law',
    },
  ],
  compute: ({ driven, frontMass, rearMass, height, wheelbase, grip, radius }) => {
    const lean = (grip * height) / wheelbase
    const load =
      driven === 'rear' ? rearMass / (1 - lean) : driven === 'front' ? frontMass / (1 + lean) : frontMass + rearMass
    const force = grip * G * load
    return { force, torque: force * radius, acceleration: force / (frontMass + rearMass) }
  },
})
