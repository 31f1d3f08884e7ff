import { describe, expect, it } from 'vitest'
import { tableCurve } from './tableCurve.ts'
import { BOSCH_M8HT, FRONIUS_10K, SEMITEC_103AT } from './tables.testing.ts'

const rows = (table: readonly (readonly [number, number])[]) =>
  table.map(([celsius, resistance]) => ({ temperature: celsius + 273.15, resistance }))

describe('a curve straight from its table', () => {
  it('passes through every row, both ways, and ends with the table', () => {
    const curve = tableCurve(rows(SEMITEC_103AT).reverse())
    for (const { temperature, resistance } of rows(SEMITEC_103AT)) {
      expect(curve.temperatureOf(resistance)).toBeCloseTo(temperature, 9)
      expect(curve.resistanceOf(temperature)! / resistance).toBeCloseTo(1, 9)
    }
    expect([curve.temperatureOf(700), curve.temperatureOf(68e3), curve.resistanceOf(250)]).toEqual([
      undefined,
      undefined,
      undefined,
    ])
  })
  // Every other row of two makers' tables left out; what is between comes back.
  it('meets the rows left out', () => {
    for (const [table, within] of [
      [FRONIUS_10K, 0.03],
      [BOSCH_M8HT.filter(([t]) => t % 10 === 0), 0.12],
    ] as const) {
      const curve = tableCurve(rows(table.filter((_, i) => i % 2 === 0)))
      for (const { temperature, resistance } of rows(table.filter((_, i) => i % 2 === 1 && i < table.length - 1)))
        expect(Math.abs(curve.temperatureOf(resistance)! - temperature)).toBeLessThan(within)
    }
  })
  it('refuses a table that turns back', () =>
    expect(() => tableCurve([...rows(BOSCH_M8HT), { temperature: 430, resistance: 310 }])).toThrow(
      /resistance does not fall/,
    ))
})
