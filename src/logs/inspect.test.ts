import { afterAll, describe, expect, it } from 'vitest'
import { bench, lines } from './fixtures.test-helper.ts'
import { importLog } from './import.ts'
import { type Inspection, inspectLog } from './inspect.ts'
import type { Overrides } from './plan.ts'

const work = bench()
afterAll(() => work.clear())

/** Every readable fixture is also stored and read back: the two ways must tell the same. */
async function look(name: string, content: string | Buffer, overrides: Overrides = {}): Promise<Inspection> {
  const file = work.file(`${name}.csv`, content)
  const found = await inspectLog(file, overrides)
  if (!found.ok) return found
  const report = await importLog(file, work.path(`${name}.parquet`), { overrides })
  const stored = await inspectLog(work.path(`${name}.parquet`))
  expect(stored.samples).toBe(found.samples)
  expect(stored.sessions).toEqual(found.sessions)
  const plain = ({ channels }: Inspection) =>
    channels.map(({ mean, ...rest }) => ({ ...rest, mean: mean === null ? null : Number(mean.toPrecision(12)) }))
  expect(plain(stored)).toEqual(plain(found))
  expect(report.samples).toBe(found.samples)
  return found
}
const says = (found: Inspection): string => found.warnings.map(({ line, text }) => `${line ?? '-'}: ${text}`).join('\n')
const channel = (found: Inspection, name: string) => found.channels.find((entry) => entry.name === name)!
const clock = (seconds: number): string =>
  [seconds / 3600, (seconds / 60) % 60, seconds % 60]
    .map((part) => String(Math.floor(part) % 60).padStart(2, '0'))
    .join(':')

