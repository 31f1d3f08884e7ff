/**
 * Effectiveness of a charge cooler from a log.   ε = (Tb − Ta) / (Tb − Tr)
 *   Tb  charge temperature before the cooler   K        Ta  after it   K
 *   Tr  cold reference: ambient air, or water into the cooler   K        ε  1
 * Only steady windows count: where a sensor's lag times the slope is small beside the temperature rise. In each window
 * the ratio of the means is taken (the mean of ratios would be biased by the noise below the line); the windows are
 * pooled as unlike ones. The interval is that of noise, scatter and of lags that may differ; sensor errors enter only if
 * they are given.
 * Source: definition of effectiveness for the stream of smaller capacity, Kays & London, Compact Heat Exchangers (from
 * memory). Limits: the charge is the stream of smaller capacity rate; dry air.
 */
import { grid } from './grid.ts'
import { pool } from './interval.ts'
import { type BoundRole, ROLES, type Role } from './roles.ts'
import { averages, type SteadyWindow, steadyWindows } from './steady.ts'

export type Reference = 'ambient air' | 'water into the cooler'

export interface CoolingOptions {
  /** Name or hash of the log, for the record. */
  readonly log: string
  readonly reference?: Reference
  /** Slowest time constant of the temperature sensors, s. Slower than 5 s is common for a closed element (common practice, no published source). */
  readonly sensorLag?: number
  /** Length of a steady window, s; at least four sensor lags. */
  readonly window?: number
  /** Smallest temperature rise above the reference that is believed, K. */
  readonly leastRise?: number
  /** ± of one temperature sensor against another, K (95 %); widens the interval when given. */
  readonly sensorTolerance?: number
  /** m³ of the engine: where no air flow was logged it is reckoned from speed and manifold pressure. */
  readonly sweptVolume?: number
  /** Time over which the water of a charge-cooler loop takes up heat, s (60: common practice, no published source). */
  readonly waterTime?: number
}

export interface Estimate {
  readonly value: number
  readonly low: number
  readonly high: number
  readonly standardError: number
  readonly windows: number
}

export interface Provenance {
  readonly log: string
  readonly method: 'charge-cooling/1'
  readonly reference: Reference
  readonly windows: readonly SteadyWindow[]
  readonly sensorLag: number
  readonly sensorTolerance: number | null
}

export type CoolingResult =
  | {
      readonly answer: 'told'
      readonly sentence: string
      readonly effectiveness: Estimate
      readonly againstAirFlow: readonly (Estimate & {
        readonly airFlow: number
        readonly from: number
        readonly to: number
      })[]
      readonly cautions: readonly string[]
      readonly provenance: Provenance
    }
  | {
      readonly answer: 'cannot-tell'
      readonly sentence: string
      readonly because: 'missing-role' | 'rise-too-small' | 'too-short' | 'never-steady' | 'sensors-implausible'
      readonly missing?: readonly Role[]
      readonly next: string
      readonly provenance: Provenance
    }

const WINDOWS_NEEDED = 3
/** Common practice, no published source; it cancels where one engine is compared with itself. */
const FILLING = 0.9
/** Four-stroke speed–density, Heywood, Internal Combustion Engine Fundamentals, eq. 2.27 (from memory); kg/s. */
const airFlowOf = (speed: number, pressure: number, temperature: number, volume: number): number =>
  (FILLING * volume * speed * pressure) / (4 * Math.PI * 287.05 * temperature)
export const SAFETY = 'Somebody else drives or watches the road: nobody reads a screen while driving.'

