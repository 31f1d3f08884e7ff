/**
 * Pressure lost in a round pipe with its fittings.   Δp = (f·L/d + K)·ρ·v²/2
 *   Q   volume flow             m³/s   0 … 1
 *   d   bore                    m      5e-4 … 0.5
 *   L   length                  m      0 … 1000
 *   ε   roughness of the wall   m      0 … 0.003
 *   K   sum of fitting losses   1      0 … 1000
 *   ρ   density                 kg/m³  0.1 … 1500
 *   ν   kinematic viscosity     m²/s   1e-7 … 0.01
 *   v   mean velocity           m/s
 *   Re  Reynolds number         1
 *   f   Darcy friction factor   1
 *   Δp  pressure lost           Pa
 * Errors: `out-of-range`. Limits: steady, one phase, Mach number below 0.3; laminar below Re 2300, Colebrook above 4000.
 * Source: White, Fluid Mechanics, chapter 6 [from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { frictionFactor } from './frictionFactor.ts'
import { cengel, darcyWeisbach, fluidsLibrary, white } from './sources.ts'

const FOOT = 0.3048
const PSF = 47.88025898033584
const petrol = { length: 4, roughness: 1.5e-6, density: 745, viscosity: 5.5e-7 }

export const pipeLoss = calculation({
  id: 'pipe-loss',
  title: 'Pressure lost in a pipe and its fittings',
  inputs: {
    flow: quantity('volumeFlow', {
      symbol: 'Q',
      min: 0,
      max: 1,
      plausible: [1e-6, 0.1],
      about: 'volume flow in the pipe',
    }),
    bore: quantity('length', {
      symbol: 'd',
      min: 5e-4,
      max: 0.5,
      plausible: [0.003, 0.1],
      about: 'inside diameter, not the hose’s dash number',
    }),
    length: quantity('length', { symbol: 'L', min: 0, max: 1000, plausible: [0.01, 20], about: 'length of pipe' }),
    roughness: quantity('length', {
      symbol: 'ε',
      min: 0,
      max: 0.003,
      plausible: [0, 3e-4],
      about: 'roughness of the wall, 1.5 µm drawn tube',
    }),
    fittings: quantity('ratio', {
      symbol: 'K',
      min: 0,
      max: 1000,
      plausible: [0, 30],
      about: 'sum of fitting losses in velocity heads, 0 for none',
    }),
    density: quantity('density', { symbol: 'ρ', min: 0.1, max: 1500, about: 'density of what flows' }),
    viscosity: quantity('kinematicViscosity', {
      symbol: 'ν',
      min: 1e-7,
      max: 0.01,
      about: 'kinematic viscosity of what flows',
    }),
  },
  outputs: {
    velocity: result('speed', { symbol: 'v', about: 'mean velocity in the bore' }),
    reynolds: result('ratio', { symbol: 'Re', about: 'Reynolds number' }),
    friction: result('ratio', { symbol: 'f', about: 'Darcy friction factor' }),
    loss: result('pressureDifference', { symbol: 'Δp', about: 'pressure lost' }),
  },
  formula:
    '{velocity} = 4 × {flow} / (π × {bore}²)\n{reynolds} = {velocity} × {bore} / {viscosity}\n1/√{friction} = −2 log10({roughness} / (3.7 × {bore}) + 2.51 / ({reynolds} √{friction})); 64 / {reynolds} if laminar\n{loss} = ({friction} × {length} / {bore} + {fittings}) × {density} × {velocity}² / 2',
  sources: [darcyWeisbach],
  cautions: [
    'A hose is often narrower inside than its dash number says, and a fitting narrower than its hose: measure.',
  ],
  limits: [
    'Steady flow of one phase, away from vapour. Between Re 2300 and 4000 a pipe may run either way: the greater loss is given.',
    'Fittings as multiples of the velocity head, themselves good to about a factor of two in small pipes.',
  ],
  checks: [
    {
      inputs: {
        flow: 0.2 * FOOT ** 3,
        bore: (2 / 12) * FOOT,
        length: 200 * FOOT,
        roughness: 7e-6 * FOOT,
        fittings: 0,
        density: 62.36 * 16.01846337396014,
        viscosity: ((7.536e-4 * 1.4881639435695537) / (62.36 * 16.01846337396014)) as number,
      },
      output: 'loss',
      expected: 1700 * PSF,
      tolerance: { rel: 3e-3 },
      because: 'printed to three digits',
      source: cengel,
      evidence: 'published',
    },
    {
      inputs: { flow: 0.2, bore: 0.2, length: 500, roughness: 2.6e-4, fittings: 0, density: 900, viscosity: 1e-5 },
      output: 'loss',
      expected: 117 * 900 * 9.81,
      tolerance: { rel: 0.01 },
      because: 'the book reads f 0.0225 off the chart where the equation gives 0.02272',
      source: white,
      evidence: 'published',
    },
    {
      inputs: { ...petrol, flow: 0.12 / 3600, bore: 0.006, fittings: 3 },
      output: 'loss',
      expected: 11684.302251460227,
      tolerance: { rel: 1e-9 },
      because: 'the same equation, solved by another',
      source: fluidsLibrary,
      evidence: 'library',
    },
    {
      inputs: { ...petrol, flow: 0.02 / 3600, bore: 0.008, fittings: 0 },
      output: 'loss',
      expected: 90.5746360165335,
      tolerance: { rel: 1e-9 },
      because: 'laminar, the same equation',
      source: fluidsLibrary,
      evidence: 'library',
    },
  ],
  compute: ({ flow, bore, length, roughness, fittings, density, viscosity }) => {
    const velocity = (4 * flow) / (Math.PI * bore * bore)
    const reynolds = (velocity * bore) / viscosity
    // A pipe in which nothing moves loses nothing; its friction factor has no meaning and stands as that of Re 1.
    const friction = frictionFactor(Math.max(reynolds, 1), roughness / bore)
    return {
      velocity,
      reynolds,
      friction,
      loss: reynolds === 0 ? 0 : ((friction * length) / bore + fittings) * 0.5 * density * velocity * velocity,
    }
  },
})