describe('layouts', () => {
  it('loses no section where a second row of names brings more columns', async () => {
    const found = await look(
      'wider',
      `Time,RPM,MAP\n${lines(40, (i) => `${i / 10},${800 + i},${30 + i}`)}Time,MAP,TPS,RPM\n${lines(60, (i) => `${4 + i / 10},${70 + i},${i % 20},${840 + i}`)}`,
    )
    expect(found.samples).toBe(100)
    expect(found.sessions.map(({ samples }) => samples)).toEqual([40, 60])
    expect(channel(found, 'MAP')).toMatchObject({ missing: 0, min: 30, max: 129 })
    expect(channel(found, 'TPS')).toMatchObject({ missing: 40 })
  })
  it('spreads one value a row over channels, and can be told not to', async () => {
    const text = `Time [s],Channel,Value,Unit\n${lines(50, (i) => `${i / 10},RPM,${800 + i},rpm\n${i / 10},MAP,${30 + i},kPa${i === 20 ? '' : `\n${i / 10},Fan,${i % 2 ? 'ON' : 'OFF'},`}`)}`
    const found = await look('spread', text)
    expect([found.samples, found.first, found.last, found.step]).toEqual([50, 0, 4.9, 0.1])
    expect(channel(found, 'RPM')).toMatchObject({ unit: 'rpm', missing: 0, min: 800, max: 849 })
    expect(channel(found, 'MAP')).toMatchObject({ unit: 'kPa', missing: 0, min: 30, max: 79 })
    expect(channel(found, 'Fan')).toMatchObject({ missing: 1, states: ['OFF', 'ON'] })
    expect(says(found)).toMatch(/To reverse: spread/)
    expect((await look('unspread', text, { spread: false })).samples).toBe(149)
  })
  it('reads bare hexadecimal words, and leaves words of letters alone', async () => {
    const hex = (i: number) => (i * 3).toString(16).toUpperCase().padStart(2, '0')
    const text = `Time [s],Flags,Gear\n${lines(60, (i) => `${i / 10},${hex(i)},${['ADD', 'BAD'][i % 2]}`)}`
    const found = await look('hex', text)
    expect(channel(found, 'Flags')).toMatchObject({ missing: 0, min: 0, max: 177 })
    expect(channel(found, 'Gear').states).toEqual(['ADD', 'BAD'])
    expect(channel(await look('unhex', text, { hexadecimal: false }), 'Flags').max).not.toBe(177)
  })
  it('takes a footer of words and figures for no sample', async () => {
    const found = await look(
      'footer',
      `Time [s],RPM,MAP\n${lines(50, (i) => `${i / 10},${800 + i},${30 + i}`)}\nEnd of log\nTotal,50,rows\n`,
    )
    expect(found.samples).toBe(50)
    expect(channel(found, 'RPM').min).toBe(800)
    expect(says(found)).toMatch(/54: 1 line that holds no values set aside/)
  })
  it('follows a column called ms past the end of its sixteen bits', async () => {
    const found = await look(
      'ms',
      `ms,rpm,map\n${lines(100, (i) => `${(60_000 + 100 * i) % 65_536},${800 + i},${30 + i}`)}`,
    )
    expect([found.first, found.last, found.step]).toEqual([60, 69.9, 0.1])
  })
  it('reads a decimal comma behind semicolons, with a unit row', async () => {
    const found = await look(
      'comma',
      `Zeit;Drehzahl;MAP\ns;1/min;kPa\n${lines(50, (i) => `${(i / 10).toFixed(2).replace('.', ',')};${800 + i};${(100 + i / 3).toFixed(3).replace('.', ',')}`)}`,
    )
    expect([found.samples, found.first, found.last, found.step]).toEqual([50, 0, 4.9, 0.1])
    expect(channel(found, 'MAP')).toMatchObject({ unit: 'kPa', missing: 0, min: 100, max: 116.333 })
    expect(found.warnings).toEqual([])
  })
  it('reads a preamble, units in brackets, a quoted comma in a name, and blank cells of a slow channel', async () => {
    const found = await look(
      'brackets',
      `# a logger\nRun: third\n\nTime (s),RPM [rpm],"MAP, abs (kPa)",IAT (°C)\n${lines(50, (i) => `${i / 10},${800 + i},${i % 5 ? '' : 100 + i},25.5`)}`,
    )
    expect(found.channels.map(({ name, unit }) => [name, unit])).toEqual([
      ['RPM', 'rpm'],
      ['MAP, abs', 'kPa'],
      ['IAT', '°C'],
    ])
    expect(channel(found, 'MAP, abs')).toMatchObject({ samples: 50, missing: 40, min: 100, max: 145 })
  })
  it.each([
    ['CR', '\r'],
    ['LF', '\n'],
    ['CRLF', '\r\n'],
  ])('reads %s line ends behind tabs', async (_, end) => {
    const found = await look(
      `end${end.length}${end.charCodeAt(0)}`,
      `Time [s]\tA${end}${lines(30, (i) => `${i}\t${i * 2}`, end)}`,
    )
    expect([found.samples, channel(found, 'A').mean]).toEqual([30, 29])
  })
  const degrees = `Time [s];T [°C]\r\n${lines(30, (i) => `${i};${i * 2}`, '\r\n')}`
  it.each([
    ['utf-8 with a mark', Buffer.from(`\ufeff${degrees}`)],
    ['utf-16 little-endian with a mark', Buffer.from(`\ufeff${degrees}`, 'utf16le')],
    ['utf-16 little-endian', Buffer.from(degrees, 'utf16le')],
    ['utf-16 big-endian with a mark', Buffer.from(`\ufeff${degrees}`, 'utf16le').swap16()],
    ['utf-16 big-endian', Buffer.from(degrees, 'utf16le').swap16()],
    ['latin-1', Buffer.from(degrees, 'latin1')],
  ])('reads %s', async (name, bytes) => {
    const found = await look(name, bytes)
    expect(found.channels).toEqual([{ name: 'T', unit: '°C', samples: 30, missing: 0, min: 0, mean: 29, max: 58 }])
  })
  it('reads aligned blanks, pipes with states, units in cells, hexadecimal, thousands', async () => {
    expect(
      channel(
        await look(
          'blanks',
          `  Time     RPM     MAP\n     s     rpm     kPa\n${lines(10, (i) => `  ${i / 10}    ${800 + i}   100.5`)}`,
        ),
        'RPM',
      ).max,
    ).toBe(809)
    expect(
      channel(await look('pipes', `Time|Fan\n${lines(10, (i) => `${i / 10}|${i % 2 ? 'on' : 'off'}`)}`), 'Fan'),
    ).toEqual({
      name: 'Fan',
      unit: '',
      samples: 10,
      missing: 0,
      min: null,
      mean: null,
      max: null,
      states: ['off', 'on'],
    })
    expect(
      channel(await look('cells', `Time,MAP\n${lines(10, (i) => `${i / 10} s,${100 + i} kPa`)}`), 'MAP'),
    ).toMatchObject({ unit: 'kPa', min: 100, max: 109 })
    expect(channel(await look('hex', `Time,Flags\n${lines(10, (i) => `${i / 10},0x1${i}`)}`), 'Flags')).toMatchObject({
      min: 16,
      max: 25,
    })
    expect(
      channel(await look('thousands', `Time;RPM\n${lines(10, (i) => `${i},0;${i % 2 ? '1.234,5' : '999,5'}`)}`), 'RPM'),
    ).toMatchObject({ min: 999.5, max: 1234.5 })
    expect(
      channel(
        await look('quoted', `Time,RPM\n${lines(10, (i) => `${i / 10},"${i % 2 ? '1,234.5' : '999.5'}"`)}`),
        'RPM',
      ),
    ).toMatchObject({ min: 999.5, max: 1234.5 })
  })
  it('keeps channels apart whose names are equal or blank, and numbers columns without names', async () => {
    expect(
      (await look('names', `Time,A,A,,B\n${lines(10, (i) => `${i / 10},1,2,3,4`)}`)).channels.map(({ name }) => name),
    ).toEqual(['A', 'A (2)', 'Column 4', 'B'])
    expect(
      (
        await look(
          'nonames',
          lines(10, (i) => `${i / 10},${(i * i) % 7},3`),
        )
      ).channels.map(({ name }) => name),
    ).toEqual(['Column 2', 'Column 3'])
    expect((await look('single', `RPM\n${lines(10, (i) => `${(i * i) % 7}`)}`)).channels).toHaveLength(1)
  })
})

