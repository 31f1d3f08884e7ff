import { existsSync, rmSync } from 'node:fs'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { coarsePath, makeCoarse } from './coarse.ts'
import { bench } from './fixtures.test-helper.ts'
import { importLog } from './import.ts'
import { at, strip } from './query.ts'

const work = bench()
afterAll(() => work.clear())
const ROWS = 120_000
const PIXELS = 40
const END = ROWS / 100 + 300

describe('extremes of blocks beside a long log', () => {
  const parquet = work.path('long.parquet')
  beforeAll(async () => {
    // A gap of 300 s in the middle, a spike that no block may hide, a slow channel.
    const rows = Array.from({ length: ROWS }, (_, i) => {
      const t = i / 100 + (i >= ROWS / 2 ? 300 : 0)
      const wave = (10 * Math.sin(i / 900) + (i === 77_777 ? 500 : 0)).toFixed(4)
      return `${t.toFixed(2)},${wave},${i % 10 === 0 ? (i % 700) / 7 : ''}\n`
    })
    await importLog(work.file('long.csv', `Time [s],Wave [V],Slow [%]\n${rows.join('')}`), parquet)
  }, 30_000)

  it('show what the rows show, moved by an eighth of a pixel at most, and leave a gap empty', async () => {
    const ask = () => strip(parquet, ['Wave', 'Slow'], 0, END, PIXELS)
    const exact = await ask()
    await makeCoarse(parquet, ROWS)
    const coarse = await ask()
    rmSync(coarsePath(parquet))
    await makeCoarse(parquet, 10)
    expect(existsSync(coarsePath(parquet))).toBe(false)
    const empty = (values: Float64Array): number[] => [...values.keys()].filter((i) => Number.isNaN(values[i]))
    expect(empty(exact.strips[0]!.min).length).toBeGreaterThan(5)
    for (const [c, { min, max }] of exact.strips.entries()) {
      const seen = coarse.strips[c]!
      expect(empty(seen.min)).toEqual(empty(min))
      expect(Math.max(...seen.max.filter(Number.isFinite))).toBe(Math.max(...max.filter(Number.isFinite)))
      expect(Math.min(...seen.min.filter(Number.isFinite))).toBe(Math.min(...min.filter(Number.isFinite)))
      for (let i = 0; i < PIXELS; i++) {
        if (Number.isNaN(min[i]!)) continue
        // Never narrower than the truth, never wider than the truth of the pixel and its neighbours.
        expect(seen.min[i]!).toBeLessThanOrEqual(min[i]!)
        expect(seen.max[i]!).toBeGreaterThanOrEqual(max[i]!)
        const near = (values: Float64Array): number[] =>
          [values[i - 1], values[i], values[i + 1]].filter(
            (value) => value !== undefined && !Number.isNaN(value),
          ) as number[]
        expect(seen.min[i]!).toBeGreaterThanOrEqual(Math.min(...near(min)))
        expect(seen.max[i]!).toBeLessThanOrEqual(Math.max(...near(max)))
      }
    }
  })

  it('reads a moment in the gap from before it, and one before the log as nothing', async () => {
    const found = await at(parquet, 700)
    expect(found.readings.map(({ t }) => t)).toEqual([599.99, 599.9])
    expect((await at(parquet, -1)).readings.map(({ value }) => value)).toEqual([null, null])
  })
})
