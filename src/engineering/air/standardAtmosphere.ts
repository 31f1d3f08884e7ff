/**
 * Standard air at an altitude.   T = T0 − L·H, p = p0·(T/T0)^5.25588, H = r·h/(r + h), ρ = p/(R·T)
 *   h  altitude       m      -500 … 1.1e4
 *   T  temperature    K
 *   p  pressure       Pa
 *   ρ  density, dry   kg/m³
 * Errors: `out-of-range`. Limits: standard day, dry; weather moves pressure by 3 % and temperature far more.
 * Source: ISO 2533 / ICAO Doc 7488, troposphere [from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { altitudeConstants, pressureAt } from '../signals/airPressure.ts'
import { isa } from '../signals/sources.ts'
import { AIR_CONSTANT } from './sources.ts'

export const SEA_LEVEL = 101325
const { earth, lapse, temperature0 } = altitudeConstants
const row = (altitude: number, output: 'temperature' | 'pressure' | 'density', expected: number, abs: number) => ({
  inputs: { altitude },
  output,
  expected,
  tolerance: { abs },
  because: 'last digit printed',
  source: { ...isa, where: `table by geometric altitude, ${altitude} m` },
  evidence: 'published' as const,
})

export const standardAtmosphere = calculation({
  id: 'standard-atmosphere',
  title: 'Standard air at an altitude',
  inputs: {
    altitude: quantity('length', {
      symbol: 'h',
      min: -500,
      max: 1.1e4,
      plausible: [-450, 5000],
      about: 'altitude above sea level',
    }),
  },
  outputs: {
    temperature: result('temperature', { symbol: 'T', about: 'standard temperature' }),
    pressure: result('pressureAbsolute', { symbol: 'p', about: 'standard pressure' }),
    density: result('density', { symbol: 'ρ', about: 'density of dry standard air' }),
  },
  constants: { earth, lapse, temperature0, gas: AIR_CONSTANT },
  formula: `H = {earth} × {altitude} / ({earth} + {altitude})\n{temperature} = {temperature0} − {lapse} × H\n{pressure} = ${SEA_LEVEL} Pa × ({temperature} / {temperature0})^5.25588\n{density} = {pressure} / ({gas} × {temperature})`,
  sources: [isa],
  cautions: [],
  limits: [
    'Standard day, dry air. Weather moves the pressure by up to 3 %; the temperature of the day is another matter.',
  ],
  checks: [
    row(1000, 'pressure', 89876.3, 0.15),
    row(2000, 'density', 1.00655, 2e-5),
    row(3000, 'temperature', 268.659, 6e-4),
    row(0, 'density', 1.225, 2e-5),
  ],
  compute: ({ altitude }) => {
    const height = (earth.value * altitude) / (earth.value + altitude)
    const temperature = temperature0.value - lapse.value * height
    const pressure = pressureAt(altitude, SEA_LEVEL)
    return { temperature, pressure, density: pressure / (AIR_CONSTANT.value * temperature) }
  },
})
