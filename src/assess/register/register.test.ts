/** The register: a figure against what is asked, the bolt it stretches, and when it is due again; on every build. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../../../demo/index.ts'
import { type Build, type Edit, emptyBuild } from '../../model/build.ts'
import { applyChanges } from '../../model/read.ts'
import { Refusal } from '../../units/problem.ts'
import { assess } from '../assess.ts'
import { addFixing, mendFixing, removeFixing, seeTo, takeBackEntry } from './edit.ts'
import { preloadOf } from './preload.ts'
import { askedText, type Fixing, fixingStanding, newestEntry } from './standing.ts'

const NOW = '2025-06-01'
const edited = (build: Build, { changes }: Edit): Build => applyChanges(build, changes)
const nut = (more: Partial<Fixing> = {}): Fixing => ({
  id: 'nut',
  name: 'Nut',
  of: 'torque',
  asked: { least: 40, most: 50, unit: 'N·m' },
  entries: [],
  ...more,
})
const had = (value: number, plusMinus?: number): Fixing['entries'] => [
  { value, ...(plusMinus === undefined ? {} : { plusMinus }), when: '2025-05-01T08:00:00Z' },
]
const stands = (fixing: Fixing, build = emptyBuild('e'), now = NOW) => fixingStanding(build, fixing, now)
const counted = (subject: string, rows: readonly (readonly [day: string, value: number])[]): Build => {
  const build = emptyBuild('e')
  rows.forEach(([day, value], i) => {
    const id = `M-${i}`
    build.collections.readings[id] = { id, subject, quantity: 'length', value, when: `${day}T12:00:00Z` }
  })
  return build
}
const refused = (act: () => unknown): string => {
  try {
    act()
  } catch (error) {
    if (error instanceof Refusal) return error.message
    throw error
  }
  return 'nothing was refused'
}

describe('a figure against what is asked', () => {
  it('holds inside, is marginal outside, and a no-go outside on brakes, wheels or structure', () => {
    expect(stands(nut({ entries: had(45) })).value).toMatchObject({ verdict: 'sound' })
    expect(stands(nut({ entries: had(35) })).value).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(/below what is asked, 40 to 50.N·m/),
    })
    expect(stands(nut({ group: 'brakes', entries: had(35, 1) })).value.verdict).toBe('no-go')
    expect(stands(nut({ group: 'wheels', entries: had(55, 1) })).value.verdict).toBe('no-go')
    // Its ± reaches into what is asked: nobody knows that it is outside.
    expect(stands(nut({ group: 'brakes', entries: had(38, 3) })).value.verdict).toBe('marginal')
    expect(stands(nut({ entries: had(49, 3) })).value.says).toMatch(/Its ± reaches past that/)
  })
  it('says what is missing: its figure, or what it is to have', () => {
    expect(stands(nut()).value).toMatchObject({ verdict: 'unknown', missing: 'its figure' })
    const bare: Fixing = { id: 'nut', name: 'Nut', of: 'torque', entries: had(45) }
    expect(stands(bare).value).toMatchObject({ missing: 'what it is to have' })
    expect(stands({ ...bare, entries: [] }).value.missing).toMatch(/what it is to have, and its figure/)
  })
  it('reads limits of one side, and of none', () => {
    expect(askedText(nut({ of: 'clearance', asked: { least: 0.01 } }))).toMatch(/at least 10.mm/)
    expect(askedText(nut({ asked: { most: 50 } }))).toMatch(/at most 50.N·m/)
    expect(askedText(nut({ asked: {} }))).toBeUndefined()
  })
  it('the newest counts, in whatever order they were entered', () => {
    const entries = [
      { value: 45, when: '2025-05-03T08:00:00Z' },
      { value: 30, when: '2025-05-01T08:00:00Z' },
    ]
    expect(newestEntry(nut({ entries }))?.value).toBe(45)
  })
})

describe('due again', () => {
  const going = (km: number, again?: boolean): Partial<Fixing> => ({
    recheck: { distance: { value: km * 1e3, unit: 'km' }, ...(again ? { again } : {}) },
    entries: had(45),
  })
  it('by the odometer, and not known without it', () => {
    const at = (km: number) =>
      counted('odometer', [
        ['2025-05-01', 1e6],
        ['2025-05-20', 1e6 + km * 1e3],
      ])
    expect(stands(nut(going(50)), at(20)).due).toMatchObject({
      verdict: 'sound',
      says: expect.stringMatching(/in 30.km/),
    })
    expect(stands(nut(going(50)), at(80)).due).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(/30.km over/),
    })
    expect(stands(nut(going(50))).due).toMatchObject({ verdict: 'unknown', missing: 'odometer when it was done' })
  })
  it('once is done with the second look, again never is', () => {
    const build = counted('odometer', [
      ['2025-05-01', 0],
      ['2025-05-20', 60e3],
      ['2025-05-25', 130e3],
    ])
    const twice = [...had(45), { value: 45, when: '2025-05-20T18:00:00Z' }]
    expect(stands(nut({ ...going(50), entries: twice }), build).due?.verdict).toBe('sound')
    expect(stands(nut({ ...going(50, true), entries: twice }), build).due?.verdict).toBe('marginal')
  })
  it('by a day of its own or so many months on', () => {
    const by = (recheck: Fixing['recheck'], now: string) => stands(nut({ recheck, entries: had(45) }), undefined, now)
    expect(by({ day: '2025-07-01' }, '2025-06-30').due?.verdict).toBe('sound')
    expect(by({ day: '2025-07-01' }, '2025-07-02').due).toMatchObject({ verdict: 'marginal' })
    expect(by({ months: 6 }, '2025-11-02').due?.verdict).toBe('marginal')
    expect(stands(nut({ recheck: { months: 6 } })).due).toMatchObject({ missing: 'when it was first seen to' })
    expect(stands(nut()).due).toBeUndefined()
  })
})

describe('the bolt', () => {
  const bolt = { diameter: { value: 0.01 }, pitch: { value: 0.0015 }, grade: '8.8' } as const
  const clamped = (torque: number, factor?: { value: number; plusMinus?: number }) =>
    preloadOf(nut({ bolt: { ...bolt, ...(factor ? { factor } : {}) } }), { value: torque })
  it('clamps as the worked example says: 50 N·m at K 0.2 is 25 kN', () => {
    expect(clamped(50, { value: 0.2 })).toMatchObject({
      verdict: 'sound',
      says: expect.stringMatching(/25.*kN, 74 %/),
    })
  })
  it('is stretched by too much, or perhaps where little is known of its friction', () => {
    expect(clamped(80, { value: 0.2 })).toMatchObject({ verdict: 'marginal' })
    expect(clamped(60, { value: 0.2, plusMinus: 0.06 })?.says).toMatch(/With the least friction/)
    expect(clamped(50)).toMatchObject({ verdict: 'unknown', missing: expect.stringMatching(/nut factor/) })
    expect(clamped(50, { value: 0.9 })).toMatchObject({ verdict: 'unknown' })
  })
})

describe('edits', () => {
  it('a line is entered, seen to, mended, taken back and struck out', () => {
    let build = emptyBuild('e')
    build = edited(build, addFixing(build, { name: 'Hub nut', of: 'torque' }))
    build = edited(build, addFixing(build, { name: 'Hub nut', of: 'torque' }))
    expect(Object.keys(build.collections.fixings)).toEqual(['hub-nut', 'hub-nut-2'])
    const line = () => build.collections.fixings['hub-nut']!
    build = edited(build, seeTo(line(), { value: 100, by: 'builder' }))
    build = edited(build, mendFixing(line(), { name: 'Hub nut, left', of: 'torque', asked: { least: 90, most: 110 } }))
    expect(line()).toMatchObject({ name: 'Hub nut, left', entries: [{ value: 100 }] })
    build = edited(build, takeBackEntry(line(), line().entries[0]!))
    expect(line().entries).toEqual([])
    build = edited(build, removeFixing(line()))
    expect(Object.keys(build.collections.fixings)).toEqual(['hub-nut-2'])
  })
  it('refuses a line without a name, limits the wrong way round, an entry that says nothing', () => {
    const build = emptyBuild('e')
    expect(refused(() => addFixing(build, { name: ' ', of: 'torque' }))).toMatch(/has no name/)
    expect(refused(() => addFixing(build, { name: 'x', of: 'torque', asked: { least: 2, most: 1 } }))).toMatch(
      /least that is asked is more/,
    )
    expect(refused(() => seeTo(nut(), {}))).toMatch(/Neither a figure nor a word/)
  })
})

describe('the findings', () => {
  const of = (build: Build) => assess(build).findings.filter(({ system }) => system === 'fixings')
  const verdicts = (build: Build) => [...new Set(of(build).map(({ verdict }) => verdict))].sort()
  it('of the demo: one too low, one due by the hours, counters that nobody read', () => {
    const said = of(demoBuild()).filter(({ verdict }) => verdict === 'marginal')
    expect(said.map(({ rule, subject }) => [rule, subject])).toEqual([
      ['fixing-recheck', 'fixings/turbine-nuts'],
      ['fixing-value', 'fixings/oil-drain-flange'],
    ])
    expect(of(demoBuild()).find(({ key }) => key === 'fixing-recheck:fixings/hub-nut-left')).toMatchObject({
      missing: 'odometer when it was done',
    })
  })
  it('never more than that the arithmetic holds; the half build only asks; sound and empty say nothing wrong', () => {
    const brake = of(demoBuild()).find(({ subject }) => subject === 'fixings/brake-banjo')!
    expect([brake.todo, ...brake.cautions].join(' ')).toMatch(/qualified person/)
    expect(verdicts(halfBuild())).toEqual(['sound', 'unknown'])
    expect(of(emptyBuild('e'))).toEqual([])
    expect(verdicts(soundBuild())).not.toContain('no-go')
  })
})
