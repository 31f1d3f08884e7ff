/**
 * Air pressure at an altitude.   p = p0·(1 − L·H/T0)^5.25588, H = r·h/(r + h)
 *   p0  pressure reduced to sea level   Pa  8.5e4 … 1.1e5
 *   h   altitude above sea level        m   -500 … 1.1e4
 *   p   air pressure                    Pa
 * Errors: `out-of-range`. Limits: standard temperature profile; a hot or cold day moves it by about 1 % at 1000 m. The
 *   weather report's pressure is the one reduced to sea level.
 * Source: ISO 2533 / ICAO Doc 7488, troposphere [from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { isa } from './sources.ts'

const EARTH = 6356766
const LAPSE = 0.0065
const T0 = 288.15
const EXPONENT = 5.25588

export const pressureAt = (altitude: number, seaLevelPressure: number): number =>
  seaLevelPressure * (1 - (LAPSE * ((EARTH * altitude) / (EARTH + altitude))) / T0) ** EXPONENT

export const altitudeInputs = {
  seaLevelPressure: quantity('pressureAbsolute', {
    symbol: 'p0',
    min: 8.5e4,
    max: 1.1e5,
    plausible: [9.7e4, 1.045e5],
    about: 'pressure reduced to sea level, as weather reports give it (1013.25 hPa is standard)',
  }),
  altitude: quantity('length', {
    symbol: 'h',
    min: -500,
    max: 1.1e4,
    plausible: [-450, 5000],
    about: 'altitude above sea level',
  }),
}
export const altitudeConstants = {
  earth: { symbol: 'r', value: EARTH, unit: 'm', source: isa },
  lapse: { symbol: 'L', value: LAPSE, unit: 'K/m', source: isa },
  temperature0: { symbol: 'T0', value: T0, unit: 'K', source: isa },
}
const row = (altitude: number, expected: number) => ({
  inputs: { seaLevelPressure: 101325, altitude },
  output: 'pressure' as const,
  expected,
  tolerance: { abs: 0.15 },
  because: 'printed to 0.1 Pa; exponent to six digits',
  source: { ...isa, where: 'table by geometric altitude' },
  evidence: 'published' as const,
})

export const airPressure = calculation({
  id: 'air-pressure-at-altitude',
  title: 'Air pressure at an altitude',
  inputs: altitudeInputs,
  outputs: { pressure: result('pressureAbsolute', { symbol: 'p', about: 'air pressure there' }) },
  constants: altitudeConstants,
  formula:
    'H = {earth} × {altitude} / ({earth} + {altitude})\n{pressure} = {seaLevelPressure} × (1 − {lapse} × H / {temperature0})^5.25588',
  sources: [isa],
  cautions: [],
  limits: ['Standard temperature profile; a hot or cold day moves it by about 1 % at 1000 m.'],
  checks: [row(1000, 89876.3), row(2000, 79501.4), row(5000, 54048.3)],
  compute: ({ seaLevelPressure, altitude }) => ({ pressure: pressureAt(altitude, seaLevelPressure) }),
})
