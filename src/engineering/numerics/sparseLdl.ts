import { minimumDegree } from './minimumDegree.ts'

/**
 * LDLᵀ factorisation of a symmetric sparse matrix, without pivoting.   P A Pᵀ = L D Lᵀ
 *
 * The pattern is analysed once (`analyseSymmetric`); every elimination step then becomes a fixed list of target places,
 * so that a numeric factorisation is one straight walk over that list and many matrices of one pattern are cheap.
 * Stable for definite matrices (the Jacobian of a resistive network on its stable branch). For an indefinite one the
 * number of negative pivots still is the number of negative eigenvalues (Sylvester's law of inertia), which tells a
 * Newton iteration that it has passed a fold; the solution may then be inaccurate and must not be relied upon.
 * Source: Davis, Direct Methods for Sparse Linear Systems (SIAM 2006), ch. 4 (from memory).
 */
export interface SymmetricPattern {
  readonly count: number
  /** place[i]: where A(i, i) goes in `values`; also the elimination step of row i. */
  readonly place: Int32Array
  /** Where the e-th given edge goes in `values`; a loop (i, i) gives that row's diagonal place. */
  readonly edgePlace: Int32Array
  /** Length of `values`: diagonal first (in elimination order), then the columns of L below it. */
  readonly size: number
  /** Column k of L fills values[count + columnStart[k] … count + columnStart[k+1]); `row` is its elimination step. */
  readonly columnStart: Int32Array
  readonly row: Int32Array
  /** Targets of the updates, in the order in which `factorise` needs them. */
  readonly targets: Int32Array
}

/** Order, fill and update list of a symmetric pattern given by its off-diagonal edges (pairs, flattened). */
export const analyseSymmetric = (count: number, edges: ArrayLike<number>): SymmetricPattern => {
  const order = minimumDegree(count, edges)
  const place = new Int32Array(count)
  for (let k = 0; k < count; k++) place[order[k]!] = k
  const below: Set<number>[] = Array.from({ length: count }, () => new Set<number>())
  for (let e = 0; e + 1 < edges.length; e += 2) {
    const i = place[edges[e]!]!
    const j = place[edges[e + 1]!]!
    if (i !== j) below[Math.min(i, j)]!.add(Math.max(i, j))
  }
  const columns: number[][] = []
  for (let k = 0; k < count; k++) {
    const column = [...below[k]!].sort((i, j) => i - j)
    columns.push(column)
    const parent = column[0]
    // The pattern of a column passes to its parent; the rest of the fill follows from there.
    if (parent !== undefined) for (const i of column) if (i !== parent) below[parent]!.add(i)
  }
  const columnStart = new Int32Array(count + 1)
  for (let k = 0; k < count; k++) columnStart[k + 1] = columnStart[k]! + columns[k]!.length
  const row = Int32Array.from(columns.flat())
  const spot: Map<number, number>[] = columns.map((column, k) => {
    const start = count + columnStart[k]!
    return new Map(column.map((i, p) => [i, start + p]))
  })
  const targets: number[] = []
  for (const column of columns)
    for (let p = 0; p < column.length; p++)
      for (let q = p; q < column.length; q++) targets.push(p === q ? column[p]! : spot[column[p]!]!.get(column[q]!)!)
  const edgePlace = new Int32Array(edges.length >> 1)
  for (let e = 0; e < edgePlace.length; e++) {
    const i = place[edges[2 * e]!]!
    const j = place[edges[2 * e + 1]!]!
    edgePlace[e] = i === j ? i : spot[Math.min(i, j)]!.get(Math.max(i, j))!
  }
  return { count, place, edgePlace, size: count + row.length, columnStart, row, targets: Int32Array.from(targets) }
}

/**
 * Factorises in place. On entry `values` holds the matrix at the pattern's places (each off-diagonal entry once); on
 * return D and L. Returns how many pivots are not positive: 0 means positive definite. A pivot of exactly 0 is left
 * as it stands and makes `solveFactorised` return non-finite numbers.
 */
export const factorise = (pattern: SymmetricPattern, values: Float64Array): number => {
  const { count, columnStart, targets } = pattern
  let notPositive = 0
  let t = 0
  for (let k = 0; k < count; k++) {
    const pivot = values[k]!
    if (!(pivot > 0)) notPositive++
    const start = count + columnStart[k]!
    const end = count + columnStart[k + 1]!
    for (let p = start; p < end; p++) {
      const entry = values[p]!
      // An entry that happens to be 0 (an open switch) changes nothing: step over its updates.
      if (entry === 0) {
        t += end - p
        continue
      }
      const factor = entry / pivot
      for (let q = p; q < end; q++) values[targets[t++]!]! -= factor * values[q]!
      values[p] = factor
    }
  }
  return notPositive
}

