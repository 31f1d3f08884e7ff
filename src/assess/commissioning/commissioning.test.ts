/** Gates of commissioning: walked through on the sound build; what locks, what waits, what is refused, what opens again. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../../../demo/index.ts'
import { type Build, type Edit, emptyBuild } from '../../model/build.ts'
import { applyChanges } from '../../model/read.ts'
import { assess } from '../assess.ts'
import { FIRST_POWER, takeReading, testSheet, tickLine } from '../testSheets/testSheet.ts'
import {
  closeGate,
  evidenceEdit,
  type GateStanding,
  judgeGates,
  openAgain,
  sayOf,
  takeBack,
  takeFigure,
} from './commissioning.ts'
import { judgeCharge, judgeCranking, judgeOil, judgePrime, judgeRail, judgeTiming } from './figures.ts'

const BY = 'the builder'
let minute = 0
const said = () => ({ by: BY, when: new Date(Date.UTC(2026, 0, 1, 8, minute++)).toISOString() })
const edited = (build: Build, { changes }: Edit): Build => applyChanges(build, changes)

const sound = soundBuild()
const sheet = testSheet(sound, FIRST_POWER)
const findings = assess(sound).findings
const judged = (build: Build) => judgeGates(build, findings, sheet)
const gate = (build: Build, id: string): GateStanding => judged(build).find((each) => each.gate.id === id)!
const FIGURES: Record<string, number> = {
  'oil-cranking/pressure': 180e3,
  'cranking-speed/lowest': 21,
  'cranking-speed/highest': 26,
  'base-timing/lamp': 0.176,
  'base-timing/shown': 0.175,
  'rail-pressure/on': sound.sheets.fuel?.railPressure?.value ?? Number.NaN,
  'rail-pressure/after': 0.95 * (sound.sheets.fuel?.railPressure?.value ?? Number.NaN),
  'rail-pressure/pause': 320,
  'prime/time': 2.5,
  'oil-running/pressure': 350e3,
  'charging/volts': 14.1,
}
const LINES = sheet.sections.flatMap((section) => section.lines.map((line) => ({ section: section.id, line })))

/** All the evidence that one gate asks for. */
const proved = (start: Build, id: string): Build => {
  let build = start
  for (const { ask } of gate(build, id).asks) {
    if (ask.kind === 'lines')
      for (const { section, line } of LINES) {
        if (section !== ask.section || (line.kind === 'test') !== (ask.of === 'readings')) continue
        if (ask.starting !== undefined && !line.id.startsWith(ask.starting)) continue
        if (ask.notStarting !== undefined && line.id.startsWith(ask.notStarting)) continue
        if (line.kind === 'do') build = edited(build, tickLine(build, sheet, line, said()))
        else {
          const { value, least } = line.expect!
          build = edited(build, takeReading(build, sheet, line, value ?? Math.min(1e9, least), said()).edit)
        }
      }
    if (ask.kind === 'hand') build = edited(build, sayOf(build, gate(build, id), ask, 'as it should', said()))
    if (ask.kind === 'hand' && ask.photo)
      build = edited(build, {
        label: 'photo',
        changes: [{ collection: 'photos', id: 'P-1', value: { id: 'P-1', file: 'P-1.jpg', about: `gate/${ask.id}` } }],
      })
    if (ask.kind === 'figures')
      for (const field of ask.fields)
        build = edited(
          build,
          takeFigure(build, gate(build, id), ask, field, FIGURES[`${ask.id}/${field.id}`]!, undefined, said()),
        )
  }
  return build
}
const closed = (build: Build, id: string): Build => edited(build, closeGate(build, gate(build, id), said()))
const upTo = (last: string): Build => {
  let build = sound
  for (const { gate: each } of judged(sound)) {
    if (each.id === last) break
    build = closed(proved(build, each.id), each.id)
  }
  return build
}

