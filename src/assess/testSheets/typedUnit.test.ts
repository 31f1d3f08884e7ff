// The unit that somebody typed is kept with the reading and shown again; old builds have none and read as before.
import { expect, it } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
import { applyChanges, readBuild } from '../../model/read.ts'
import { asTyped, stepOf, typedText } from '../faults/typed.ts'
import { figureOf, readText } from './figures.ts'
import { meterReading } from './meterText.ts'
import { mendReading, sheetStanding, takeReading, testSheet } from './testSheet.ts'

const demo = demoBuild()
const NIGHT = 'idle-hot-wet-night'
const sheet = testSheet(demo, 'fuel-pump', NIGHT)
const line = sheet.sections.flatMap(({ lines }) => lines).find(({ id }) => id === 'volts:stud-rear.S')!
if (line.kind !== 'test') throw new Error('the stud is a test')
const when = '2026-01-01T12:00:00Z'

it.each([
  ['volts', '210 mV', 0.21, 'mV'],
  ['ohms', '4k7', 4700, 'kΩ'],
  ['ohms', '1.2 MΩ', 1.2e6, 'MΩ'],
  ['amps', '85 mA', 0.085, 'mA'],
  ['volts', '12.6', 12.6, undefined],
  ['volts', '-12,6 V', -12.6, 'V'],
] as const)('of %s typed as %s', (quantity, text, value, unit) => {
  const read = meterReading(quantity, text)
  expect(read.value).toBeCloseTo(value, 9)
  expect(read.unit).toBe(unit)
})

it.each([
  ['12.06', 0.01],
  ['0.340', 0.001],
  ['342 mV', 0.001],
  ['34.2 mV', 1e-4],
  ['-12,6 V', 0.1],
  ['12', 1],
  // People write 0 for 0.00.
  ['0', undefined],
  ['1e-3 V', undefined],
] as const)('the last digit of %s is worth %s V', (text, step) => {
  const read = meterReading('volts', text).step
  if (step === undefined) expect(read).toBeUndefined()
  else expect(read).toBeCloseTo(step, 12)
})

it('the last digit goes along into the evidence, and by a thousandth where millivolts were meant', () => {
  const { value, ...typed } = meterReading('volts', '2.30')
  const taken = takeReading(demo, sheet, line, value, { when, ...typed })
  const build = applyChanges(demo, taken.edit.changes)
  expect(build.collections.faultSearches[taken.search!]!.evidence).toMatchObject([{ value: 2.3, step: 0.01 }])
  expect(stepOf(1, 25, 0.025)).toEqual({ step: 0.001 })
  expect(stepOf(0.01, -11.9, 11.9)).toEqual({ step: 0.01 })
})

it('is shown as it was typed, and a plain one as a meter shows it', () => {
  expect(figureOf(0.21, 'volts', 'mV')).toBe('210 mV')
  expect(figureOf(4700, 'ohms', 'kΩ')).toBe('4.7 kΩ')
  expect(figureOf(12.6, 'volts', 'V')).toBe('12.60 V')
  expect(readText({ value: 0.45, unit: 'mΩ', leadResistance: { value: 0.2 } }, 'ohms')).toBe(
    '250 mΩ (450 mΩ less 0.20 Ω of leads)',
  )
  // From a file that somebody else wrote.
  expect(asTyped(1, 'volts', 'furlong')).toBeUndefined()
  expect(typedText(1.23456, 'volts')).toBe('1.235 V')
})

it('goes along into the evidence of the search, the store’s form and back', () => {
  const { value, unit } = meterReading('volts', '2300 mV')
  const taken = takeReading(demo, sheet, line, value, { when, unit: unit! })
  expect(taken.edit.label).toMatch(/^2300 mV at /)
  expect(taken.search).toBeDefined()
  const build = applyChanges(demo, taken.edit.changes)
  expect(build.collections.faultSearches[taken.search!]!.evidence).toMatchObject([{ value: 2.3, unit: 'mV' }])
  const again = readBuild(JSON.parse(JSON.stringify(build)))
  expect(again.collections.readings).toEqual(build.collections.readings)
  const kept = sheetStanding(build, sheet).lines.get(line.id)!.reading!
  expect(readText(kept, 'volts')).toBe('2300 mV')
  // Without one, as every build until now.
  expect(Object.values(demo.collections.readings).every((reading) => reading.unit === undefined)).toBe(true)
})

it('settles which thousand is meant: only a bare number is asked about', () => {
  const bare = takeReading(demo, sheet, line, 25, { when })
  expect(bare.verdict).toMatchObject({ kind: 'asked about', code: 'thousandth', unit: 'mV' })
  const build = applyChanges(demo, bare.edit.changes)
  const kept = sheetStanding(build, sheet).lines.get(line.id)!.reading!
  const mended = applyChanges(build, mendReading(build, line, kept, 0.025, 'mV').edit.changes)
  expect(readText(mended.collections.readings[kept.id]!, 'volts')).toBe('25 mV')
  expect(takeReading(demo, sheet, line, 0.025, { when, unit: 'mV' }).verdict?.kind).not.toBe('asked about')
})
