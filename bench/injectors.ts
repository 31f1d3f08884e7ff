/**
 * Injector characterisation on simulated logs against the Cramér–Rao bound of the joint model.
 * The bound takes the engine's airflow as one free value at every stop of the drive, alike in both logs: the model
 * promises nothing else. It counts every sample of the drives, also those that no steady window holds.
 */
import { KNOWN_SET, STOPS, simulateDrive, UNKNOWN_SET } from '../demo/injectorLogs.ts'
import { cholesky, choleskySolve } from '../src/engineering/numerics/cholesky.ts'
import { studentT95 } from '../src/engineering/numerics/linearFit.ts'
import { voltageKnots } from '../src/logs/injectors/deadTimeKnots.ts'
import { findDelay } from '../src/logs/injectors/delay.ts'
import { jointFit } from '../src/logs/injectors/jointFit.ts'
import type { InjectorSeries } from '../src/logs/injectors/series.ts'
import { injectorWindows, steadied } from '../src/logs/injectors/windows.ts'
import type { Row } from './rows.ts'

const SEEDS = 200
const NOISE = 0.008
const PRESSURE_NOISE = 150
const RATE = 20
const HOLD = 24

const seriesOf = (seed: number, unknown: boolean, messy: boolean): InjectorSeries => {
  const columns = simulateDrive({
    seed,
    set: unknown ? UNKNOWN_SET : KNOWN_SET,
    messy,
    noise: NOISE,
    rate: RATE,
    hold: HOLD,
  })
  return { ...columns, session: 0, start: 0, trim: new Float64Array(columns.speed.length).fill(1) }
}
/** Volts of a stop, loads off and on, as the simulator has them. */
const voltsOf = (speed: number, loaded: boolean): number => 14.1 - (loaded ? 1.75 : 0) - (speed < 120 ? 0.5 : 0)

/** Variance bounds of ln S and of the dead times at each voltage that was driven. */
const bound = (): { volts: number[]; variance: number[] } => {
  const open = new Map<string, { sum: number; count: number }>()
  const clean = simulateDrive({ seed: 1, set: UNKNOWN_SET, noise: 0, rate: RATE, hold: HOLD })
  const volts = [...new Set(STOPS.flatMap(([speed]) => [voltsOf(speed, false), voltsOf(speed, true)]))].sort(
    (a, b) => a - b,
  )
  for (let i = 0; i < clean.speed.length; i++) {
    const time = i / RATE
    const stop = Math.floor(time / HOLD)
    const loaded = Math.floor((4 * (time - stop * HOLD)) / HOLD) % 2 === 1
    const key = `${stop} ${volts.indexOf(voltsOf(STOPS[stop]![0], loaded))}`
    const entry = open.get(key) ?? { sum: 0, count: 0 }
    entry.sum += clean.pulse[i]! - UNKNOWN_SET.deadTime(clean.voltage[i]!)
    entry.count++
    open.set(key, entry)
  }
  const size = 1 + volts.length + STOPS.length
  const information = new Float64Array(size * size)
  const add = (row: readonly (readonly [number, number])[], weight: number): void => {
    for (const [i, a] of row) for (const [j, b] of row) information[i * size + j]! += weight * a * b
  }
  for (const [key, { sum, count }] of open) {
    const [stop, at] = key.split(' ').map(Number) as [number, number]
    const variance = NOISE ** 2 + (PRESSURE_NOISE / STOPS[stop]![1]) ** 2
    const air = 1 + volts.length + stop
    // Milliseconds, so that the matrix is of one size.
    add(
      [
        [0, 1],
        [1 + at, -1e-3 / (sum / count)],
        [air, -1],
      ],
      count / variance,
    )
    add([[air, -1]], count / variance)
  }
  const factor = cholesky(information, size)!
  const variance = Array.from({ length: 1 + volts.length }, (_, k) => {
    const unit = new Float64Array(size)
    unit[k] = 1
    return choleskySolve(factor, size, unit)[k]! * (k === 0 ? 1 : 1e-6)
  })
  return { volts, variance }
}

interface Tally {
  errors: number[]
  covered: number
}

