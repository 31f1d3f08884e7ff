/**
 * A manifold pressure sensor held to the weather, key on and engine still.   d = p − pa(h, p0)
 *   p0  pressure reduced to sea level   Pa  8.5e4 … 1.1e5
 *   h   altitude above sea level        m   -500 … 1.1e4
 *   p   sensor's reading, engine still  Pa  1e4 … 1.3e5
 *   pa  air pressure to be expected     Pa
 *   d   reading too high by             Pa
 * Errors: `out-of-range`. Limits: engine at rest for some seconds; the standard profile of temperature (about 1 % at 1000 m).
 * Source: ISO 2533 / ICAO Doc 7488, troposphere [from memory].
 */
import { calculation, quantity, result } from '../../calculation.ts'
import { altitudeConstants, altitudeInputs, pressureAt } from '../airPressure.ts'
import { isa } from '../sources.ts'

const row = (altitude: number, reading: number, output: 'expected' | 'error', expected: number) => ({
  inputs: { seaLevelPressure: 101325, altitude, reading },
  output,
  expected,
  tolerance: { abs: 0.15 },
  because: 'printed to 0.1 Pa; exponent to six digits',
  source: { ...isa, where: 'table by geometric altitude' },
  evidence: 'published' as const,
})

export const barometricCheck = calculation({
  id: 'barometric-check',
  title: 'Pressure sensor against the weather at key on',
  inputs: {
    ...altitudeInputs,
    reading: quantity('pressureAbsolute', {
      symbol: 'p',
      min: 1e4,
      max: 1.3e5,
      plausible: [6e4, 1.06e5],
      about: 'what the sensor reads with the engine still',
    }),
  },
  outputs: {
    expected: result('pressureAbsolute', { symbol: 'pa', about: 'air pressure to be expected' }),
    error: result('pressureDifference', { symbol: 'd', about: 'reading too high by' }),
  },
  constants: altitudeConstants,
  formula:
    'H = {earth} × {altitude} / ({earth} + {altitude})\n{expected} = {seaLevelPressure} × (1 − {lapse} × H / {temperature0})^5.25588\n{error} = {reading} − {expected}',
  sources: [isa],
  cautions: [],
  limits: [
    'Engine at rest for some seconds. Standard temperature profile: about 1 % at 1000 m on a very hot or cold day.',
  ],
  checks: [row(500, 95000, 'expected', 95461.3), row(1500, 85559.7, 'error', 1000)],
  compute: ({ seaLevelPressure, altitude, reading }) => {
    const expected = pressureAt(altitude, seaLevelPressure)
    return { expected, error: reading - expected }
  },
})
