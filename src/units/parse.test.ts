import { describe, expect, it } from 'vitest'
import { EXAMPLES, KINDS, type Kind, type ParseOptions, parseQuantity, Refusal } from './index.ts'

const PSI = 6894.757293168361
const read = (kind: Kind, text: string, options?: ParseOptions) => parseQuantity(kind, text, options)

describe('what a builder types', () => {
  const CASES: readonly (readonly [Kind, string, number, string])[] = [
    ['pressureGauge', '43.5 psi', 43.5 * PSI, 'psi'],
    ['pressureGauge', '3 bar gauge', 3e5, 'bar'],
    ['pressureGauge', '3 bar g', 3e5, 'bar'],
    ['pressureGauge', '3 bar ga', 3e5, 'bar'],
    ['pressureGauge', '3 bar(g)', 3e5, 'bar'],
    ['pressureGauge', '43.5psig', 43.5 * PSI, 'psi'],
    ['pressureGauge', '18 inHg vacuum', -18 * 3386.388640341, 'inHg'],
    ['pressureAbsolute', '29 psia', 29 * PSI, 'psi'],
    ['pressureAbsolute', '2.2 bar abs', 2.2e5, 'bar'],
    ['pressureAbsolute', '101.3 kPa', 101300, 'kPa'],
    ['pressureAbsolute', '29.92 inHg', 29.92 * 3386.388640341, 'inHg'],
    ['pressureDifference', '5 kPa', 5000, 'kPa'],
    ['volumeFlow', '550 cc/min', 550e-6 / 60, 'cc/min'],
    ['volumeFlow', '550 cm3/min', 550e-6 / 60, 'cc/min'],
    ['volumeFlow', '550 cm³/min', 550e-6 / 60, 'cc/min'],
    ['massFlow', '52 lb/h', (52 * 0.45359237) / 3600, 'lb/h'],
    ['massFlow', '52 lb/hr', (52 * 0.45359237) / 3600, 'lb/h'],
    ['temperature', '21 °C', 294.15, '°C'],
    ['temperature', '−40 °F', 233.15, '°F'],
    ['temperature', '70 deg F', 294.2611111111111, '°F'],
    ['temperatureDifference', '21 K', 21, 'K'],
    ['temperatureDifference', '21 °C', 21, '°C'],
    ['temperatureDifference', '18 Δ°F', 10, '°F'],
    ['area', '2,5 mm²', 2.5e-6, 'mm²'],
    ['area', '2.5 mm2', 2.5e-6, 'mm²'],
    ['area', '2.5 MM^2', 2.5e-6, 'mm²'],
    ['area', 'AWG 18', 8.23e-7, 'AWG'],
    ['area', '18 AWG', 8.23e-7, 'AWG'],
    ['area', '4/0 AWG', 1.0722e-4, 'AWG'],
    ['area', '4/0', 1.0722e-4, 'AWG'],
    ['area', '00 AWG', 6.743e-5, 'AWG'],
    ['length', '2 m 30', 2.3, 'm'],
    ['length', '2 m 30 cm', 2.3, 'm'],
    ['length', '2m30', 2.3, 'm'],
    ['length', '5 ft 6 in', 1.6764, 'ft'],
    ['length', '5\'6"', 1.6764, 'ft'],
    ['length', '5′ 6″', 1.6764, 'ft'],
    ['length', '-5 ft 6', -1.6764, 'ft'],
    ['length', '1/2 in', 0.0127, 'in'],
    ['length', '1 1/2 in', 0.0381, 'in'],
    ['length', '1½"', 0.0381, 'in'],
    ['length', '1 234 mm', 1.234, 'mm'],
    ['length', '12\u202F345,5 mm', 12.3455, 'mm'],
    ['length', '1,234.5 mm', 1.2345, 'mm'],
    ['length', '1.234,5 mm', 1.2345, 'mm'],
    ['length', '0,125 mm', 1.25e-4, 'mm'],
    ['length', '12 thou', 3.048e-4, 'thou'],
    ['time', '1 h 30', 5400, 'h'],
    ['time', '2 min 30 s', 150, 'min'],
    ['time', '850 μs', 850e-6, 'µs'],
    ['time', '850 µs', 850e-6, 'µs'],
    ['resistance', '1.2e-3 Ω', 1.2e-3, 'Ω'],
    ['resistance', '1.2 × 10⁻³ Ω', 1.2e-3, 'Ω'],
    ['resistance', '4.7 k\u2126', 4700, 'kΩ'],
    ['resistance', '4.7 kOhm', 4700, 'kΩ'],
    ['resistance', '4k7', 4700, 'kΩ'],
    ['resistance', 'R47', 0.47, 'Ω'],
    ['resistance', '2 mohm', 0.002, 'mΩ'],
    ['resistance', '2 Mohm', 2e6, 'MΩ'],
    ['angularSpeed', '6 500 RPM', (6500 * Math.PI) / 30, 'rpm'],
    ['angularSpeed', '3000 1/min', 100 * Math.PI, '1/min'],
    ['torque', '66 ft-lb', 66 * 0.3048 * 4.4482216152605, 'lbf·ft'],
    ['torque', '90 Nm', 90, 'N·m'],
    ['specificFuelConsumption', '340 g/kWh', 340 / 3.6e9, 'g/kWh'],
    ['resistancePerLength', '6.385 Ω/1000 ft', 6.385 / 304.8, 'Ω/1000ft'],
    ['ratio', '0.95', 0.95, ''],
    ['ratio', '10.5:1', 10.5, ''],
    ['ratio', '85 %', 0.85, '%'],
    ['acceleration', '0.8 g', 0.8 * 9.80665, 'g₀'],
    ['angle', '90°', Math.PI / 2, '°'],
  ]
  it.each(CASES)('%s: %s', (kind, text, si, unit) => {
    const found = read(kind, text)
    expect(found.unit).toBe(unit)
    // 1e-12 for what is arithmetic; AWG areas are given to four or five digits.
    expect(Math.abs(found.value / si - 1)).toBeLessThan(unit === 'AWG' ? 1e-4 : 1e-12)
    expect(found.plusMinus).toBeUndefined()
  })

  it.each(Object.keys(KINDS) as Kind[])('the examples shown for %s are understood', (kind) => {
    for (const example of EXAMPLES[kind]) expect(read(kind, example).value).toBeGreaterThan(0)
  })

  it('gives the double nearest to what was written where the factor is a ratio of whole numbers', () => {
    expect(read('length', '6 in').value).toBe(0.1524)
    expect(read('length', '1.1 mm').value).toBe(0.0011)
    expect(read('mass', '100 lb').value).toBe(45.359237)
    expect(read('speed', '36 km/h').value).toBe(10)
  })

  it('puts a bare number into the unit that stands beside the field', () => {
    expect(read('length', '15', { unit: 'mm' })).toEqual({ value: 0.015, unit: 'mm' })
    expect(read('area', '4/0', { unit: 'AWG' }).unit).toBe('AWG')
  })
})