const run = (messy: boolean, seeds: number): { slope: Tally; times: Map<number, Tally>; seconds: number } => {
  const { volts } = bound()
  const slope: Tally = { errors: [], covered: 0 }
  const times = new Map<number, Tally>(volts.map((each) => [each, { errors: [], covered: 0 }]))
  const began = performance.now()
  for (let seed = 1; seed <= seeds; seed++) {
    const found = (['known', 'unknown'] as const).map((log, k) => {
      const series = seriesOf(1000 + 2 * seed + k, k === 1, messy)
      const delay = findDelay([series], KNOWN_SET.deadTime)
      const rule = { length: 1, settle: 1.2, pulsesPerCycle: 1, across: 3e5, temperature: 310, narrowBand: false }
      return injectorWindows([series], log, delay, rule).windows
    })
    const windows = steadied(found.flat())
    const knots = voltageKnots(found[1]!.map(({ voltage }) => voltage))
    const known = {
      slope: KNOWN_SET.slope,
      pressure: 3e5,
      deadTime: KNOWN_SET.deadTime,
      added: () => 0,
      deadTimeSpread: 0,
    }
    const fit = jointFit(windows, known, { reference: 3e5, knots, offsetSpread: 0 })
    if (!fit) continue
    const t = studentT95(Math.floor(fit.freedom))
    const take = (tally: Tally | undefined, index: number, truth: number): void => {
      if (!tally) return
      const error = fit.parameters[index]! - truth
      tally.errors.push(error)
      if (Math.abs(error) <= t * Math.sqrt(fit.covarianceOfRatio[index]![index]!)) tally.covered++
    }
    take(slope, 0, Math.log(UNKNOWN_SET.slope))
    knots.forEach((knot, i) => {
      const near = volts.find((each) => Math.abs(each - knot) < 0.15)
      take(near === undefined ? undefined : times.get(near), 1 + i, UNKNOWN_SET.deadTime(knot))
    })
  }
  return { slope, times, seconds: (performance.now() - began) / 1000 / seeds }
}

const mean = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length

export const benchInjectors = (): Row[] => {
  const limits = bound()
  const rows: Row[] = []
  const clean = run(false, SEEDS)
  const row = (name: string, tally: Tally, variance: number, unit: string, scale: number): void => {
    const square = mean(tally.errors.map((error) => error ** 2))
    const efficiency = variance / square
    rows.push({
      name: `${name}, mean-square error`,
      value: `${(scale * Math.sqrt(square)).toPrecision(3)} ${unit}, bound ${(scale * Math.sqrt(variance)).toPrecision(3)} ${unit}, efficiency ${efficiency.toFixed(2)}, bias ${(scale * mean(tally.errors)).toPrecision(2)} ${unit}`,
      reach: 'efficiency ≥ 0.9',
      reached: efficiency >= 0.9,
    })
    const share = tally.covered / tally.errors.length
    rows.push({
      name: `${name}, 95 % interval covers`,
      value: `${(100 * share).toFixed(1)} % of ${tally.errors.length}`,
      reach: '92 … 98 %',
      reached: share >= 0.92 && share <= 0.98,
    })
  }
  row('flow ratio', clean.slope, limits.variance[0]!, '%', 100)
  limits.volts.forEach((volts, i) => {
    row(`dead time at ${volts.toFixed(2)} V`, clean.times.get(volts)!, limits.variance[1 + i]!, 'µs', 1e6)
  })
  rows.push({ name: 'one characterisation', value: `${clean.seconds.toFixed(2)} s` })
  const messy = run(true, 100)
  const covers = (tally: Tally): string => `${((100 * tally.covered) / tally.errors.length).toFixed(0)} %`
  rows.push({
    name: 'messy drives (lag, delay, film, trim, spikes), 100',
    value: `ratio within ${(100 * Math.sqrt(mean(messy.slope.errors.map((error) => error ** 2)))).toPrecision(2)} % rms, intervals cover ${covers(messy.slope)}; dead times ${limits.volts.map((volts) => `${volts.toFixed(2)} V ${covers(messy.times.get(volts)!)}`).join(', ')}`,
  })
  return rows
}
