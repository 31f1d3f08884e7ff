// Expected values held against Ohm's law by hand and against the car's own solution; the judging; first power's order.
import { describe, expect, it } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
import { soundBuild } from '../../../demo/soundBuild.ts'
import type { Build, Entity } from '../../model/build.ts'
import { emptyBuild } from '../../model/build.ts'
import { applyChanges } from '../../model/read.ts'
import { Refusal } from '../../units/problem.ts'
import { newSearch, repairOf, startSearch, withEvidence } from '../faults/faults.ts'
import { solveCase } from '../solveCases.ts'
import { expecter, expectOhms } from './expect.ts'
import { expectedText, readText } from './figures.ts'
import { meterReading, OPEN_OHMS } from './meterText.ts'
import {
  canUntake,
  confirmRepair,
  judgeReading,
  mendReading,
  sheetStanding,
  takeReading,
  testSheet,
  tickLine,
  untake,
} from './testSheet.ts'
import type { SheetTest, TestSheet } from './types.ts'

const demo = demoBuild()
const CASE = 'cruising'
const NIGHT = 'idle-hot-wet-night'
const sheet = testSheet(demo, 'side-lamps', NIGHT)
const tests = (of: TestSheet): SheetTest[] =>
  of.sections.flatMap(({ lines }) => lines.filter((line): line is SheetTest => line.kind === 'test'))
const lineAt = (of: TestSheet, id: string): SheetTest => {
  const found = tests(of).find((line) => line.id === id)
  if (!found) throw new Error(`no line ${id} among ${tests(of).map((line) => line.id)}`)
  return found
}
const at = (minutes: number) => ({ when: new Date(Date.UTC(2026, 0, 1, 12, minutes)).toISOString() })
const ACROSS = 'volts:tail-left.+~tail-left.-'

