// A point that should be dead and is alive: the complaint that a sheet makes of it, and what the search suspects.
import { describe, expect, it } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
import type { Build } from '../../model/build.ts'
import { applyChanges } from '../../model/read.ts'
import { startSearch, withEvidence } from '../faults/faults.ts'
import { takeReading, testSheet } from './testSheet.ts'
import type { SheetTest } from './types.ts'

const demo = demoBuild()
const how = { when: '2026-01-01T12:00:00Z' }
const read = (build: Build, circuit: string, kase: string, id: string, value: number) => {
  const sheet = testSheet(build, circuit, kase)
  const line = sheet.sections.flatMap(({ lines }) => lines).find((each): each is SheetTest => each.id === id)
  if (line?.kind !== 'test') throw new Error(`no line ${id}`)
  const taken = takeReading(build, sheet, line, value, how)
  const after = applyChanges(build, taken.edit.changes)
  return {
    line,
    taken,
    after,
    search: taken.search === undefined ? undefined : after.collections.faultSearches[taken.search],
  }
}
const modesOf = (after: Build, search: NonNullable<ReturnType<typeof read>['search']>) => {
  const ready = startSearch(after, search)
  return {
    hypotheses: ready.search.hypotheses.map(({ part, mode }) => `${part} ${mode}`),
    view: withEvidence(ready, search.evidence),
  }
}

describe('supply volts where the sheet expects none', () => {
  it('behind an open switch: contacts that stay closed, or a fed neighbour', () => {
    const { line, taken, after, search } = read(demo, 'side-lamps', 'parked', 'volts:light-switch.58', 12.5)
    expect(line).toMatchObject({ dead: true, high: expect.stringMatching(/stay closed.*neighbour.*load/) })
    expect(taken.verdict).toMatchObject({ kind: 'out of tolerance', side: 'high' })
    expect(search!.complaint).toEqual({
      device: 'light-switch',
      at: 'light-switch.58',
      kind: 'alive when it should be dead',
    })
    expect(search!.history![0]!.says).toMatch(/^Opened: .*, pin 58: alive when it should be dead\.$/)
    const { hypotheses, view } = modesOf(after, search!)
    expect(hypotheses).toContain('contact:light-switch stays closed')
    expect(hypotheses.some((each) => /^wire:W-12\d chafed to wire/.test(each))).toBe(true)
    expect(view.questions).toEqual([])
    expect(view.suspects[0]!.part).toBe('contact:light-switch')
    expect(view.next).not.toBeNull()
  })

  it('on a feed: the relay’s contacts, and one relay further back what works its coil', () => {
    const { after, search } = read(demo, 'blower', 'parked', 'volts:fuse-blower.1', 12.5)
    const { hypotheses, view } = modesOf(after, search!)
    expect(hypotheses).toEqual(
      expect.arrayContaining(['contact:ignition-relay stays closed', 'contact:ignition-switch stays closed']),
    )
    expect(view.questions).toEqual([])
  })

  it('across a load at an output that is off: the load is on, and the output that stays on is most suspect', () => {
    const { after, search } = read(demo, 'injection', 'ignition-on', 'volts:injector-1.1~injector-1.2', 12)
    expect(search!.complaint).toEqual({ device: 'injector-1', kind: 'on when it should be off' })
    expect(modesOf(after, search!).view.suspects[0]!.part).toBe('output:out-injector-1')
  })

  it('through a coil: what feeds its other end is among the suspects', () => {
    const { after, search } = read(demo, 'fan', 'parked', 'volts:fan-relay.85', 12.4)
    expect(modesOf(after, search!).hypotheses).toContain('contact:main-relay stays closed')
  })

  it('less than supply, through a lamp whose earth others share: the earth that is open', () => {
    // With the rear stud open what is on there finds its way back through the brake lamps, which are off.
    const { after, search } = read(demo, 'signalling', 'cruising', 'volts:brake-right.+', 4)
    expect(modesOf(after, search!).view.suspects[0]!.part).toBe('stud:stud-rear')
  })

  it('at an earth is no such thing: thousandths are asked about', () => {
    expect(read(demo, 'side-lamps', 'parked', 'volts:stud-rear.S', 12.5).taken.verdict).toMatchObject({
      kind: 'asked about',
      code: 'thousandth',
    })
  })
})
