/**
 * Oil that a drain of a pipe passes by its own weight, half full.   v = √(2·g·s·d/f(Re)), Re = v·d/ν, Q = v·π·d²/8
 *   d   bore                       m      0.002 … 2
 *   s   fall over length of pipe   1      0.001 … 1
 *   ν   kinematic viscosity        m²/s   5e-7 … 0.02
 *   ε   roughness of the wall      m      0 … 0.003
 *   v   mean velocity              m/s
 *   Q   flow                       m³/s
 *   Re  Reynolds number            1
 * Errors: `out-of-range`. Limits: even fall, no bend, no pressure from below; oil without foam.
 * Source: Darcy–Weisbach with Colebrook, 64/Re if laminar; half full, its hydraulic diameter is the bore’s.
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { G, GRAVITY } from '../exactUnits.ts'
import { frictionFactor } from '../fluids/frictionFactor.ts'
import { darcyWeisbach } from '../fluids/sources.ts'
import { roughnessInput, viscosityInput } from './oilInputs.ts'

const sewer: Source = {
  title: 'Colebrook–White, worked: 1.2 m, k 0.60 mm, 1 in 250, ν 1.005·10⁻⁶ m²/s: 2.363 m/s',
  where: 'holooly.com, equation 6.19 of its book',
  how: 'read',
}
const manual: Source = {
  title: 'Colebrook–White for drains: 300 mm, k 0.6 mm, 1 in 200: 1.11 m/s',
  where: 'scribd.com/document/678799402, table to a drainage manual',
  how: 'read',
}
/** On v: friction falls with speed more slowly than v² grows, so that the sum has one root. */
const speedOf = (bore: number, slope: number, viscosity: number, roughness: number): number => {
  const drive = 2 * G * slope * bore
  let [low, high] = [0, Math.sqrt(drive / 0.005)]
  for (let turn = 0; turn < 80; turn += 1) {
    const v = (low + high) / 2
    if (frictionFactor((v * bore) / viscosity, roughness / bore) * v * v < drive) low = v
    else high = v
  }
  return (low + high) / 2
}

export const oilDrain = calculation({
  id: 'oil-drain',
  title: 'Oil that a drain passes by its own weight',
  inputs: {
    bore: quantity('length', { symbol: 'd', min: 0.002, max: 2, plausible: [0.008, 0.03], about: 'bore of the drain' }),
    slope: quantity('ratio', {
      symbol: 's',
      min: 0.001,
      max: 1,
      plausible: [0.05, 1],
      about: 'fall over length of pipe; 1 is straight down',
    }),
    viscosity: viscosityInput,
    roughness: roughnessInput,
  },
  outputs: {
    velocity: result('speed', { symbol: 'v', about: 'mean velocity, pipe half full' }),
    flow: result('volumeFlow', { symbol: 'Q', about: 'flow, pipe half full' }),
    reynolds: result('ratio', { symbol: 'Re', about: 'Reynolds number' }),
  },
  constants: { gravity: { symbol: 'g', value: G, unit: 'm/s²', source: GRAVITY } },
  formula:
    '{velocity} = √(2 × {gravity} × {slope} × {bore} / f), f by Colebrook at {roughness} / {bore}, or 64 / {reynolds} if laminar\n{reynolds} = {velocity} × {bore} / {viscosity}\n{flow} = {velocity} × π × {bore}² / 8',
  sources: [darcyWeisbach, sewer],
  cautions: [
    'Oil that cannot leave the bearings is pressed through the seals into exhaust and intake, and smokes or burns.',
  ],
  limits: [
    'Oil without foam, an even fall and no bend. Behind bearings it is foam of several times the volume: keep much in hand.',
    'No pressure from below: blow-by in the sump, or an end below the oil’s level, stops a drain of any bore.',
  ],
  checks: [
    {
      inputs: { bore: 1.2, slope: 1 / 250, viscosity: 1.005e-6, roughness: 6e-4 },
      output: 'velocity',
      expected: 2.363,
      tolerance: { rel: 2e-3 },
      because: 'the book takes 2.5 for 2.51 and gravity 9.81; half full, the velocity is that of the full pipe',
      source: sewer,
      evidence: 'published',
    },
    {
      inputs: { bore: 0.3, slope: 1 / 200, viscosity: 1.14e-6, roughness: 6e-4 },
      output: 'velocity',
      expected: 1.11,
      tolerance: { abs: 0.0051 },
      because: 'printed to three digits',
      source: manual,
      evidence: 'published',
    },
    {
      // Half of what Hagen–Poiseuille gives for the full pipe: no shear at its middle, so a free surface there changes nothing.
      inputs: { bore: 0.016, slope: 0.5, viscosity: 1e-3, roughness: 1.5e-6 },
      output: 'flow',
      expected: (Math.PI * 0.016 ** 4 * G * 0.5) / (256 * 1e-3),
      tolerance: { rel: 1e-9 },
      because: 'the same law',
      source: { title: 'Hagen–Poiseuille, half of the full pipe', how: 'computed' },
      evidence: 'law',
    },
  ],
  compute: ({ bore, slope, viscosity, roughness }) => {
    const velocity = speedOf(bore, slope, viscosity, roughness)
    return { velocity, flow: (velocity * Math.PI * bore ** 2) / 8, reynolds: (velocity * bore) / viscosity }
  },
})
