import { describe, expect, it } from 'vitest'
import { monotoneCurve } from './monotoneCurve.ts'

describe('monotone curve', () => {
  // scipy 1.17.1, interpolate.PchipInterpolator; kept values.
  it('agrees with scipy', () => {
    const curve = monotoneCurve([0, 1, 3, 4, 7, 10], [0, 0.2, 3.1, 3.3, 9, 9.1])
    const kept = [
      [0.5, 0.059472049689441],
      [2, 1.6500000000000004],
      [3.5, 3.2006678104504194],
      [5, 4.904943332529539],
      [6.5, 8.577173257776705],
      [9, 9.088633461047253],
    ] as const
    for (const [x, y] of kept) expect(curve.at(x)).toBeCloseTo(y, 12)
    expect(monotoneCurve([33, 60, 110, 180, 240], [50, 41, 30, 12, 0]).at(150)).toBeCloseTo(19.546941385063135, 12)
  })
  it('rises where the points rise, passes through them, and ends where they end', () => {
    const [xs, ys] = [
      [0, 0.1, 2, 2.1, 9],
      [0, 5, 5, 6, 6.5],
    ]
    const curve = monotoneCurve(xs, ys)
    let last = 0
    for (let x = 0; x <= 9; x += 0.01) {
      const y = curve.at(x)!
      expect(y).toBeGreaterThanOrEqual(last - 1e-12)
      last = y
    }
    xs.forEach((x, i) => {
      expect(curve.at(x)).toBeCloseTo(ys[i]!, 12)
    })
    expect([curve.at(-0.01), curve.at(9.01), curve.at(Number.NaN)]).toEqual([undefined, undefined, undefined])
  })
  it('throws at points that do not rise', () => expect(() => monotoneCurve([0, 0], [1, 2])).toThrow(/x rising/))
})
