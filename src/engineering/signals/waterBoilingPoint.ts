/**
 * Boiling point of pure water.   IF97 equation 31: β = (p/1 MPa)^¼, quadratics E, F, G in β,
 * D = 2G/(−F − √(F² − 4EG)), Ts = ½·(n10 + D − √((n10 + D)² − 4(n9 + n10·D)))
 *   p   absolute pressure   Pa  2e4 … 2e6
 *   Ts  boiling point       K
 * Errors: `out-of-range`. Limits: pure water, at the surface. Salt or coolant raises it; under 10 cm of water it is 0.3 K more.
 * Source: IAPWS R7-97(2012), section 8.
 */
import { calculation, quantity, result } from '../calculation.ts'
import { if97 } from './sources.ts'

const N = [
  1167.0521452767, -724213.16703206, -17.073846940092, 12020.82470247, -3232555.0322333, 14.91510861353,
  -4823.2657361591, 405113.40542057, -0.23855557567849, 650.17534844798,
] as const

export function boilingPointAt(pressure: number): number {
  const b = (pressure / 1e6) ** 0.25
  const e = b * b + N[2] * b + N[5]
  const f = N[0] * b * b + N[3] * b + N[6]
  const g = N[1] * b * b + N[4] * b + N[7]
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g))
  const sum = N[9] + d
  return (sum - Math.sqrt(sum * sum - 4 * (N[8] + N[9] * d))) / 2
}

const row = (pressure: number, expected: number) => ({
  inputs: { pressure },
  output: 'boilingPoint' as const,
  expected,
  tolerance: { abs: 1e-6 },
  because: 'printed to nine digits',
  source: { ...if97, where: 'table 36, program verification' },
  evidence: 'published' as const,
})

export const waterBoilingPoint = calculation({
  id: 'water-boiling-point',
  title: 'Boiling point of water at a pressure',
  inputs: {
    pressure: quantity('pressureAbsolute', {
      symbol: 'p',
      min: 2e4,
      max: 2e6,
      plausible: [5e4, 3e5],
      about: 'absolute pressure over the water',
    }),
  },
  outputs: { boilingPoint: result('temperature', { symbol: 'Ts', about: 'boiling point of pure water' }) },
  formula: '{boilingPoint} by IF97 equation 31 from β = ({pressure} / 1 MPa)^¼',
  sources: [if97],
  cautions: ['Boiling water and its steam scald. Hang the sensor in it by its lead, not by hand.'],
  limits: ['Pure water at its surface; dissolved salt and coolant raise it, 10 cm of depth adds 0.3 K.'],
  checks: [row(1e5, 372.755919), row(1e6, 453.035632)],
  compute: ({ pressure }) => ({ boilingPoint: boilingPointAt(pressure) }),
})
