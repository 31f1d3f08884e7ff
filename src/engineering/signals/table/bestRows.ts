/**
 * The rows of a controller's table that make straight lines between them least wrong, in the largest error over the grid.
 *
 * Dynamic programming over the grid: for each grid point (and each value its row may take once rounded) the least
 * possible largest error with n rows up to there. Every choice of rows is a path, the error of a path is the worst of
 * its spans, so the answer is the best on the grid, not a good one.
 */
import { type Problem, Refusal } from '../../../units/problem.ts'

export interface Point {
  readonly x: number
  readonly y: number
}

export interface RowQuestion {
  /** The true curve on a grid, x rising; make the grid of the x the controller accepts (its steps). */
  readonly curve: readonly Point[]
  /** Most rows the controller takes, 2 or more. */
  readonly rows: number
  /** Rows' y must be whole multiples of this; left out: any value, taken on the curve. */
  readonly step?: number
  /** How many steps beyond the two multiples around the curve a row may stand. More may be better, never worse. */
  readonly beyond?: number
}

export interface BestRows {
  readonly rows: readonly Point[]
  /** Largest difference between the lines and the curve on the grid, in y. */
  readonly largestError: number
  /** x where it is. */
  readonly at: number
}

function problemsOf({ curve, rows, step, beyond = 0 }: RowQuestion): Problem[] {
  const found: Problem[] = []
  if (!Number.isInteger(rows) || rows < 2)
    found.push({
      code: 'out-of-range',
      path: 'rows',
      says: `A table of ${rows} rows is no table.`,
      todo: 'Enter 2 or more.',
    })
  if (curve.length < 2)
    found.push({
      code: 'missing-input',
      path: 'curve',
      says: 'The curve has fewer than two points.',
      todo: 'Fit the sensor first.',
    })
  if (step !== undefined && !(step > 0))
    found.push({
      code: 'out-of-range',
      path: 'step',
      says: `A step of ${step} cannot be rounded to.`,
      todo: 'Enter the least change of a cell, above 0.',
    })
  if (!Number.isInteger(beyond) || beyond < 0)
    found.push({
      code: 'out-of-range',
      path: 'beyond',
      says: `${beyond} steps beyond the curve is no count.`,
      todo: 'Enter 0 or more.',
    })
  curve.forEach(({ x, y }, i) => {
    if (!Number.isFinite(x) || !Number.isFinite(y) || (i > 0 && x <= curve[i - 1]!.x))
      found.push({
        code: 'not-monotone',
        path: `curve/${i + 1}`,
        says: `Point ${i + 1} of the curve (${x}, ${y}) does not lie to the right of the one before.`,
        todo: 'Sort the curve by its input and leave out doubles.',
      })
  })
  return found
}

/**
 * Largest error of one span against the curve's points between and at its ends, or `Infinity` once it is seen to exceed
 * `ceiling`. The middle is looked at first: a span too long is mostly found out there.
 */
function spanError(curve: readonly Point[], i: number, yi: number, j: number, yj: number, ceiling: number): number {
  const [from, to] = [curve[i]!, curve[j]!]
  const slope = (yj - yi) / (to.x - from.x)
  const off = (k: number): number => Math.abs(yi + slope * (curve[k]!.x - from.x) - curve[k]!.y)
  let worst = Math.max(Math.abs(yi - from.y), Math.abs(yj - to.y))
  if (worst > ceiling || off((i + j) >> 1) > ceiling) return Number.POSITIVE_INFINITY
  for (let k = i + 1; k < j; k += 1) {
    const here = off(k)
    if (here > worst) {
      worst = here
      if (worst > ceiling) return Number.POSITIVE_INFINITY
    }
  }
  return worst
}

interface State {
  readonly i: number
  readonly y: number
}

function statesOf({ curve, step, beyond = 0 }: RowQuestion): State[][] {
  return curve.map(({ y }, i) => {
    if (step === undefined) return [{ i, y }]
    const [low, high] = [Math.floor(y / step) - beyond, Math.ceil(y / step) + beyond]
    return Array.from({ length: high - low + 1 }, (_, k) => ({ i, y: (low + k) * step }))
  })
}

/**
 * Largest error of a good table, found quickly: evenly spaced rows, then each row as far on as a tried error lets it, the
 * tried error halved in. Not the best; it tells which spans the best cannot contain.
 */
