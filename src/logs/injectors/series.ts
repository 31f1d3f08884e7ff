/** The channels that injectors are characterised from, on one even grid in SI; slow ones are drawn out between their values. */
import { type GridRun, grid } from '../grid.ts'
import { type BoundRole, ROLES, type Role } from '../roles.ts'

export interface InjectorSeries {
  readonly session: number
  readonly start: number
  readonly step: number
  readonly speed: Float64Array
  readonly pressure: Float64Array
  readonly pulse: Float64Array
  readonly lambda: Float64Array
  readonly voltage: Float64Array
  /** K; NaN throughout when it was not logged. */
  readonly temperature: Float64Array
  /** Pa across the injector; NaN throughout when it was not logged. */
  readonly across: Float64Array
  /** Factor on the pulse; 1 when there is none. */
  readonly trim: Float64Array
}

export interface SeriesOptions {
  /** The logged pulse lacks the closed-loop trim, which is logged beside it. */
  readonly trimMissing: boolean
  /** V of a narrow-band sensor stand in the lambda channel: only stoichiometric stretches count. */
  readonly narrowBand: boolean
}

const NEEDED: readonly Role[] = ['engineSpeed', 'manifoldPressure', 'injectorPulseWidth', 'batteryVoltage']
const FINEST = 0.05

/** Roles that the log must have and has not. */
export const missingRoles = (roles: readonly BoundRole[], options: SeriesOptions): Role[] => {
  const has = (role: Role): boolean => roles.some((bound) => bound.role === role)
  return [
    ...NEEDED.filter((role) => !has(role) && !(role === 'batteryVoltage' && has('injectorVoltage'))),
    ...(has(options.narrowBand ? 'narrowBandVoltage' : 'lambda')
      ? []
      : [options.narrowBand ? 'narrowBandVoltage' : 'lambda']),
    ...(options.trimMissing && !has('fuelTrim') ? (['fuelTrim'] as const) : []),
  ] as Role[]
}

/** How the pressure across the injectors is known from this log, in words for the record. */
export const pressureWay = (roles: readonly BoundRole[]): 'across' | 'rail' | 'none' => {
  const has = (role: Role): boolean => roles.some((bound) => bound.role === role)
  return has('fuelPressureDifference') ? 'across' : has('fuelPressure') ? 'rail' : 'none'
}

export async function injectorSeries(
  parquet: string,
  roles: readonly BoundRole[],
  options: SeriesOptions,
): Promise<InjectorSeries[]> {
  const of = (role: Role): BoundRole | undefined => roles.find((bound) => bound.role === role)
  const fast = [
    of('engineSpeed')!,
    of('manifoldPressure')!,
    of('injectorPulseWidth')!,
    of(options.narrowBand ? 'narrowBandVoltage' : 'lambda')!,
  ]
  const runs = await grid(parquet, fast, FINEST)
  const slow = async (bound: BoundRole | undefined): Promise<readonly GridRun[] | undefined> =>
    bound && (await grid(parquet, [bound], FINEST))
  const volts = await slow(of('injectorVoltage') ?? of('batteryVoltage'))
  const temperature = await slow(of('chargeTemperatureAfter'))
  const across = await slow(of('fuelPressureDifference'))
  const rail = across ? undefined : await slow(of('fuelPressure'))
  const air = rail && (await slow(of('barometricPressure')))
  const trim = options.trimMissing ? await slow(of('fuelTrim')) : undefined
  return runs.map((run) => {
    const [speed, pressure, pulse, lambda] = run.series as [Float64Array, Float64Array, Float64Array, Float64Array]
    const draw = (source: readonly GridRun[] | undefined): Float64Array => onto(run, source)
    const absolute = air ? draw(air) : new Float64Array(speed.length).fill(101_325)
    const gauge = rail ? draw(rail) : undefined
    return {
      session: run.session,
      start: run.start,
      step: run.step,
      speed,
      pressure,
      pulse,
      lambda,
      voltage: draw(volts),
      temperature: draw(temperature),
      across: gauge ? gauge.map((value, i) => value + absolute[i]! - pressure[i]!) : draw(across),
      trim: trim ? asFactor(draw(trim)) : new Float64Array(speed.length).fill(1),
    }
  })
}

/** Values of a slower grid at the cells of a faster one, along straight lines; a hole longer than two of its own cells stays. */
function onto(run: GridRun, source: readonly GridRun[] | undefined): Float64Array {
  const cells = run.series[0]!.length
  const out = new Float64Array(cells).fill(Number.NaN)
  const from = source?.find(({ session }) => session === run.session)
  const values = from?.series[0]
  if (!from || !values) return out
  for (let i = 0; i < cells; i++) {
    const place = (run.start + (i + 0.5) * run.step - from.start) / from.step - 0.5
    const left = Math.max(0, Math.min(values.length - 1, Math.floor(place)))
    const right = Math.min(values.length - 1, left + 1)
    const share = Math.max(0, Math.min(1, place - left))
    const [a, b] = [values[left]!, values[right]!]
    out[i] = Number.isNaN(a) ? b : Number.isNaN(b) ? a : a + (b - a) * share
  }
  return out
}

/** A trim is logged as a factor near 1 or as a share near 0; its middle says which. */
function asFactor(trim: Float64Array): Float64Array {
  const sorted = trim.filter((value) => !Number.isNaN(value)).sort()
  const middle = sorted[sorted.length >> 1] ?? 1
  return Math.abs(middle) < 0.5 ? trim.map((value) => 1 + value) : trim
}

export const roleTitles = (roles: readonly Role[]): string => roles.map((role) => ROLES[role].title).join(', ')
