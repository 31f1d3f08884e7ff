/**
 * Exhaust gas of an engine at a place in its pipe.   ṁ = a + f, ρ = p/(R·T), Q = ṁ/ρ, μ = b·T^1.5/(T + S), v = 4Q/(π·d²)
 *   a   air                      kg/s   0 … 2
 *   f   fuel                     kg/s   0 … 0.3
 *   T   temperature of the gas   K      300 … 1300
 *   p   pressure there           Pa     3e4 … 6e5
 *   d   bore of the pipe         m      0.01 … 0.5
 *   ṁ   gas by mass              kg/s
 *   Q   gas by volume            m³/s
 *   ρ   density                  kg/m³
 *   ν   kinematic viscosity      m²/s
 *   v   mean velocity            m/s
 *   Ma  over the speed of sound  1
 * Errors: `out-of-range`. Limits: counted as hot air, within about 3 %; mean flow, no pulses.
 * Source: law of gases; Sutherland’s law; speed of sound √(1.34·R·T) [from memory].
 */

import { AIR_CONSTANT } from '../air/sources.ts'
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { incropera } from './sources.ts'

const FACTOR = 1.458e-6
const SUTHERLAND = 110.4
/** Of air at 900 K 1.344; exhaust gas lies a little lower. */
const EXPONENT = 1.34
const sutherland: Source = { title: 'US Standard Atmosphere 1976, Sutherland’s law', how: 'memory' }
const tableAt = (where: string): Source => ({ ...incropera, where })
/** Parts of a pipe that loses as one: up to here pressure moves the density by little. White, Fluid Mechanics [from memory]. */
export const MACH_LIMIT = 0.3

export const exhaustGas = calculation({
  id: 'exhaust-gas',
  title: 'Exhaust gas at a place in its pipe',
  inputs: {
    air: quantity('massFlow', { symbol: 'a', min: 0, max: 2, plausible: [0.005, 0.6], about: 'air of the engine' }),
    fuel: quantity('massFlow', { symbol: 'f', min: 0, max: 0.3, plausible: [3e-4, 0.06], about: 'fuel of the engine' }),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 300,
      max: 1300,
      plausible: [500, 1250],
      about: 'temperature of the gas there',
    }),
    pressure: quantity('pressureAbsolute', {
      symbol: 'p',
      min: 3e4,
      max: 6e5,
      plausible: [6e4, 3e5],
      about: 'absolute pressure there',
    }),
    bore: quantity('length', {
      symbol: 'd',
      min: 0.01,
      max: 0.5,
      plausible: [0.03, 0.12],
      about: 'bore of the pipe, inside',
    }),
  },
  outputs: {
    mass: result('massFlow', { symbol: 'ṁ', about: 'exhaust gas by mass' }),
    volume: result('volumeFlow', { symbol: 'Q', about: 'exhaust gas by volume' }),
    density: result('density', { symbol: 'ρ', about: 'density' }),
    viscosity: result('kinematicViscosity', { symbol: 'ν', about: 'kinematic viscosity' }),
    velocity: result('speed', { symbol: 'v', about: 'mean velocity' }),
    mach: result('ratio', { symbol: 'Ma', about: 'velocity over the speed of sound' }),
  },
  constants: { gas: AIR_CONSTANT },
  formula:
    '{mass} = {air} + {fuel}\n{density} = {pressure} / ({gas} × {temperature})\n{volume} = {mass} / {density}\n{viscosity} = 1.458e-6 × {temperature}^1.5 / ({temperature} + 110.4 K) / {density}\n{velocity} = 4 × {volume} / (π × {bore}²)\n{mach} = {velocity} / √(1.34 × {gas} × {temperature})',
  sources: [sutherland, incropera],
  cautions: [
    'Exhaust gas kills in a closed room and in a cabin with a leak: run the engine outside, and mend every leak. Its metal burns and sets fire to what touches it.',
  ],
  limits: [
    'The gas counts as hot air: density within about 3 %, viscosity within 5 %.',
    'The mean flow. Near the engine it comes in pulses of several times this velocity, which lose more.',
  ],
  checks: [
    {
      inputs: { air: 0.4, fuel: 0.0354, temperature: 800, pressure: 101325, bore: 0.1 },
      output: 'volume',
      expected: 1,
      tolerance: { rel: 0.015 },
      because: 'the table’s density is 1.3 % under the law of gases at this pressure',
      source: tableAt('table A.4, air at 800 K: 0.4354 kg/m³'),
      evidence: 'published',
    },
    {
      inputs: { air: 0.1, fuel: 0.01, temperature: 800, pressure: 0.4354 * AIR_CONSTANT.value * 800, bore: 0.05 },
      output: 'viscosity',
      expected: 84.93e-6,
      tolerance: { rel: 0.025 },
      because: 'Sutherland’s law falls 2 % behind the table where it is this hot',
      source: tableAt('table A.4, air at 800 K: 84.93·10⁻⁶ m²/s'),
      evidence: 'published',
    },
  ],
  compute: ({ air, fuel, temperature, pressure, bore }) => {
    const density = pressure / (AIR_CONSTANT.value * temperature)
    const volume = (air + fuel) / density
    const velocity = (4 * volume) / (Math.PI * bore ** 2)
    return {
      mass: air + fuel,
      volume,
      density,
      viscosity: (FACTOR * temperature ** 1.5) / (temperature + SUTHERLAND) / density,
      velocity,
      mach: velocity / Math.sqrt(EXPONENT * AIR_CONSTANT.value * temperature),
    }
  },
})
