/** An old gauge on the sender that the car now has: what it shows at every level, and the resistors that would help. */

import { sideBySide } from '../../engineering/signals/interval.ts'
import { type GaugeNetwork, gaugeNetwork } from '../../engineering/signals/level/gaugeNetwork.ts'
import { preferredValues, type Series } from '../../engineering/signals/preferredValues.ts'
import { interpolate } from '../../engineering/signals/table/bestRows.ts'
import type { Entity } from '../../model/build.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { own } from '../make.ts'
import type { Known } from './known.ts'
import { type LevelSheet, levelSheet } from './levels.ts'

export type GaugeRecord = Entity<'gauges'>

export interface GaugeSheet {
  readonly record: GaugeRecord
  readonly sender: LevelSheet | undefined
  /** Share of full, share of the scale that the needle shows, difference. */
  readonly points: readonly { readonly level: number; readonly shows: number; readonly error: number }[]
  /** Share of the scale, signed, where it is largest. */
  readonly worst: number | undefined
  readonly at: number | undefined
  readonly missing: readonly string[]
}

const MARKS = 41

/** Ω that the gauge sees of the sender through its resistors. */
const through = (network: GaugeRecord['network'], resistance: number): number => {
  const series = network?.series?.value ?? 0
  const across = network?.across?.value ?? Number.POSITIVE_INFINITY
  return network?.order === 'across, then series'
    ? sideBySide(resistance, across) + series
    : sideBySide(resistance + series, across)
}

/** Levels at 0 and 1 by holding the ends: below what the sender sees it stands still, and so does the needle. */
const fullTravel = (levels: LevelSheet['levels']): LevelSheet['levels'] => {
  const [first, last] = [levels[0], levels.at(-1)]
  if (!first || !last) return []
  return [
    ...(first.level > 0 ? [{ level: 0, resistance: first.resistance }] : []),
    ...levels,
    ...(last.level < 1 ? [{ level: 1, resistance: last.resistance }] : []),
  ]
}

export const gaugeSheet = (known: Known, record: GaugeRecord): GaugeSheet | undefined => {
  if (record.shows !== 'level') return undefined
  const found = record.sender === undefined ? undefined : own(known.build.collections.levelSenders, record.sender)
  const sender = found && levelSheet(known, found)
  const missing = [
    ...(found ? [] : [`level sender that drives ${record.name}`]),
    ...(record.curve ? [] : [`resistances that bring the needle of ${record.name} to its marks`]),
    ...(sender && sender.levels.length === 0 ? [`litres against resistance of ${sender.record.name}`] : []),
  ]
  if (!sender || !record.curve || sender.levels.length === 0)
    return { record, sender, points: [], worst: undefined, at: undefined, missing }
  const senderRows = fullTravel(sender.levels).map(({ level, resistance }) => ({ x: level, y: resistance }))
  const gaugeRows = record.curve.map(([shows, resistance]) => ({ x: resistance, y: shows })).sort((a, b) => a.x - b.x)
  const points = Array.from({ length: MARKS }, (_, i) => {
    const level = i / (MARKS - 1)
    const shows = interpolate(gaugeRows, through(record.network, interpolate(senderRows, level)))
    return { level, shows, error: shows - level }
  })
  const worst = points.reduce((most, each) => (Math.abs(each.error) > Math.abs(most.error) ? each : most))
  return { record, sender, points, worst: worst.error, at: worst.level, missing }
}

/** Best two standard resistors, or why there are none. */
export const gaugeResistors = (
  { sender, record }: GaugeSheet,
  series: Series,
): GaugeNetwork | { readonly problems: readonly Problem[] } | undefined => {
  if (!sender || !record.curve || sender.levels.length === 0) return undefined
  try {
    return gaugeNetwork(
      // A fill test's tank is straight only between readings; the rest is the engineering's.
      thinned(fullTravel(sender.levels)).filter(
        ({ resistance }, i, all) => i === 0 || resistance !== all[i - 1]!.resistance,
      ),
      record.curve.map(([level, resistance]) => ({ level, resistance })),
      preferredValues(series, 1, 10e3),
    )
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return { problems: error.problems }
  }
}

/** A curve of a hundred points asks for no more than a dozen. */
const thinned = (levels: LevelSheet['levels']): LevelSheet['levels'] => {
  const step = Math.ceil(levels.length / 12)
  return levels.filter((_, i) => i % step === 0 || i === levels.length - 1)
}
