/**
 * An old gauge on a new sender: the two standard resistors, in series and across, that make it read least wrong.
 *
 * Every pair of values and both orders are tried (none, series only, across only, series then across, across then series),
 * at every level where sender or gauge has a point and between; the worst level decides. Two resistors only shrink the
 * sender's travel: they cannot turn it round, and they cannot make it longer. Where that is asked, a table and an output
 * of the controller are the way, and it is said.
 */
import { type Problem, Refusal } from '../../../units/problem.ts'
import { sideBySide } from '../interval.ts'
import { interpolate } from '../table/bestRows.ts'

export interface LevelResistance {
  /** Share of full: 0 empty, 1 full. Of the gauge: where its needle stands. */
  readonly level: number
  /** Ω */
  readonly resistance: number
}

export interface GaugeNetwork {
  readonly order: 'series, then across' | 'across, then series'
  /** Ω; 0 for none. */
  readonly series: number
  /** Ω; `Infinity` for none. */
  readonly across: number
  /** Share of the scale, at the worst level; without any resistor beside it. */
  readonly worst: number
  readonly bare: number
  readonly points: readonly { readonly level: number; readonly shows: number; readonly error: number }[]
}

const MARKS = 41

function curveProblems(path: string, points: readonly LevelResistance[]): Problem[] {
  const found: Problem[] = []
  const sorted = [...points].sort((a, b) => a.level - b.level)
  const down = sorted.length > 1 && sorted.at(-1)!.resistance < sorted[0]!.resistance
  if (sorted.length < 2 || sorted[0]!.level !== 0 || sorted.at(-1)!.level !== 1)
    found.push({
      code: 'missing-input',
      path,
      says: `The ${path} has no reading at empty (0) and full (1).`,
      todo:
        path === 'gauge'
          ? 'Find with a resistance box what brings its needle to both ends.'
          : 'Measure it empty and full.',
    })
  for (let i = 1; i < sorted.length; i += 1) {
    const [a, b] = [sorted[i - 1]!, sorted[i]!]
    if (a.level === b.level || (down ? b.resistance >= a.resistance : b.resistance <= a.resistance))
      found.push({
        code: 'not-monotone',
        path,
        says: `The ${path} goes from ${a.resistance} Ω at ${a.level} to ${b.resistance} Ω at ${b.level}, against the rest of its readings.`,
        todo: 'Measure both again.',
      })
  }
  if (sorted.some(({ resistance }) => !(resistance >= 0) || !Number.isFinite(resistance)))
    found.push({
      code: 'out-of-range',
      path,
      says: `The ${path} has a resistance below 0 or without end.`,
      todo: 'Measure it again.',
    })
  return found
}

/** Throws `Refusal`: `missing-input`, `not-monotone`, `out-of-range`, `reversed`. */
export function gaugeNetwork(
  sender: readonly LevelResistance[],
  gauge: readonly LevelResistance[],
  values: readonly number[],
): GaugeNetwork {
  const problems = [...curveProblems('sender', sender), ...curveProblems('gauge', gauge)]
  if (problems.length > 0) throw new Refusal(problems)
  const byLevel = (points: readonly LevelResistance[]) => [...points].sort((a, b) => a.level - b.level)
  const [s, g] = [byLevel(sender), byLevel(gauge)]
  const gaugeFalls = g.at(-1)!.resistance < g[0]!.resistance
  if (gaugeFalls !== s.at(-1)!.resistance < s[0]!.resistance)
    throw new Refusal([
      {
        code: 'reversed',
        path: 'sender',
        says: 'The sender’s resistance goes the other way from what the gauge wants: no resistors can turn it round.',
        todo: 'Let the controller read the sender and drive the gauge by a table, or change the sender’s track.',
      },
    ])
  // Straight between readings both ways, so that a gauge on its own sender reads true; beyond its ends the needle stands
  // against its stops, which is what holding the end does.
  const senderRows = s.map(({ level, resistance }) => ({ x: level, y: resistance }))
  const gaugeRows = (gaugeFalls ? [...g].reverse() : g).map(({ level, resistance }) => ({ x: resistance, y: level }))
  const shows = (resistance: number): number => interpolate(gaugeRows, resistance)
  const levels = [
    ...new Set([
      ...Array.from({ length: MARKS }, (_, i) => i / (MARKS - 1)),
      ...s.map(({ level }) => level),
      ...g.map(({ level }) => level),
    ]),
  ].sort((a, b) => a - b)
  const resistances = levels.map((level) => interpolate(senderRows, level))
  const worstOf = (net: (resistance: number) => number, giveUp: number): number => {
    let worst = 0
    for (let i = 0; i < levels.length && worst < giveUp; i += 1)
      worst = Math.max(worst, Math.abs(shows(net(resistances[i]!)) - levels[i]!))
    return worst
  }
  const netOf =
    (order: GaugeNetwork['order'], series: number, across: number) =>
    (resistance: number): number =>
      order === 'series, then across'
        ? sideBySide(resistance + series, across)
        : sideBySide(resistance, across) + series
  const bare = worstOf((resistance) => resistance, Number.POSITIVE_INFINITY)
  let best = {
    order: 'series, then across' as GaugeNetwork['order'],
    series: 0,
    across: Number.POSITIVE_INFINITY,
    worst: bare,
  }
  for (const order of ['series, then across', 'across, then series'] as const)
    for (const series of [0, ...values])
      for (const across of [Number.POSITIVE_INFINITY, ...values]) {
        const worst = worstOf(netOf(order, series, across), best.worst)
        // A difference that is only rounding buys no resistor.
        if (worst < best.worst - 1e-9) best = { order, series, across, worst }
      }
  const net = netOf(best.order, best.series, best.across)
  return {
    ...best,
    bare,
    points: levels.map((level, i) => {
      const shown = shows(net(resistances[i]!))
      return { level, shows: shown, error: shown - level }
    }),
  }
}
