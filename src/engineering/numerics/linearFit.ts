/**
 * Weighted linear least squares by Householder reflections, with the covariance of the coefficients.
 *
 * Not by normal equations: the columns 1, x, x³ of a sensor's curve are so alike that squaring them loses half the digits.
 */
export interface LinearFit {
  readonly coefficients: readonly number[]
  /** (XᵀWX)⁻¹: the covariance where the weights are 1/σ²; times the residual variance where they are not. */
  readonly covariance: readonly (readonly number[])[]
  /** Observed less fitted, in the order of the rows, not weighted. */
  readonly residuals: readonly number[]
  /** Sum of weighted squares of the residuals. */
  readonly chiSquared: number
  readonly freedom: number
}

/** `undefined` when there are fewer rows than columns, or the columns do not determine the coefficients. */
export function linearFit(
  rows: readonly (readonly number[])[],
  observed: readonly number[],
  weights: readonly number[] = observed.map(() => 1),
): LinearFit | undefined {
  const n = rows.length
  const m = rows[0]?.length ?? 0
  if (n < m || m === 0) return undefined
  // Columns of about one size, so that “does not determine” can be told from “small”.
  const scale = Array.from({ length: m }, (_, j) =>
    Math.hypot(...rows.map((row, i) => row[j]! * Math.sqrt(weights[i]!))),
  )
  if (scale.some((size) => !(size > 0) || !Number.isFinite(size))) return undefined
  const a = rows.map((row, i) => row.map((value, j) => (value * Math.sqrt(weights[i]!)) / scale[j]!))
  const b = observed.map((value, i) => value * Math.sqrt(weights[i]!))
  for (let k = 0; k < m; k += 1) {
    let norm = Math.hypot(...a.slice(k).map((row) => row[k]!))
    if (norm < 1e-13) return undefined
    if (a[k]![k]! > 0) norm = -norm
    const v = a.slice(k).map((row, i) => (i === 0 ? row[k]! - norm : row[k]!))
    const vv = v.reduce((sum, value) => sum + value * value, 0)
    for (let j = k; j < m; j += 1) {
      const twice = (2 * v.reduce((sum, value, i) => sum + value * a[k + i]![j]!, 0)) / vv
      v.forEach((value, i) => {
        a[k + i]![j]! -= twice * value
      })
    }
    const twice = (2 * v.reduce((sum, value, i) => sum + value * b[k + i]!, 0)) / vv
    v.forEach((value, i) => {
      b[k + i]! -= twice * value
    })
  }
  const back = (right: readonly number[]): number[] => {
    const x = new Array<number>(m).fill(0)
    for (let i = m - 1; i >= 0; i -= 1) {
      let sum = right[i]!
      for (let j = i + 1; j < m; j += 1) sum -= a[i]![j]! * x[j]!
      x[i] = sum / a[i]![i]!
    }
    return x
  }
  const coefficients = back(b).map((value, j) => value / scale[j]!)
  // R⁻¹, column by column; covariance = R⁻¹ R⁻ᵀ.
  const inverse = Array.from({ length: m }, (_, j) =>
    back(Array.from({ length: m }, (_unused, i) => (i === j ? 1 : 0))),
  )
  const covariance = Array.from({ length: m }, (_, i) =>
    Array.from(
      { length: m },
      (_unused, j) => inverse.reduce((sum, column) => sum + column[i]! * column[j]!, 0) / (scale[i]! * scale[j]!),
    ),
  )
  const residuals = rows.map(
    (row, i) => observed[i]! - row.reduce((sum, value, j) => sum + value * coefficients[j]!, 0),
  )
  const chiSquared = residuals.reduce((sum, value, i) => sum + weights[i]! * value * value, 0)
  return { coefficients, covariance, residuals, chiSquared, freedom: n - m }
}

/**
 * Two-sided 95 % point of Student's t. Source: NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.2 (column
 * 0.975) [from memory; the values are in every table of t]. Beyond 30 degrees by the expansion of Abramowitz & Stegun 26.7.5.
 */
const T95 = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131, 2.12, 2.11,
  2.101, 2.093, 2.086, 2.08, 2.074, 2.069, 2.064, 2.06, 2.056, 2.052, 2.048, 2.045, 2.042,
]
export function studentT95(freedom: number): number {
  if (freedom < 1) return Number.POSITIVE_INFINITY
  const listed = T95[freedom - 1]
  if (listed !== undefined) return listed
  const z = 1.959963984540054
  return z + (z ** 3 + z) / (4 * freedom) + (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * freedom ** 2)
}
