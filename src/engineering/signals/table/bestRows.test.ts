import { describe, expect, it } from 'vitest'
import { bestRows, interpolate, type Point, worstOf } from './bestRows.ts'

const grid = (count: number, f: (x: number) => number, from = 0, to = 1): Point[] =>
  Array.from({ length: count }, (_, i) => {
    const x = from + ((to - from) * i) / (count - 1)
    return { x, y: f(x) }
  })

/** Every choice of inner rows and of every allowed rounding. */
function exhaustive(curve: readonly Point[], rows: number, values: (y: number) => readonly number[]): number {
  let best = Number.POSITIVE_INFINITY
  const go = (from: number, chosen: readonly Point[]): void => {
    if (chosen.length === rows) {
      if (chosen.at(-1)!.x === curve.at(-1)!.x) best = Math.min(best, worstOf(chosen, curve).largestError)
      return
    }
    for (let i = from; i < curve.length; i += 1) {
      if (chosen.length === 0 && i > 0) return
      for (const y of values(curve[i]!.y)) go(i + 1, [...chosen, { x: curve[i]!.x, y }])
    }
  }
  go(0, [])
  return best
}

describe('best rows', () => {
  // Theory of interpolation: a straight span of width h on x² is off by h²/4, so equal spans are best; 5 rows on 0 … 1: 1/64.
  it('are evenly spaced on a parabola', () => {
    const best = bestRows({ curve: grid(81, (x) => x * x), rows: 5 })
    expect(best.rows.map(({ x }) => x)).toEqual([0, 0.25, 0.5, 0.75, 1])
    expect(best.largestError).toBeCloseTo(1 / 64, 12)
  })
  it('equal every choice tried, on curves that bend both ways', () => {
    for (const f of [Math.exp, (x: number) => Math.sin(5 * x), (x: number) => 1 / (0.05 + x)]) {
      const curve = grid(15, f)
      for (const rows of [2, 3, 4, 5])
        expect(bestRows({ curve, rows }).largestError).toBeLessThanOrEqual(exhaustive(curve, rows, (y) => [y]) + 1e-12)
      expect(bestRows({ curve, rows: 4 }).largestError).toBeCloseTo(
        Math.min(...[2, 3, 4].map((rows) => exhaustive(curve, rows, (y) => [y]))),
        12,
      )
    }
  })
  it('equal every choice tried under rounding, and beat rounding the best afterwards', () => {
    const curve = grid(11, (x) => 10 * Math.exp(-2 * x))
    const around = (y: number): number[] => [...new Set([Math.floor(y), Math.ceil(y)])]
    const best = bestRows({ curve, rows: 4, step: 1 })
    expect(best.largestError).toBeCloseTo(Math.min(...[2, 3, 4].map((rows) => exhaustive(curve, rows, around))), 12)
    const rounded = bestRows({ curve, rows: 4 }).rows.map(({ x, y }) => ({ x, y: Math.round(y) }))
    expect(best.largestError).toBeLessThanOrEqual(worstOf(rounded, curve).largestError)
    expect(bestRows({ curve, rows: 4, step: 1, beyond: 2 }).largestError).toBeLessThanOrEqual(best.largestError)
    for (const { y } of best.rows) expect(Number.isInteger(y)).toBe(true)
  })
  it('with more rows are never worse', () => {
    const curve = grid(60, (x) => Math.log(0.01 + x))
    const errors = [2, 4, 8, 16, 60].map((rows) => bestRows({ curve, rows }).largestError)
    for (let i = 1; i < errors.length; i += 1) expect(errors[i]!).toBeLessThan(errors[i - 1]!)
    expect(errors.at(-1)).toBeCloseTo(0, 12)
  })
  it('of a straight line, or of nothing, are right at once', () => {
    for (let slope = -7; slope <= 7; slope += 0.7) {
      const best = bestRows({ curve: grid(97, (x) => slope * x + 0.1, 0.3, 4.7), rows: 7 })
      expect(best.largestError).toBeLessThan(1e-12)
      expect(best.rows.length).toBeGreaterThanOrEqual(2)
    }
    expect(bestRows({ curve: grid(9, () => 0), rows: 4, step: 1 }).largestError).toBe(0)
  })
  it('of a real size come, no more than were asked for', () => {
    const { rows } = bestRows({ curve: grid(256, (x) => 1 / (0.02 + x)), rows: 16, step: 0.5 })
    expect(rows.length).toBeLessThanOrEqual(16)
  })
  it('hold their ends, as controllers do', () =>
    expect(
      interpolate(
        [
          { x: 0, y: 1 },
          { x: 1, y: 2 },
        ],
        5,
      ),
    ).toBe(2))
  it('refuse what is no curve', () => {
    expect(() =>
      bestRows({
        curve: [
          { x: 0, y: 0 },
          { x: 0, y: 1 },
        ],
        rows: 2,
      }),
    ).toThrow(/does not lie to the right/)
    expect(() => bestRows({ curve: grid(3, (x) => x), rows: 1, step: 0 })).toThrow(/no table.*\n.*cannot be rounded to/)
  })
})