describe('the gates', () => {
  it('are closed one after another, by evidence, to the first minute of running', () => {
    let build = sound
    for (const { gate: each } of judged(sound)) {
      expect(gate(build, each.id).stand).toBe('in turn')
      build = proved(build, each.id)
      expect([each.id, gate(build, each.id).asks.filter(({ verdict }) => verdict !== 'sound')]).toEqual([each.id, []])
      build = closed(build, each.id)
    }
    expect(judged(build).every(({ stand }) => stand === 'closed')).toBe(true)
    const { by, evidence } = gate(build, 'lamp').closedBy!
    expect(by).toBe(BY)
    expect(evidence).toMatch(/All \d+ read and in tolerance/)
  })

  it('ask an empty build for what is missing, by name, and call nothing sound that nobody looked at', () => {
    const empty = emptyBuild('Empty')
    const all = judgeGates(empty, assess(empty).findings, testSheet(empty, FIRST_POWER))
    expect(all.map(({ verdict }) => verdict)).toEqual(all.map(() => 'unknown'))
    expect(all[0]!.asks[2]!.missing).toMatch(/a battery with its two posts/)
    expect(all.flatMap(({ asks }) => asks).every(({ verdict, missing }) => verdict !== 'unknown' || missing)).toBe(true)
  })

  it('name the datum on a half-entered build', () => {
    const half = halfBuild()
    const lamp = judgeGates(half, assess(half).findings, testSheet(half, FIRST_POWER)).find(
      ({ gate: { id } }) => id === 'lamp',
    )!
    expect(lamp.asks[0]!.missing).toMatch(/rested voltage and internal resistance of Battery/)
  })

  it('of the demo: two closed, the third held by findings, the rest locked behind it', () => {
    const demo = demoBuild()
    const all = judgeGates(demo, assess(demo).findings, undefined)
    // Without the sheet nothing is taken for proved.
    expect(all[1]!.verdict).toBe('unknown')
    const whole = judgeGates(demo, assess(demo).findings, testSheet(demo, FIRST_POWER))
    expect(whole.slice(0, 4).map(({ stand, verdict }) => [stand, verdict])).toEqual([
      ['closed', 'sound'],
      ['closed', 'sound'],
      ['in turn', 'no-go'],
      ['locked', 'unknown'],
    ])
    expect(whole[2]!.asks[0]!.says).toMatch(/findings stand against it: .*Wire W-310/)
    expect(whole[3]!.behind?.id).toBe('nothing-against-power')
  })

  it('take no tick for a reading', () => {
    const build = upTo('earths')
    const first = LINES.find(({ section }) => section === 'earths')!.line
    const ticked = edited(build, tickLine(build, sheet, first, said()))
    const { verdict, says, next } = gate(ticked, 'earths').asks[0]!
    expect(verdict).toBe('unknown')
    expect(says).toMatch(/1 only ticked/)
    expect(next?.says).toMatch(/A tick is no reading/)
  })

  it('lock what comes behind a reading out of tolerance, and open again once it is read right', () => {
    const build = proved(upTo('earths'), 'earths')
    const bad = LINES.find(
      ({ line }) => line.kind === 'test' && line.quantity === 'ohms' && line.expect?.value !== null,
    )!
    if (bad.line.kind !== 'test') throw new Error('a test')
    // Within the hour of another reading it would be asked about instead.
    minute += 120
    const high = edited(build, takeReading(build, sheet, bad.line, 25, said()).edit)
    expect(gate(high, 'earths').verdict).toBe('no-go')
    expect(gate(high, 'lamp')).toMatchObject({ stand: 'locked', behind: { id: 'earths' } })
    expect(() => closeGate(high, gate(high, 'earths'), said())).toThrow(/out of tolerance/)
    const ask = gate(high, 'tracks').asks.find(({ ask: { kind } }) => kind === 'hand')!.ask
    expect(() => sayOf(high, gate(high, 'tracks'), ask, 'as it should', said())).toThrow(
      /locked by a no-go of “No short/,
    )
    minute += 120
    const mended = edited(high, takeReading(high, sheet, bad.line, 0.1, said()).edit)
    expect(gate(mended, 'earths').verdict).toBe('sound')
  })

  it('ask again when what was proved no longer holds', () => {
    const build = upTo('lamp')
    const [entry] = Object.values(build.collections.evidence)
    const less = edited(build, takeBack(entry!))
    expect(gate(less, 'battery-off')).toMatchObject({ stand: 'asks again', verdict: 'unknown' })
    expect(gate(less, 'earths').stand).toBe('waits')
    const opened = edited(build, openAgain(build, gate(build, 'earths'), said(), 'A strap was moved.'))
    expect(gate(opened, 'earths').stand).toBe('in turn')
    expect(() => openAgain(build, gate(build, 'earths'), said(), ' ')).toThrow(/needs a reason/)
  })

  it('refuse a word without a name, a reason that is missing, and what applies to every car', () => {
    const first = gate(sound, 'battery-off')
    const { ask } = first.asks[0]!
    expect(() => sayOf(sound, first, ask, 'as it should', { ...said(), by: ' ' })).toThrow(/Nobody’s name/)
    expect(() => sayOf(sound, first, ask, 'not as it should', said())).toThrow(/needs a word of why/)
    expect(() => sayOf(sound, first, ask, 'does not apply', said(), 'no room')).toThrow(/applies to every car/)
    expect(() => closeGate(sound, first, said())).toThrow(/somebody’s word/)
    expect(() => sayOf(sound, gate(sound, 'earths'), ask, 'as it should', said())).toThrow(/comes before “No short/)
    const bad = edited(sound, sayOf(sound, first, ask, 'not as it should', said(), 'Out of date since March.'))
    expect(gate(bad, 'battery-off')).toMatchObject({ verdict: 'no-go' })
  })

  it('want a picture where a word is not enough', () => {
    const build = upTo('trigger')
    const { ask } = gate(build, 'trigger').asks.find(({ ask: { id } }) => id === 'polarity')!
    const word = edited(build, sayOf(build, gate(build, 'trigger'), ask, 'as it should', said()))
    expect(gate(word, 'trigger').asks.find((each) => each.ask.id === 'polarity')).toMatchObject({
      verdict: 'unknown',
      missing: 'a photograph',
    })
  })

  it('take a reading that is in the build already, by reference', () => {
    const build = upTo('oil')
    const reading = { id: 'M-900', subject: 'oil', quantity: 'pressureGauge', value: 210e3, when: said().when }
    const withIt = edited(build, { label: 'r', changes: [{ collection: 'readings', id: 'M-900', value: reading }] })
    const referred = edited(
      withIt,
      evidenceEdit(withIt, 'gate/oil-cranking/pressure', 'oil', 'as it should', said(), { reading: 'M-900' }),
    )
    expect(gate(referred, 'oil').asks.find(({ ask }) => ask.id === 'oil-cranking')).toMatchObject({ verdict: 'sound' })
  })
})

