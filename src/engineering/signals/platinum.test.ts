import { expect, it } from 'vitest'
import { platinumRatio, platinumTemperature, platinumTolerance } from './platinumResistance.ts'

// IEC 60751 table as at sensorsci.com [read]; its −160 °C row (35.34) is a misprint, the equation gives 35.54.
const TABLE = [
  [-200, 18.52],
  [-100, 60.26],
  [-40, 84.27],
  [10, 103.9],
  [20, 107.79],
  [50, 119.4],
  [150, 157.33],
  [200, 175.86],
  [400, 247.09],
  [500, 280.98],
] as const

it('reads the standard’s table both ways', () => {
  for (const [celsius, resistance] of TABLE) {
    expect(Math.abs(100 * platinumRatio(celsius + 273.15) - resistance)).toBeLessThan(0.0051)
    expect(platinumTemperature(platinumRatio(celsius + 273.15))).toBeCloseTo(celsius + 273.15, 8)
  }
})
// scribd 602071032 [read]: class B ± 0.30 K at 0 °C, which is ± 0.12 Ω, and ± 0.80 K at 100 °C, ± 0.30 Ω.
it('has the tolerance of its class', () => {
  expect(platinumTolerance('B', 273.15)).toBeCloseTo(0.3, 12)
  expect(platinumTolerance('B', 373.15) * 0.379).toBeCloseTo(0.3, 2)
  expect(platinumTolerance('AA', 373.15)).toBeLessThan(platinumTolerance('A', 373.15))
})
