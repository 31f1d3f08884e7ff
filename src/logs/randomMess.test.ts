/** Logs put together by chance from every kind of soil at once: the figures must come out as they went in. */
import { afterAll, describe, expect, it } from 'vitest'
import { bench } from './fixtures.test-helper.ts'
import { importLog } from './import.ts'
import { inspectLog } from './inspect.ts'
import { column } from './query.ts'
import { randomMess } from './randomMess.test-helper.ts'

const work = bench()
afterAll(() => work.clear())

const SEEDS = Number(process.env.SWAPWRIGHT_MESSES ?? 300)

describe('random messes', () => {
  it(`reads ${SEEDS} of them to the figures they were made with, and names every line set aside`, async () => {
    const wrong: string[] = []
    for (let seed = 1; seed <= SEEDS; seed++) {
      const truth = randomMess(seed)
      const found = await inspectLog(work.file('mess.csv', truth.bytes))
      const says = found.warnings.map(({ line, text }) => `${line ?? '-'}: ${text}`)
      const near = (a: number | null, b: number | null): boolean =>
        a === null || b === null ? a === b : Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(b))
      const faults: string[] = []
      const expectSame = (what: string, got: unknown, wanted: unknown): void => {
        if (JSON.stringify(got) !== JSON.stringify(wanted))
          faults.push(`${what}: ${JSON.stringify(got)} for ${JSON.stringify(wanted)}`)
      }
      if (!found.ok) faults.push(`refused: ${found.error}`)
      expectSame('samples', found.samples, truth.samples)
      if (!near(found.first, truth.first)) faults.push(`first: ${found.first} for ${truth.first}`)
      if (!near(found.last, truth.last)) faults.push(`last: ${found.last} for ${truth.last}`)
      expectSame(
        'sessions',
        found.sessions.map(({ samples }) => samples),
        truth.sessions,
      )
      expectSame(
        'names',
        found.channels.map(({ name }) => name),
        truth.channels.map(({ name }) => name),
      )
      for (const [i, wanted] of truth.channels.entries()) {
        const got = found.channels[i]
        if (!got) continue
        expectSame(`${wanted.name} unit`, got.unit, wanted.unit)
        expectSame(`${wanted.name} missing`, got.missing, wanted.missing)
        expectSame(`${wanted.name} states`, got.states, wanted.states)
        for (const key of ['min', 'mean', 'max'] as const)
          if (!near(got[key], wanted[key])) faults.push(`${wanted.name} ${key}: ${got[key]} for ${wanted[key]}`)
      }
      for (const line of truth.aside)
        if (!says.some((text) => new RegExp(`\\(line .*\\b${line}\\b|^${line}:`).test(text)))
          faults.push(`line ${line} is not named`)
      if (faults.length > 0) wrong.push(`${truth.note}\n   ${faults.join('\n   ')}\n   says: ${says.join(' / ')}`)
    }
    expect(wrong.slice(0, 5).join('\n'), `${wrong.length} of ${SEEDS} wrong`).toBe('')
  }, 120_000)

  it('stores what it reported, value by value', async () => {
    for (let seed = 1001; seed <= 1020; seed++) {
      const truth = randomMess(seed)
      await importLog(work.file('mess.csv', truth.bytes), work.path('mess.parquet'))
      const numeric = truth.channels.filter(({ states }) => !states)
      const stored = await column(
        work.path('mess.parquet'),
        numeric.map(({ name }) => name),
      )
      numeric.forEach((wanted, i) => {
        const values = stored.values[i]!.filter((value) => !Number.isNaN(value))
        expect(stored.values[i]!.length, truth.note).toBe(truth.samples)
        expect(truth.samples - values.length, truth.note).toBe(wanted.missing)
        expect([Math.min(...values), Math.max(...values)], truth.note).toEqual([wanted.min, wanted.max])
      })
    }
  }, 60_000)
})
