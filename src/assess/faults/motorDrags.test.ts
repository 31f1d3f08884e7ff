// A motor that drags: told apart from a resistive joint by readings alone, on cars whose parts lie off the model.
import { describe, expect, it } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
import { singleFaults } from '../../engineering/electrical/faults/parts.ts'
import type { Build } from '../../model/build.ts'
import { applyChanges } from '../../model/read.ts'
import { solveCase } from '../solveCases.ts'
import { answerOf, newSearch, repairOf, startSearch, withEvidence } from './faults.ts'
import { simulatedCar } from './simulatedCar.testing.ts'
import { carTolerances } from './start.ts'
import type { Evidence } from './types.ts'

const NIGHT = 'idle-hot-wet-night'
const demo = demoBuild()

/** The car with a motor that is braked: it draws so many times as much. */
const braked = (device: string, times: number): Build => {
  const build = structuredClone(demo)
  for (const { law } of build.collections.devices[device]!.loads ?? [])
    if (law?.type === 'motor') (law.runningCurrent as { value: number }).value *= times
  return build
}

describe('a motor that turns slowly', () => {
  const ready = startSearch(demo, { complaint: { device: 'fan', kind: 'weak' }, case: NIGHT })
  const found = (build: Build, ohm: number, seed: number) => {
    const car = simulatedCar(build, { wire: 'W-311', end: 'from', ohm, caseId: NIGHT, seed })
    let evidence: Evidence[] = []
    let view = withEvidence(ready, evidence)
    for (let taken = 0; taken < 10 && view.next && view.standing.kind === 'searching'; taken++) {
      evidence = [...evidence, answerOf(view.next, { value: car.read(view.next) })]
      view = withEvidence(ready, evidence)
    }
    return { view, evidence }
  }

  it.each([
    [1.7, 1],
    [2.4, 2],
  ])('draws %d times its current: the drop is up everywhere, and it is the motor', (times, seed) => {
    const { view } = found(braked('fan', times), 1e-3, seed)
    expect(view.standing).toMatchObject({ kind: 'found', part: 'fan' })
    expect(view.suspects[0]!.modes[0]!.mode).toMatch(/^drags: .* times its current$/)
  })

  it('has 0.3 Ω in one joint: the drop is in one place, and it is the joint', () => {
    expect(found(demo, 0.3, 1).view.standing).toMatchObject({ kind: 'found', part: 'joint:fan-relay.87/W-311' })
  })

  it('is freed rather than rewired', () => {
    const stored = newSearch(demo, { complaint: { device: 'fan', kind: 'weak' }, case: NIGHT })
    const edit = repairOf(ready, stored, 'fan', undefined, 'drags: 1.3 to 1.8 times its current')
    const job = applyChanges(demo, edit.changes).collections.jobs[`J-repair-${stored.id}`]!
    expect(job.title).toBe('Free Radiator fan, or renew it')
    expect(job.steps!.join(' ')).toMatch(/Turn it by hand/)
    expect(job.cautions!.join(' ')).toMatch(/fan/i)
  })
})

it('draws what the range says beside its sound current, and held fast what its winding lets through', () => {
  // 12 V, 10 A, 0.3 Ω when held (40 A): 1.3 to 1.8 times is 3 to 8 A more, by 4 Ω and 1.5 Ω: √6 Ω within √(4/1.5).
  const turns = { volts: 12, current: 10, stalled: 0.3 }
  const made = singleFaults([{ kind: 'load', id: 'm', element: 'm', a: 'a', b: 'b', turns }])
  const bridge = (mode: RegExp) => made.find((each) => mode.test(each.mode))!.effects[0]
  expect(bridge(/^drags: 1.3 to 1.8/)).toMatchObject({
    ohm: expect.closeTo(Math.sqrt(6), 9),
    within: expect.closeTo(Math.sqrt(4 / 1.5), 9),
  })
  // 40 A of which 10 A are sound: 30 A more at 12 V.
  expect(bridge(/^held fast: 4 times/)).toMatchObject({ ohm: expect.closeTo(0.4, 9) })
  // What a part fails by is shared among its modes: nothing is added to its prior.
  expect(made.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9)
  const lamp = singleFaults([{ kind: 'load', id: 'm', element: 'm', a: 'a', b: 'b' }])
  expect(lamp.map(({ mode }) => mode)).toEqual(['dead', 'shorted'])
})

it('a regulator stands within ± 0.3 V of its plate', () => {
  // Westerbeke 33A manual, p. 83: 14.4 ± 0.3 V at 20 °C (read).
  const solved = solveCase(demo, demo.collections.cases[NIGHT]!)
  const spread = carTolerances(demo, solved, solved.bound.network.elements).filter(({ field }) => field === 'setpoint')
  expect(spread).toEqual([{ element: 'alternator', field: 'setpoint', absolute: 0.3 }])
})