describe('what is set aside', () => {
  it('names ragged rows, bad cells, NULs and a cut last line by their lines', async () => {
    const found = await look(
      'ragged',
      `Time [s],A,B\n${lines(10, (i) => `${i},1,2`)}10,1\n11,1,2,3\n${lines(10, (i) => `${12 + i},1,2`)}rubbish \0\0 here\n22,xx,3\n23,1`,
    )
    expect(found.samples).toBe(21)
    expect(channel(found, 'A')).toMatchObject({ missing: 1 })
    expect(says(found)).toMatch(/12: 1 line with too few values set aside/)
    expect(says(found)).toMatch(/13: 1 line with too many values set aside/)
    expect(says(found)).toMatch(/24: 1 line with NUL bytes set aside/)
    expect(says(found)).toMatch(/25: Channel "A": 1 cell is not a number \("xx"\)/)
    expect(says(found)).toMatch(/26: The last line is cut short and was set aside/)
  })
  it('accepts a trailing delimiter, reports footers, survives an unclosed quote', async () => {
    expect(
      (await look('trailing', `Time [s],A,B,\n${lines(10, (i) => `${i / 10},1,2,`)}`)).channels.map(({ name }) => name),
    ).toEqual(['A', 'B'])
    expect(
      says(await look('footer', `Time [s],A,B\n${lines(25, (i) => `${i / 10},1,2`)}\nEnd of log\nTotal: 25 rows\n`)),
    ).toMatch(/28: 2 lines .* set aside \(line 28, 29\)/)
    const quote = await look(
      'quote',
      `Time [s],A,B\n${lines(5, (i) => `${i / 10},1,2`)}0.5,"1,2\n${lines(5, (i) => `${(i + 6) / 10},1,2`)}`,
    )
    expect([quote.samples, channel(quote, 'A').missing]).toEqual([11, 1])
  })
  it('takes -9999 far below the rest for a missing value, and lets the builder say it is one', async () => {
    const text = `Time [s],EGT\n${lines(10, (i) => `${i / 10},${i === 3 ? -9999 : 600}`)}`
    const found = await look('mark', text)
    expect(channel(found, 'EGT')).toMatchObject({ missing: 1, min: 600 })
    expect(found.guesses.map(({ override }) => override)).toContain('sentinels')
    expect(channel(await look('mark2', text, { sentinels: false }), 'EGT')).toMatchObject({ missing: 0, min: -9999 })
  })
})