describe('a ± is a difference', () => {
  const CASES: readonly (readonly [Kind, string, number, number])[] = [
    ['length', '2.5 mm ± 0.1', 2.5e-3, 1e-4],
    ['length', '2.5 ± 0.1 mm', 2.5e-3, 1e-4],
    ['length', '(2.5 ± 0.1) mm', 2.5e-3, 1e-4],
    ['length', '2.5 mm ± 30 µm', 2.5e-3, 3e-5],
    ['resistance', '4.7 kΩ ±5%', 4700, 235],
    ['resistance', '-4.7 kΩ +/- 5 %', -4700, 235],
    ['area', 'AWG 36 ± 2 %', 1.266768698e-8, 2.533537396e-10],
    ['temperature', '21 °C ± 2', 294.15, 2],
    ['temperature', '70 °F ± 1.8 °F', 294.2611111111111, 1],
    ['temperature', '21 ± 2 °C', 294.15, 2],
    ['pressureAbsolute', '2.5 bar abs ± 0.1 bar', 2.5e5, 1e4],
    ['ratio', '85 % ± 3 %', 0.85, 0.03],
    ['ratio', '(85 ± 3) %', 0.85, 0.03],
  ]
  it.each(CASES)('%s: %s', (kind, text, value, plusMinus) => {
    const found = read(kind, text)
    expect(found.value / value).toBeCloseTo(1, 8)
    expect((found.plusMinus as number) / plusMinus).toBeCloseTo(1, 8)
  })
})

