/** Lists: begun, altered, shown, walked; services fall due by what comes first, and say what is not known. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild } from '../../../demo/index.ts'
import { type Build, type Edit, emptyBuild } from '../../model/build.ts'
import { applyChanges } from '../../model/read.ts'
import { evidenceEdit } from '../commissioning/commissioning.ts'
import { counterAt, dueOf, monthsOn } from './due.ts'
import { byGroup, byPlace, listStanding, rowStanding } from './rows.ts'
import { addRow, removeRow, startList } from './start.ts'

const NOW = '2026-03-01'
const edited = (build: Build, { changes }: Edit): Build => applyChanges(build, changes)
const said = { by: 'the builder', when: '2026-02-01T10:00:00.000Z' }

describe('lists', () => {
  it.each(['inspection', 'donor', 'shakedown', 'service'] as const)(
    '%s begins with rows that are nobody’s law',
    (kind) => {
      const build = edited(emptyBuild('Empty'), startList(emptyBuild('Empty'), kind))
      const [record] = Object.values(build.collections.records)
      const { rows, shown, lacks } = listStanding(build, record!, NOW)
      expect(rows.length).toBeGreaterThan(5)
      expect(shown).toBe(0)
      expect(
        rows.every(
          ({ verdict, missing, check }) => verdict === 'unknown' && missing && check.origin === 'common practice',
        ),
      ).toBe(true)
      expect(lacks).toHaveLength(kind === 'inspection' ? 3 : 0)
      // A second list of the same kind stands beside the first.
      const twice = edited(build, startList(build, kind))
      expect(Object.keys(twice.collections.checks)).toHaveLength(2 * rows.length)
    },
  )

  it('take a row of one’s own, and let one go with what was said of it', () => {
    const demo = demoBuild()
    const more = edited(demo, addRow(demo, 'inspection', { title: 'Speedometer checked', group: 'cabin' }))
    expect(rowStanding(more, more.collections.checks['speedometer-checked']!, NOW)).toMatchObject({
      word: 'nothing to show yet',
    })
    const less = edited(demo, removeRow(demo, demo.collections.checks['fuel-clips']!))
    expect(Object.values(less.collections.evidence).some(({ of }) => of === 'checks/fuel-clips')).toBe(false)
  })

  it('of the demo: shown, wrong, open; the walk goes from nose to tail', () => {
    const demo = demoBuild()
    const standing = listStanding(demo, demo.collections.records.inspection!, NOW)
    expect(standing).toMatchObject({ shown: 2, wrong: 1, lacks: ['the country', 'the day'] })
    const walk = byPlace(demo, standing).map(({ title }) => title)
    expect(walk[0]).toBe('Nose')
    expect(walk.at(-1)).toBe('No place on the car')
    expect(walk.indexOf('Rear')).toBeGreaterThan(walk.indexOf('Engine bay'))
    expect(byGroup(standing).map(({ title }) => title)).toContain('structure')
    // A remark alone shows nothing.
    expect(standing.rows.find(({ check }) => check.id === 'insurer')).toMatchObject({ verdict: 'unknown' })
  })

  it('never have the last word on fuel, brakes or structure', () => {
    const demo = demoBuild()
    const mounts = demo.collections.checks.mounts!
    const build = edited(demo, evidenceEdit(demo, 'checks/mounts', mounts.title, 'as it should', said))
    expect(rowStanding(build, mounts, NOW)).toMatchObject({
      word: 'shown',
      says: expect.stringMatching(/A qualified person must inspect it/),
    })
  })

  it('stand on a half-entered build', () => {
    const half = halfBuild()
    expect(listStanding(half, half.collections.records.donor!, NOW).rows).toHaveLength(5)
  })
})

describe('a service', () => {
  const every = { time: { value: 150 * 3600, unit: 'h' }, months: 12 }
  const word = { id: 'E-1', of: 'checks/x', shows: 'as it should', when: '2025-05-10T09:00:00Z' } as const
  const withHours = (today: number): Build => {
    const build = emptyBuild('e')
    const put = (id: string, hours: number, when: string): void => {
      build.collections.readings[id] = { id, subject: 'engine hours', quantity: 'time', value: hours * 3600, when }
    }
    put('M-1', 10, '2025-05-10T12:00:00Z')
    put('M-2', today, '2026-02-20T12:00:00Z')
    return build
  }
  it('is due by whichever comes first', () => {
    expect(dueOf(withHours(60), every, word, NOW)).toMatchObject({
      verdict: 'sound',
      says: expect.stringMatching(/in 100\sh and on 2026-05-10/),
    })
    expect(dueOf(withHours(170), every, word, NOW)).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(/10\sh over/),
    })
    expect(dueOf(withHours(60), every, word, '2026-05-11')).toMatchObject({ verdict: 'marginal', word: 'due' })
  })
  it('names the counter that nobody read, and the day that nobody knows', () => {
    expect(dueOf(emptyBuild('e'), every, word, NOW)).toMatchObject({
      verdict: 'unknown',
      missing: 'engine hours when it was done',
    })
    expect(dueOf(withHours(60), every, undefined, NOW)).toMatchObject({ missing: 'when it was last done' })
    expect(counterAt(withHours(60), 'engine hours', '2025-05-10')).toBe(36_000)
  })
  it('falls on the last day of a short month', () => {
    expect(monthsOn('2025-01-31', 1)).toBe('2025-02-28')
    expect(monthsOn('2024-01-31', 1)).toBe('2024-02-29')
    expect(monthsOn('2025-12-15', 1)).toBe('2026-01-15')
    expect(monthsOn('2025-05-10', 36)).toBe('2028-05-10')
  })
})