function goodTable(curve: readonly Point[], byPoint: readonly (readonly State[])[], rows: number): number {
  const last = curve.length - 1
  const nearest = byPoint.map((list) =>
    list.reduce((a, b) => (Math.abs(b.y - curve[b.i]!.y) < Math.abs(a.y - curve[a.i]!.y) ? b : a)),
  )
  const pointOf = (i: number): Point => ({ x: curve[i]!.x, y: nearest[i]!.y })
  const evenly = Array.from({ length: rows }, (_, n) => pointOf(Math.round((n * last) / (rows - 1))))
  let best = worstOf(evenly, curve).largestError
  let [low, high] = [0, best]
  for (let turn = 0; turn < 18; turn += 1) {
    const tried = (low + high) / 2
    const picked = [0]
    while (picked.at(-1)! < last && picked.length < rows) {
      const i = picked.at(-1)!
      const fits = (j: number): boolean => spanError(curve, i, nearest[i]!.y, j, nearest[j]!.y, tried) <= tried
      let [near, far] = [i + 1, last]
      // Errors of spans grow with their length on a bend of one sign; where not, the table is a little worse, no more.
      while (near < far) {
        const mid = (near + far + 1) >> 1
        if (fits(mid)) near = mid
        else far = mid - 1
      }
      picked.push(near)
    }
    const reached = picked.at(-1) === last ? worstOf(picked.map(pointOf), curve).largestError : Number.POSITIVE_INFINITY
    best = Math.min(best, reached)
    if (reached <= tried) high = tried
    else low = tried
  }
  return best
}

/** Throws `Refusal`: `out-of-range`, `missing-input`, `not-monotone`. With a coarse step fewer rows than asked may be best. */
export function bestRows(question: RowQuestion): BestRows {
  const problems = problemsOf(question)
  if (problems.length > 0) throw new Refusal(problems)
  const { curve } = question
  const last = curve.length - 1
  const most = Math.min(question.rows, curve.length)
  const all = statesOf(question)
  // A row or a span worse than some table at hand belongs to no best table.
  // Room for rounding, so that the table at hand itself passes even on a straight line.
  const size = Math.max(...curve.map(({ y }) => Math.abs(y)))
  const ceiling = goodTable(curve, all, most) + 1e-12 * size
  const byPoint = all.map((list) => list.filter(({ i, y }) => Math.abs(y - curve[i]!.y) <= ceiling))
  const states = byPoint.flat()
  const offsets: number[] = []
  let placed = 0
  for (const list of byPoint) {
    offsets.push(placed)
    placed += list.length
  }
  const count = states.length
  // Error of every span once: tables of any number of rows share them.
  const spans: { readonly from: readonly number[]; readonly error: readonly number[] }[] = states.map(
    ({ i: j, y: yj }) => {
      const span = { from: [] as number[], error: [] as number[] }
      for (let a = 0; a < offsets[j]!; a += 1) {
        const error = spanError(curve, states[a]!.i, states[a]!.y, j, yj, ceiling)
        if (error <= ceiling) {
          span.from.push(a)
          span.error.push(error)
        }
      }
      return span
    },
  )
  let least = new Float64Array(count).fill(Number.POSITIVE_INFINITY)
  byPoint[0]!.forEach(({ y }, a) => {
    least[a] = Math.abs(y - curve[0]!.y)
  })
  const from: Int32Array[] = []
  let best = { error: Number.POSITIVE_INFINITY, rows: 0, state: -1 }
  for (let n = 2; n <= most; n += 1) {
    const next = new Float64Array(count).fill(Number.POSITIVE_INFINITY)
    const before = new Int32Array(count).fill(-1)
    for (let b = 0; b < count; b += 1) {
      const span = spans[b]!
      for (let k = 0; k < span.from.length; k += 1) {
        const a = span.from[k]!
        const worst = Math.max(least[a]!, span.error[k]!)
        if (worst < next[b]!) {
          next[b] = worst
          before[b] = a
        }
      }
    }
    from.push(before)
    least = next
    for (let b = offsets[last]!; b < count; b += 1)
      // At equal error more rows: a controller with a fixed number of cells wants them filled.
      if (least[b]! <= best.error) best = { error: least[b]!, rows: n, state: b }
  }
  const path: Point[] = []
  let at = best.state
  for (let n = best.rows; n >= 1; n -= 1) {
    path.unshift({ x: curve[states[at]!.i]!.x, y: states[at]!.y })
    at = n >= 2 ? from[n - 2]![at]! : -1
  }
  return { rows: path, ...worstOf(path, curve) }
}

/** What a table makes of an input: straight between rows, held beyond its ends. */
export function interpolate(rows: readonly Point[], x: number): number {
  if (x <= rows[0]!.x) return rows[0]!.y
  for (let k = 1; k < rows.length; k += 1) {
    const [a, b] = [rows[k - 1]!, rows[k]!]
    if (x <= b.x) return a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x)
  }
  return rows.at(-1)!.y
}

/** Largest error of any table against a curve on a grid. */
export function worstOf(
  rows: readonly Point[],
  curve: readonly Point[],
): { readonly largestError: number; readonly at: number } {
  let worst = { largestError: -1, at: Number.NaN }
  for (const { x, y } of curve) {
    const off = Math.abs(interpolate(rows, x) - y)
    if (off > worst.largestError) worst = { largestError: off, at: x }
  }
  return worst
}