describe('odd files', () => {
  it('reads on before reserved NULs, past a row of storage types, and a row of figures after a stated interval', async () => {
    const padded = await look(
      'padded',
      Buffer.concat([Buffer.from(`Time [s],A\n${lines(30, (i) => `${i},1`)}`), Buffer.alloc(3000)]),
    )
    expect([padded.samples, padded.last]).toEqual([30, 29])
    expect(says(padded)).toMatch(/32: 1 line with NUL bytes set aside/)
    expect(
      (await look('types', `Time,A,B\ns,V,kPa\nfloat,float,int\n${lines(10, (i) => `${i},1,2`)}`)).channels.map(
        ({ name, unit }) => [name, unit],
      ),
    ).toEqual([
      ['A', 'V'],
      ['B', 'kPa'],
    ])
    const stated = await look(
      'stated',
      `Name: x\nSampling interval [ms]: 20\nRPM;MAP\n${lines(20, (i) => `${800 + i};${i}`)}`,
    )
    expect([stated.channels.length, stated.step]).toEqual([2, 0.02])
  })
  it('tells cells that say "no value" in words', async () => {
    const found = await look('nan', `Time [s],A\n${lines(20, (i) => `${i / 10},${i % 3 ? 'NaN' : i}`)}`)
    expect(channel(found, 'A')).toMatchObject({ missing: 13, max: 18 })
    expect(says(found)).toMatch(/13 cells say "no value" in words/)
  })
})

