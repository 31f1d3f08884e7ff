/**
 * Means of few and unlike windows, with an honest interval.
 * Sources: t quantiles NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.2 (0.975 column); expansion for
 * many degrees of freedom Abramowitz & Stegun 26.7.5; random effects DerSimonian & Laird, Controlled Clinical Trials 7
 * (1986); interval Hartung & Knapp, Statistics in Medicine 20 (2001) (the papers from memory).
 */
const T975 = [
  12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179, 2.16, 2.145, 2.131, 2.12, 2.11,
  2.101, 2.093, 2.086, 2.08, 2.074, 2.069, 2.064, 2.06, 2.056, 2.052, 2.048, 2.045, 2.042,
]

/** Student's t, two-sided 95 %. `degrees` ≥ 1; not a whole number is rounded down, which widens. */
export function student95(degrees: number): number {
  const whole = Math.floor(degrees)
  if (!(whole >= 1)) throw new RangeError(`${degrees} degrees of freedom give no interval`)
  const known = T975[whole - 1]
  if (known !== undefined) return known
  const z = 1.959964
  return z + (z ** 3 + z) / (4 * whole) + (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * whole ** 2)
}

export interface Pooled {
  readonly value: number
  /** Half-width of the 95 % interval. */
  readonly half: number
  readonly standardError: number
  readonly degrees: number
  /** Standard deviation between windows beyond their own noise. */
  readonly between: number
}

/** Pools at least two estimates with their variances; each may also differ for reasons of its own. */
export function pool(estimates: readonly number[], variances: readonly number[]): Pooled {
  const n = estimates.length
  if (n < 2) throw new RangeError('one estimate has no scatter')
  // A variance of zero (a noiseless window) must not take all the weight for itself.
  const floor = Math.max(1e-12, 1e-3 * [...variances].sort((a, b) => a - b)[Math.floor(n / 2)]!)
  const own = variances.map((variance) => Math.max(variance, floor))
  const mean = (weights: readonly number[]): { value: number; total: number } => {
    const total = weights.reduce((sum, weight) => sum + weight, 0)
    return { value: estimates.reduce((sum, estimate, i) => sum + estimate * weights[i]!, 0) / total, total }
  }
  const fixed = own.map((variance) => 1 / variance)
  const first = mean(fixed)
  const q = estimates.reduce((sum, estimate, i) => sum + fixed[i]! * (estimate - first.value) ** 2, 0)
  const squares = fixed.reduce((sum, weight) => sum + weight ** 2, 0)
  const tau2 = Math.max(0, (q - (n - 1)) / (first.total - squares / first.total))
  const weights = own.map((variance) => 1 / (variance + tau2))
  const { value, total } = mean(weights)
  const scatter = estimates.reduce((sum, estimate, i) => sum + weights[i]! * (estimate - value) ** 2, 0) / (n - 1)
  // Windows that agree by luck must not make the interval narrower than their own noise allows.
  const standardError = Math.sqrt(Math.max(scatter, 1) / total)
  const degrees = n - 1
  const half =
    scatter >= 1
      ? student95(degrees) * standardError
      : Math.max(student95(degrees) * Math.sqrt(scatter / total), 1.959964 * standardError)
  return { value, half, standardError, degrees, between: Math.sqrt(tau2) }
}

/** Variance of the mean of a series whose neighbours resemble each other (initial positive autocorrelations). */
export function varianceOfMean(series: Float64Array): number {
  const n = series.length
  if (n < 2) return Number.NaN
  let mean = 0
  for (const value of series) mean += value / n
  let variance = 0
  for (const value of series) variance += (value - mean) ** 2 / (n - 1)
  if (variance === 0) return 0
  let time = 1
  for (let lag = 1; lag < n / 3; lag++) {
    let sum = 0
    for (let i = 0; i + lag < n; i++) sum += (series[i]! - mean) * (series[i + lag]! - mean)
    const rho = sum / ((n - 1) * variance)
    if (rho < 0.05) break
    time += 2 * (1 - lag / n) * rho
  }
  return (variance * time) / n
}

/** Slope by least squares of evenly spaced values, per `step`. */
export function slope(series: Float64Array, step: number): number {
  const n = series.length
  const middle = (n - 1) / 2
  let top = 0
  let bottom = 0
  for (let i = 0; i < n; i++) {
    top += (i - middle) * series[i]!
    bottom += (i - middle) ** 2
  }
  return top / (bottom * step)
}
