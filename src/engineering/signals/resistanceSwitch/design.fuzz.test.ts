import fc from 'fast-check'
import { expect, it } from 'vitest'
import { Refusal } from '../../../units/problem.ts'
import { within } from '../interval.ts'
import { readSwitch } from './bands.ts'
import { type DesignQuestion, designSwitch, type Part } from './design.ts'

const interval = (low: number, high: number) =>
  fc
    .tuple(fc.double({ min: low, max: high, noNaN: true }), fc.double({ min: 0, max: (high - low) / 3, noNaN: true }))
    .map(([from, width]) => ({ low: from, high: Math.min(high, from + width) }))
const part = fc.record({
  nominal: fc.double({ min: 20, max: 20e3, noNaN: true }),
  tolerance: fc.constantFrom(0, 0.005, 0.01, 0.05, 0.1),
})
const question: fc.Arbitrary<DesignQuestion> = fc.record({
  topology: fc.constantFrom('branches' as const, 'chain' as const),
  buttons: fc.integer({ min: 1, max: 3 }),
  parts: fc.oneof(
    fc.array(part, { minLength: 4, maxLength: 7 }),
    // One tolerance and stock without end: the way a series goes, with its own shortcuts.
    fc.array(part, { minLength: 4, maxLength: 7 }).map((list) => list.map((each) => ({ ...each, tolerance: 0.01 }))),
    fc.array(part, { minLength: 4, maxLength: 7 }).map((list) => list.map((each) => ({ ...each, stock: 1 }))),
  ),
  pullUps: fc.array(part, { minLength: 1, maxLength: 3 }),
  endOfLine: fc.boolean(),
  circuit: fc.record({
    supply: interval(4, 6),
    reference: fc.oneof(fc.constant('supply' as const), interval(4, 6)),
    earthOffset: interval(-0.1, 0.15),
    leakage: interval(-2e-5, 2e-4),
    bits: fc.constantFrom(8, 10, 12),
    linearity: fc.constantFrom(0, 1, 3),
  }),
  around: fc.record({
    contact: fc.constantFrom(0, 2, 20),
    short: fc.constantFrom(0, 5),
    insulation: fc.constantFrom(1e5, 1e6, Number.POSITIVE_INFINITY),
  }),
})

/** Smallest gap, V, of one choice by the bands that a person sees; 0 or less is no design. */
function gapOf(
  { circuit, topology, around }: DesignQuestion,
  pullUp: Part,
  values: readonly Part[],
  idle: Part | undefined,
): number {
  try {
    return readSwitch(
      { ...circuit, pullUp: within(pullUp.nominal, pullUp.tolerance) },
      {
        topology,
        buttons: values.map(({ nominal, tolerance }, i) => ({ name: `${i}`, resistor: within(nominal, tolerance) })),
        ...(idle ? { idle: within(idle.nominal, idle.tolerance) } : {}),
      },
      around,
    ).smallest.gap
  } catch (error) {
    if (error instanceof Refusal) return Number.NEGATIVE_INFINITY
    throw error
  }
}

function everyChoice(asked: DesignQuestion): number {
  let best = Number.NEGATIVE_INFINITY
  const count = asked.buttons + (asked.endOfLine ? 1 : 0)
  const go = (chosen: readonly number[]): void => {
    if (chosen.length === count) {
      const parts = chosen.map((i) => asked.parts[i]!)
      const [values, idle] = asked.endOfLine ? [parts.slice(0, -1), parts.at(-1)] : [parts, undefined]
      for (const pullUp of asked.pullUps) best = Math.max(best, gapOf(asked, pullUp, values, idle))
      return
    }
    asked.parts.forEach(({ stock }, i) => {
      if (stock === undefined || chosen.filter((other) => other === i).length < stock) go([...chosen, i])
    })
  }
  go([])
  return best
}

// 3 000 runs of this were made when it was written (39 s); a hundred are kept.
it('never misses a better choice, whatever the circuit and the drawer', () => {
  fc.assert(
    fc.property(question, (asked) => {
      const best = everyChoice(asked)
      let found: ReturnType<typeof designSwitch> | undefined
      try {
        found = designSwitch(asked)
      } catch (error) {
        if (!(error instanceof Refusal)) throw error
        expect(best).toBeLessThanOrEqual(1e-8)
        return
      }
      expect(Math.abs(found.smallestGap - best)).toBeLessThanOrEqual(found.proof.within + 1e-9)
      expect(gapOf(asked, found.pullUp, found.resistors, found.idle)).toBeCloseTo(found.smallestGap, 8)
    }),
    { numRuns: 100, seed: 5 },
  )
})
