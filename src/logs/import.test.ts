import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { afterAll, describe, expect, it } from 'vitest'
import { bench, lines } from './fixtures.test-helper.ts'
import { importLog } from './import.ts'
import { inspectLog } from './inspect.ts'
import { at, column, strip } from './query.ts'

const work = bench()
afterAll(() => work.clear())

describe('import', () => {
  it('takes the short way for a clean file and the long one for a soiled copy, with equal values', async () => {
    const rows = lines(5000, (i) => `${(i / 100).toFixed(2)},${(i * 7) % 6000},${((i * 13) % 997) / 8}`)
    const clean = await importLog(work.file('clean.csv', `Time [s],RPM,MAP [kPa]\n${rows}`), work.path('clean.parquet'))
    const soiled = await importLog(
      work.file('soiled.csv', `Time [s],RPM,MAP [kPa]\n${rows}rubbish\n`),
      work.path('soiled.parquet'),
    )
    expect([clean.way, soiled.way]).toEqual(['clean', 'repaired'])
    const [a, b] = [
      await column(work.path('clean.parquet'), ['RPM', 'MAP']),
      await column(work.path('soiled.parquet'), ['RPM', 'MAP']),
    ]
    expect(a).toEqual(b)
    expect(a.t[4999]).toBe(49.99)
    expect(soiled.warnings[0]).toMatchObject({ line: 5002 })
  })
  it('leaves the old target and no half file when it refuses or is cancelled', async () => {
    const target = work.path('kept.parquet')
    writeFileSync(target, 'old')
    await expect(importLog(work.file('picture.csv', Buffer.from('89504e470d0a1a0a', 'hex')), target)).rejects.toThrow(
      /a PNG picture/,
    )
    const stop = new AbortController()
    const long = work.file('long.csv', `Time [s],A\n${lines(60_000, (i) => `${i / 100},${i}`)}x\n`)
    await expect(importLog(long, target, { signal: stop.signal, onProgress: () => stop.abort() })).rejects.toThrow(
      /abort/i,
    )
    expect(readFileSync(target, 'utf8')).toBe('old')
    expect(readdirSync(work.folder).filter((name) => name.includes('.part'))).toEqual([])
  })
  it('tells its progress to the end', async () => {
    const seen: number[] = []
    await importLog(
      work.file('progress.csv', `Time [s],A\n${lines(50_000, (i) => `${i / 100},${i}`)}x\n`),
      work.path('progress.parquet'),
      { onProgress: (share) => seen.push(share) },
    )
    expect(seen.at(-1)).toBe(1)
    expect(seen.every((share, i) => i === 0 || share >= seen[i - 1]!)).toBe(true)
  })
  it('stores a Parquet log again with the same channels', async () => {
    await importLog(
      work.file('first.csv', `Time [s],A [V],Fan\n${lines(40, (i) => `${i / 10},${i},${i < 20 ? 'off' : 'on'}`)}`),
      work.path('first.parquet'),
    )
    const again = await importLog(work.path('first.parquet'), work.path('again.parquet'))
    expect(again.way).toBe('parquet')
    expect((await inspectLog(work.path('again.parquet'))).channels).toEqual(
      (await inspectLog(work.path('first.parquet'))).channels,
    )
  })
  it('does not grow with an endless line in the middle of a file', async () => {
    const file = work.file(
      'lump.csv',
      `Time [s],A\n${lines(20, (i) => `${i / 10},1`)}${'9,'.repeat(3_000_000)}\n${lines(20, (i) => `${2 + i / 10},1`)}`,
    )
    const found = await inspectLog(file)
    expect(found.samples).toBe(40)
    expect(found.warnings[0]).toMatchObject({ line: 22, text: expect.stringMatching(/longer than a megabyte/) })
  })
})

describe('questions', () => {
  it('gives the extremes under each pixel, and the reading at a moment', async () => {
    await importLog(
      work.file(
        'strip.csv',
        `Time [s],A,Slow,Fan\n${lines(1000, (i) => `${i / 10},${i % 10},${i % 50 ? '' : i},${i < 500 ? 'off' : 'on'}`)}`,
      ),
      work.path('strip.parquet'),
    )
    const { strips } = await strip(work.path('strip.parquet'), ['A', 'Slow'], 0, 100, 100)
    expect([...strips[0]!.min]).toEqual(new Array(100).fill(0))
    expect([...strips[0]!.max]).toEqual(new Array(100).fill(9))
    expect([strips[1]!.max[5], strips[1]!.max[6]]).toEqual([50, Number.NaN])
    const moment = await at(work.path('strip.parquet'), 62.34)
    expect(moment.readings).toEqual([
      { channel: 'A', unit: '', value: 3, t: 62.3 },
      { channel: 'Slow', unit: '', value: 600, t: 60 },
      { channel: 'Fan', unit: '', value: 'on', t: 62.3 },
    ])
    await expect(strip(work.path('strip.parquet'), ['B'], 0, 1, 10)).rejects.toThrow(/no channel "B"/)
  })
})