export async function chargeCooling(
  parquet: string,
  roles: readonly BoundRole[],
  options: CoolingOptions,
): Promise<CoolingResult> {
  const of = (role: Role): BoundRole | undefined => roles.find((bound) => bound.role === role)
  const reference: Reference = options.reference ?? (of('coolerWaterIn') ? 'water into the cooler' : 'ambient air')
  const referenceRole: Role = reference === 'ambient air' ? 'ambientTemperature' : 'coolerWaterIn'
  const sensorLag = options.sensorLag ?? 5
  const window = Math.max(options.window ?? 20, 4 * sensorLag)
  const leastRise = options.leastRise ?? 10
  const provenance = (windows: readonly SteadyWindow[]): Provenance => ({
    log: options.log,
    method: 'charge-cooling/1',
    reference,
    windows,
    sensorLag,
    sensorTolerance: options.sensorTolerance ?? null,
  })

  const needed: Role[] = ['chargeTemperatureBefore', 'chargeTemperatureAfter', referenceRole]
  const missing = needed.filter((role) => of(role) === undefined)
  if (missing.length > 0) {
    const titles = missing.map((role) => ROLES[role].title).join(' and ')
    return {
      answer: 'cannot-tell',
      because: 'missing-role',
      missing,
      sentence: `Cannot tell: the log has no channel bound to ${titles}.`,
      next: `Bind a channel to ${titles}, or fit that sensor and log it.`,
      provenance: provenance([]),
    }
  }
  const logged = of('airFlow')
  const reckoned =
    !logged &&
    options.sweptVolume !== undefined &&
    of('engineSpeed') !== undefined &&
    of('manifoldPressure') !== undefined
  const flow = logged !== undefined || reckoned
  const stores = reference === 'ambient air' ? of('coolerWaterIn') : undefined
  const forFlow = logged ? [logged] : reckoned ? [of('engineSpeed')!, of('manifoldPressure')!] : []
  const read = await grid(parquet, [...needed.map((role) => of(role)!), ...forFlow, ...(stores ? [stores] : [])], 0.25)
  const runs = read.map((run) => {
    const [before, after, cold] = run.series as [Float64Array, Float64Array, Float64Array]
    const air = logged
      ? run.series[3]!
      : reckoned
        ? after.map((t, i) => airFlowOf(run.series[3]![i]!, run.series[4]![i]!, t, options.sweptVolume!))
        : new Float64Array(after.length).fill(Number.NaN)
    return { ...run, series: [before, after, cold, air, ...(stores ? [run.series.at(-1)!] : [])] }
  })
  const drive = (times: number): string =>
    `Hold one gear at steady load and speed for ${Math.ceil(window + 3 * sensorLag)} s, ${times} times, with the charge at least ${leastRise} K above the ${reference}. ${SAFETY}`

  const { windows, longest, bestRise, warm } = steadyWindows(runs, {
    window,
    sensorLag,
    leastRise,
    waterTime: options.waterTime ?? 60,
  })
  const mean = averages(runs, leastRise)
  if (mean !== undefined && (mean.before < mean.after - 1 || mean.after < mean.reference - 1)) {
    const swapped = mean.before < mean.after
    const why = swapped
      ? `the channel for "before the cooler" reads ${(mean.after - mean.before).toFixed(1)} K below the one for "after"; the two are probably swapped`
      : `the charge leaves the cooler ${(mean.reference - mean.after).toFixed(1)} K colder than the ${reference}; the reference sensor probably sits in heat, or its role is bound to another channel`
    return {
      answer: 'cannot-tell',
      because: 'sensors-implausible',
      sentence: `Cannot tell: ${why}. An effectiveness ${swapped ? 'below 0' : 'above 1'} does not exist.`,
      next: 'Leave the car overnight and compare the three sensors cold: they must agree. Then check which plug goes to which sensor.',
      provenance: provenance(windows),
    }
  }
  if (windows.length < WINDOWS_NEEDED) {
    const short = longest < window
    const because = bestRise < leastRise ? 'rise-too-small' : short ? 'too-short' : 'never-steady'
    const why =
      because === 'rise-too-small'
        ? `the charge before the cooler never stands ${leastRise} K above the ${reference} (at most ${Math.max(0, bestRise).toFixed(1)} K)`
        : because === 'too-short'
          ? `the longest stretch without a hole is ${longest.toFixed(0)} s, a steady window takes ${window.toFixed(0)} s`
          : `${windows.length === 0 ? 'no window is' : windows.length === 1 ? 'only one window is' : `only ${windows.length} windows are`} steady and warm enough (${warm.toFixed(0)} s were warm enough); ${WINDOWS_NEEDED} of ${window.toFixed(0)} s are needed`
    return {
      answer: 'cannot-tell',
      because,
      sentence: `Cannot tell: ${why}.`,
      next: drive(WINDOWS_NEEDED - windows.length),
      provenance: provenance(windows),
    }
  }
  const effectiveness = estimate(windows, options.sensorTolerance)
  const againstAirFlow = flow && (logged?.factor ?? 1) > 0 ? byAirFlow(windows, options.sensorTolerance) : []
  const cautions = [
    ...(options.sensorTolerance === undefined
      ? ['Errors of the sensors against each other are not in the interval: give their ±, or compare them cold.']
      : []),
    ...(stores
      ? [
          'Against ambient air a water loop that is still warming stores heat: only windows with its water settled count.',
        ]
      : []),
    ...(reckoned
      ? [
          `Air flow was not logged: it is reckoned from speed, manifold pressure and charge temperature with a volumetric efficiency of ${FILLING}, which serves to compare like with like.`,
        ]
      : []),
    ...(flow
      ? []
      : ['Without air flow the figure belongs to the loads that were driven and compares only with the same loads.']),
  ]
  const half = (effectiveness.high - effectiveness.low) / 2
  const mid = flow ? windows.reduce((sum, entry) => sum + (entry.airFlow ?? 0), 0) / windows.length : null
  return {
    answer: 'told',
    sentence: `The charge cooler's effectiveness is ${effectiveness.value.toFixed(3)} ± ${half.toFixed(half < 0.001 ? 4 : 3)} against ${reference}${mid === null ? '' : ` at ${mid.toPrecision(2)} kg/s`} (95 %, ${windows.length} steady windows).`,
    effectiveness,
    againstAirFlow,
    cautions,
    provenance: provenance(windows),
  }
}