describe('what is expected', () => {
  it('is Ohm’s law on a divider, within the meter’s limits where nothing else may be off', () => {
    // 12 V over 1 Ω and 5 Ω: 2 A, 10 V across the 5 Ω.
    const network = {
      reference: 'gnd',
      elements: [
        { type: 'battery' as const, id: 'bat', a: 'post', b: 'gnd', emf: 12, internalResistance: 1e-6 },
        { type: 'resistor' as const, id: 'r1', a: 'post', b: 'mid', ohm: 1 },
        { type: 'resistor' as const, id: 'r2', a: 'mid', b: 'gnd', ohm: 5 },
      ],
    }
    const sure = expecter(network, [])
    const volts = sure.volts('mid', 'gnd')
    expect(volts.value).toBeCloseTo(10, 4)
    // ± (0.5 % + 20 mV) of 10 V is 70 mV and nothing more.
    expect(volts.most - volts.value!).toBeCloseTo(0.07, 4)
    expect(sure.amps('r1').value).toBeCloseTo(2, 4)
    expect(sure.amps('r1').most - 2).toBeCloseTo(0.14, 3)
    // r2 ± 10 %: uniform, so its σ is 10 %/√3; d(V)/V = (1/6)·d(R)/R. Twice that over 10 V: 0.192 V, drawn within a third.
    const spread = expecter(network, [{ element: 'r2', field: 'ohm', relative: 0.1 }]).volts('mid', 'gnd')
    const model = spread.most - spread.value! - 0.07
    expect(model).toBeGreaterThan(0.192 * 0.66)
    expect(model).toBeLessThan(0.192 * 1.5)
    expect(spread.working.join(' ')).toMatch(/model 10 V.*meter ± \(0.5 % \+ 0.02 V\)/)
    // Dead: 5 Ω beside nothing, for the way over r1 ends at the battery that is off.
    expect(expectOhms(network, [], 'mid', 'gnd').value).toBeCloseTo(5, 3)
    expect(expectOhms(network, [], 'mid', 'gnd', new Set(['r2'])).value).toBeNull()
  })

  it.each(['side-lamps', 'fuel-pump', 'headlamps'])('of %s is what the car’s own solution gives', (circuit) => {
    const made = testSheet(demo, circuit, NIGHT)
    const solved = solveCase(demo, demo.collections.cases[NIGHT]!)
    const battery = solved.voltages['battery.-']!
    const volts = tests(made).filter(({ quantity, at: point }) => quantity === 'volts' && !point.includes('/'))
    expect(volts.length).toBeGreaterThan(5)
    for (const { at: point, against, expect: expected } of volts) {
      const other = against === undefined ? battery : solved.voltages[against]!
      expect(expected!.value! - (solved.voltages[point]! - other), point).toBeCloseTo(0, 3)
      expect(expected!.least).toBeLessThan(expected!.value!)
      expect(expected!.most).toBeGreaterThan(expected!.value!)
      // Never closer than the meter reads.
      expect(expected!.most - expected!.least).toBeGreaterThanOrEqual(2 * 0.02)
    }
  })

  it('is not known, and says of which datum, where the volts hang on what is not entered', () => {
    const half = structuredClone(demo) as Build
    const { area: _, ...wire } = half.collections.wires['W-302']!
    half.collections.wires['W-302'] = wire
    const made = testSheet(half, 'fuel-pump', NIGHT)
    // 11 A through three metres of anything between 0.5 and 2.5 mm²: half a volt or two and a half.
    expect(lineAt(made, 'volts:fuel-pump.+/W-303')).toMatchObject({ missing: 'cross-section of wire W-302' })
    expect(lineAt(made, 'volts:fuel-pump.+/W-303').expect).toBeUndefined()
    // Before it the volts are what they were.
    expect(lineAt(made, 'volts:fuse-pump.1').expect).toBeDefined()
    expect(made.notes.join(' ')).toMatch(/cross-section \(W-302\)/)
    // A relay whose coil is not described: behind it nothing is told, "nothing steady" least of all.
    const relay = half.collections.devices['pump-relay']!
    if (relay.spec.kind !== 'relay') throw new Error('a relay')
    const { coilResistance: __, ...spec } = relay.spec
    half.collections.devices['pump-relay'] = { ...relay, spec }
    expect(lineAt(testSheet(half, 'fuel-pump', NIGHT), 'volts:pump-relay.87').missing).toMatch(/coil|draws/)
  })

  it('of the drop on the way is Ohm’s law on that way, closer than the two volts that it lies between', () => {
    const made = testSheet(demo, 'fuel-pump', NIGHT)
    const drop = lineAt(made, 'volts:battery.+~fuel-pump.+').expect!
    const [plus, pump] = [solveCase(demo, demo.collections.cases[NIGHT]!).voltages, 'fuel-pump.+'] as const
    expect(drop.value).toBeCloseTo(plus['battery.+']! - plus[pump]!, 3)
  })

  it('of a starter is what it shows while it cranks, with the cautions for that', () => {
    const made = testSheet(demo, 'starting')
    expect(made.case).toBe('cranking')
    expect(made.sections.find(({ id }) => id === 'live')!.cautions.join(' ')).toMatch(/out of gear.*coils unplugged/)
  })

  it('gives amperes at a fuse: what its loads draw', () => {
    const made = testSheet(demo, 'fuel-pump', CASE)
    const amps = tests(made).filter(({ quantity }) => quantity === 'amps')
    expect(amps.length).toBeGreaterThan(0)
    const solved = solveCase(demo, demo.collections.cases[CASE]!)
    for (const line of amps) {
      // Ohm's law on the wire itself: what it loses over what it has.
      const wire = solved.bound.network.elements.find(({ id }) => id === line.id.replace('amps', 'wire'))!
      const lost = (solved.nodes.get(wire.a) ?? 0) - (solved.nodes.get(wire.b) ?? 0)
      expect(line.expect!.value).toBeCloseTo(Math.abs(lost / (wire as { ohm: number }).ohm), 3)
    }
  })

  it('names what is missing instead of guessing, and refuses what is not there', () => {
    const half = structuredClone(demo) as Build
    const lamp = half.collections.devices['tail-left']!
    half.collections.devices['tail-left'] = { ...lamp, loads: lamp.loads!.map(({ law: _, ...load }) => load) }
    expect(lineAt(testSheet(half, 'side-lamps', NIGHT), ACROSS).missing).toMatch(/draws/)
    expect(() => testSheet(demo, 'no-such')).toThrow(Refusal)
    expect(() => testSheet(demo, 'side-lamps', 'no-such')).toThrow(Refusal)
    expect(testSheet(emptyBuild('Empty'), 'first-power').notes.join(' ')).toMatch(/Not entered: a battery/)
    expect(tests(testSheet(soundBuild(), Object.keys(soundBuild().collections.circuits)[0]!)).length).toBeGreaterThan(0)
  })

  it('leaves airbag and anti-lock wiring out of every sheet, and says whose work it is', () => {
    const build = structuredClone(demo) as Build
    build.collections.devices['tail-left'] = { ...build.collections.devices['tail-left']!, restricted: 'anti-lock' }
    const made = testSheet(build, 'side-lamps', NIGHT)
    const points = tests(made).flatMap(({ at: point, against }) => [point, against ?? ''])
    expect(points.filter((point) => point.startsWith('tail-left.'))).toEqual([])
    expect(made.notes.join(' ')).toMatch(/left to those whose work it is/)
    const reading: Entity<'readings'> = {
      id: 'M-1',
      subject: 'x',
      quantity: 'voltage',
      value: 12,
      at: 'tail-left.+',
      case: NIGHT,
    }
    expect(judgeReading(build, reading)).toMatchObject({
      kind: 'asked about',
      question: expect.stringMatching(/never probed/),
    })
  })

  it('shows a lopsided tolerance by its limits', () => {
    expect(expectedText({ value: 10, least: 9.9, most: 10.1, working: [] }, 'volts')).toBe('10.00 ± 0.10 V')
    expect(expectedText({ value: 0.01, least: 0, most: 0.31, working: [] }, 'ohms')).toBe('under 0.31 Ω')
    expect(expectedText({ value: null, least: 1e6, most: 1e9, working: [] }, 'ohms')).toBe('no continuity')
  })
})

