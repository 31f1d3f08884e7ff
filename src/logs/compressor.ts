/**
 * Efficiency of the compressor from a log.   η = T₁ ((p₂/p₁)^((κ−1)/κ) − 1) / (T₂ − T₁)
 *   T₁  air into it   K     T₂  charge out of it   K     p₁, p₂  before and after   Pa     κ = 1.4     η  1
 * Only steady windows count: where the slower sensor's lag times the slope is small beside the rise in temperature. Heat
 * that the housing gives the charge lowers the figure; it is what the cooler has to deal with all the same.
 * Source: isentropic efficiency of a compressor, Çengel & Boles, Thermodynamics (from memory); dry air of constant heat.
 */
import { grid } from './grid.ts'
import { pool, slope, varianceOfMean } from './interval.ts'
import { type BoundRole, ROLES, type Role } from './roles.ts'

export interface CompressorOptions {
  readonly log: string
  /** Slowest time constant of the temperature sensors, s (5: common practice for a closed element, no published source). */
  readonly sensorLag?: number
  readonly window?: number
  /** ± of one temperature sensor against another, K, 95 %. */
  readonly sensorTolerance?: number
  /** ± of one pressure against the other, Pa, 95 %. */
  readonly pressureTolerance?: number
}

export interface CompressorWindow {
  readonly from: number
  readonly to: number
  readonly pressureRatio: number
  readonly efficiency: number
  readonly standardError: number
  readonly airFlow: number | null
}

export type CompressorResult =
  | {
      readonly answer: 'told'
      readonly sentence: string
      readonly value: number
      readonly low: number
      readonly high: number
      readonly windows: readonly CompressorWindow[]
      readonly cautions: readonly string[]
    }
  | {
      readonly answer: 'cannot-tell'
      readonly because: 'missing-role' | 'too-few-windows' | 'implausible'
      readonly sentence: string
      readonly missing?: readonly Role[]
      readonly next: string
    }

const EXPONENT = 0.4 / 1.4
const LEAST_RATIO = 1.15
const NEEDED = 3
const STEADY_SHARE = 0.03

