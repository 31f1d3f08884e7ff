/** Level senders as litres against resistance: from a fill test where there is one, else from tank and sender. */
import { fillTest } from '../../engineering/signals/level/fillTest.ts'
import { levelSender, senderCurve } from '../../engineering/signals/level/sender.ts'
import { tankOf } from '../../engineering/signals/level/tank.ts'
import type { Point } from '../../engineering/signals/table/bestRows.ts'
import type { Entity } from '../../model/build.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import type { Known } from './known.ts'

export type LevelRecord = Entity<'levelSenders'>

export interface LevelSheet {
  readonly record: LevelRecord
  readonly from: 'fill test' | 'tank and sender' | undefined
  /** x Ω rising, y m³. */
  readonly points: readonly Point[]
  /** ± m³ beside each reading of a fill test, in the order of the test. */
  readonly readings: readonly { readonly resistance: number; readonly volume: number; readonly plusMinus: number }[]
  /** m³ at a resistance. */
  readonly volumeAt: ((resistance: number) => number | undefined) | undefined
  /** Share of full and Ω, empty first, as an old gauge is matched to. */
  readonly levels: readonly { readonly level: number; readonly resistance: number }[]
  /** m³: full; what the sender does not see at the bottom and at the top. */
  readonly capacity: number | undefined
  readonly unseenBelow: number | undefined
  readonly unseenAbove: number | undefined
  /** Ω at the reserve. */
  readonly reserveResistance: number | undefined
  readonly missing: readonly string[]
  readonly problems: readonly Problem[]
}

const nothing = {
  from: undefined,
  points: [],
  readings: [],
  volumeAt: undefined,
  levels: [],
  capacity: undefined,
  unseenBelow: undefined,
  unseenAbove: undefined,
  reserveResistance: undefined,
} as const

/** Ω at a volume on a curve of points; undefined outside. */
const resistanceAt = (points: readonly Point[], volume: number): number | undefined => {
  for (let i = 1; i < points.length; i += 1) {
    const [a, b] = [points[i - 1]!, points[i]!]
    if (a.y !== b.y && volume >= Math.min(a.y, b.y) && volume <= Math.max(a.y, b.y))
      return a.x + ((b.x - a.x) * (volume - a.y)) / (b.y - a.y)
  }
  return undefined
}

const levelsOf = (points: readonly Point[], full: number) =>
  [...points]
    .sort((a, b) => a.y - b.y)
    .map(({ x, y }) => ({ level: y / full, resistance: x }))
    .filter(({ level }, i, all) => i === 0 || level > all[i - 1]!.level)

export const levelSheet = (_known: Known, record: LevelRecord): LevelSheet => {
  const missing: string[] = []
  if (!record.reserve) missing.push(`reserve of ${record.name}`)
  try {
    if (record.fillTest) {
      const { readings, scale, each } = record.fillTest
      const test = fillTest(
        readings.map(([added, resistance]) => ({ added, resistance })),
        { scale, each: each.value },
      )
      const points = test.points
        .map(({ resistance, volume }) => ({ x: resistance, y: volume }))
        .sort((a, b) => a.x - b.x)
      const capacity = Math.max(...points.map(({ y }) => y))
      return {
        record,
        from: 'fill test',
        points,
        readings: test.points,
        volumeAt: test.volumeAt,
        levels: levelsOf(points, capacity),
        capacity,
        unseenBelow: Math.min(...points.map(({ y }) => y)),
        unseenAbove: undefined,
        reserveResistance: record.reserve && resistanceAt(points, record.reserve.value),
        missing,
        problems: [],
      }
    }
    if (!record.tank) missing.push(`shape of the tank, or a fill test, of ${record.name}`)
    if (!record.curve) missing.push(`resistance against height of ${record.name}`)
    if (!record.tank || !record.curve) return { record, ...nothing, missing, problems: [] }
    const shape = record.tank
    const tank = tankOf(
      shape.shape === 'box'
        ? { shape: 'box', length: shape.length.value, width: shape.width.value, height: shape.height.value }
        : shape.shape === 'lying cylinder'
          ? { shape: 'lying cylinder', diameter: shape.diameter.value, length: shape.length.value }
          : {
              shape: 'loft',
              height: shape.height.value,
              sections: shape.sections.map(({ height, area }) => ({ height: height.value, area: area.value })),
            },
    )
    const sender = levelSender(tank, senderCurve(record.curve.map(([height, resistance]) => ({ height, resistance }))))
    const points = sender.curve
    return {
      record,
      from: 'tank and sender',
      points,
      readings: [],
      volumeAt: (resistance) => {
        const [first, last] = [points[0]!, points.at(-1)!]
        if (resistance < first.x || resistance > last.x) return undefined
        const i = Math.max(
          1,
          points.findIndex(({ x }) => x >= resistance),
        )
        const [a, b] = [points[i - 1]!, points[i]!]
        return a.y + ((b.y - a.y) * (resistance - a.x)) / (b.x - a.x)
      },
      levels: levelsOf(points, tank.capacity),
      capacity: tank.capacity,
      unseenBelow: sender.unseenBelow,
      unseenAbove: sender.unseenAbove,
      reserveResistance: record.reserve && sender.resistanceAt(record.reserve.value),
      missing,
      problems: [],
    }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return { record, ...nothing, missing, problems: error.problems }
  }
}