describe('what is refused, and how', () => {
  const CASES: readonly (readonly [Kind, string, string, RegExp])[] = [
    ['volumeFlow', '52 lb/h', 'wrong-unit', /measures mass flow.*only through a stated fluid density.*550 cc\/min/s],
    ['massFlow', '550 cc/min', 'wrong-unit', /measures volume flow.*only through a stated fluid density/s],
    [
      'length',
      '3 bar',
      'wrong-unit',
      /"bar" measures absolute pressure, gauge pressure or pressure difference; here length/,
    ],
    ['temperature', '3 psig', 'wrong-unit', /"psig" measures gauge pressure/],
    ['length', 'AWG 18', 'wrong-unit', /"AWG" measures area/],
    ['temperature', '5 Δ°C', 'wrong-unit', /measures temperature difference/],
    [
      'pressureAbsolute',
      '3 bar gauge',
      'wrong-pressure-reference',
      /is a gauge pressure; here absolute pressure.*ambient/s,
    ],
    ['pressureGauge', '29 psia', 'wrong-pressure-reference', /is an absolute pressure; here gauge pressure.*ambient/s],
    ['pressureDifference', '3 barg', 'wrong-pressure-reference', /is a gauge pressure; here pressure difference/],
    ['pressureDifference', '29 psia', 'wrong-pressure-reference', /is an absolute pressure; here pressure difference/],
    ['pressureAbsolute', '-0.3 bar', 'below-absolute-zero', /below zero Pa absolute. Say gauge/],
    ['temperature', '-300 °C', 'below-absolute-zero', /below zero K absolute/],
    ['length', '1,234 mm', 'ambiguous-number', /can mean 1\.234 or 1234\. Write 1\.234 or 1 234\./],
    ['length', '2 m 5', 'ambiguous-number', /more than one way/],
    ['length', '2 m 130 cm', 'unreadable-quantity', /not less than one m/],
    ['length', '1.2.3 mm', 'unreadable-number', /"1\.2\.3" is not a number/],
    ['length', '1/0 in', 'unreadable-number', /divides by zero/],
    ['length', '1e999 m', 'unreadable-number', /too large/],
    ['length', '', 'no-number', /No length was given/],
    ['length', 'long', 'no-number', /does not start with a number/],
    ['length', '15', 'no-unit', /has no unit. Write the length with its unit/],
    ['length', '15 furlongs', 'unknown-unit', /"furlongs" is not a unit of length/],
    ['volume', '12 gal', 'ambiguous-unit', /US gallon .* or the imperial gallon/],
    ['voltage', '5 MV', 'unknown-unit', /"MV" is not a unit of voltage/],
    ['pressureGauge', '5 mpa', 'unknown-unit', /"mpa" is not a unit of gauge pressure/],
    ['length', '10 mil', 'ambiguous-unit', /a millimetre to others. Write thou or mm/],
    ['area', 'AWG 70', 'awg-out-of-range', /AWG 70 is not a gauge/],
    ['temperature', '21 °C ± 3 %', 'unreadable-tolerance', /depends on where its zero is/],
    ['length', '2 mm ± -1', 'unreadable-tolerance', /without a minus/],
    ['length', '2 mm ± lots', 'unreadable-tolerance', /Write it such as/],
    ['length', '2 mm ± 1 V', 'wrong-unit', /"V" measures voltage/],
    ['ratio', '85 ± 3 %', 'unreadable-tolerance', /Write 85 % ± 3 %/],
  ]
  it.each(CASES)('%s: "%s" is %s', (kind, text, code, words) => {
    let refusal: unknown
    try {
      read(kind, text)
    } catch (error) {
      refusal = error
    }
    expect(refusal).toBeInstanceOf(Refusal)
    expect((refusal as Refusal).problems[0]?.code).toBe(code)
    expect((refusal as Refusal).message).toMatch(words)
  })
})

describe('absolute and gauge meet only through ambient pressure', () => {
  const ambient = 98000
  it('converts what says the opposite when ambient is stated', () => {
    expect(read('pressureAbsolute', '1 bar gauge', { ambient }).value).toBe(198000)
    expect(read('pressureGauge', '1.98 bar abs', { ambient }).value).toBeCloseTo(100000, 6)
    expect(read('pressureAbsolute', '60 kPa vacuum', { ambient }).value).toBe(38000)
  })
  it('leaves alone what says the same, or nothing', () => {
    expect(read('pressureAbsolute', '1 bar', { ambient }).value).toBe(1e5)
    expect(read('pressureGauge', '1 bar g', { ambient }).value).toBe(1e5)
  })
  it('converts no difference, and nothing below a perfect vacuum', () => {
    expect(() => read('pressureDifference', '1 bar gauge', { ambient })).toThrow(/pressure difference is asked for/)
    expect(() => read('pressureAbsolute', '1 bar vacuum', { ambient })).toThrow(/below zero/)
  })
})
