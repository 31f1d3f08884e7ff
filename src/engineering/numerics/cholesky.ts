/**
 * Cholesky factors of a dense symmetric positive definite matrix M = L Lᵀ; M by rows, `n` × `n`.
 * Source: Golub & Van Loan, Matrix Computations, algorithm 4.2.1 (from memory).
 */
/** Undefined where M is not positive definite to working accuracy. */
export function cholesky(matrix: Float64Array, n: number): Float64Array | undefined {
  const l = new Float64Array(n * n)
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j]!
      for (let k = 0; k < j; k++) sum -= l[i * n + k]! * l[j * n + k]!
      if (i !== j) l[i * n + j] = sum / l[j * n + j]!
      else if (sum > 1e-14 * matrix[i * n + i]!) l[i * n + i] = Math.sqrt(sum)
      else return undefined
    }
  return l
}

export function choleskySolve(l: Float64Array, n: number, right: Float64Array): Float64Array {
  const x = right.slice()
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i]! -= l[i * n + k]! * x[k]!
    x[i]! /= l[i * n + i]!
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i]! -= l[k * n + i]! * x[k]!
    x[i]! /= l[i * n + i]!
  }
  return x
}

export const choleskyLogDeterminant = (l: Float64Array, n: number): number => {
  let sum = 0
  for (let i = 0; i < n; i++) sum += 2 * Math.log(l[i * n + i]!)
  return sum
}
