/**
 * Weights that let no single observation lead a fit.
 * Source: Huber & Ronchetti, Robust Statistics (2009); biweight of Beaton & Tukey, Technometrics 16 (1974) (from memory).
 */
/** Median of |r| as the standard deviation of normal noise (1/Φ⁻¹(¾) = 1.4826). */
export function medianScale(residuals: Float64Array): number {
  const sizes = Float64Array.from(residuals, Math.abs).sort()
  if (sizes.length === 0) return Number.NaN
  const middle = sizes.length >> 1
  return 1.4826 * (sizes.length % 2 === 1 ? sizes[middle]! : (sizes[middle - 1]! + sizes[middle]!) / 2)
}

/** Tukey's biweight of a residual in standard deviations: 1 at 0, 0 from `reach` on. 4.685 keeps 95 % efficiency, 6 about 98 %. */
export const biweight = (u: number, reach: number): number => (Math.abs(u) >= reach ? 0 : (1 - (u / reach) ** 2) ** 2)
