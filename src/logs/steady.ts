/** Steady windows of a charge cooler's temperatures: where a sensor's lag times the slope is small beside the rise. */
import type { GridRun } from './grid.ts'
import { slope, varianceOfMean } from './interval.ts'

export interface SteadyWindow {
  readonly session: number
  readonly from: number
  readonly to: number
  readonly effectiveness: number
  readonly standardError: number
  /** What is left of the sensors' lags, should they differ by as much as they may be: ± on ε. */
  readonly lagError: number
  /** Tb − Tr, K. */
  readonly rise: number
  /** kg/s, when the log has it. */
  readonly airFlow: number | null
}

/** Lag times slope, as a share of the rise: what is left of a transient may move ε by about this much. */
const STEADY_SHARE = 0.02
const STORED_SHARE = 0.05

/** Means over the warm part of the log, where a mix-up of sensors shows. */
export function averages(
  runs: readonly GridRun[],
  leastRise: number,
): { before: number; after: number; reference: number } | undefined {
  const sum = { before: 0, after: 0, reference: 0, count: 0 }
  for (const { series } of runs) {
    const [before, after, reference] = [series[0]!, series[1]!, series[2]!]
    for (let i = 0; i < before.length; i++) {
      const hottest = Math.max(before[i]!, after[i]!)
      if (!(hottest - reference[i]! >= leastRise)) continue
      sum.before += before[i]!
      sum.after += after[i]!
      sum.reference += reference[i]!
      sum.count++
    }
  }
  return sum.count < 8
    ? undefined
    : { before: sum.before / sum.count, after: sum.after / sum.count, reference: sum.reference / sum.count }
}

export function steadyWindows(
  runs: readonly GridRun[],
  rule: { window: number; sensorLag: number; leastRise: number; waterTime: number },
): { windows: SteadyWindow[]; longest: number; bestRise: number; warm: number } {
  const windows: SteadyWindow[] = []
  let longest = 0
  let bestRise = Number.NEGATIVE_INFINITY
  let warm = 0
  for (const { session, start, step, series } of runs) {
    const [before, after, reference, flow, water] = series as [
      Float64Array,
      Float64Array,
      Float64Array,
      Float64Array | undefined,
      Float64Array | undefined,
    ]
    const cells = Math.max(8, Math.round(rule.window / step))
    let whole = 0
    for (let i = 0; i < before.length; i++) {
      const rise = before[i]! - reference[i]!
      whole = Number.isNaN(rise + after[i]!) ? 0 : whole + 1
      longest = Math.max(longest, whole * step)
      if (rise > bestRise) bestRise = rise
      if (rise >= rule.leastRise) warm += step
    }
    for (let at = 0; at + cells <= before.length; ) {
      const cut = (values: Float64Array): Float64Array => values.subarray(at, at + cells)
      const found = judgeWindow(
        cut(before),
        cut(after),
        cut(reference),
        flow && cut(flow),
        step,
        rule,
        water && cut(water),
      )
      if (found === undefined) {
        at += Math.max(1, Math.floor(cells / 8))
        continue
      }
      windows.push({ session, from: start + at * step, to: start + (at + cells) * step, ...found })
      at += cells
    }
  }
  return { windows, longest, bestRise, warm }
}

function judgeWindow(
  before: Float64Array,
  after: Float64Array,
  reference: Float64Array,
  flow: Float64Array | undefined,
  step: number,
  rule: { sensorLag: number; leastRise: number; waterTime: number },
  water: Float64Array | undefined,
): Omit<SteadyWindow, 'session' | 'from' | 'to'> | undefined {
  const n = before.length
  const average = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0) / n
  const [tb, ta, tr] = [average(before), average(after), average(reference)]
  const rise = tb - tr
  if (!(rise >= rule.leastRise) || Number.isNaN(ta)) return undefined
  const slopes = [before, after, reference].map((series) => slope(series, step)) as [number, number, number]
  for (const each of slopes) if (Math.abs(each) * rule.sensorLag > STEADY_SHARE * rise) return undefined
  // Water that still warms takes up heat which settled water would carry to the air.
  if (water && Math.abs(slope(water, step)) * rule.waterTime > STORED_SHARE * rise) return undefined
  const airFlow = flow ? average(flow) : Number.NaN
  // A flow that wanders by a tenth is another operating point by its end.
  if (flow && !Number.isNaN(airFlow) && Math.abs(slope(flow, step)) * n * step > 0.1 * airFlow) return undefined
  const effectiveness = (tb - ta) / rise
  const residual = Float64Array.from(before, (value, i) => value - after[i]! - effectiveness * (value - reference[i]!))
  return {
    effectiveness,
    standardError: Math.sqrt(varianceOfMean(residual)) / rise,
    lagError:
      (rule.sensorLag * Math.hypot((1 - effectiveness) * slopes[0], slopes[1], effectiveness * slopes[2])) / rise,
    rise,
    airFlow: Number.isNaN(airFlow) ? null : airFlow,
  }
}
