import { expect, it } from 'vitest'
import { coldResistance } from './coldBattery.ts'

it('at −18 °C is what EN 50342 leaves of 12.6 V at the cold-cranking current: 5.1 V / 540 A is 9.4 mΩ', () => {
  expect(coldResistance(5e-3, 540, 255.15, 1)).toBeCloseTo(9.444e-3, 5)
  expect(coldResistance(5e-3, 540, 298.15, 1)).toBeCloseTo(5e-3, 9)
  expect(coldResistance(5e-3, undefined, 255.15, 1)).toBeCloseTo(10e-3, 9)
})
it('lies straight between, never falls in the cold, and grows as the charge goes', () => {
  expect(coldResistance(5e-3, undefined, 276.65, 1)).toBeCloseTo(7.5e-3, 9)
  // 2 000 A would be 2.6 mΩ, less than warm.
  expect(coldResistance(5e-3, 2000, 255.15, 1)).toBe(5e-3)
  expect(coldResistance(5e-3, 540, 298.15, 0.5)).toBeCloseTo(7.5e-3, 9)
})
