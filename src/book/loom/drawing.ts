/**
 * The loom laid flat, nose to the left, seen from above: where each branch point and run lies on the board, m, x to the
 * right and y down; and where a word at a point is least in the way.
 */
import { type Dressed, dressed, type LoomRun, loomRuns } from '../../assess/loom/loom.ts'
import { deviceIdOf } from '../../assess/make.ts'
import { layFlat } from '../../engineering/electrical/loom/layFlat.ts'
import type { Build } from '../../model/build.ts'
import { naturally } from './list.ts'

export type Spot = readonly [number, number]
export interface DrawnRun {
  readonly lying: LoomRun
  readonly dressed: Dressed
  readonly from: Spot
  readonly to: Spot
  /** m: as laid or, where a diameter is missing, what the known ones fill at least. */
  readonly thick: number
  /** Its length is known, and it is drawn at that length. */
  readonly isTrue: boolean
  /** m, drawn minus entered, where the ring it stands in does not close. */
  readonly off: number | undefined
}
export interface DrawnPoint {
  readonly id: string
  readonly name: string
  readonly at: Spot
  /** Devices there with the number of their wires, most first. */
  readonly devices: readonly { readonly name: string; readonly wires: number }[]
  /** rad: the middle of the widest gap between the runs that meet there. */
  readonly free: number
}
export interface Drawing {
  readonly points: readonly DrawnPoint[]
  readonly runs: readonly DrawnRun[]
  /** Runs that cannot be drawn, with what they lack. */
  readonly missing: readonly { readonly lying: LoomRun; readonly lacks: string }[]
  /** rad: most that a run was turned from its direction in the car so that all lengths hold. */
  readonly turned: number
}

/** m: off by more than this a run is not at its true length. */
const TRUE = 5e-4

export const loomDrawing = (build: Build): Drawing => {
  const { branchPoints, devices, wires } = build.collections
  const lying = loomRuns(build)
  const used = new Set(lying.flatMap(({ run }) => [run.from, run.to]))
  const points = Object.values(branchPoints).filter(({ id }) => used.has(id))
  const flat = layFlat(
    // Seen from above with the nose to the left, the right-hand side of the car is up.
    points.map(({ id, x, y }) => ({ id, x, y: y === undefined ? undefined : -y })),
    lying.map(({ run }) => ({ id: run.id, from: run.from, to: run.to, length: run.length?.value })),
  )
  const count = new Map<string, number>()
  for (const { from, to } of Object.values(wires))
    for (const id of new Set([deviceIdOf(from), deviceIdOf(to)])) count.set(id, (count.get(id) ?? 0) + 1)
  const byId = new Map(lying.map((each) => [each.run.id, each]))
  const runs = flat.runs.map(({ id, from, to, off }): DrawnRun => {
    const each = byId.get(id)!
    const dress = dressed(build, each)
    return {
      lying: each,
      dressed: dress,
      from,
      to,
      thick: dress.over ?? each.least,
      isTrue: off !== undefined && Math.abs(off) <= TRUE,
      off: off !== undefined && Math.abs(off) > TRUE ? off : undefined,
    }
  })
  return {
    points: points.flatMap(({ id, name }) => {
      const at = flat.points.get(id)
      if (at === undefined || !flat.runs.some((run) => near(run.from, at) || near(run.to, at))) return []
      return [
        {
          id,
          name,
          at,
          devices: Object.values(devices)
            .filter((device) => device.at === id && (count.get(device.id) ?? 0) > 0)
            .map((device) => ({ name: device.name, wires: count.get(device.id)! }))
            .sort((a, b) => b.wires - a.wires || naturally(a.name, b.name)),
          free: freeAngle(
            at,
            flat.runs.flatMap(({ from, to }) => (near(from, at) ? [to] : near(to, at) ? [from] : [])),
          ),
        },
      ]
    }),
    runs,
    missing: flat.missing.map((id) => {
      const each = byId.get(id)!
      return {
        lying: each,
        lacks:
          each.run.length === undefined
            ? `its length, or where ${each.fromName} and ${each.toName} lie on the plan`
            : 'two different branch points',
      }
    }),
    turned: Math.max(0, ...flat.runs.map(({ turned }) => turned ?? 0)),
  }
}

const near = (a: Spot, b: Spot): boolean => Math.abs(a[0] - b[0]) < 1e-9 && Math.abs(a[1] - b[1]) < 1e-9
const freeAngle = (at: Spot, others: readonly Spot[]): number => {
  const angles = others.map(([x, y]) => Math.atan2(y - at[1], x - at[0])).sort((a, b) => a - b)
  if (angles.length === 0) return Math.PI / 2
  let [best, gap] = [Math.PI / 2, -1]
  angles.forEach((angle, index) => {
    const wide = (index + 1 < angles.length ? angles[index + 1]! : angles[0]! + 2 * Math.PI) - angle
    if (wide > gap + 1e-9) [best, gap] = [angle + wide / 2, wide]
  })
  return best
}
