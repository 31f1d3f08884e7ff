/**
 * Air that a four-stroke engine takes.   ṁ = η·V·n/2·p/(R·T), n = ω/2π
 *   V  swept volume            m³     1e-5 … 0.05
 *   ω  engine speed            rad/s  10 … 2000
 *   η  volumetric efficiency   1      0.1 … 1.3
 *   p  manifold pressure       Pa     1e4 … 6e5
 *   T  manifold temperature    K      233 … 500
 *   ṁ  air                     kg/s
 *   ρ  density in the manifold   kg/m³
 * Errors: `out-of-range`. Limits: four-stroke; η against manifold density; no air blown through to the exhaust.
 * Source: Heywood, Internal Combustion Engine Fundamentals, equation 2.27 [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { AIR_CONSTANT, turboMatching } from './sources.ts'

const heywood: Source = {
  title: 'Heywood, Internal Combustion Engine Fundamentals (1988)',
  where: 'equation 2.27',
  how: 'memory',
}

export const engineAirFlow = calculation({
  id: 'engine-air-flow',
  title: 'Air that an engine takes',
  inputs: {
    sweptVolume: quantity('volume', {
      symbol: 'V',
      min: 1e-5,
      max: 0.05,
      plausible: [3e-4, 0.008],
      about: 'swept volume of all cylinders',
    }),
    speed: quantity('angularSpeed', {
      symbol: 'ω',
      min: 10,
      max: 2000,
      plausible: [60, 950],
      about: 'engine speed',
    }),
    volumetricEfficiency: quantity('ratio', {
      symbol: 'η',
      min: 0.1,
      max: 1.3,
      plausible: [0.65, 1.1],
      about: 'volumetric efficiency against the density in the manifold',
    }),
    pressure: quantity('pressureAbsolute', {
      symbol: 'p',
      min: 1e4,
      max: 6e5,
      plausible: [2e4, 4e5],
      about: 'absolute pressure in the manifold',
    }),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 233,
      max: 500,
      plausible: [263, 390],
      about: 'air temperature in the manifold',
    }),
  },
  outputs: {
    air: result('massFlow', { symbol: 'ṁ', about: 'air by mass' }),
    density: result('density', { symbol: 'ρ', about: 'density in the manifold' }),
  },
  constants: { gas: AIR_CONSTANT },
  formula:
    '{density} = {pressure} / ({gas} × {temperature})\n{air} = {volumetricEfficiency} × {sweptVolume} × {speed} / 4π × {density}',
  sources: [heywood],
  cautions: [],
  limits: [
    'Four-stroke. Efficiency above 1 needs tuned runners or scavenging; above 1.3 a sensor or the swept volume is wrong.',
    'The charge warms in the ports and fuel cools it: both are within the volumetric efficiency.',
  ],
  checks: [
    {
      // The source’s constants: R 639.6 in·lb/(lb·°R), absolute zero at −460 °F.
      inputs: {
        sweptVolume: 122 * 0.0254 ** 3,
        speed: (7200 * 2 * Math.PI) / 60,
        volumetricEfficiency: 0.92,
        pressure: 41.1 * 6894.757293168361,
        temperature: (130 + 459.67) / 1.8,
      },
      output: 'air',
      expected: (44 * 0.45359237) / 60,
      tolerance: { rel: 3e-3 },
      because: 'pressure printed to three digits, zero rounded to −460 °F',
      source: turboMatching,
      evidence: 'published',
    },
  ],
  compute: ({ sweptVolume, speed, volumetricEfficiency, pressure, temperature }) => {
    const density = pressure / (AIR_CONSTANT.value * temperature)
    return { air: (volumetricEfficiency * sweptVolume * speed * density) / (4 * Math.PI), density }
  },
})
