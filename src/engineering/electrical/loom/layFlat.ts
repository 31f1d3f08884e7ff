/**
 * A loom laid flat, as on a board: every run straight and at its true length, every angle as near to that of the plan as
 * the lengths allow. A run in a car is longer than the plan shows it, for it also goes up and down; where runs close a
 * ring the angles give way, never the lengths.
 *   in   branch points, m on the plan, where known; runs between them, length in m, where known
 *   out  the same points on the board, m; how far each drawn run is off its true length
 * How: each run pulls its ends towards its own length and direction, less and less; then to its length alone until all
 * lengths hold. Deterministic. Not drawn: a run whose ends cannot be placed, for want of a length and of a place.
 */
export interface FlatPoint {
  readonly id: string
  readonly x?: number | undefined
  readonly y?: number | undefined
}
export interface FlatRun {
  readonly id: string
  readonly from: string
  readonly to: string
  readonly length?: number | undefined
}
type Spot = readonly [number, number]

export interface LaidRun {
  readonly id: string
  readonly from: Spot
  readonly to: Spot
  /** m, drawn minus true; undefined: its length is not known, and it is drawn between where its ends came to lie. */
  readonly off: number | undefined
  /** rad, between the board and the plan; undefined: the plan does not say. */
  readonly turned: number | undefined
}
export interface LaidFlat {
  readonly points: ReadonlyMap<string, Spot>
  readonly runs: readonly LaidRun[]
  /** Ids of runs that cannot be drawn. */
  readonly missing: readonly string[]
}

const PULLS = 400
const HOLDS = 4000
/** m. */
const CLOSE = 1e-7

export const layFlat = (points: readonly FlatPoint[], runs: readonly FlatRun[]): LaidFlat => {
  const x = new Map<string, number>()
  const y = new Map<string, number>()
  const plan = new Map<string, Spot>()
  for (const point of points) if (point.x !== undefined && point.y !== undefined) plan.set(point.id, [point.x, point.y])
  for (const [id, [px, py]] of plan) {
    x.set(id, px)
    y.set(id, py)
  }
  const ids = new Set(points.map(({ id }) => id))
  const whole = runs.filter(({ from, to }) => ids.has(from) && ids.has(to) && from !== to)
  placeRest(points, whole, x, y)
  const drawn = whole.filter(({ from, to }) => x.has(from) && x.has(to))
  const wanted = drawn.map(({ from, to }): Spot | undefined => {
    const [a, b] = [plan.get(from), plan.get(to)]
    if (a === undefined || b === undefined) return undefined
    const far = Math.hypot(b[0] - a[0], b[1] - a[1])
    return far === 0 ? undefined : [(b[0] - a[0]) / far, (b[1] - a[1]) / far]
  })
  const pull = (run: FlatRun, dx: number, dy: number, share: number): void => {
    const [fx, fy] = [x.get(run.to)! - x.get(run.from)!, y.get(run.to)! - y.get(run.from)!]
    const [mx, my] = [((dx - fx) * share) / 2, ((dy - fy) * share) / 2]
    x.set(run.from, x.get(run.from)! - mx)
    y.set(run.from, y.get(run.from)! - my)
    x.set(run.to, x.get(run.to)! + mx)
    y.set(run.to, y.get(run.to)! + my)
  }
  const heading = ({ from, to }: FlatRun): Spot => {
    const [fx, fy] = [x.get(to)! - x.get(from)!, y.get(to)! - y.get(from)!]
    const far = Math.hypot(fx, fy)
    // Two ends on one spot part along the board.
    return far > 1e-9 ? [fx / far, fy / far] : [1, 0]
  }
  for (let step = 0; step < PULLS; step += 1)
    drawn.forEach((run, index) => {
      if (run.length === undefined) return
      // A run whose direction no plan gives follows its ends about.
      const direction = wanted[index] ?? heading(run)
      pull(run, direction[0] * run.length, direction[1] * run.length, 1 - (0.9 * step) / PULLS)
    })
  for (let step = 0; step < HOLDS; step += 1) {
    let worst = 0
    for (const run of drawn) {
      if (run.length === undefined) continue
      const far = Math.hypot(x.get(run.to)! - x.get(run.from)!, y.get(run.to)! - y.get(run.from)!)
      worst = Math.max(worst, Math.abs(far - run.length))
      const [ux, uy] = heading(run)
      pull(run, ux * run.length, uy * run.length, 1)
    }
    if (worst < CLOSE) break
  }
  const spot = (id: string): Spot => [x.get(id)!, y.get(id)!]
  return {
    points: new Map([...ids].filter((id) => x.has(id)).map((id) => [id, spot(id)] as const)),
    runs: drawn.map((run, index) => {
      const [from, to] = [spot(run.from), spot(run.to)]
      const [dx, dy] = [to[0] - from[0], to[1] - from[1]]
      const direction = wanted[index]
      return {
        id: run.id,
        from,
        to,
        off: run.length === undefined ? undefined : Math.hypot(dx, dy) - run.length,
        turned:
          direction &&
          Math.abs(Math.atan2(direction[0] * dy - direction[1] * dx, direction[0] * dx + direction[1] * dy)),
      }
    }),
    missing: runs.filter((run) => !drawn.includes(run)).map(({ id }) => id),
  }
}

/** Points without a place lie at their run's length from a neighbour, in the widest free angle about it. */
const placeRest = (
  points: readonly FlatPoint[],
  runs: readonly FlatRun[],
  x: Map<string, number>,
  y: Map<string, number>,
): void => {
  const known = (run: FlatRun): boolean => run.length !== undefined
  for (;;) {
    const next = runs.find((run) => known(run) && x.has(run.from) !== x.has(run.to))
    if (next === undefined) {
      // A part of the loom of which no point is on the plan starts a board of its own, beside what lies already.
      const alone = runs.find((run) => known(run) && !x.has(run.from) && !x.has(run.to))
      const first = alone && points.find(({ id }) => id === alone.from)
      if (first === undefined) return
      x.set(first.id, 0)
      y.set(first.id, Math.max(0, ...y.values()) + (y.size === 0 ? 0 : 0.5))
      continue
    }
    const [at, to] = x.has(next.from) ? [next.from, next.to] : [next.to, next.from]
    const taken = runs
      .filter((run) => (run.from === at && x.has(run.to)) || (run.to === at && x.has(run.from)))
      .map((run) => {
        const other = run.from === at ? run.to : run.from
        return Math.atan2(y.get(other)! - y.get(at)!, x.get(other)! - x.get(at)!)
      })
    const angle = widest(taken)
    x.set(to, x.get(at)! + next.length! * Math.cos(angle))
    y.set(to, y.get(at)! + next.length! * Math.sin(angle))
  }
}

const widest = (taken: readonly number[]): number => {
  if (taken.length === 0) return 0
  const sorted = [...taken].sort((a, b) => a - b)
  let [best, gap] = [0, -1]
  sorted.forEach((angle, index) => {
    const next = index + 1 < sorted.length ? sorted[index + 1]! : sorted[0]! + 2 * Math.PI
    if (next - angle <= gap + 1e-12) return
    gap = next - angle
    best = angle + gap / 2
  })
  return best
}