describe('the figures', () => {
  const of = (value: number, plusMinus?: number) => ({ value, plusMinus })
  it.each([
    ['oil well up', judgeOil({ pressure: of(2e5) }), 'sound'],
    ['no oil', judgeOil({ pressure: of(0) }), 'no-go'],
    ['thin oil', judgeOil({ pressure: of(3e4) }), 'marginal'],
    ['oil that may be either', judgeOil({ pressure: of(5.2e4, 1e4) }), 'unknown'],
    ['steady cranking', judgeCranking({ lowest: of(20), highest: of(26) }), 'sound'],
    ['a trigger that drops teeth', judgeCranking({ lowest: of(12), highest: of(40) }), 'no-go'],
    ['no trigger', judgeCranking({ lowest: of(0), highest: of(26) }), 'no-go'],
    ['figures turned round', judgeCranking({ lowest: of(26), highest: of(20) }), 'unknown'],
    ['timing spot on', judgeTiming({ lamp: of(0.175), shown: of(0.17) }), 'sound'],
    ['timing 2° off', judgeTiming({ lamp: of(0.21), shown: of(0.175) }), 'marginal'],
    ['timing 10° early', judgeTiming({ lamp: of(0.35), shown: of(0.175) }), 'no-go'],
    ['a pump that stops', judgePrime({ time: of(3) }), 'sound'],
    ['a pump that runs on', judgePrime({ time: of(30) }), 'no-go'],
    ['charging', judgeCharge({ volts: of(14) }, sound), 'sound'],
    ['overcharging', judgeCharge({ volts: of(16) }, sound), 'no-go'],
    ['charging of no known alternator', judgeCharge({ volts: of(14) }, emptyBuild('e')), 'unknown'],
  ])('%s', (_, { verdict, missing }, wanted) => {
    expect(verdict).toBe(wanted)
    if (verdict === 'unknown') expect(missing).toBeTruthy()
  })

  it('of the rail need its set pressure and a long enough pause; a fall alone is never more than marginal', () => {
    const set = sound.sheets.fuel!.railPressure!.value as number
    const rail = (on: number, later: number, pause: number, build = sound) =>
      judgeRail({ on: of(on), after: of(later), pause: of(pause) }, build).verdict
    expect(rail(set, set, 400)).toBe('sound')
    expect(rail(set, 0.5 * set, 400)).toBe('marginal')
    expect(rail(0.6 * set, 0.6 * set, 400)).toBe('no-go')
    expect(rail(set, set, 60)).toBe('unknown')
    expect(judgeRail({ on: of(set), after: of(set), pause: of(400) }, emptyBuild('e')).missing).toMatch(/rail pressure/)
  })
})
