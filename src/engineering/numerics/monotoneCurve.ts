/**
 * A smooth curve through points that never turns where the points do not: piecewise cubic with slopes by Fritsch & Butland
 * (harmonic means; three-point formula at the ends, limited), the common “PCHIP”.
 * Source: Fritsch & Carlson, SIAM J. Numer. Anal. 17 (1980) 238; Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300 [from memory].
 */
export interface MonotoneCurve {
  readonly low: number
  readonly high: number
  /** `undefined` outside `low … high`: nothing is extrapolated. */
  at(x: number): number | undefined
}

function endSlope(h0: number, h1: number, d0: number, d1: number): number {
  const slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1)
  if (Math.sign(slope) !== Math.sign(d0)) return 0
  if (Math.sign(d0) !== Math.sign(d1) && Math.abs(slope) > 3 * Math.abs(d0)) return 3 * d0
  return slope
}

/** `xs` rising, at least two; throws plain Error otherwise, since callers refuse such points in their own words first. */
export function monotoneCurve(xs: readonly number[], ys: readonly number[]): MonotoneCurve {
  const n = xs.length
  if (n < 2 || ys.length !== n || xs.some((x, i) => i > 0 && x <= xs[i - 1]!))
    throw new Error('monotoneCurve wants two or more points, x rising')
  const h = xs.slice(1).map((x, i) => x - xs[i]!)
  const d = h.map((width, i) => (ys[i + 1]! - ys[i]!) / width)
  const slopes = ys.map((_, i) => {
    if (n === 2) return d[0]!
    if (i === 0) return endSlope(h[0]!, h[1]!, d[0]!, d[1]!)
    if (i === n - 1) return endSlope(h[n - 2]!, h[n - 3]!, d[n - 2]!, d[n - 3]!)
    const [before, after] = [d[i - 1]!, d[i]!]
    if (before * after <= 0) return 0
    const [w1, w2] = [2 * h[i]! + h[i - 1]!, h[i]! + 2 * h[i - 1]!]
    return (w1 + w2) / (w1 / before + w2 / after)
  })
  return {
    low: xs[0]!,
    high: xs[n - 1]!,
    at(x) {
      if (!(x >= xs[0]!) || x > xs[n - 1]!) return undefined
      let i = 0
      while (i < n - 2 && x > xs[i + 1]!) i += 1
      const t = (x - xs[i]!) / h[i]!
      const [y0, y1, m0, m1] = [ys[i]!, ys[i + 1]!, slopes[i]! * h[i]!, slopes[i + 1]! * h[i]!]
      return y0 * (1 + 2 * t) * (1 - t) ** 2 + m0 * t * (1 - t) ** 2 + y1 * t * t * (3 - 2 * t) + m1 * t * t * (t - 1)
    },
  }
}
