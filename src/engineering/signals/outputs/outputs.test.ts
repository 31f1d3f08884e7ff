import { expect, it } from 'vitest'
import { run } from '../../calculation.ts'
import { clampEnergy } from './clampEnergy.ts'
import { coilCurrent } from './coilCurrent.ts'
import { coilDwell } from './coilDwell.ts'
import { injectorCurrent, injectorImpedance } from './injectorCurrent.ts'
import { pulsedCurrent } from './pulsedCurrent.ts'

// injectorrx.com [read]: high impedance 12 to 16 Ω, low 4 Ω or less.
it('sorts injectors by impedance', () =>
  expect([2.4, 6, 14.5].map(injectorImpedance)).toEqual(['low', 'between', 'high']))
it('dwell and current undo each other', () => {
  const coil = { voltage: 13.5, resistance: 0.6, inductance: 3e-3 }
  const { dwell, energy } = run(coilDwell, { ...coil, current: 7.5 }).outputs
  const back = run(coilCurrent, { ...coil, time: dwell }).outputs
  expect(back.current).toBeCloseTo(7.5, 9)
  expect(back.energy).toBeCloseTo(energy, 9)
})
it('takes more dwell at low battery, and refuses what is never reached', () => {
  const dwell = (voltage: number): number =>
    run(coilDwell, { voltage, resistance: 0.6, inductance: 3e-3, current: 7.5 }).outputs.dwell
  expect(dwell(8)).toBeGreaterThan(1.6 * dwell(13.5))
  expect(() => run(coilDwell, { voltage: 4.4, resistance: 0.6, inductance: 3e-3, current: 7.5 })).toThrow(
    /never reaches this current/,
  )
})
it('joins its series for a small current smoothly', () => {
  const at = (current: number): number =>
    run(clampEnergy, { supply: 14, clamp: 60, inductance: 1e-3, resistance: 1, current, frequency: 0 }).outputs.energy /
    current ** 2
  expect(at(0.0045) / at(0.0047)).toBeCloseTo(1, 5)
})
it('tells a current that stops between pulses', () =>
  expect(() =>
    run(pulsedCurrent, { supply: 13.8, diode: 0.8, resistance: 8, inductance: 1e-4, duty: 0.1, frequency: 100 }),
  ).toThrow(/gives no figure/))
it('shares the volts with a series resistor', () =>
  expect(run(injectorCurrent, { voltage: 13.8, resistance: 2.4, series: 6.8, count: 1 }).outputs).toMatchObject({
    each: expect.closeTo(1.5, 9),
    heat: expect.closeTo(15.3, 9),
  }))
