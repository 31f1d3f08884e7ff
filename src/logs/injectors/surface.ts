/**
 * The engine's airflow as an unknown smooth surface over speed and manifold pressure: cubic B-splines on even knots with
 * a penalty on second differences, whose strength the data choose.
 * Source: Eilers & Marx, Statistical Science 11 (1996) (from memory).
 */
export interface Surface {
  readonly count: number
  /** Values of every spline at a point; few are not 0. */
  readonly at: (speed: number, pressure: number) => { readonly index: number; readonly value: number }[]
  /** Rows of the penalty: second differences along each direction. */
  readonly bends: readonly (readonly { readonly index: number; readonly value: number }[])[]
  /** Distance of two points, in knot spacings. */
  readonly distance: (a: readonly [number, number], b: readonly [number, number]) => number
}

const SPAN = 6

/** Four cubic B-splines that are not 0 at `u` (in knot spacings from the lower edge), and the first one's number. */
function cubic(u: number, intervals: number): { first: number; values: [number, number, number, number] } {
  const first = Math.min(intervals - 1, Math.max(0, Math.floor(u)))
  const t = u - first
  const s = 1 - t
  return {
    first,
    values: [s ** 3 / 6, (3 * t ** 3 - 6 * t ** 2 + 4) / 6, (-3 * t ** 3 + 3 * t ** 2 + 3 * t + 1) / 6, t ** 3 / 6],
  }
}

/** Over the box that the points span; speed by its logarithm. */
export function makeSurface(points: readonly (readonly [speed: number, pressure: number])[]): Surface {
  const xs = points.map(([speed]) => Math.log(speed))
  const zs = points.map(([, pressure]) => pressure)
  const axis = (values: readonly number[], least: number) => {
    const [low, high] = [Math.min(...values), Math.max(...values)]
    const width = Math.max(high - low, least)
    const start = (low + high - width) / 2
    return (value: number): number => ((value - start) / width) * SPAN
  }
  // A speed or a pressure that hardly varied still gets a box wide enough for its noise to look small.
  const x = axis(xs, 0.05)
  const z = axis(zs, 0.05 * Math.max(...zs))
  const side = SPAN + 3
  const bends: { index: number; value: number }[][] = []
  for (let i = 0; i < side; i++)
    for (let j = 0; j < side; j++) {
      if (i + 2 < side) bends.push([0, 1, 2].map((k) => ({ index: (i + k) * side + j, value: k === 1 ? -2 : 1 })))
      if (j + 2 < side) bends.push([0, 1, 2].map((k) => ({ index: i * side + j + k, value: k === 1 ? -2 : 1 })))
    }
  return {
    count: side * side,
    at: (speed, pressure) => {
      const [a, b] = [cubic(x(Math.log(speed)), SPAN), cubic(z(pressure), SPAN)]
      return a.values.flatMap((left, i) =>
        b.values.map((right, j) => ({ index: (a.first + i) * side + b.first + j, value: left * right })),
      )
    },
    bends,
    distance: ([n1, p1], [n2, p2]) => Math.hypot(x(Math.log(n1)) - x(Math.log(n2)), z(p1) - z(p2)),
  }
}
