import { describe, expect, it } from 'vitest'
import { awgArea, type FormatOptions, formatQuantity, fromUnit, type Kind, toUnit } from './index.ts'

/** Blanks of the output made plain, so that a case reads as it prints. */
const printed = (kind: Kind, si: number, options?: FormatOptions) =>
  formatQuantity(kind, si, options).replace(/\u202F/g, ' ')

describe('printing', () => {
  const CASES: readonly (readonly [Kind, number, FormatOptions, string])[] = [
    ['area', 2.5e-6, {}, '2.5 mm²'],
    ['area', awgArea(18), { unit: 'AWG' }, 'AWG 18'],
    ['area', awgArea(-3), { unit: 'AWG' }, 'AWG 4/0'],
    ['area', 0.75e-6, { unit: 'AWG' }, '0.75 mm² (between AWG 18 and AWG 19)'],
    ['resistance', 0.00253, {}, '2.53 mΩ'],
    ['resistance', 4700, {}, '4.7 kΩ'],
    ['resistance', 4700, { plusMinus: 235 }, '4.70 ± 0.23 kΩ'],
    ['pressureGauge', 3e5, {}, '3 bar gauge'],
    ['pressureAbsolute', 101325, {}, '101.3 kPa abs'],
    ['pressureDifference', 3e4, { unit: 'bar' }, '0.3 bar'],
    ['temperature', 294.15, {}, '21 °C'],
    ['temperature', 294.15, { plusMinus: 0.5 }, '21.00 ± 0.50 °C'],
    ['temperature', 294.15, { unit: '°F', plusMinus: 5 }, '69.8 ± 9.0 °F'],
    ['temperature', 253.15, {}, '−20 °C'],
    ['temperature', 273.15 - 1e-9, {}, '0 °C'],
    ['temperature', 294.4, {}, '21.25 °C'],
    ['temperatureDifference', 8, {}, '8 K'],
    ['power', 220000, {}, '220 kW'],
    ['volumeFlow', 550e-6 / 60, {}, '550 cc/min'],
    ['angularSpeed', (6500 * Math.PI) / 30, {}, '6500 rpm'],
    ['angularSpeed', (12345 * Math.PI) / 30, { digits: 5 }, '12 345 rpm'],
    ['length', 12.3449, { unit: 'mm', plusMinus: 1.2 }, '12 300 ± 1200 mm'],
    ['length', 0.0025, { digits: 3 }, '2.50 mm'],
    ['ratio', 0.9999999, {}, '1'],
    ['ratio', 0.85, { unit: '%', plusMinus: 0.03 }, '(85.0 ± 3.0) %'],
    ['angle', Math.PI / 2, {}, '90°'],
    ['voltage', -0.00001, { unit: 'V', plusMinus: 0.1 }, '0.00 ± 0.10 V'],
    ['voltage', -0, {}, '0 V'],
    ['voltage', 13.8, { plusMinus: 0 }, '13.8 ± 0 V'],
    ['energy', 3.6e14, { unit: 'J' }, '3.6 × 10¹⁴ J'],
  ]
  it.each(CASES)('%s %d %o is %s', (kind, si, options, text) => {
    expect(printed(kind, si, options)).toBe(text)
  })

  it('keeps number and unit on one line', () => {
    expect(formatQuantity('mass', 1250)).toBe('1250\u202Fkg')
  })

  it('refuses a unit of another kind, and a figure for what is not known', () => {
    expect(() => formatQuantity('volumeFlow', 1, { unit: 'lb/h' })).toThrow(/measures mass flow/)
    expect(() => formatQuantity('pressureAbsolute', 1, { unit: 'psig' })).toThrow(/here absolute pressure/)
    expect(() => formatQuantity('mass', Number.NaN)).toThrow(/Show it as unknown/)
    expect(() => formatQuantity('mass', 1, { plusMinus: -1 })).toThrow(/has no figure/)
    expect(() => toUnit('mass', 'V', 1)).toThrow(/measures voltage/)
    expect(() => fromUnit('mass', 'V', 1)).toThrow(/measures voltage/)
  })
})
