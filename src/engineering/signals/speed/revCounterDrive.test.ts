import { expect, it } from 'vitest'
import { revCounterDrive } from './revCounterDrive.ts'

// Instrument manual (manualshive.com 1868910, page 5): an eight-cylinder single coil gives four pulses a revolution, so a
// counter made for it reads half on a four-cylinder's two.
it('reads by the ratio of pulses, and tells when the pulse is too low', () => {
  expect(revCounterDrive(4, 2, 12, 10)).toMatchObject({
    reads: 0.5,
    highEnough: true,
    todo: expect.stringMatching(/Set the controller to 4/),
  })
  expect(revCounterDrive(2, 2, 12, 10).todo).toBe('Wire it.')
  expect(revCounterDrive(2, 2, 12, 60).todo).toMatch(/relay’s coil/)
  expect(revCounterDrive(2, 2, 12, undefined)).toMatchObject({
    highEnough: undefined,
    todo: expect.stringMatching(/on the bench/),
  })
  expect(() => revCounterDrive(0, 2, 12, 10)).toThrow(/cylinders over two/)
})
