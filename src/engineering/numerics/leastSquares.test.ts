// NIST/ITL Statistical Reference Datasets, non-linear regression (itl.nist.gov/div898/strd): certified values as quoted in
// public test suites and reproduced from the data.
import { inverse, Matrix } from 'ml-matrix'
import { describe, expect, it } from 'vitest'
import { determines, inverseNormal, triangulate } from './householder.ts'
import { type LeastSquares, leastSquares } from './leastSquares.ts'
import { biweight, medianScale } from './robust.ts'

const numbers = (text: string): number[] => text.trim().split(/\s+/).map(Number)
const fitted = (
  model: (b: Float64Array, x: number) => number,
  x: readonly number[],
  y: readonly number[],
  start: readonly number[],
): LeastSquares =>
  leastSquares({
    start,
    residuals: (b) => Float64Array.from(y, (value, i) => model(b, x[i]!) - value),
    iterations: 500,
  })
/** Correct digits, as NIST counts them. */
const digits = (found: number, certified: number): number => -Math.log10(Math.abs(found / certified - 1))

const misraY = numbers('10.07 14.73 17.94 23.93 29.61 35.18 40.02 44.82 50.76 55.05 61.01 66.40 75.47 81.78')
const misraX = numbers('77.6 114.9 141.1 190.8 239.9 289.0 332.8 378.4 434.8 477.3 536.8 593.1 689.1 760.0')
const thurberY = numbers(
  '80.574 84.248 87.264 87.195 89.076 89.608 89.868 90.101 92.405 95.854 100.696 101.060 401.672 390.724 567.534 635.316 733.054 759.087 894.206 990.785 1090.109 1080.914 1122.643 1178.351 1260.531 1273.514 1288.339 1327.543 1353.863 1414.509 1425.208 1421.384 1442.962 1464.350 1468.705 1447.894 1457.628',
)
const thurberX = numbers(
  '-3.067 -2.981 -2.921 -2.912 -2.840 -2.797 -2.702 -2.699 -2.633 -2.481 -2.363 -2.322 -1.501 -1.460 -1.274 -1.212 -1.100 -1.046 -0.915 -0.714 -0.566 -0.545 -0.400 -0.309 -0.109 -0.103 0.010 0.119 0.377 0.790 0.963 1.006 1.115 1.572 1.841 2.047 2.200',
)
const mghY = numbers('0.1957 0.1947 0.1735 0.1600 0.0844 0.0627 0.0456 0.0342 0.0323 0.0235 0.0246')
const mghX = numbers('4 2 1 0.5 0.25 0.167 0.125 0.1 0.0833 0.0714 0.0625')

describe('non-linear least squares', () => {
  it.each([
    [500, 0.0001],
    [250, 0.0005],
  ])('finds Misra1a from %d, %d, with its standard deviations', (...start) => {
    const found = fitted((b, x) => b[0]! * (1 - Math.exp(-b[1]! * x)), misraX, misraY, start)
    expect(found.converged).toBe(true)
    expect(digits(found.parameters[0]!, 2.3894212918e2)).toBeGreaterThan(7)
    expect(digits(found.parameters[1]!, 5.5015643181e-4)).toBeGreaterThan(7)
    expect(digits(found.sumOfSquares, 1.2455138894e-1)).toBeGreaterThan(8)
    const variance = found.sumOfSquares / found.freedom
    const deviation = (i: number): number => Math.sqrt(variance * found.inverse![i]![i]!)
    expect(digits(deviation(0), 2.7070075241)).toBeGreaterThan(6)
    expect(digits(deviation(1), 7.2668688436e-6)).toBeGreaterThan(6)
  })
  it.each([[[1000, 1000, 400, 40, 0.7, 0.3, 0.03]], [[1300, 1500, 500, 75, 1, 0.4, 0.05]]])(
    'finds Thurber from %j',
    (start) => {
      const found = fitted(
        (b, x) => (b[0]! + x * (b[1]! + x * (b[2]! + x * b[3]!))) / (1 + x * (b[4]! + x * (b[5]! + x * b[6]!))),
        thurberX,
        thurberY,
        start,
      )
      const certified = [
        1.28813968e3, 1.4910792535e3, 5.8323836877e2, 7.5416644291e1, 9.6629502864e-1, 3.9797285797e-1, 4.9727297349e-2,
      ]
      certified.forEach((value, i) => {
        expect(digits(found.parameters[i]!, value)).toBeGreaterThan(6)
      })
      expect(digits(found.sumOfSquares, 5.6427082397e3)).toBeGreaterThan(8)
    },
  )
  // From NIST's first start (25, 39, 41.5, 39) several well-known solvers stop short: a known trait of this set.
  it('finds MGH09 from its second start', () => {
    const found = fitted(
      (b, x) => (b[0]! * (x * x + b[1]! * x)) / (x * x + b[2]! * x + b[3]!),
      mghX,
      mghY,
      [0.25, 0.39, 0.415, 0.39],
    )
    const certified = [1.9280693458e-1, 1.9128232873e-1, 1.2305650693e-1, 1.3606233068e-1]
    certified.forEach((value, i) => {
      expect(digits(found.parameters[i]!, value)).toBeGreaterThan(5)
    })
    expect(digits(found.sumOfSquares, 3.0750560385e-4)).toBeGreaterThan(8)
  })
  it('has no covariance where two parameters do the same', () => {
    const found = fitted((b, x) => (b[0]! + b[1]!) * x, misraX, misraY, [0.1, 0.1])
    expect(found.inverse).toBeUndefined()
    expect(() => fitted((b, x) => b[0]! + b[1]! * x, [1], [1], [0, 0])).toThrow(/1 residuals cannot fix 2/)
  })
})

describe('dense least squares', () => {
  it('agrees with ml-matrix on (AᵀA)⁻¹', () => {
    const rows = misraX.map((x) => [1, x / 500, (x / 500) ** 2])
    const columns = new Float64Array(rows.length * 3)
    rows.forEach((row, i) => {
      row.forEach((value, j) => {
        columns[j * rows.length + i] = value
      })
    })
    const triangle = triangulate(columns, Float64Array.from(misraY), rows.length, 3)
    const normal = new Matrix(rows).transpose().mmul(new Matrix(rows))
    const expected = inverse(normal).to2DArray()
    inverseNormal(triangle).forEach((row, i) => {
      row.forEach((value, j) => {
        expect(Math.abs(value / expected[i]![j]! - 1)).toBeLessThan(1e-9)
      })
    })
    expect(determines(triangle)).toBe(true)
  })
})

describe('robust weights', () => {
  // The median of |1 2 3 4 100| is 3; 1.4826 makes it the standard deviation of normal noise.
  it('takes its scale from the middle and gives the far ones nothing', () => {
    expect(medianScale(Float64Array.of(1, -2, 3, -4, 100))).toBeCloseTo(3 * 1.4826, 10)
    expect(biweight(0, 6)).toBe(1)
    expect(biweight(3, 6)).toBeCloseTo(0.5625, 12)
    expect(biweight(7, 6)).toBe(0)
  })
})
