/**
 * Steady windows of a log for injectors: lambda is moved back by its delay; a window counts when speed, pressure, pulse,
 * volts and lambda hold through it and held through the time before it that wall film and sensor need to settle.
 */
import { varianceOfMean } from '../interval.ts'
import { type Delay, delayAt, flowOf } from './delay.ts'
import type { InjectorSeries } from './series.ts'
import type { InjectorWindow } from './types.ts'

export interface WindowRule {
  /** s */
  readonly length: number
  /** Time before a window that must have been steady too, s. */
  readonly settle: number
  readonly pulsesPerCycle: number
  /** Pa across the injector where the log does not hold it. */
  readonly across: number | undefined
  /** K, where the log does not hold it. */
  readonly temperature: number
  readonly narrowBand: boolean
}

/** Why stretches of the log were left out, and for how many seconds. */
export type LeftOut = Record<
  'moving' | 'no fuel' | 'lambda at its end' | 'injector open throughout' | 'not stoichiometric' | 'holes',
  number
>

const HOLD = { speed: 0.02, pressure: 0.02, pulse: 0.006, lambda: 0.015, volts: 0.12 }
const BEFORE = 0.06
const LEAST = 12
/** Share of a window's samples that may be spikes. */
const SPIKES = 0.04

export function injectorWindows(
  runs: readonly InjectorSeries[],
  log: InjectorWindow['log'],
  delay: Delay,
  rule: WindowRule,
): { windows: InjectorWindow[]; leftOut: LeftOut } {
  const leftOut: LeftOut = {
    moving: 0,
    'no fuel': 0,
    'lambda at its end': 0,
    'injector open throughout': 0,
    'not stoichiometric': 0,
    holes: 0,
  }
  const windows: InjectorWindow[] = []
  const [lowest, highest] = ends(runs)
  for (const run of runs) {
    const n = run.speed.length
    const cells = Math.max(LEAST, Math.round(rule.length / run.step))
    const least = Math.max(2, Math.round(rule.settle / run.step))
    // Lambda where the mixture was made, not where it was read.
    const lambda = Float64Array.from(run.lambda, (_, i) => {
      const flow = flowOf(run, i)
      if (!(flow > 0)) return Number.NaN
      const late = Math.min(3, delayAt(delay, flow)) / run.step
      const left = Math.floor(late)
      const [a, b] = [run.lambda[i + left] ?? Number.NaN, run.lambda[i + left + 1] ?? Number.NaN]
      return Number.isNaN(b) ? a : a + (b - a) * (late - left)
    })
    for (let at = least; at + cells <= n; ) {
      // Where gas comes late, the loop that trims on it settles late too.
      const late = Math.min(3, delayAt(delay, flowOf(run, at)) || 0)
      const before = least + Math.round(late / run.step)
      // A delay that is found too long reads lambda from the next stop: the engine must hold until lambda was read.
      const until = at + cells + Math.round(late / run.step)
      const found =
        before > at ? 'moving' : judge(run, lambda, at, cells, before, Math.min(n, until), rule, lowest, highest)
      if (typeof found === 'string') {
        const skip = Math.max(1, Math.floor(cells / 6))
        leftOut[found] += skip * run.step
        at += skip
        continue
      }
      windows.push({
        log,
        session: run.session,
        from: run.start + at * run.step,
        to: run.start + (at + cells) * run.step,
        ...found,
      })
      at += cells
    }
  }
  return { windows, leftOut }
}

/** Smallest and largest lambda of the log: a sensor at its end repeats them. */
function ends(runs: readonly InjectorSeries[]): [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const { lambda } of runs)
    for (const value of lambda) {
      if (value < low) low = value
      if (value > high) high = value
    }
  return [low, high]
}

const mean = (values: Float64Array): number => {
  let sum = 0
  for (const value of values) sum += value
  return sum / values.length
}

const middleOf = (values: Float64Array): number => {
  const sorted = values.slice().sort()
  return sorted[sorted.length >> 1]!
}

/** A spike of a sample or two becomes the middle of its window; undefined: more than spikes stand apart. */
function calm(values: Float64Array, slack: number): Float64Array | undefined {
  const middle = middleOf(values)
  const spread = 1.4826 * middleOf(values.map((value) => Math.abs(value - middle)))
  const limit = Math.max(5 * spread, slack * Math.abs(middle))
  let spikes = 0
  const out = values.map((value) => {
    if (Math.abs(value - middle) <= limit) return value
    spikes++
    return middle
  })
  return spikes <= Math.max(1, SPIKES * values.length) ? out : undefined
}

/** How far the thirds stand apart beyond what noise explains; noise from neighbours, which a step does not widen. */
function drift(values: Float64Array): number {
  const n = values.length
  let squares = 0
  for (let i = 1; i < n; i++) squares += (values[i]! - values[i - 1]!) ** 2
  const third = Math.floor(n / 3)
  const means = [0, 1, 2].map((k) => mean(values.subarray(k * third, (k + 1) * third)))
  const error = Math.sqrt(squares / (2 * (n - 1)) / third)
  return Math.max(0, Math.max(...means) - Math.min(...means) - 4 * error)
}

