import { expect, it } from 'vitest'
import { adiabaticJoule, adiabaticTemperature, kFactor } from './adiabatic.ts'

const celsius = (value: number) => value + 273.15

// IEC 60364-4-43 and 5-54 as printed in the guides [read 115, 143, 76, 94; the rest from memory], whole numbers.
it.each([
  ['copper', 70, 160, 115],
  ['copper', 90, 250, 143],
  ['copper', 60, 200, 141],
  ['copper', 70, 140, 103],
  ['copper', 90, 160, 100],
  ['aluminium', 70, 160, 76],
  ['aluminium', 90, 250, 94],
] as const)('k of %s from %d to %d °C is %d', (metal, from, to, printed) => {
  expect(Math.abs(kFactor(metal, celsius(from), celsius(to)) - printed)).toBeLessThan(0.75)
})

// Electrical Installation Guide, figure G53 [read]: k²S² in 10⁶ A²s, with k rounded to 115 and 143.
it.each([
  [1.5, 0.0297, 0.046],
  [2.5, 0.0826, 0.1278],
  [4, 0.2116, 0.3272],
  [6, 0.4761, 0.7362],
  [10, 1.3225, 2.045],
  [16, 3.3856, 5.235],
  [25, 8.2656, 12.7806],
  [35, 16.2006, 25.05],
])('%d mm² withstands the printed k²S²', (mm2, pvc, xlpe) => {
  const joule = (from: number, to: number) => adiabaticJoule('copper', mm2 * 1e-6, celsius(from), celsius(to)) / 1e6
  // 115 for 114.8 and 143 for 142.9: up to 0.4 % of the square, and four digits.
  expect(Math.abs(joule(70, 160) / pvc - 1)).toBeLessThan(0.006)
  expect(Math.abs(joule(90, 250) / xlpe - 1)).toBeLessThan(0.006)
})

it('turns back into the temperature it came from', () => {
  const joule = adiabaticJoule('aluminium', 4e-6, 320, 430)
  expect(adiabaticTemperature('aluminium', 4e-6, 320, joule)).toBeCloseTo(430, 9)
})
