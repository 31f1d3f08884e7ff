import { inverse, Matrix, SVD } from 'ml-matrix'
import { describe, expect, it } from 'vitest'
import { linearFit, studentT95 } from './linearFit.ts'

describe('linear fit', () => {
  // NIST StRD, linear regression, Wampler1: x = 0 … 20, y = 1 + x + x² + x³ + x⁴ + x⁵; certified coefficients all 1, residuals 0.
  it('finds NIST’s Wampler1 to nine digits', () => {
    const x = Array.from({ length: 21 }, (_, i) => i)
    const powers = x.map((value) => [0, 1, 2, 3, 4, 5].map((power) => value ** power))
    const fit = linearFit(
      powers,
      powers.map((row) => row.reduce((a, b) => a + b, 0)),
    )!
    for (const coefficient of fit.coefficients) expect(Math.abs(coefficient - 1)).toBeLessThan(1e-9)
    expect(fit.freedom).toBe(15)
  })
  it('agrees with ml-matrix: weighted coefficients and covariance', () => {
    const x = [0.3, 1.1, 1.9, 3.2, 4.8, 5.5]
    const rows = x.map((value) => [1, value, value ** 3])
    const y = [2.1, 2.9, 4.2, 8.8, 21.4, 30.3]
    const w = [1, 4, 1, 0.25, 9, 2]
    const fit = linearFit(rows, y, w)!
    const weighted = new Matrix(rows.map((row, i) => row.map((value) => value * Math.sqrt(w[i]!))))
    const solved = new SVD(weighted, { autoTranspose: true })
      .solve(Matrix.columnVector(y.map((value, i) => value * Math.sqrt(w[i]!))))
      .to1DArray()
    const covariance = inverse(weighted.transpose().mmul(weighted)).to2DArray()
    fit.coefficients.forEach((value, i) => {
      expect(Math.abs(value / solved[i]! - 1)).toBeLessThan(1e-11)
      fit.covariance[i]!.forEach((each, j) => {
        expect(Math.abs(each / covariance[i]![j]! - 1)).toBeLessThan(1e-10)
      })
    })
  })
  it('has no answer where the rows do not determine one', () => {
    expect(linearFit([[1, 2]], [3])).toBeUndefined()
    expect(
      linearFit(
        [
          [1, 2],
          [2, 4],
          [3, 6],
        ],
        [1, 2, 3],
      ),
    ).toBeUndefined()
  })
  // 95 % points of t for 60 and 120 degrees in the printed tables: 2.000, 1.980.
  it('knows Student’s t', () => {
    expect([1, 10, 30].map(studentT95)).toEqual([12.706, 2.228, 2.042])
    expect(studentT95(60)).toBeCloseTo(2.0, 3)
    expect(studentT95(120)).toBeCloseTo(1.98, 3)
  })
})
