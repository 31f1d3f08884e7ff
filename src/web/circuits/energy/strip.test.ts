import { expect, it } from 'vitest'
import type { EnergyRow } from '../../../assess/energy/energy.ts'
import { stripOf, WIDE } from './strip.ts'

const row: EnergyRow = {
  case: 'night',
  caseName: 'Night',
  available: 90,
  availablePlusMinus: 5,
  load: 60,
  byCircuit: [
    { circuit: 'Lamps', current: 40 },
    { circuit: 'Fan', current: 20 },
  ],
  balance: 30,
  battery: 0,
  missing: [],
}

it('lays circuits end to end on one scale with what is given', () => {
  const { parts, ticks, available, end } = stripOf(row)
  const perAmp = available!.at / 90
  expect(parts.map(({ to, from }) => (to - from) / perAmp)).toEqual([expect.closeTo(40, 9), expect.closeTo(20, 9)])
  expect(parts[1]!.from).toBe(parts[0]!.to)
  expect(end).toBeCloseTo(parts[1]!.to, 9)
  expect([available!.from, available!.to].map((x) => x / perAmp)).toEqual([
    expect.closeTo(85, 9),
    expect.closeTo(95, 9),
  ])
  expect(ticks[0]!.amps).toBe(0)
  expect(ticks.at(-1)!.amps).toBeGreaterThanOrEqual(95)
  expect(ticks.at(-1)!.x).toBeLessThanOrEqual(WIDE)
})

it('draws no mark for what is not known or not turning, and survives a case that takes nothing', () => {
  expect(stripOf({ ...row, available: null }).available).toBeUndefined()
  expect(stripOf({ ...row, available: 0, availablePlusMinus: 0 }).available).toBeUndefined()
  const none = stripOf({ ...row, available: 0, availablePlusMinus: 0, load: 0, byCircuit: [] })
  expect(none.parts).toEqual([])
  expect(none.ticks.every(({ x, amps }) => Number.isFinite(x) && Number.isFinite(amps))).toBe(true)
})
