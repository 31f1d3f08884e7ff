/**
 * Viscosity of air.   μ = b·T^1.5/(T + S), ν = μ/ρ
 *   T  temperature           K      200 … 600
 *   ρ  density               kg/m³  0.1 … 20
 *   μ  dynamic viscosity     Pa·s
 *   ν  kinematic viscosity   m²/s
 * Errors: `out-of-range`. Limits: dry air up to some bar.
 * Source: US Standard Atmosphere 1976, Sutherland’s law [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const standard: Source = { title: 'US Standard Atmosphere 1976, Sutherland’s law', how: 'memory' }
const FACTOR = 1.458e-6
const SUTHERLAND = 110.4
const coolProp: Source = { title: 'CoolProp 8.0.0', where: 'PropsSI, viscosity of Air at 101 325 Pa', how: 'computed' }
const row = (temperature: number, expected: number) => ({
  inputs: { temperature, density: 1 },
  output: 'dynamic' as const,
  expected,
  tolerance: { rel: 0.011 },
  because: 'another correlation (Lemmon & Jacobsen), itself good to 1 %',
  source: coolProp,
  evidence: 'library' as const,
})

export const airViscosity = calculation({
  id: 'air-viscosity',
  title: 'Viscosity of air',
  inputs: {
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 200,
      max: 600,
      plausible: [243, 480],
      about: 'temperature of the air',
    }),
    density: quantity('density', { symbol: 'ρ', min: 0.1, max: 20, plausible: [0.7, 5], about: 'density of the air' }),
  },
  outputs: {
    dynamic: result('dynamicViscosity', { symbol: 'μ', about: 'dynamic viscosity' }),
    kinematic: result('kinematicViscosity', { symbol: 'ν', about: 'kinematic viscosity' }),
  },
  constants: {
    factor: { symbol: 'b', value: FACTOR, unit: 'kg/(s·m·K^½)', source: standard },
    sutherland: { symbol: 'S', value: SUTHERLAND, unit: 'K', source: standard },
  },
  formula:
    '{dynamic} = {factor} × {temperature}^1.5 / ({temperature} + {sutherland})\n{kinematic} = {dynamic} / {density}',
  sources: [standard],
  cautions: [],
  limits: ['Dry air, up to some bar: viscosity hardly depends on pressure.'],
  checks: [
    {
      inputs: { temperature: 300, density: 1.1614 },
      output: 'dynamic',
      expected: 184.6e-7,
      tolerance: { rel: 2e-3 },
      because: 'printed to four digits',
      source: { title: 'Incropera & DeWitt, table A.4, air at 300 K', how: 'memory' },
      evidence: 'published',
    },
    row(350, 2.086714953999417e-5),
    row(400, 2.305542271163637e-5),
  ],
  compute: ({ temperature, density }) => {
    const dynamic = (FACTOR * temperature ** 1.5) / (temperature + SUTHERLAND)
    return { dynamic, kinematic: dynamic / density }
  },
})
