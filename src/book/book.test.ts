/** What is printed holds what the build holds, with its evidence and with what it lacks; nothing of a file is markup. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild } from '../../demo/index.ts'
import { type Build, emptyBuild } from '../model/build.ts'
import { chaptersOf } from './evidence.ts'
import { bookPage } from './page.ts'

const plain = (text: string): string => text.replace(/\u202f/g, ' ')
const entry = (build: Build, subject: string) =>
  chaptersOf(build)
    .flatMap(({ id, entries }) => entries.map((each) => ({ ...each, chapter: id })))
    .find((each) => each.subject === subject)

describe('the evidence', () => {
  it('tells a figure from a log with its ±, method, log and day', () => {
    const found = entry(demoBuild(), 'readings/M-1')!
    expect(found).toMatchObject({ chapter: 'logs', title: 'Charge cooler effectiveness', lacks: [] })
    expect(plain(found.figure)).toBe('0.520 ± 0.040')
    expect(found.from.join(' ')).toMatch(
      /How: ratio of means over four steady climbs.*Log “.+” \(.+\): \d+ samples.*On 2025-05-18\./,
    )
  })
  it('names points by what they are called, and says what a reading lacks', () => {
    const build = demoBuild()
    const rested = build.collections.readings['M-3']!
    expect(entry(build, 'readings/M-3')!.from.join(' ')).toMatch(/At Battery, 12 V 63 A·h, pin \+, against .*pin -\./)
    const bare = { id: 'M-3', subject: rested.subject, quantity: rested.quantity, value: rested.value }
    build.collections.readings['M-3'] = bare
    expect(entry(build, 'readings/M-3')!.lacks).toEqual(['its ±', 'when it was taken', 'what it was measured with'])
    build.collections.readings['M-3'] = { ...bare, provenance: { log: 'gone', method: 'steady windows' } }
    expect(entry(build, 'readings/M-3')).toMatchObject({ chapter: 'logs' })
    expect(entry(build, 'readings/M-3')!.lacks).toContain('log gone is no longer in the build')
  })
  it('holds the card in use, a closed search with its history, and a sitting with its jobs', () => {
    const build = demoBuild()
    build.sheets.fuel!.injectors!.card = {
      format: 'injector-card/1',
      name: 'Four from the bench',
      fluid: { name: 'n-heptane', density: { value: 684 } },
      pressure: { value: 3e5 },
      slope: { value: 0.0048, plusMinus: 0.0001 },
      deadTime: [[{ value: 14 }, { value: 0.0008 }]],
      coverage: 0.95,
      method: 'bench test',
      provenance: { from: 'weighed at home', when: '2025-06-01' },
    }
    build.collections.faultSearches['F-1'] = {
      id: 'F-1',
      complaint: { device: 'tail-left', kind: 'weak' },
      case: 'cruising',
      evidence: [],
      status: 'closed',
      found: { part: 'x', name: 'holder and plug of Tail lamp, left' },
      history: [{ when: '2025-06-02T10:00:00Z', says: 'Cleaned; the test sheet holds' }],
    }
    build.collections.records['sitting-1'] = {
      id: 'sitting-1',
      kind: 'sitting',
      title: 'Sitting of 2025-06-03',
      hours: { value: 9000, unit: 'h' },
      jobs: ['J-6'],
    }
    expect(plain(entry(build, 'sheet/fuel')!.figure)).toMatch(/^288\.0 ± 6\.0 g\/min$/)
    expect(entry(build, 'sheet/fuel')!.from.join(' ')).toMatch(
      /n-heptane at 3.bar.*By bench test\. weighed at home\. On 2025-06-01/,
    )
    const search = entry(build, 'faultSearches/F-1')!
    expect(search.from.join(' ')).toMatch(/Found: holder and plug.*2025-06-02: Cleaned; the test sheet holds\./)
    expect(search.lacks).toEqual(['the job that mended it'])
    const sitting = entry(build, 'records/sitting-1')!
    expect(plain(sitting.figure)).toBe('2.5 h')
    expect(sitting.from[0]).toBe(`${build.collections.jobs['J-6']!.title}.`)
    expect(sitting.lacks).toEqual(['its day'])
  })
  it('of an empty build says what goes into each chapter; of a half-entered one it holds', () => {
    expect(chaptersOf(emptyBuild('Mine')).map(({ empty }) => empty)).not.toContain(undefined)
    expect(bookPage(halfBuild(), '2025-07-01')).toMatch(/<h2>Measured on the car<\/h2>/)
  })
  it('as a page fetches nothing and lets no name become markup', () => {
    const build = demoBuild()
    build.collections.readings['M-4']!.subject = '<script src=x>'
    const page = bookPage({ ...build, name: 'A & B' }, '2025-07-01')
    expect(page).toContain('A &amp; B')
    expect(page).not.toMatch(/<script|src=x>|https?:|@import|url\(/)
    expect(page).toContain('&lt;script src=x&gt;')
  })
})
