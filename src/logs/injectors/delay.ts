/**
 * How late lambda answers: the exhaust's way is shorter in time the more gas flows.   delay = a + b/(q/q₀)
 *   a  sensor and injection   s     b  way at the middle flow q₀   s     q  speed × pressure / temperature
 * Found as the pair at which changes of the mixture that was commanded and changes of ln(1/λ) agree best. Cross-correlation of differences: Box & Jenkins, Time Series Analysis, chapter 11 (from memory).
 */
import type { InjectorSeries } from './series.ts'

export interface Delay {
  readonly a: number
  readonly b: number
  readonly middle: number
  /** Correlation at the lags found; undefined: the log has too few changes, and the delay is not known. */
  readonly correlation: number | undefined
}

const LONGEST = 3
const LEAST_CORRELATION = 0.25

export const flowOf = (series: InjectorSeries, i: number): number =>
  (series.speed[i]! * series.pressure[i]!) / (Number.isNaN(series.temperature[i]!) ? 300 : series.temperature[i]!)

export const delayAt = (delay: Delay, flow: number): number => delay.a + (delay.b * delay.middle) / flow

export function findDelay(runs: readonly InjectorSeries[], deadTime: (volts: number) => number): Delay {
  const flows: number[] = []
  for (const run of runs)
    for (let i = 0; i < run.speed.length; i += 5) if (flowOf(run, i) > 0) flows.push(flowOf(run, i))
  flows.sort((x, y) => x - y)
  const middle = flows[flows.length >> 1] ?? 1
  // Changes of the mixture that was commanded, where they happened.
  const changes: { rich: number; told: Float64Array; at: number; across: number; step: number; flow: number }[] = []
  for (const run of runs) {
    const across = Math.max(2, Math.round(0.4 / run.step))
    const told = run.lambda.map((value) => -Math.log(value))
    const rich = run.pulse.map((value, i) => {
      const open = value * run.trim[i]! - deadTime(run.voltage[i]!)
      return open > 1e-4 ? Math.log(open) - Math.log(run.pressure[i]!) : Number.NaN
    })
    for (let i = across; i < rich.length; i++) {
      const change = rich[i]! - rich[i - across]!
      const flow = flowOf(run, i)
      // Small changes are noise, great ones (fuel cut, gear change) carry wall film with them.
      if (flow > 0 && Math.abs(change) > 0.012 && Math.abs(change) < 0.3)
        changes.push({ rich: change, told, at: i, across, step: run.step, flow })
    }
  }
  let best = { a: 0, b: 0, correlation: 0 }
  if (changes.length >= 60)
    for (let a = 0; a <= 0.8; a += 0.05)
      for (let b = 0; b <= 0.8; b += 0.05) {
        let [xy, xx, yy] = [0, 0, 0]
        for (const { rich, told, at, across, step, flow } of changes) {
          const late = Math.round(Math.min(LONGEST, a + (b * middle) / flow) / step)
          const change = told[at + late]! - told[at + late - across]!
          if (!(Math.abs(change) < 0.5)) continue
          xy += rich * change
          xx += rich * rich
          yy += change * change
        }
        const correlation = xy / Math.sqrt(xx * yy)
        if (correlation > best.correlation) best = { a, b, correlation }
      }
  if (best.correlation < LEAST_CORRELATION) return { a: 0, b: 0, middle, correlation: undefined }
  return { ...best, middle }
}
