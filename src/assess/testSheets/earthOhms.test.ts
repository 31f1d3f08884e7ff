// What an ohmmeter tells of an earth and what it does not, against Ohm's law by hand; what the sheets offer in its place.
import { describe, expect, it } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
import { emptyBuild } from '../../model/build.ts'
import { BODY } from '../circuit.ts'
import { blindSays, ifEarthOpens, isBlind, unseenOhms } from './earthOhms.ts'
import { expectOhms } from './expect.ts'
import { testSheet } from './testSheet.ts'
import type { SheetTest, TestSheet } from './types.ts'

const demo = demoBuild()
const tests = (sheet: TestSheet): SheetTest[] =>
  sheet.sections.flatMap(({ lines }) => lines.filter((line): line is SheetTest => line.kind === 'test'))
const ohm = (id: string, a: string, b: string, value: number) => ({ type: 'resistor' as const, id, a, b, ohm: value })

describe('an earth in ohms', () => {
  /** A stud on the body, the body strapped to the battery; a lamp of so many Ω cold from the stud to another earth. */
  const car = (lamp: number | undefined) => ({
    reference: 'minus',
    elements: [
      ohm('stud', 'stud', BODY, 0.01),
      ohm('strap', BODY, 'minus', 0.01),
      ...(lamp === undefined ? [] : [ohm('lamp', 'stud', 'other', lamp), ohm('other-stud', 'other', BODY, 0.01)]),
    ],
  })
  const found = (lamp: number | undefined) => ({
    expect: expectOhms(car(lamp), [], 'stud', 'minus'),
    ifOpen: ifEarthOpens(emptyBuild('x'), car(lamp), 'stud', 'minus'),
  })

  it('tells an open one where there is no other way', () => {
    const { expect: sound, ifOpen } = found(undefined)
    expect(sound.value).toBeCloseTo(0.02, 4)
    expect(ifOpen.ohm).toBe(Number.POSITIVE_INFINITY)
    expect(isBlind(sound, ifOpen)).toBe(false)
  })

  it.each([
    [0.31, true],
    // Sound it shows up to 0.02 + 0.3 Ω; open, 0.6 Ω of lamp and 0.02 Ω of metal less 1 % and 0.3 Ω: 0.314 Ω.
    [0.6, true],
    [0.7, false],
  ])('with lamps of %d Ω on it, is blind: %s', (lamp, blind) => {
    const { expect: sound, ifOpen } = found(lamp)
    expect(ifOpen.ohm).toBeCloseTo(lamp + 0.02, 4)
    expect(isBlind(sound, ifOpen)).toBe(blind)
  })

  it('shows no joint that loses 0.2 V of 5 A: 0.04 Ω', () => {
    const { expect: sound } = found(undefined)
    expect(unseenOhms(sound, 5)).toBeCloseTo(0.04, 9)
    // 2 Ω at a tenth of an ampere it does show.
    expect(unseenOhms(sound, 0.1)).toBeUndefined()
  })

  it('says so', () => {
    const { expect: sound } = found(undefined)
    const ifOpen = { ohm: 0.33, by: 'through the filaments of lamps' }
    expect(blindSays([{ says: 'The stud', most: sound.most, ifOpen, tells: 'Volts tell.' }])).toEqual([
      'Not proved in ohms: The stud (open 0.33 Ω, through the filaments of lamps). Sound, a meter shows up to 0.32 Ω there for its leads, which is no telling. Volts tell.',
    ])
  })
})

describe('the sheets', () => {
  it('of a circuit offer no ohms that prove nothing, and name the line that does, which is there', () => {
    const sheet = testSheet(demo, 'side-lamps', 'idle-hot-wet-night')
    const ids = tests(sheet).map(({ id }) => id)
    const note = sheet.notes.find((each) => /^Not proved in ohms: Earth stud, rear pillar/.test(each))!
    expect(note).toMatch(
      /through the filaments of lamps.*“Earth stud, rear pillar, to battery negative” in the live part/,
    )
    expect(ids).not.toContain('ohms:stud-rear.S')
    expect(ids).toContain('volts:stud-rear.S')
  })

  it('of first power prove every stud with a test lamp, which tells hundredths of an ohm', () => {
    const first = testSheet(demo, 'first-power')
    const lines = tests(first).filter(({ id }) => id.startsWith('volts:earth:'))
    expect(lines.map(({ at }) => at).sort()).toEqual(
      ['stud-dash.S', 'stud-engine.S', 'stud-front.S', 'stud-nose.S', 'stud-rear.S'].sort(),
    )
    for (const { expect: expected, limit, id } of lines) {
      // 1.6 A at least through the lamp: 0.05 Ω too many are 80 mV.
      expect(expected!.most, id).toBeLessThan((expected!.value ?? 0) + 0.08)
      expect(limit).toMatch(/while the test lamp burns/)
    }
    const order = first.sections.flatMap((section) => section.lines.map(({ id }) => id))
    expect(order.indexOf('volts:lamp-bare')).toBeLessThan(order.indexOf(lines[0]!.id))
    expect(order.findIndex((id) => id.startsWith('in:'))).toBeGreaterThan(order.indexOf(lines.at(-1)!.id))
  })

  it('expect of a pulsed winding its own ohms, not those of its mean current', () => {
    const lines = tests(testSheet(demo, 'injection', 'cruising'))
    expect(lines.find(({ id }) => id === 'ohms:injector-1.1~injector-1.2')!.expect!.value).toBeCloseTo(12.2, 3)
  })
})
