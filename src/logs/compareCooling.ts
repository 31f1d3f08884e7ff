/**
 * Two logs of the same cooler, before and after a change, compared where their air flows overlap: a difference at
 * unequal flow would compare the driving, not the cooler.
 */
import { type CoolingResult, SAFETY } from './cooling.ts'
import { pool, student95 } from './interval.ts'
import type { SteadyWindow } from './steady.ts'

export type Comparison =
  | {
      readonly answer: 'told'
      readonly sentence: string
      readonly difference: number
      readonly half: number
      readonly airFlow: readonly [number, number]
      readonly windows: readonly [number, number]
      /** The steady windows of both logs, for the picture. */
      readonly pair: readonly [before: readonly FlowPoint[], after: readonly FlowPoint[]]
      /** What to drive where the logs cannot tell a change of `WORTH_KNOWING`. */
      readonly next?: string
    }
  | { readonly answer: 'cannot-tell'; readonly sentence: string; readonly next: string }

interface FlowPoint {
  readonly airFlow: number
  readonly effectiveness: number
  readonly standardError: number
}

const NEEDED = 3
/** A change of effectiveness worth a log: two degrees of a hundred. Common practice, no published source. */
const WORTH_KNOWING = 0.02
type Flowing = SteadyWindow & { readonly airFlow: number }

export function compareCooling(before: CoolingResult, after: CoolingResult): Comparison {
  const cannot = (why: string, next: string): Comparison => ({
    answer: 'cannot-tell',
    sentence: `Cannot tell: ${why}.`,
    next,
  })
  for (const [name, result] of [
    ['first', before],
    ['second', after],
  ] as const)
    if (result.answer === 'cannot-tell')
      return cannot(
        `the ${name} log alone does not tell (${result.sentence.replace(/^Cannot tell: /, '').replace(/\.$/, '')})`,
        result.next,
      )
  if (before.provenance.reference !== after.provenance.reference)
    return cannot(
      `one log is against ${before.provenance.reference}, the other against ${after.provenance.reference}`,
      'Evaluate both logs against the same reference.',
    )
  const [a, b] = [flowing(before), flowing(after)]
  if (a.length === 0 || b.length === 0)
    return cannot(
      'air flow is not bound in both logs, so equal flow cannot be found',
      'Bind the air mass flow in both logs.',
    )
  const from = Math.max(Math.min(...a.map(({ airFlow }) => airFlow)), Math.min(...b.map(({ airFlow }) => airFlow)))
  const to = Math.min(Math.max(...a.map(({ airFlow }) => airFlow)), Math.max(...b.map(({ airFlow }) => airFlow)))
  // Flows that were held alike differ by a hundredth or two; that is still the same flow.
  const inside = (windows: readonly Flowing[]): Flowing[] =>
    windows.filter(({ airFlow }) => airFlow >= from * 0.98 && airFlow <= to * 1.02)
  const bins = flowBins(inside(a), inside(b), from, to)
  if (bins.length === 0) {
    const middle = ((from + to) / 2).toPrecision(2)
    return cannot(
      `the two logs share fewer than ${NEEDED} steady windows each at equal air flow`,
      `Repeat the second drive at the loads of the first, near ${middle} kg/s, for at least ${NEEDED} steady stretches. ${SAFETY}`,
    )
  }
  // Each stretch of flow is compared by itself; the differences are then averaged by their precision.
  const weights = bins.map(({ variance }) => 1 / variance)
  const total = weights.reduce((sum, weight) => sum + weight, 0)
  const difference = bins.reduce((sum, bin, i) => sum + (weights[i]! / total) * bin.difference, 0)
  const degrees = Math.max(1, Math.min(...bins.map((bin) => bin.degrees)))
  // What is left of the sensors' lags does not shrink with more windows; the two logs may err in opposite senses.
  const lag = bins.reduce((sum, bin, i) => sum + (weights[i]! / total) * bin.lag, 0)
  const scatter = student95(degrees) * Math.sqrt(1 / total)
  const half = Math.hypot(scatter, lag)
  const flow = bins.reduce((sum, bin, i) => sum + (weights[i]! / total) * bin.airFlow, 0)
  const windows: [number, number] = [
    bins.reduce((sum, bin) => sum + bin.counts[0], 0),
    bins.reduce((sum, bin) => sum + bin.counts[1], 0),
  ]
  const moved =
    Math.abs(difference) <= half ? 'did not change beyond what the logs can tell' : difference > 0 ? 'rose' : 'fell'
  const sentence =
    Math.abs(difference) <= half
      ? `Effectiveness ${moved}: ${difference.toFixed(3)} ± ${half.toFixed(3)} at ${flow.toPrecision(2)} kg/s.`
      : `Effectiveness ${moved} by ${Math.abs(difference).toFixed(3)} ± ${half.toFixed(3)} at ${flow.toPrecision(2)} kg/s (95 %, ${windows[0]} and ${windows[1]} steady windows).`
  const point = ({ airFlow, effectiveness, standardError }: Flowing): FlowPoint => ({
    airFlow,
    effectiveness,
    standardError,
  })
  const pair = [a.map(point), b.map(point)] as const
  const told = { answer: 'told', sentence, difference, half, airFlow: [from, to], windows, pair } as const
  if (Math.abs(difference) > half || half <= WORTH_KNOWING) return told
  return { ...told, next: driveMore(scatter, lag, flow, before.provenance.windows.concat(after.provenance.windows)) }
}

