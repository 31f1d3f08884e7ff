import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { exactly, within } from '../interval.ts'
import { faultThresholds } from './faultThresholds.ts'
import {
  CONTROLLER_TABLE,
  type ControllerTable,
  readControllerTableCsv,
  readControllerTableJson,
  rowsInSi,
  writeControllerTableCsv,
  writeControllerTableJson,
} from './format.ts'

const table: ControllerTable = {
  format: CONTROLLER_TABLE,
  title: 'Coolant, "rear", bench 2',
  x: { name: 'signal voltage', kind: 'voltage', unit: 'V' },
  y: { name: 'temperature', kind: 'temperature', unit: '°C' },
  rows: [
    { x: 0.1 + 0.2, y: 120 },
    { x: 2.5, y: 41.3 },
    { x: 4.7, y: -20 },
  ],
  largestError: 0.4,
  shortBelow: 0.08,
  openAbove: 4.93,
  source: 'ice, warm,\nboiling at 620 m',
}

describe('controller-table/1', () => {
  it('comes back from JSON and CSV without a change', () => {
    expect(readControllerTableJson(writeControllerTableJson(table))).toEqual(table)
    expect(readControllerTableCsv(writeControllerTableCsv(table))).toEqual(table)
    const { largestError: _e, shortBelow: _s, openAbove: _o, source: _c, ...bare } = table
    expect(readControllerTableCsv(writeControllerTableCsv(bare))).toEqual(bare)
  })
  it('reads a spreadsheet’s CSV: byte-order mark, line feeds, empty cells at the end', () => {
    const text = `\uFEFF${writeControllerTableCsv(table)
      .replaceAll('\r\n', '\n')
      .replaceAll(/^(row.*)$/gm, '$1,,')}`
    expect(readControllerTableCsv(text).rows).toEqual(table.rows)
  })
  it('gives its rows in SI', () => expect(rowsInSi(table)[2]).toEqual({ x: 4.7, y: expect.closeTo(253.15, 9) }))
  it('tells all that is wrong with a file', () => {
    const bad = JSON.stringify({
      ...table,
      rows: [
        [2, 1],
        [1, 'x'],
        [2, 0],
      ],
      x: { name: '', kind: 'voltage', unit: 'bar' },
      colour: 1,
    })
    expect(() => readControllerTableJson(bad)).toThrow(
      /“colour” is not part.*\n.*x axis has no name.*\n.*“bar” is no unit of voltage.*\n.*Row 2 is not two numbers.*\n.*Row 3 begins at 2/,
    )
    expect(() => readControllerTableJson('{')).toThrow(/not JSON/)
    expect(() => readControllerTableJson('{"format":"other/2"}')).toThrow(/not a controller-table\/1.*other\/2/)
    expect(() => readControllerTableCsv('format,controller-table/1\nrow,1;2')).toThrow(
      /Line 2 is not a row of two numbers/,
    )
  })
  it('stands in its document as the reader reads it', () => {
    const document = readFileSync(`${import.meta.dirname}/../../../../docs/formats/controller-table.md`, 'utf8')
    const fence = '`'.repeat(3)
    const block = (language: string): string => document.split(`${fence}${language}\n`)[1]!.split(fence)[0]!
    const json = readControllerTableJson(block('json'))
    expect(readControllerTableCsv(block('csv'))).toEqual(json)
    expect(json.rows.length).toBeGreaterThan(2)
  })
})

describe('fault thresholds', () => {
  const circuit = {
    pullUp: within(2490, 0.01),
    supply: exactly(5),
    reference: 'supply' as const,
    earthOffset: { low: 0, high: 0.02 },
    leakage: { low: -1e-6, high: 1e-6 },
    bits: 10,
    linearity: 1,
  }
  it('stand between the healthy sensor and each fault', () => {
    const found = faultThresholds(circuit, { low: 100, high: 45e3 }, { contact: 2, short: 5, insulation: 1e6 })
    // 100 Ω: 5 × 100/2590 = 0.193 V; a short of 5 Ω with 20 mV of earth: 0.03 V. 45 kΩ: 4.738 V; open with 1 MΩ wet: 4.985 V.
    expect(found.shortBelow.voltage).toBeGreaterThan(0.035)
    expect(found.shortBelow.voltage).toBeLessThan(0.185)
    expect(found.openAbove.voltage).toBeGreaterThan(4.74)
    expect(found.openAbove.voltage).toBeLessThan(4.98)
    expect(found.gap).toBeGreaterThan(0)
  })
  it('are refused where a fault looks healthy', () =>
    expect(() => faultThresholds(circuit, { low: 2, high: 45e3 }, { contact: 2, short: 5, insulation: 1e6 })).toThrow(
      /read alike/,
    ))
})
