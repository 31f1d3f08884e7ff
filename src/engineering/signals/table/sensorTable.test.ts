import { describe, expect, it } from 'vitest'
import { exactly, within } from '../interval.ts'
import { fitSteinhartHart } from '../thermistor/fit.ts'
import { BOSCH_M8HT } from '../thermistor/tables.testing.ts'
import { interpolate } from './bestRows.ts'
import { readControllerTableJson, writeControllerTableJson } from './format.ts'
import { type SensorTableQuestion, sensorTable } from './sensorTable.ts'

// Bosch Motorsport NTC M8-HT data sheet, −20 … 130 °C.
const fit = fitSteinhartHart(BOSCH_M8HT.map(([celsius, resistance]) => ({ temperature: celsius + 273.15, resistance })))
const question: SensorTableQuestion = {
  title: 'Charge temperature',
  name: 'temperature',
  kind: 'temperature',
  unit: '°C',
  valueOf: fit.temperatureOf,
  sensor: { low: 459.4, high: 71668 },
  circuit: {
    pullUp: within(2490, 0.01),
    supply: exactly(5),
    reference: 'supply',
    earthOffset: { low: 0, high: 0.01 },
    leakage: { low: -1e-7, high: 1e-7 },
    bits: 12,
    linearity: 1,
  },
  around: { contact: 2, short: 5, insulation: 2e6 },
  rows: 16,
  source: 'maker’s data sheet',
}

describe('a sensor’s table', () => {
  it('gives the maker’s temperatures back within its own stated error', () => {
    const table = sensorTable(question)
    for (const [celsius, resistance] of BOSCH_M8HT.filter(([t]) => t >= -20 && t <= 130)) {
      const voltage = (5 * resistance) / (2490 + resistance)
      expect(Math.abs(interpolate(table.rows, voltage) - celsius)).toBeLessThan(
        table.largestError! * 1.02 + fit.largestResidual,
      )
    }
    expect(table.largestError).toBeLessThan(1)
    expect(table.rows.length).toBe(16)
    expect(readControllerTableJson(writeControllerTableJson(table))).toEqual(table)
    expect(table.shortBelow).toBeLessThan(table.rows[0]!.x)
    expect(table.openAbove).toBeGreaterThan(table.rows.at(-1)!.x)
  })
  it('keeps to the cells’ steps, and loses little by it', () => {
    const table = sensorTable({ ...question, voltageStep: 0.02, valueStep: 1 })
    for (const { x, y } of table.rows) {
      expect(Math.abs(x / 0.02 - Math.round(x / 0.02))).toBeLessThan(1e-9)
      expect(Number.isInteger(y)).toBe(true)
    }
    expect(table.largestError).toBeLessThan(sensorTable(question).largestError! + 1)
  })
  it('refuses a step that leaves no table, and a curve that ends too soon', () => {
    expect(() => sensorTable({ ...question, voltageStep: 10 })).toThrow(/A step of 10 V gives 0 voltages/)
    expect(() => sensorTable({ ...question, valueOf: (r) => (r > 1000 ? fit.temperatureOf(r) : undefined) })).toThrow(
      /says nothing at 4\d\d\.\d Ω/,
    )
  })
})
