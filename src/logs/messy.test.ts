/** Every combination of delimiter, sign, line end, encoding, unit style and soil: the figures must come out as they went in. */
import { afterAll, describe, expect, it } from 'vitest'
import { bench } from './fixtures.test-helper.ts'
import { inspectLog } from './inspect.ts'

const work = bench()
afterAll(() => work.clear())

const DELIMITERS = [',', ';', '\t', '|'] as const
const ENDS = ['\n', '\r\n', '\r'] as const
const ENCODINGS = ['utf-8', 'utf-8 mark', 'utf-16le', 'utf-16be', 'latin-1'] as const
const UNITS = ['row', 'brackets', 'round', 'none'] as const

interface Shape {
  readonly delimiter: string
  readonly comma: boolean
  readonly end: string
  readonly encoding: (typeof ENCODINGS)[number]
  readonly units: (typeof UNITS)[number]
  readonly preamble: number
  readonly trailing: boolean
  readonly quoted: boolean
}

const encode = (text: string, encoding: Shape['encoding']): Buffer => {
  if (encoding === 'latin-1') return Buffer.from(text, 'latin1')
  if (encoding === 'utf-8') return Buffer.from(text)
  if (encoding === 'utf-8 mark') return Buffer.from(`\ufeff${text}`)
  const little = Buffer.from(`\ufeff${text}`, 'utf16le')
  return encoding === 'utf-16le' ? little : little.swap16()
}

function write(shape: Shape, rows: readonly (readonly (number | null)[])[]): Buffer {
  const names = ['Time', 'Engine speed', 'Coolant', 'Supply']
  const units = ['s', 'rpm', '°C', 'V']
  const number = (value: number | null): string => {
    const text = value === null ? '' : String(value)
    const signed = shape.comma ? text.replace('.', ',') : text
    return shape.quoted && signed !== '' ? `"${signed}"` : signed
  }
  const line = (cells: readonly string[]): string =>
    cells.join(shape.delimiter) + (shape.trailing ? shape.delimiter : '') + shape.end
  const head = names.map((name, i) =>
    shape.units === 'brackets' ? `${name} [${units[i]}]` : shape.units === 'round' ? `${name} (${units[i]})` : name,
  )
  const preamble = Array.from({ length: shape.preamble }, (_, i) => `Setting ${i} was left as it is${shape.end}`).join(
    '',
  )
  return encode(
    preamble +
      line(head) +
      (shape.units === 'row' ? line(units) : '') +
      rows.map((row) => line(row.map(number))).join(''),
    shape.encoding,
  )
}

describe('messy text', () => {
  it('reads 480 shapes to the same figures', async () => {
    const rows = Array.from({ length: 40 }, (_, i) => [
      i / 20,
      800 + ((i * 37) % 500),
      i % 4 ? null : -5.25 + i,
      12 + (i % 7) / 8,
    ])
    let seen = 0
    for (const delimiter of DELIMITERS)
      for (const comma of [false, true])
        for (const end of ENDS)
          for (const encoding of ENCODINGS)
            for (const units of UNITS) {
              const mix = seen++
              // A decimal comma between commas can only be told when the cells are quoted.
              const shape: Shape = {
                delimiter,
                comma,
                end,
                encoding,
                units,
                preamble: [0, 2, 30][mix % 3]!,
                trailing: mix % 5 === 0,
                quoted: (comma && delimiter === ',') || mix % 7 === 0,
              }
              const found = await inspectLog(work.file('shape.csv', write(shape, rows)))
              const note = JSON.stringify(shape)
              expect([found.ok, found.samples, found.first, found.last, found.step], note).toEqual([
                true,
                40,
                0,
                1.95,
                0.05,
              ])
              const unit = (symbol: string): string => (units === 'none' ? '' : symbol)
              expect(
                found.channels.map(({ name, unit: u, missing, min, max }) => [name, u, missing, min, max]),
                note,
              ).toEqual([
                ['Engine speed', unit('rpm'), 0, 800, 1299],
                ['Coolant', unit('°C'), 30, -5.25, 30.75],
                ['Supply', unit('V'), 0, 12, 12.75],
              ])
            }
    expect(seen).toBe(480)
  }, 30_000)
})