function estimate(windows: readonly SteadyWindow[], tolerance: number | undefined): Estimate {
  const pooled = pool(
    windows.map(({ effectiveness }) => effectiveness),
    windows.map(({ standardError }) => standardError ** 2),
  )
  const rise = windows.reduce((sum, window) => sum + window.rise, 0) / windows.length
  // ε changes by δ/rise when "after" reads δ wrong, by ε·δ/rise for the reference and (1 − ε)·δ/rise for "before".
  const share = Math.hypot(1, pooled.value, 1 - pooled.value)
  const lag = windows.reduce((sum, { lagError }) => sum + lagError, 0) / windows.length
  const half = Math.hypot(pooled.half, lag, ((tolerance ?? 0) * share) / rise)
  return {
    value: pooled.value,
    low: pooled.value - half,
    high: pooled.value + half,
    standardError: pooled.standardError,
    windows: windows.length,
  }
}

/** Bins of equal count along the air flow, each with windows enough for an interval. */
function byAirFlow(
  windows: readonly SteadyWindow[],
  tolerance: number | undefined,
): (Estimate & { airFlow: number; from: number; to: number })[] {
  const known = windows
    .filter((window): window is SteadyWindow & { airFlow: number } => window.airFlow !== null)
    .sort((a, b) => a.airFlow - b.airFlow)
  const bins = Math.min(6, Math.floor(known.length / WINDOWS_NEEDED))
  return Array.from({ length: bins }, (_, bin) =>
    known.slice(Math.floor((bin * known.length) / bins), Math.floor(((bin + 1) * known.length) / bins)),
  ).map((group) => ({
    ...estimate(group, tolerance),
    airFlow: group.reduce((sum, { airFlow }) => sum + airFlow, 0) / group.length,
    from: group[0]!.airFlow,
    to: group.at(-1)!.airFlow,
  }))
}
