/**
 * Holding force of a parking brake on both wheels of an axle.   Q = F·i·η/2, M = Q·j·C·r, B = 2·M/R, z = B/(m·g)
 *   F   force on the lever     N    0 … 1500
 *   i   lever ratio            1    1 … 100
 *   η   cable efficiency       1    0.1 … 1
 *   j   ratio at the wheel     1    0.5 … 100
 *   C   factor of the brake    1    0 … 16
 *   r   friction radius        m    0.02 … 0.4
 *   R   tyre                   m    0.1 … 0.8
 *   m   mass                   kg   50 … 2e4
 *   Q   pull of one cable      N
 *   M   torque of one wheel    N·m
 *   B   holding force          N
 *   z   efficiency             1
 * Errors: `out-of-range`. Limits: both cables pull alike; return springs left out; cold, bedded linings.
 * Source: Shigley, example 16-2, for the shoes [from memory]; efficiency by motinfo.gov.uk, m4s03000802 [read].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { G } from '../exactUnits.ts'
import { tyreInput } from './discBrake.ts'
import { brakeEfficiency, shigley } from './sources.ts'

export const parkingBrake = calculation({
  id: 'parking-brake',
  title: 'Holding force of a parking brake',
  inputs: {
    force: quantity('force', {
      symbol: 'F',
      min: 0,
      max: 1500,
      plausible: [50, 700],
      about: 'force of the hand or foot at the lever’s grip',
    }),
    ratio: quantity('ratio', {
      symbol: 'i',
      min: 1,
      max: 100,
      plausible: [3, 15],
      about: 'lever ratio: pull on the equaliser over force on the grip',
    }),
    cables: quantity('ratio', {
      symbol: 'η',
      min: 0.1,
      max: 1,
      plausible: [0.5, 0.95],
      about: 'efficiency of the cables: pull at the wheels over pull at the equaliser',
    }),
    wheel: quantity('ratio', {
      symbol: 'j',
      min: 0.5,
      max: 100,
      plausible: [2, 30],
      about: 'force on each shoe or pad over the pull of that wheel’s cable',
    }),
    factor: quantity('ratio', {
      symbol: 'C',
      min: 0,
      max: 16,
      plausible: [0.4, 5],
      about: 'factor of the brake: both shoes’ factors together; of a disc twice the friction',
    }),
    radius: quantity('length', {
      symbol: 'r',
      min: 0.02,
      max: 0.4,
      plausible: [0.06, 0.18],
      about: 'inside radius of the drum, or effective radius of the disc',
    }),
    tyre: tyreInput,
    mass: quantity('mass', { symbol: 'm', min: 50, max: 2e4, plausible: [400, 4000], about: 'mass to be held' }),
  },
  outputs: {
    pull: result('force', { symbol: 'Q', about: 'pull of the cable at each wheel' }),
    torque: result('torque', { symbol: 'M', about: 'torque of one wheel' }),
    road: result('force', { symbol: 'B', about: 'holding force of both wheels at the road' }),
    efficiency: result('ratio', { symbol: 'z', about: 'holding force over weight' }),
  },
  constants: {
    gravity: {
      symbol: 'g',
      value: G,
      unit: 'm/s²',
      source: { title: 'Standard gravity, ISO 80000-3', how: 'memory' },
    },
  },
  formula:
    '{pull} = {force} × {ratio} × {cables} / 2\n{torque} = {pull} × {wheel} × {factor} × {radius}\n{road} = 2 × {torque} / {tyre}\n{efficiency} = {road} / ({mass} × {gravity})',
  sources: [shigley, brakeEfficiency],
  cautions: [
    'At best the arithmetic holds: a qualified person must inspect the brakes. Chock the wheels whatever it says.',
  ],
  limits: [
    'An equaliser that shares evenly, free cables, cold linings that lie on; discs that cool after a drive shrink and let go.',
    'Shoes that turn backwards may have other factors: two leading ones become two trailing ones.',
  ],
  checks: [
    {
      // 2280 N on each shoe: 400 N × 6 × 0.95 = 2280, half to each wheel, doubled again by the shoes’ lever.
      inputs: {
        force: 400,
        ratio: 6,
        cables: 0.95,
        wheel: 2,
        factor: 1.0701 + 0.4737,
        radius: 0.15,
        tyre: 0.3,
        mass: 1500,
      },
      output: 'torque',
      expected: 528,
      tolerance: { rel: 2e-3 },
      because: 'printed to three digits',
      source: { ...shigley, where: 'example 16-2: 2280 N on each shoe, both together 528 N·m' },
      evidence: 'published',
    },
    {
      // By hand: 2·528/0.3 = 3520 N over 1500·9.80665 = 14 710 N.
      inputs: { force: 400, ratio: 6, cables: 0.95, wheel: 2, factor: 1.54386, radius: 0.15, tyre: 0.3, mass: 1500 },
      output: 'efficiency',
      expected: 0.2393,
      tolerance: { rel: 3e-4 },
      because: 'four digits',
      source: { ...brakeEfficiency, how: 'computed' },
      evidence: 'law',
    },
  ],
  compute: ({ force, ratio, cables, wheel, factor, radius, tyre, mass }) => {
    const pull = (force * ratio * cables) / 2
    const torque = pull * wheel * factor * radius
    const road = (2 * torque) / tyre
    return { pull, torque, road, efficiency: road / (mass * G) }
  },
})