/** How much more steady driving would tell a change that is worth knowing: scatter falls as the root of the windows. */
function driveMore(scatter: number, lag: number, flow: number, windows: readonly SteadyWindow[]): string {
  const where = `near ${flow.toPrecision(2)} kg/s`
  if (lag >= WORTH_KNOWING)
    return `To tell a change of ${WORTH_KNOWING}, hold each load longer before it counts, ${where}: what is left of the sensors’ lag alone is ± ${lag.toFixed(3)}.`
  const times = (scatter / Math.sqrt(WORTH_KNOWING ** 2 - lag ** 2)) ** 2
  const driven = windows.reduce((sum, { from, to }) => sum + to - from, 0) / 2
  return `To tell a change of ${WORTH_KNOWING}, drive about ${Math.ceil((times - 1) * driven)} s more of steady stretches in each log, ${where}. ${SAFETY}`
}

const flowing = (result: CoolingResult): Flowing[] =>
  result.provenance.windows.filter((window): window is Flowing => window.airFlow !== null)

interface Bin {
  readonly difference: number
  readonly variance: number
  readonly degrees: number
  readonly airFlow: number
  readonly counts: readonly [number, number]
  /** ± of what is left of the lags in both. */
  readonly lag: number
}

/** Stretches of flow with windows enough on both sides; as many as the data carry, at most six. */
function flowBins(a: readonly Flowing[], b: readonly Flowing[], from: number, to: number): Bin[] {
  for (let count = 6; count >= 1; count--) {
    const edge = (index: number): number => from + ((to - from) * index) / count
    const bins = Array.from({ length: count }, (_, index) => {
      const within = ({ airFlow }: Flowing): boolean =>
        (index === 0 || airFlow >= edge(index)) && (index === count - 1 || airFlow < edge(index + 1))
      return bin(a.filter(within), b.filter(within))
    }).filter((found) => found !== undefined)
    if (bins.length > 0 && (bins.length === count || count <= 2)) return bins
  }
  return []
}

function bin(a: readonly Flowing[], b: readonly Flowing[]): Bin | undefined {
  if (a.length < NEEDED || b.length < NEEDED) return undefined
  const of = (windows: readonly Flowing[]) =>
    pool(
      windows.map(({ effectiveness }) => effectiveness),
      windows.map(({ standardError }) => standardError ** 2),
    )
  const [first, second] = [of(a), of(b)]
  const [v1, v2] = [first.standardError ** 2, second.standardError ** 2]
  // Welch and Satterthwaite, Biometrika 34 (1947) (from memory).
  const degrees = (v1 + v2) ** 2 / (v1 ** 2 / first.degrees + v2 ** 2 / second.degrees)
  const airFlow = [...a, ...b].reduce((sum, window) => sum + window.airFlow, 0) / (a.length + b.length)
  const mean = (windows: readonly Flowing[]): number =>
    windows.reduce((sum, { lagError }) => sum + lagError, 0) / windows.length
  return {
    difference: second.value - first.value,
    variance: v1 + v2,
    degrees,
    airFlow,
    counts: [a.length, b.length],
    lag: Math.hypot(mean(a), mean(b)),
  }
}