describe('time', () => {
  it('runs on past midnight', async () => {
    const found = await look('clock', `Time,A\n${lines(20, (i) => `${clock((86390 + i) % 86400)}.5,${i}`)}`)
    expect([found.first, found.last, found.sessions.length]).toEqual([86390.5, 86409.5, 1])
    expect(says(found)).toMatch(/12: The clock passes midnight/)
  })
  it('begins a session at a repeated name row, with the same columns or others', async () => {
    const found = await look(
      'repeat',
      `Time [s],A,B\n${lines(10, (i) => `${i},1,2`)}Time [s],A,B\n${lines(5, (i) => `${i},1,2`)}Time [s],B,C [V]\n${lines(4, (i) => `${i},1,7`)}`,
    )
    expect(found.sessions).toEqual([
      { samples: 10, first: 0, last: 9 },
      { samples: 5, first: 0, last: 4 },
      { samples: 4, first: 0, last: 3 },
    ])
    expect(channel(found, 'C')).toMatchObject({ unit: 'V', missing: 15, mean: 7 })
  })
  it('begins a session where time starts again, not at a stray stamp, a counter roll-over or a gap', async () => {
    expect(
      (await look('restart', `Time [s],A\n${lines(10, (i) => `${i / 10},1`)}${lines(7, (i) => `${i / 10},1`)}`))
        .sessions,
    ).toEqual([
      { samples: 10, first: 0, last: 0.9 },
      { samples: 7, first: 0, last: 0.6 },
    ])
    const stray = await look(
      'stray',
      `Time [s],A\n${lines(20, (i) => `${i === 7 ? 999 : i === 12 ? 0 : i / 10 + 1},1`)}`,
    )
    expect([stray.samples, stray.sessions.length, stray.last]).toEqual([20, 1, 2.9])
    expect(says(stray)).toMatch(/2 stray time stamps \(line 9, 14\)/)
    const over = await look('over', `Time (ms),A\n${lines(20, (i) => `${(65000 + i * 100) % 65536},1`)}`)
    expect([over.first, over.last, over.sessions.length]).toEqual([65, 66.9, 1])
    expect(says(await look('gap', `Time [s],A\n${lines(20, (i) => `${i < 10 ? i / 10 : i / 10 + 30},1`)}`))).toMatch(
      /12: 1 gap in the time, the longest 30.1 s/,
    )
  })
  it.each<[string, string, number | null, number | null]>([
    ['iso', `Stamp,A\n${lines(10, (i) => `2024-03-01T12:00:0${i}.25Z,1`)}`, Date.UTC(2024, 2, 1, 12) / 1000 + 0.25, 1],
    [
      'date and clock apart',
      `Date,Time,A\n${lines(10, (i) => `13/02/2024,12:00:0${i}.25,1`)}`,
      Date.UTC(2024, 1, 13, 12) / 1000 + 0.25,
      1,
    ],
    ['epoch', `Time,A\n${lines(10, (i) => `${1700000000 + i / 10},1`)}`, 1700000000, 0.1],
    ['sample number', `Sample rate: 50 Hz\nSample,A\n${lines(10, (i) => `${i},1`)}`, 0, 0.02],
    ['milliseconds guessed', `Time,A\n${lines(10, (i) => `${i * 10},1`)}`, 0, 0.01],
    ['minutes', `Time [min],A\n${lines(10, (i) => `${i / 2},1`)}`, 0, 30],
    ['none', `A,B\n${lines(10, (i) => `${i % 3},1`)}`, null, null],
  ])('reads %s', async (name, text, first, step) => {
    const found = await look(name, text)
    expect([found.first, found.step]).toEqual([first, step])
  })
  it('takes a rate from the builder where the file names none', async () => {
    const found = await look('rate', `A,B\n${lines(10, (i) => `${i % 3},1`)}`, { rate: 20 })
    expect([found.first, found.last, found.step]).toEqual([0, 0.45, 0.05])
  })
})

describe('refusals say what the file is', () => {
  it.each<[string, Buffer | string, RegExp]>([
    [
      'commas',
      `Time,RPM,MAP\n${lines(20, (i) => `${i},1,${800 + i},5,100,${i % 10}`)}`,
      /decimal comma and delimiter are the same sign/,
    ],
    ['png', Buffer.from('89504e470d0a1a0a0000000d49484452', 'hex'), /a PNG picture/],
    ['jpeg', Buffer.from('ffd8ffe000104a464946', 'hex'), /a JPEG picture/],
    ['zip', Buffer.from('504b0304140000000800aaaa', 'hex'), /a zip archive/],
    [
      'xlsx',
      Buffer.concat([Buffer.from('504b030414000000', 'hex'), Buffer.from('xl/workbook.xml')]),
      /an XLSX workbook/,
    ],
    ['gzip', Buffer.from('1f8b0800000000000003', 'hex'), /a gzip archive/],
    ['pdf', '%PDF-1.7\n', /a PDF document/],
    ['html', '<!DOCTYPE html><html><body>hello</body></html>', /a web page/],
    ['sqlite', 'SQLite format 3\0 and so on', /an SQLite database/],
    [
      'prose',
      'This is a letter, and a long one. I write to you.\nThe car runs well, and I am glad, so thanks.\nBest wishes\n',
      /is prose/,
    ],
    ['empty', '', /is empty/],
    ['blank', '\n\n  \n', /is empty but for blank lines/],
    ['endless', '1,'.repeat(300_000), /one endless line/],
    ['nul', Buffer.alloc(4096), /filled with NUL bytes/],
    ['binary', Buffer.from(Array.from({ length: 5000 }, (_, i) => (i * 7919 * i) % 251)), /a binary file/],
  ])('%s', async (name, content, sentence) => {
    const found = await look(name, content)
    expect([found.ok, found.samples]).toEqual([false, 0])
    expect(found.error).toMatch(sentence)
  })
})
