/**
 * Dense least squares min ‖A x − b‖ by Householder reflections, A kept by columns; for fits of tens of parameters whose
 * matrix is built anew at every step. `linearFit.ts` is the friendlier door for a handful.
 */
export interface Triangle {
  /** R by columns, `count` × `count`, upper. */
  readonly r: Float64Array
  /** First `count` entries of Qᵀ b. */
  readonly rotated: Float64Array
  readonly count: number
  /** ‖A x − b‖² at the solution. */
  readonly leftOver: number
}

/** Overwrites `a` (columns of length `rows`, one after the other) and `b`. Needs rows ≥ count. */
export function triangulate(a: Float64Array, b: Float64Array, rows: number, count: number): Triangle {
  for (let k = 0; k < count; k++) {
    const base = k * rows
    let norm = 0
    for (let i = k; i < rows; i++) norm += a[base + i]! ** 2
    norm = Math.sqrt(norm)
    if (norm === 0) continue
    const alpha = a[base + k]! > 0 ? -norm : norm
    const first = a[base + k]! - alpha
    a[base + k] = first
    let square = 0
    for (let i = k; i < rows; i++) square += a[base + i]! ** 2
    if (square > 0) {
      for (let j = k + 1; j < count; j++) {
        const other = j * rows
        let dot = 0
        for (let i = k; i < rows; i++) dot += a[base + i]! * a[other + i]!
        const twice = (2 * dot) / square
        for (let i = k; i < rows; i++) a[other + i]! -= twice * a[base + i]!
      }
      let dot = 0
      for (let i = k; i < rows; i++) dot += a[base + i]! * b[i]!
      const twice = (2 * dot) / square
      for (let i = k; i < rows; i++) b[i]! -= twice * a[base + i]!
    }
    a[base + k] = alpha
  }
  const r = new Float64Array(count * count)
  for (let j = 0; j < count; j++) for (let i = 0; i <= j; i++) r[j * count + i] = a[j * rows + i]!
  let leftOver = 0
  for (let i = count; i < rows; i++) leftOver += b[i]! ** 2
  return { r, rotated: b.slice(0, count), count, leftOver }
}

/** Whether R determines every unknown: no pivot vanishes beside its column. */
export function determines({ r, count }: Triangle, relative = 1e-13): boolean {
  for (let j = 0; j < count; j++) {
    let size = 0
    for (let i = 0; i <= j; i++) size = Math.max(size, Math.abs(r[j * count + i]!))
    if (!(Math.abs(r[j * count + j]!) > relative * size) || size === 0) return false
  }
  return true
}

export function backSubstitute(r: Float64Array, count: number, right: Float64Array): Float64Array {
  const x = new Float64Array(count)
  for (let i = count - 1; i >= 0; i--) {
    let sum = right[i]!
    for (let j = i + 1; j < count; j++) sum -= r[j * count + i]! * x[j]!
    x[i] = sum / r[i * count + i]!
  }
  return x
}

/** (AᵀA)⁻¹ = R⁻¹ R⁻ᵀ, by rows. */
export function inverseNormal({ r, count }: Triangle): number[][] {
  const inverse = Array.from({ length: count }, (_, j) => {
    const unit = new Float64Array(count)
    unit[j] = 1
    return backSubstitute(r, count, unit)
  })
  return Array.from({ length: count }, (_, i) =>
    Array.from({ length: count }, (_unused, j) => {
      let sum = 0
      for (let k = Math.max(i, j); k < count; k++) sum += inverse[k]![i]! * inverse[k]![j]!
      return sum
    }),
  )
}