describe('a reading on a sheet', () => {
  const line = lineAt(sheet, ACROSS)
  const good = Number(line.expect!.value!.toFixed(2))

  it('is kept with its instrument, and judged', () => {
    const how = { ...at(0), by: 'The builder', instrument: 'Meter', inputResistance: { value: 10e6 } }
    const taken = takeReading(demo, sheet, line, good, how as Parameters<typeof takeReading>[4])
    expect(taken.verdict?.kind).toBe('in tolerance')
    expect(taken.search).toBeUndefined()
    const build = applyChanges(demo, taken.edit.changes)
    const kept = Object.values(build.collections.readings).find(({ test }) => test === `side-lamps/${ACROSS}`)!
    expect(kept).toMatchObject({
      value: good,
      quantity: 'voltage',
      case: NIGHT,
      by: 'The builder',
      against: 'tail-left.-',
    })
    const standing = sheetStanding(build, sheet)
    expect(standing.done).toBe(1)
    expect(sheetStanding(applyChanges(build, untake(build, kept).changes), sheet).done).toBe(0)
    // The same sheet in another case is another sheet.
    expect(sheetStanding(build, testSheet(demo, 'side-lamps', CASE)).done).toBe(0)
  })

  it.each([
    [-good, 'reversed', good],
    [good * 1000, 'thousandth', good],
    [40, 'out-of-scale', undefined],
  ])('%d V is asked about (%s) and opens nothing', (value, code, instead) => {
    const taken = takeReading(demo, sheet, line, value, at(0))
    expect(taken.verdict).toMatchObject({ kind: 'asked about', code })
    if (instead !== undefined) expect((taken.verdict as { value?: number }).value).toBeCloseTo(instead, 6)
    expect(taken.search).toBeUndefined()
    expect(taken.edit.changes.map((change) => 'collection' in change && change.collection)).toEqual(['readings'])
  })

  it('that is doubtful counts once somebody stands by it, or takes the other value', () => {
    const build = applyChanges(demo, takeReading(demo, sheet, line, -good, at(0)).edit.changes)
    const kept = Object.values(build.collections.readings).find(({ test }) => test === `side-lamps/${ACROSS}`)!
    expect(mendReading(build, line, kept, good).verdict?.kind).toBe('in tolerance')
    expect(mendReading(build, line, kept, -good).verdict?.kind).toBe('out of tolerance')
  })

  it('contradicting one of the same hour is asked about', () => {
    const build = applyChanges(demo, takeReading(demo, sheet, line, good, at(0)).edit.changes)
    expect(takeReading(build, sheet, line, 9, at(10)).verdict).toMatchObject({
      kind: 'asked about',
      code: 'contradicts',
    })
  })

  it('takes the resistance of its leads off', () => {
    const ohms = lineAt(testSheet(demo, 'fuel-pump', NIGHT), 'ohms:fuse-pump.1~fuse-pump.2')
    const most = ohms.expect!.most
    expect(takeReading(demo, sheet, ohms, most + 0.1, at(0)).verdict?.kind).toBe('out of tolerance')
    const how = { ...at(0), leadResistance: { value: 0.2 } } as Parameters<typeof takeReading>[4]
    expect(takeReading(demo, sheet, ohms, most + 0.1, how).verdict?.kind).toBe('in tolerance')
    // And says so: else a reading above its limit would seem to pass.
    expect(readText({ value: 0.45, leadResistance: { value: 0.2 } }, 'ohms')).toBe(
      '0.25 Ω (0.45 Ω less 0.20 Ω of leads)',
    )
    expect(meterReading('ohms', ' OL ')).toEqual({ value: OPEN_OHMS })
    expect(readText({ value: OPEN_OHMS, leadResistance: { value: 0.2 } }, 'ohms')).toBe('no continuity')
    expect(meterReading('volts', '210 mV')).toEqual({
      value: expect.closeTo(0.21, 9),
      unit: 'mV',
      step: expect.closeTo(1e-3, 9),
    })
    expect(() => meterReading('volts', ' ')).toThrow(Refusal)
  })

  it.each([
    ['the leads the wrong way round, and low besides', 'volts:fuel-pump.+/W-303', -7, 'reversed'],
    ['thousandths, fewer than expected', 'volts:stud-rear.S', 25, 'thousandth'],
    ['a coil read in kilohms', 'ohms:pump-relay.86~pump-relay.85', 0.085, 'thousandfold'],
  ])('%s: asked about', (_, id, value, code) => {
    const pump = testSheet(demo, 'fuel-pump', NIGHT)
    const taken = takeReading(demo, pump, lineAt(pump, id), value, at(0))
    expect(taken.verdict).toMatchObject({ kind: 'asked about', code })
    expect(taken.search).toBeUndefined()
  })

  it('mistyped and taken back is weighed no longer; one on which a fault was found stays', () => {
    const out = takeReading(demo, sheet, line, 8.9, at(0))
    const build = applyChanges(demo, out.edit.changes)
    const kept = Object.values(build.collections.readings).find(({ search }) => search === out.search)!
    // The search stood on nothing else.
    const without = applyChanges(build, untake(build, kept).changes)
    expect(without.collections.faultSearches[out.search!]).toBeUndefined()
    const second = takeReading(build, sheet, lineAt(sheet, 'volts:tail-left.+'), 9, at(1))
    const both = applyChanges(build, second.edit.changes)
    const left = applyChanges(both, untake(both, kept).changes).collections.faultSearches[out.search!]!
    expect(left.evidence).toMatchObject([{ at: 'tail-left.+', value: 9 }])
    const found = { ...both.collections.faultSearches[out.search!]!, found: { part: 'x', name: 'x' } }
    expect(canUntake(both, kept)).toBe(true)
    expect(canUntake(applyChanges(both, [{ collection: 'faultSearches', id: found.id, value: found }]), kept)).toBe(
      false,
    )
  })

  it('a tick says that a line is done', () => {
    const build = applyChanges(demo, tickLine(demo, sheet, line, at(0)).changes)
    expect(sheetStanding(build, sheet).lines.get(ACROSS)).toMatchObject({ done: true })
  })
})

