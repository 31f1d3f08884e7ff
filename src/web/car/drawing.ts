/** Geometry of the plan view: where each zone stands, where its label goes, how thick a run is drawn. */
import type { Build } from '../../model/build.ts'

export interface PlanZone {
  readonly id: string
  readonly name: string
  /** Metres aft of the nose, metres right of the centre line. */
  readonly outline: readonly (readonly [number, number])[]
  readonly middle: readonly [number, number]
}
export interface PlanRun {
  readonly id: string
  readonly from: readonly [number, number]
  readonly to: readonly [number, number]
  /** Conductor metal in the run, m²; a wire without a size adds nothing. */
  readonly metal: number
}

type Point = readonly [number, number]
type Outline = readonly Point[]

const areaOf = (outline: Outline): number =>
  Math.abs(
    outline.reduce(
      (sum, [x, y], i) => sum + x * outline[(i + 1) % outline.length]![1] - outline[(i + 1) % outline.length]![0] * y,
      0,
    ),
  ) / 2

const holds = (outline: Outline, [x, y]: Point): boolean =>
  outline.reduce((inside, [ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!
    return ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax ? !inside : inside
  }, false)

const toEdge = (outline: Outline, [x, y]: Point): number =>
  Math.min(
    ...outline.map(([ax, ay], i) => {
      const [bx, by] = outline[(i + 1) % outline.length]!
      const [dx, dy] = [bx - ax, by - ay]
      const along = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)))
      return Math.hypot(x - ax - along * dx, y - ay - along * dy)
    }),
  )

const STEPS = 16
/** Where a label's line may end: well inside the zone and outside the smaller ones that lie in it. */
const spotIn = (outline: Outline, smaller: readonly Outline[]): Point => {
  const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)]
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
  let best: Point = [(x0 + x1) / 2, (y0 + y1) / 2]
  let room = -1
  for (let i = 1; i < STEPS; i++)
    for (let j = 1; j < STEPS; j++) {
      const spot: Point = [x0 + ((x1 - x0) * i) / STEPS, y0 + ((y1 - y0) * j) / STEPS]
      if (!holds(outline, spot) || smaller.some((other) => holds(other, spot))) continue
      const here = Math.min(toEdge(outline, spot), ...smaller.map((other) => toEdge(other, spot)))
      if (here > room) [best, room] = [spot, here]
    }
  return best
}

export const planZones = (build: Build): readonly PlanZone[] => {
  const drawn = Object.values(build.collections.zones).flatMap(({ id, name, outline }) =>
    outline === undefined || outline.length < 3 ? [] : [{ id, name, outline, area: areaOf(outline) }],
  )
  return drawn.map(({ id, name, outline, area }) => ({
    id,
    name,
    outline,
    middle: spotIn(
      outline,
      drawn.filter((other) => other.area < area).map((other) => other.outline),
    ),
  }))
}

export const planRuns = (build: Build): readonly PlanRun[] => {
  const metal = new Map<string, number>()
  for (const wire of Object.values(build.collections.wires))
    for (const run of wire.path ?? []) metal.set(run, (metal.get(run) ?? 0) + (wire.area?.value ?? 0))
  const point = (id: string): readonly [number, number] | undefined => {
    const found = build.collections.branchPoints[id]
    return found?.x === undefined || found.y === undefined ? undefined : [found.x, found.y]
  }
  return Object.values(build.collections.runs).flatMap(({ id, from, to }) => {
    const [start, end] = [point(from), point(to)]
    return start && end ? [{ id, from: start, to: end, metal: metal.get(id) ?? 0 }] : []
  })
}

/** Labels of one side, moved apart just enough, in the order of what they name. */
export const spreadLabels = (wanted: readonly number[], height: number, limit: number): readonly number[] => {
  const order = wanted.map((_, index) => index).sort((a, b) => wanted[a]! - wanted[b]!)
  const placed: number[] = []
  let low = 0
  for (const index of order) {
    placed[index] = Math.max(low, wanted[index]! - height / 2)
    low = placed[index]! + height
  }
  let high = Math.max(limit, order.length * height)
  for (const index of [...order].reverse()) {
    placed[index] = Math.min(placed[index]!, high - height)
    high = placed[index]!
  }
  return placed
}
