import { erf } from 'mathjs'
import { describe, expect, test } from 'vitest'
import { believe, type Evidence, prepareSearch, readingVariance, stepAt, suspects } from './belief.ts'
import { chain, open, problemOf } from './faults.testing.ts'
import { after, normalCdf, outcomesAt, suspicionOf } from './outcomes.ts'

const METER = { relative: 0.005, absolute: 0.02, step: 0.01, finer: [2, 0.2] }
const joints = ['j1', 'j2', 'j3', 'j4'].map((part) => ({
  ...open(part),
  mode: '1 Ω',
  effects: [{ kind: 'ohm' as const, element: part, ohm: 1, within: 2 }],
}))
const tolerances = ['j1', 'j2', 'j3', 'j4'].map((element) => ({ element, field: 'ohm', factor: 3 }))
const points = ['n1', 'n2', 'n3', 'n4']

test('normal distribution, against the error function of mathjs', () => {
  for (let x = -6; x <= 6; x += 0.1) expect(Math.abs(normalCdf(x) - (1 + erf(x / Math.SQRT2)) / 2)).toBeLessThan(7.5e-8)
})

describe('outcomes of a test', () => {
  const search = prepareSearch(problemOf(chain(4), joints, points, { tolerances }), 12)

  test('add up to one under each branch, and stand in rising order', () => {
    const suspicion = suspicionOf(believe(search, []), 1e-4)
    for (let t = 0; t < points.length; t++) {
      const outcomes = outcomesAt(suspicion, t)
      const chances = outcomes.volts.map((_, k) => outcomes.chance(k))
      suspicion.branches.forEach((_, i) => {
        expect(chances.reduce((sum, chance) => sum + chance[i]!, 0)).toBeCloseTo(1, 9)
      })
      expect([...outcomes.volts].sort((p, q) => p - q)).toEqual(outcomes.volts)
      const weight = suspicion.weight.reduce((sum, p) => sum + p, 0)
      expect(outcomes.byPart.reduce((sum, p) => sum + p, 0)).toBeCloseTo(weight, 9)
    }
  })

  test('after one that is taken for granted, are those of the search that has really read it', () => {
    const before = believe(search, [])
    const suspicion = suspicionOf(before, 1e-4)
    const outcomes = outcomesAt(suspicion, 1)
    const foreseen = after(suspicion, outcomes, 1, 1e-3)
    const read: Evidence = { kind: 'reading', testPoint: 'n2', volts: outcomes.volts[1]! }
    const real = believe(search, [read])
    // The same branches with the same weights, so that only their forecasts are compared.
    const narrowed = { ...foreseen, belief: real }
    const { given: _, ...plain } = narrowed
    for (const t of [0, 2, 3]) {
      const [mine, theirs] = [outcomesAt(foreseen, t).volts, outcomesAt(plain, t).volts]
      expect(mine.length).toBe(theirs.length)
      for (const [k, volts] of mine.entries()) expect(volts).toBeCloseTo(theirs[k]!, 3)
    }
  })
})

describe('a meter of several ranges', () => {
  test('has a step and limits for each', () => {
    expect(stepAt(METER, 12)).toBe(0.01)
    expect(stepAt(METER, -1.9)).toBeCloseTo(1e-3, 12)
    expect(stepAt(METER, 0.05)).toBeCloseTo(1e-4, 12)
    // ± (0.5 % + 2 digits) of 1.2 V on 2 V, a uniform error and the step, and 4 mV that a model leaves out.
    const limit = 0.006 + 0.002
    expect(readingVariance(METER, 1.2)).toBeCloseTo((limit ** 2 + 0.001 ** 2 / 4) / 3 + 0.004 ** 2, 12)
    // Typed with two digits it counts as read on the coarse range.
    expect(readingVariance(METER, 1.2, 0.01)).toBeGreaterThan(4 * readingVariance(METER, 1.2))
  })

  test('tells apart by its last digit what the coarse range does not', () => {
    const two = [
      { ...open('j1'), mode: '40 mΩ', effects: [{ kind: 'ohm' as const, element: 'j1', ohm: 0.04, within: 1 }] },
      { ...open('j2'), mode: '30 mΩ', effects: [{ kind: 'ohm' as const, element: 'j1', ohm: 0.03, within: 1 }] },
    ]
    const drop = { node: 'n0', minus: 'n1', id: 'drop' }
    const search = prepareSearch(problemOf(chain(4), two, [drop], { meter: METER }), 1)
    const [mean] = search.forecasts.map((forecast) => forecast.mean[0]!)
    const top = (step?: number): number => {
      const read = { kind: 'reading' as const, testPoint: 'drop', volts: mean!, ...(step ? { step } : {}) }
      return suspects(believe(search, [read]))[0]!.probability
    }
    expect(top()).toBeLessThan(0.9)
    expect(top(0.001)).toBeGreaterThan(0.99)
    // Another meter's own limits count, where the reading says them.
    const read = {
      kind: 'reading' as const,
      testPoint: 'drop',
      volts: mean!,
      limits: { relative: 0.001, absolute: 0.001 },
    }
    expect(suspects(believe(search, [read]))[0]!.probability).toBeGreaterThan(top())
  })
})
