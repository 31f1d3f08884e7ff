/**
 * Non-linear least squares by Levenberg and Marquardt, with covariance.   min Σ r_i(x)²
 *
 * The damped step solves [J; √μ D] δ = [−r; 0] by Householder reflections, D the largest column norms met so far, so the
 * answer does not depend on the parameters' units.
 * Sources: Marquardt, SIAM J. Appl. Math. 11 (1963); Moré, The Levenberg–Marquardt algorithm (1978); update of the damping
 * by Nielsen, IMM-REP-1999-05 (all from memory). Held to NIST StRD certified values in its test.
 */
import { backSubstitute, determines, inverseNormal, triangulate } from './householder.ts'

export interface LeastSquaresProblem {
  readonly start: readonly number[]
  /** Residuals at x; always as many. NaN or infinity in one marks x as out of bounds: the step is shortened. */
  readonly residuals: (x: Float64Array) => Float64Array
  /** ∂r_i/∂x_j by columns; by central differences where it is not given. */
  readonly jacobian?: (x: Float64Array) => Float64Array
  readonly iterations?: number
}

export interface LeastSquares {
  readonly parameters: readonly number[]
  readonly residuals: Float64Array
  readonly sumOfSquares: number
  readonly freedom: number
  /** (JᵀJ)⁻¹: times the residual variance it is the covariance; undefined where the data do not fix every parameter. */
  readonly inverse: readonly (readonly number[])[] | undefined
  readonly converged: boolean
  readonly iterations: number
}

const sumOfSquares = (values: Float64Array): number => {
  let sum = 0
  for (const value of values) sum += value * value
  return sum
}

function differences(problem: LeastSquaresProblem, x: Float64Array, rows: number): Float64Array {
  const jacobian = new Float64Array(rows * x.length)
  for (let j = 0; j < x.length; j++) {
    // Cube root of the rounding unit is the best step of a central difference.
    const step = 6e-6 * (Math.abs(x[j]!) || 1e-3)
    const [up, down] = [x.slice(), x.slice()]
    up[j]! += step
    down[j]! -= step
    const [above, below] = [problem.residuals(up), problem.residuals(down)]
    const width = up[j]! - down[j]!
    for (let i = 0; i < rows; i++) jacobian[j * rows + i] = (above[i]! - below[i]!) / width
  }
  return jacobian
}

export function leastSquares(problem: LeastSquaresProblem): LeastSquares {
  let x = Float64Array.from(problem.start)
  let residuals = problem.residuals(x)
  const [rows, count] = [residuals.length, x.length]
  if (rows < count) throw new RangeError(`${rows} residuals cannot fix ${count} parameters`)
  let cost = sumOfSquares(residuals)
  if (!Number.isFinite(cost)) throw new RangeError('the residuals at the start are not finite')
  const most = problem.iterations ?? 200
  const derive = problem.jacobian ?? ((at: Float64Array) => differences(problem, at, rows))
  const scale = new Float64Array(count)
  let damping = 1e-3
  let growth = 2
  let converged = false
  let iteration = 0
  let jacobian = derive(x)
  for (; iteration < most && !converged; iteration++) {
    for (let j = 0; j < count; j++) {
      let norm = 0
      for (let i = 0; i < rows; i++) norm += jacobian[j * rows + i]! ** 2
      scale[j] = Math.max(scale[j]!, Math.sqrt(norm))
    }
    const tall = rows + count
    const a = new Float64Array(tall * count)
    const b = new Float64Array(tall)
    for (let j = 0; j < count; j++) {
      a.set(jacobian.subarray(j * rows, (j + 1) * rows), j * tall)
      a[j * tall + rows + j] = Math.sqrt(damping) * (scale[j]! || 1)
    }
    for (let i = 0; i < rows; i++) b[i] = -residuals[i]!
    const triangle = triangulate(a, b, tall, count)
    const step = backSubstitute(triangle.r, count, triangle.rotated)
    const trial = x.map((value, j) => value + step[j]!)
    const next = problem.residuals(trial)
    const nextCost = sumOfSquares(next)
    // What the straight-line model promised: ‖r‖² − ‖r + Jδ‖².
    let promised = cost
    for (let i = 0; i < rows; i++) {
      let line = residuals[i]!
      for (let j = 0; j < count; j++) line += jacobian[j * rows + i]! * step[j]!
      promised -= line * line
    }
    const small = step.every((value, j) => Math.abs(value) <= 1e-13 * (Math.abs(x[j]!) + 1e-13))
    if (Number.isFinite(nextCost) && nextCost <= cost) {
      const gain = promised > 0 ? (cost - nextCost) / promised : 1
      const settled = promised <= 1e-15 * cost
      x = trial
      residuals = next
      cost = nextCost
      jacobian = derive(x)
      damping *= Math.max(1 / 3, 1 - (2 * gain - 1) ** 3)
      growth = 2
      if (small || settled || cost === 0) converged = true
    } else {
      if (small || (Number.isFinite(nextCost) && promised <= 1e-15 * cost)) converged = true
      damping *= growth
      growth *= 2
      if (!Number.isFinite(damping)) break
    }
  }
  const last = triangulate(jacobian.slice(), residuals.slice(), rows, count)
  return {
    parameters: [...x],
    residuals,
    sumOfSquares: cost,
    freedom: rows - count,
    inverse: determines(last) ? inverseNormal(last) : undefined,
    converged,
    iterations: iteration,
  }
}
