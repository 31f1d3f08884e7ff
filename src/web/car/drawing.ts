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

export const planZones = (build: Build): readonly PlanZone[] =>
  Object.values(build.collections.zones).flatMap(({ id, name, outline }) => {
    if (outline === undefined || outline.length < 3) return []
    const middle: [number, number] = [
      outline.reduce((sum, [x]) => sum + x, 0) / outline.length,
      outline.reduce((sum, [, y]) => sum + y, 0) / outline.length,
    ]
    return [{ id, name, outline, middle }]
  })

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