/** Solves A x = b with the factors; `b` and `x` in the caller's own row order (they may be one array). */
export const solveFactorised = (
  pattern: SymmetricPattern,
  factors: Float64Array,
  b: Float64Array,
  x: Float64Array,
  scratch: Float64Array,
): void => {
  const { count, place, columnStart, row } = pattern
  for (let i = 0; i < count; i++) scratch[place[i]!] = b[i]!
  for (let k = 0; k < count; k++) {
    const value = scratch[k]!
    if (value === 0) continue
    const end = columnStart[k + 1]!
    for (let p = columnStart[k]!; p < end; p++) scratch[row[p]!]! -= factors[count + p]! * value
  }
  for (let k = count - 1; k >= 0; k--) {
    let value = scratch[k]! / factors[k]!
    const end = columnStart[k + 1]!
    for (let p = columnStart[k]!; p < end; p++) value -= factors[count + p]! * scratch[row[p]!]!
    scratch[k] = value
  }
  for (let i = 0; i < count; i++) x[i] = scratch[place[i]!]!
}

/**
 * Factors packed for many solutions: pivots inverted, entries of L that are 0 left out (a pattern that foresees
 * connections which are open holds many). In a network all columns but the last have one or two entries; these `light`
 * ones are padded to two each, so that a solution has no inner loop there, which halves its time.
 */
export interface PackedFactors {
  readonly inversePivot: Float64Array
  /** Light column k has entries 2k and 2k + 1; a padding 0 stands in row `count`. */
  readonly light: number
  readonly lightRow: Int32Array
  readonly lightEntry: Float64Array
  /** Column light + k has the entries from start[k] to start[k + 1]. */
  readonly start: Int32Array
  readonly row: Int32Array
  readonly entry: Float64Array
}

export const packFactors = ({ count, columnStart, row }: SymmetricPattern, factors: Float64Array): PackedFactors => {
  const columns = Array.from({ length: count }, (_, k) => {
    const places: number[] = []
    for (let p = columnStart[k]!; p < columnStart[k + 1]!; p++) if (factors[count + p] !== 0) places.push(p)
    return places
  })
  const heavy = columns.findIndex((places) => places.length > 2)
  const light = heavy < 0 ? count : heavy
  const padded = columns.slice(0, light).flatMap(([first = -1, second = -1]) => [first, second])
  const rest = columns.slice(light).flat()
  const start = new Int32Array(count - light + 1)
  for (let k = light; k < count; k++) start[k - light + 1] = start[k - light]! + columns[k]!.length
  return {
    inversePivot: Float64Array.from({ length: count }, (_, k) => 1 / factors[k]!),
    light,
    lightRow: Int32Array.from(padded, (p) => (p < 0 ? count : row[p]!)),
    lightEntry: Float64Array.from(padded, (p) => (p < 0 ? 0 : factors[count + p]!)),
    start,
    row: Int32Array.from(rest, (p) => row[p]!),
    entry: Float64Array.from(rest, (p) => factors[count + p]!),
  }
}

/** Solves A x = b in place: row i of b, then of x, at x[place[i]]; x is one longer than the matrix, its last is set 0. */
export const solvePacked = (packed: PackedFactors, x: Float64Array): void => {
  const { inversePivot, light, lightRow, lightEntry, start, row, entry } = packed
  const count = inversePivot.length
  x[count] = 0
  for (let k = 0; k < light; k++) {
    const value = x[k]!
    x[lightRow[2 * k]!]! -= lightEntry[2 * k]! * value
    x[lightRow[2 * k + 1]!]! -= lightEntry[2 * k + 1]! * value
  }
  for (let k = light, p = 0; k < count; k++) {
    const value = x[k]!
    for (const end = start[k - light + 1]!; p < end; p++) x[row[p]!]! -= entry[p]! * value
  }
  for (let k = count - 1, p = entry.length - 1; k >= light; k--) {
    let value = x[k]! * inversePivot[k]!
    for (const from = start[k - light]!; p >= from; p--) value -= entry[p]! * x[row[p]!]!
    x[k] = value
  }
  for (let k = light - 1; k >= 0; k--)
    x[k] =
      x[k]! * inversePivot[k]! -
      lightEntry[2 * k]! * x[lightRow[2 * k]!]! -
      lightEntry[2 * k + 1]! * x[lightRow[2 * k + 1]!]!
}