describe('a fault', () => {
  it('opens a search with the reading as its evidence, becomes a job, and the same sheet confirms and closes it', () => {
    const line = lineAt(sheet, ACROSS)
    const out = takeReading(demo, sheet, line, 8.9, at(0))
    expect(out.verdict).toMatchObject({ kind: 'out of tolerance', side: 'low' })
    let build = applyChanges(demo, out.edit.changes)
    const opened = build.collections.faultSearches[out.search!]!
    expect(opened).toMatchObject({ complaint: { device: 'tail-left', kind: 'weak' }, case: NIGHT, status: 'open' })
    expect(opened.evidence).toMatchObject([
      { quantity: 'volts', at: 'tail-left.+', against: 'tail-left.-', value: 8.9 },
    ])
    // A second one of the same lamp joins the search.
    const second = takeReading(build, sheet, lineAt(sheet, 'volts:tail-left.+'), 9, at(1))
    expect(second.search).toBe(out.search)
    build = applyChanges(build, second.edit.changes)
    const ready = startSearch(build, opened)
    const stored = build.collections.faultSearches[out.search!]!
    build = applyChanges(build, repairOf(ready, stored, 'holder:tail-left', at(5).when).changes)
    expect(build.collections.jobs[`J-repair-${out.search}`]!.status).toBe('to do')
    let [confirmation] = sheetStanding(build, sheet).confirmations
    expect(confirmation!.lines.map(({ id }) => id).sort()).toEqual([ACROSS, 'volts:tail-left.+'].sort())
    expect(confirmation).toMatchObject({ confirmed: false, passed: [] })
    // After the repair, within the hour: not a contradiction.
    for (const again of confirmation!.lines)
      build = applyChanges(build, takeReading(build, sheet, again, again.expect!.value!, at(30)).edit.changes)
    confirmation = sheetStanding(build, sheet).confirmations[0]
    expect(confirmation!.confirmed).toBe(true)
    build = applyChanges(build, confirmRepair(build, sheet, confirmation!, at(31).when).changes)
    expect(build.collections.faultSearches[out.search!]).toMatchObject({ status: 'closed', closed: at(31).when })
    expect(build.collections.faultSearches[out.search!]!.history!.at(-1)!.says).toMatch(/Test sheet .* confirms it/)
    expect(build.collections.jobs[`J-repair-${out.search}`]!.status).toBe('done')
    expect(sheetStanding(build, sheet).confirmations).toEqual([])
  })

  // What each reading says of the load: an open earth or a relay that gets no volts leaves it dead, not weak; a search for
  // the wrong one of the two does not hold the fault.
  it.each([
    ['an open earth', 'fan', 'volts:fan.-/W-312', 12.3, 'fan', 'dead', /W-312|right wing/],
    ['a poor earth', 'fan', 'volts:fan.-/W-312', 2.3, 'fan', 'weak', undefined],
    ['no current in the earth', 'fan', 'volts:fan.-/W-312', 0, 'fan', 'dead', undefined],
    ['a relay that nothing pulls in', 'fuel-pump', 'volts:pump-relay.85', 12.2, 'fuel-pump', 'dead', /W-307|output/],
    [
      'a coil that is open',
      'fuel-pump',
      'ohms:pump-relay.86~pump-relay.85',
      1e9,
      'fuel-pump',
      'dead',
      /coil of Fuel pump relay/,
    ],
    ['a clamp at the pump’s own fuse', 'fuel-pump', 'amps:W-300', 2, 'fuel-pump', 'dead', undefined],
    ['a drop on the way', 'fuel-pump', 'volts:battery.+~fuel-pump.+', 4, 'fuel-pump', 'weak', undefined],
    ['a starter', 'starting', 'volts:starter.50', 3, 'starter', 'dead', undefined],
  ])('%s is looked for at the right load', (_, circuit, id, value, device, kind, suspect) => {
    const made = testSheet(demo, circuit, circuit === 'starting' ? undefined : NIGHT)
    const taken = takeReading(demo, made, lineAt(made, id), value, at(0))
    const build = applyChanges(demo, taken.edit.changes)
    const search = build.collections.faultSearches[taken.search!]!
    expect(search.complaint).toMatchObject({ device, kind })
    if (suspect === undefined) return
    const view = withEvidence(startSearch(build, search), search.evidence)
    expect(view.questions).toEqual([])
    expect(view.suspects[0]!.name).toMatch(suspect)
  })

  it('is not confirmed by what was read before it was found', () => {
    const search = {
      ...newSearch(demo, { complaint: { device: 'tail-left', kind: 'weak' }, case: NIGHT }, at(0).when),
      found: { part: 'holder:tail-left', name: 'holder' },
      history: [{ when: at(20).when, says: 'Found: holder.' }],
    }
    let build = applyChanges(demo, [{ collection: 'faultSearches', id: search.id, value: search }])
    const line = lineAt(sheet, ACROSS)
    build = applyChanges(build, takeReading(build, sheet, line, line.expect!.value!, at(10)).edit.changes)
    expect(sheetStanding(build, sheet).confirmations[0]!.confirmed).toBe(false)
  })
})
