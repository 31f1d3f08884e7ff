import { expect, it } from 'vitest'
import { coldResistance } from './coldBattery.ts'

it('at −18 °C is what EN 50342 leaves of 12.6 V at the cold-cranking current: 5.1 V / 540 A is 9.4 mΩ', () => {
  expect(coldResistance(5e-3, 540, 255.15, 1)).toBeCloseTo(9.444e-3, 5)
  expect(coldResistance(5e-3, 540, 298.15, 1)).toBeCloseTo(5e-3, 9)
})
it('without that current is the warm one over the power that is left: 40 % at 0 °F, 25 % at −20 °F', () => {
  expect(coldResistance(5e-3, undefined, 255.15, 1)).toBeCloseTo(5e-3 / 0.4, 9)
  // −20 °F is 244.26 K; 0 °F 255.37 K, which is 255.15 K within 2 %.
  expect(coldResistance(5e-3, undefined, 244.26, 1) / (5e-3 / 0.25)).toBeCloseTo(1, 1)
  expect(coldResistance(5e-3, 540, 244.26, 1)).toBeGreaterThan(1.5 * coldResistance(5e-3, 540, 255.15, 1))
  // 65 % at 32 °F: never less resistance than that leaves.
  expect(coldResistance(5e-3, undefined, 273.15, 1)).toBeGreaterThan(5e-3 / 0.65)
})
it('lies straight between, never falls in the cold, and grows as the charge goes', () => {
  expect(coldResistance(5e-3, undefined, 276.65, 1)).toBeCloseTo(8.75e-3, 9)
  // 2 000 A would be 2.6 mΩ, less than warm.
  expect(coldResistance(5e-3, 2000, 255.15, 1)).toBe(5e-3)
  expect(coldResistance(5e-3, 540, 298.15, 0.5)).toBeCloseTo(7.5e-3, 9)
})