export async function compressorEfficiency(
  parquet: string,
  roles: readonly BoundRole[],
  options: CompressorOptions,
): Promise<CompressorResult> {
  const of = (role: Role): BoundRole | undefined => roles.find((bound) => bound.role === role)
  const after: Role = of('compressorPressure') ? 'compressorPressure' : 'manifoldPressure'
  const needed: Role[] = ['ambientTemperature', 'chargeTemperatureBefore', after]
  const missing = needed.filter((role) => of(role) === undefined)
  if (missing.length > 0) {
    const titles = missing.map((role) => ROLES[role].title).join(' and ')
    return {
      answer: 'cannot-tell',
      because: 'missing-role',
      missing,
      sentence: `Cannot tell: the log has no channel bound to ${titles}.`,
      next: `Bind a channel to ${titles}, or fit that sensor and log it.`,
    }
  }
  const sensorLag = options.sensorLag ?? 5
  const length = Math.max(options.window ?? 20, 4 * sensorLag)
  const baro = of('barometricPressure')
  const flow = of('airFlow')
  const bound = [...needed.map((role) => of(role)!), ...(baro ? [baro] : []), ...(flow ? [flow] : [])]
  const windows: CompressorWindow[] = []
  const rises: number[] = []
  let best = 0
  for (const { series, start, step } of await grid(parquet, bound, 0.25)) {
    const [cold, hot, pressure] = series as [Float64Array, Float64Array, Float64Array]
    const [inlet, air] = [baro ? series[3] : undefined, flow ? series.at(-1) : undefined]
    const cells = Math.max(8, Math.round(length / step))
    for (let at = 0; at + cells <= cold.length; ) {
      const cut = (values: Float64Array): Float64Array => values.subarray(at, at + cells)
      const mean = (values: Float64Array): number => values.reduce((sum, each) => sum + each, 0) / cells
      const [t1, t2, p2] = [mean(cut(cold)), mean(cut(hot)), mean(cut(pressure))]
      const p1 = inlet ? mean(cut(inlet)) : 101_325
      const ratio = p2 / p1
      if (ratio > best) best = ratio
      const rise = t2 - t1
      const ideal = t1 * (ratio ** EXPONENT - 1)
      const steady =
        ratio >= LEAST_RATIO &&
        rise > 5 &&
        [cold, hot].every((values) => Math.abs(slope(cut(values), step)) * sensorLag < STEADY_SHARE * rise) &&
        Math.abs(slope(cut(pressure), step)) * cells * step < 0.06 * p2
      if (!steady) {
        at += Math.max(1, cells >> 3)
        continue
      }
      const efficiency = ideal / rise
      const residual = Float64Array.from(cut(cold), (each, i) => {
        const here = each * ((cut(pressure)[i]! / p1) ** EXPONENT - 1)
        return here - efficiency * (cut(hot)[i]! - each)
      })
      rises.push(rise)
      windows.push({
        from: start + at * step,
        to: start + (at + cells) * step,
        pressureRatio: ratio,
        efficiency,
        standardError: Math.sqrt(varianceOfMean(residual)) / rise,
        airFlow: air ? mean(cut(air)) : null,
      })
      at += cells
    }
  }
  const next = `Hold one gear at steady boost for ${Math.ceil(length + 3 * sensorLag)} s, ${Math.max(1, NEEDED - windows.length)} times, with the pressure after the compressor at least ${LEAST_RATIO} times that before it. Somebody else drives or watches the road.`
  if (windows.length < NEEDED)
    return {
      answer: 'cannot-tell',
      because: 'too-few-windows',
      sentence: `Cannot tell: ${windows.length === 0 ? 'no window' : windows.length === 1 ? 'only one window' : `only ${windows.length} windows`} of ${length.toFixed(0)} s in boost ${windows.length > 1 ? 'are' : 'is'} steady (pressure ratio at most ${best.toFixed(2)}); ${NEEDED} are needed.`,
      next,
    }
  const pooled = pool(
    windows.map(({ efficiency }) => efficiency),
    windows.map(({ standardError }) => standardError ** 2),
  )
  const rise = rises.reduce((sum, each) => sum + each, 0) / rises.length
  const ratio = windows.reduce((sum, each) => sum + each.pressureRatio, 0) / windows.length
  // η moves by η·δ/rise for δ in T₂, by about (1 + η)·δ/rise in T₁, and with the pressure ratio by the slope of the ideal rise.
  const thermal = ((options.sensorTolerance ?? 0) * Math.hypot(pooled.value, 1 + pooled.value)) / rise
  const byPressure =
    ((options.pressureTolerance ?? 0) / 101_325) *
    ((EXPONENT * ratio ** EXPONENT) / ratio / (ratio ** EXPONENT - 1)) *
    pooled.value
  const half = Math.hypot(pooled.half, thermal, byPressure)
  if (pooled.value - half > 1)
    return {
      answer: 'cannot-tell',
      because: 'implausible',
      sentence: `Cannot tell: the charge is ${rise.toFixed(0)} K warmer than the air, less than a perfect compressor would make it at a pressure ratio of ${ratio.toFixed(2)} (efficiency ${pooled.value.toFixed(2)}).`,
      next: 'Look whether the sensor before the cooler sits in the stream close to the compressor, and compare both sensors cold.',
    }
  return {
    answer: 'told',
    sentence: `The compressor's efficiency is ${pooled.value.toFixed(3)} ± ${half.toFixed(3)} at a pressure ratio of ${ratio.toFixed(2)} (95 %, ${windows.length} steady windows).`,
    value: pooled.value,
    low: pooled.value - half,
    high: pooled.value + half,
    windows,
    cautions: [
      ...(options.sensorTolerance === undefined
        ? ['Errors of the sensors against each other are not in the interval: give their ±.']
        : []),
      ...(baro
        ? []
        : ['Air pressure was not logged: 101.3 kPa before the compressor is taken, and no loss in the air filter.']),
      ...(after === 'manifoldPressure'
        ? ['Pressure was taken in the manifold: what the cooler and its pipes lose counts as the compressor’s.']
        : []),
    ],
  }
}
