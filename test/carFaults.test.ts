// Fault finding over the demo: simulated cars whose resistances and loads lie off the model are read like real ones.
import { describe, expect, it } from 'vitest'
import { demoBuild } from '../demo/index.ts'
import {
  answerOf,
  closeSearch,
  type Evidence,
  newSearch,
  repairOf,
  type SearchView,
  startSearch,
  withEvidence,
} from '../src/assess/faults/faults.ts'
import { looksOf } from '../src/assess/faults/remarkRatios.ts'
import { simulatedCar } from '../src/assess/faults/simulatedCar.testing.ts'
import { applyChanges } from '../src/model/read.ts'

const build = demoBuild()
const CASE = 'cruising'
const tail = startSearch(build, { complaint: { device: 'tail-left', kind: 'weak' }, case: CASE })

const search = (
  ready: typeof tail,
  bad: { wire: string; end: 'from' | 'to'; ohm: number; seed: number },
): { view: SearchView; readings: number } => {
  const car = simulatedCar(build, { ...bad, caseId: CASE })
  const evidence: Evidence[] = []
  for (;;) {
    const view = withEvidence(ready, evidence)
    if (view.standing.kind !== 'searching' || !view.next || evidence.length > 20)
      return { view, readings: evidence.length }
    evidence.push(answerOf(view.next, { value: car.read(view.next) }))
  }
}

describe('a search on the tail lamp', () => {
  it.each([
    ['W-126', 'to', 15, 1],
    ['W-126', 'to', 25, 2],
    ['W-129', 'to', 20, 3],
    ['W-129', 'from', 40, 4],
    ['W-126', 'from', 12, 5],
  ] as const)('finds the joint of %s (%s) at %d Ω and blames no innocent one', (wire, end, ohm, seed) => {
    const { view, readings } = search(tail, { wire, end, ohm, seed })
    const blamed = view.suspects.filter(({ probability }) => probability > 0.9)
    // The joint belongs to its wire or, at a plug or holder, to the device it is on.
    for (const { wires, devices, name } of blamed)
      expect(wires.includes(wire) || devices.includes('tail-left') || devices.includes('splice-tail'), name).toBe(true)
    expect(['found', 'cannot tell apart']).toContain(view.standing.kind)
    expect(readings).toBeLessThanOrEqual(10)
  })

  it('asks for looks with the answers that people give, and takes them', () => {
    const ready = startSearch(build, { complaint: { device: 'fuel-pump', kind: 'dead' }, case: CASE })
    const all = looksOf(ready)
    const answers = (about: string): string[] =>
      all.find((look) => look.about === about)!.answers.map(({ remark }) => remark)
    expect(answers('headlamp-left')).toEqual(['works', 'weak-too', 'dead-too'])
    expect(answers('pump-relay')).toEqual(['relay-clicks', 'relay-silent'])
    expect(answers('fuse-pump')).toEqual(['fuse-whole', 'fuse-blown'])
    expect(all.map(({ about }) => build.collections.devices[about]!.restricted)).toEqual(all.map(() => undefined))
    // The answers of each look are all that can be said.
    for (const { answers: given } of all)
      for (const h of [0, 10, 50]) expect(given.reduce((sum, { chances }) => sum + chances[h]!, 0)).toBeCloseTo(1, 12)
    const { looks } = withEvidence(ready, [])
    expect(looks.map(({ bits }) => bits)).toEqual([...looks.map(({ bits }) => bits)].sort((p, q) => q - p))
    const coil = (remark: string): number =>
      withEvidence(ready, [{ kind: 'remark', remark, about: 'pump-relay' }]).suspects.find(
        ({ part }) => part === 'coil:pump-relay',
      )?.probability ?? 0
    // 0.93 of the clicks that are heard were there, 0.85 of the silences: nearly 10 to 1, the other parts being as they are.
    expect(coil('relay-silent') / coil('relay-clicks')).toBeGreaterThan(5)
    const fuse = (remark: string): number =>
      withEvidence(ready, [{ kind: 'remark', remark, about: 'fuse-pump' }]).suspects.find(
        ({ part }) => part === 'fuse-pump',
      )?.probability ?? 0
    expect(fuse('fuse-blown') / fuse('fuse-whole')).toBeGreaterThan(30)
  })

  it('ranks the lamp holder first when it comes and goes as its wire is moved', () => {
    // Common practice, no published source: usually corrosion at the holder, not the supply wire.
    const ready = startSearch(build, { complaint: { device: 'tail-left', kind: 'comes and goes' }, case: CASE })
    const view = withEvidence(ready, [{ kind: 'remark', remark: 'moves-with-wire', about: 'W-126' }])
    expect(view.suspects[0]).toMatchObject({ name: expect.stringMatching(/^holder .*Tail lamp, left/) })
    // Who moves the wire stands there: the two sides of the holder are asked for first, which is the drop across it.
    const asked = [view.next!, ...view.next!.together].slice(0, 3).map(({ at }) => at)
    expect(asked).toContain('tail-left.+/W-126')
    expect(asked).toContain('tail-left.+')
  })

  it('asks about what cannot be, and does not use it meanwhile', () => {
    const at = 'light-switch.58/W-125'
    const fair = withEvidence(tail, [{ kind: 'reading', quantity: 'volts', at, value: 13.1 }])
    const none = withEvidence(tail, [])
    for (const [value, code] of [
      [13_100, 'millivolts'],
      [-13.1, 'reversed'],
    ] as const) {
      const view = withEvidence(tail, [{ kind: 'reading', quantity: 'volts', at, value }])
      expect(view.questions[0]?.code).toBe(code)
      expect(view.suspects).toEqual(none.suspects)
      expect(withEvidence(tail, [view.questions[0]!.instead!]).suspects[0]!.probability).toBeCloseTo(
        fair.suspects[0]!.probability,
        9,
      )
    }
    const nowhere = withEvidence(tail, [{ kind: 'reading', quantity: 'volts', at: 'no-such.1', value: 12 }])
    expect(nowhere.questions[0]?.code).toBe('unknown-point')
    const clash = withEvidence(tail, [
      { kind: 'reading', quantity: 'volts', at, value: 13.1 },
      { kind: 'reading', quantity: 'volts', at, value: 2 },
    ])
    expect(clash.questions.map(({ code }) => code)).toContain('contradicts')
  })

  it('makes the repair a job with its parts, and closes with its history', () => {
    const { view } = search(tail, { wire: 'W-126', end: 'to', ohm: 15, seed: 1 })
    const stored = newSearch(build, { complaint: { device: 'tail-left', kind: 'weak' }, case: CASE })
    const found = applyChanges(build, repairOf(tail, stored, view.suspects[0]!.part).changes)
    const kept = found.collections.faultSearches[stored.id]!
    const job = found.collections.jobs[kept.job!]!
    expect(job.needs?.parts?.map((id) => found.collections.parts[id]?.status)).toEqual(['wanted'])
    expect(job.cautions!.length).toBeGreaterThan(0)
    const closed = applyChanges(found, closeSearch(found, kept, 'The sheet confirms it.').changes)
    expect(closed.collections.jobs[job.id]!.status).toBe('done')
    expect(closed.collections.faultSearches[stored.id]).toMatchObject({ status: 'closed' })
    expect(closed.collections.faultSearches[stored.id]!.history!.length).toBe(3)
  })

  it('carries its cautions: no probe on airbags, no new fuse to take a reading', () => {
    const { cautions } = withEvidence(tail, [])
    expect(cautions.join(' ')).toMatch(/fuse/i)
    expect(cautions.length).toBeGreaterThan(1)
  })
})