function judge(
  run: InjectorSeries,
  lambdas: Float64Array,
  at: number,
  cells: number,
  before: number,
  until: number,
  rule: WindowRule,
  lowest: number,
  highest: number,
): Omit<InjectorWindow, 'log' | 'session' | 'from' | 'to'> | keyof LeftOut {
  const cut = (values: Float64Array): Float64Array => values.subarray(at, at + cells)
  const raw = cut(run.pulse).map((value, i) => value * cut(run.trim)[i]!)
  const rawLambda = cut(lambdas)
  for (const series of [run.speed, run.pressure, run.voltage]) if (cut(series).some(Number.isNaN)) return 'holes'
  if (raw.some(Number.isNaN) || rawLambda.some(Number.isNaN)) return 'holes'
  if (raw.some((value) => value < 3e-4) || mean(cut(run.speed)) < 20) return 'no fuel'
  let stoichiometric = rawLambda
  if (rule.narrowBand) {
    // Closed loop swings through the switching voltage; between the swings the mixture is stoichiometric on average.
    let crossings = 0
    for (let i = 1; i < rawLambda.length; i++) if (rawLambda[i]! > 0.45 !== rawLambda[i - 1]! > 0.45) crossings++
    if (crossings < 3) return 'not stoichiometric'
    stoichiometric = rawLambda.map(() => 1)
  } else if (rawLambda.filter((value) => value <= lowest || value >= highest).length > cells / 3)
    return 'lambda at its end'
  const speed = calm(cut(run.speed), 0.02)
  const pressure = calm(cut(run.pressure), 0.03)
  const pulse = calm(raw, 0.03)
  const volts = calm(cut(run.voltage), 0.02)
  const lambda = rule.narrowBand ? stoichiometric : calm(stoichiometric, 0.02)
  if (!speed || !pressure || !pulse || !volts || !lambda) return 'moving'
  const share = (values: Float64Array): number => drift(values) / mean(values)
  if (
    share(speed) > HOLD.speed ||
    share(pressure) > HOLD.pressure ||
    share(pulse) > HOLD.pulse ||
    share(lambda) > HOLD.lambda ||
    drift(volts) > HOLD.volts
  )
    return 'moving'
  const earlier = (values: Float64Array, now: Float64Array): number => {
    const half = at - (before >> 1)
    const level = mean(now)
    return Math.max(
      ...[values.subarray(at - before, half), values.subarray(half, at)].map((old) =>
        Math.abs(middleOf(old) / level - 1),
      ),
    )
  }
  if (
    earlier(run.speed, speed) > BEFORE ||
    earlier(run.pressure, pressure) > BEFORE ||
    earlier(run.pulse, cut(run.pulse)) > BEFORE
  )
    return 'moving'
  const later = (values: Float64Array, now: Float64Array): number =>
    until - at - cells < 2 ? 0 : Math.abs(middleOf(values.subarray(at + cells, until)) / mean(now) - 1)
  const last = (values: Float64Array, now: Float64Array): number =>
    until - at - cells < 2
      ? 0
      : Math.abs(middleOf(values.subarray(Math.max(at + cells, until - 5), until)) / mean(now) - 1)
  if (
    [run.speed, run.pressure].some((series, i) => {
      const now = [speed, pressure][i]!
      return later(series, now) > BEFORE || last(series, now) > BEFORE
    })
  )
    return 'moving'
  if ((rule.pulsesPerCycle * mean(pulse) * mean(speed)) / (4 * Math.PI) > 0.95) return 'injector open throughout'
  const temperature = cut(run.temperature)
  const across = cut(run.across)
  const logDensity = pressure.map((value, i) =>
    Math.log(value / (Number.isNaN(temperature[i]!) ? rule.temperature : temperature[i]!)),
  )
  const logAcross = pressure.map((_, i) =>
    Math.log(Number.isNaN(across[i]!) ? (rule.across ?? Number.NaN) : across[i]!),
  )
  if (logAcross.some(Number.isNaN)) return 'holes'
  // Only its scatter matters, so a dead time near enough serves.
  const together = lambda.map(
    (value, i) => Math.log(value) + Math.log(Math.max(1e-4, pulse[i]! - 8e-4)) - logDensity[i]! + 0.5 * logAcross[i]!,
  )
  return {
    samples: cells,
    speed: mean(speed),
    pressure: mean(pressure),
    logDensity: mean(logDensity),
    pulse: mean(pulse),
    voltage: mean(volts),
    logAcross: mean(logAcross),
    logLambda: mean(lambda.map(Math.log)) + Math.log(rule.pulsesPerCycle),
    noise: Math.sqrt(Math.max(varianceOfMean(together), 1e-8)),
  }
}

/** Each window's noise drawn towards the middle of all: a variance from a few dozen samples is itself a guess. */
export function steadied(windows: readonly InjectorWindow[]): InjectorWindow[] {
  const middle = middleOf(Float64Array.from(windows, ({ noise }) => noise ** 2))
  return windows.map((window) => ({
    ...window,
    noise: Math.sqrt(Math.max((window.noise ** 2 + 6 * middle) / 7, 0.6 * window.noise ** 2)),
  }))
}
