import { CholeskyDecomposition, Matrix } from 'ml-matrix'
import { describe, expect, it } from 'vitest'
import { cholesky, choleskyLogDeterminant, choleskySolve } from './cholesky.ts'

describe('Cholesky factors', () => {
  it('agree with ml-matrix on a matrix, a solution and a determinant', () => {
    const n = 12
    const root = Matrix.from1DArray(
      n,
      n,
      Array.from({ length: n * n }, (_, i) => Math.sin(3 + i * i)),
    )
    const matrix = root.mmul(root.transpose()).add(Matrix.eye(n))
    const right = Array.from({ length: n }, (_, i) => i - 4)
    const l = cholesky(Float64Array.from(matrix.to1DArray()), n)!
    const theirs = new CholeskyDecomposition(matrix)
    const expected = theirs.solve(Matrix.columnVector(right)).to1DArray()
    choleskySolve(l, n, Float64Array.from(right)).forEach((value, i) => {
      expect(value).toBeCloseTo(expected[i]!, 10)
    })
    const diagonal = theirs.lowerTriangularMatrix.diagonal()
    expect(choleskyLogDeterminant(l, n)).toBeCloseTo(2 * diagonal.reduce((sum, each) => sum + Math.log(each), 0), 10)
  })
  it('has none for a matrix that is not positive definite', () => {
    expect(cholesky(Float64Array.of(1, 1, 1, 1), 2)).toBeUndefined()
    expect(cholesky(Float64Array.of(1, 2, 2, 1), 2)).toBeUndefined()
  })
})
