/**
 * Injector data from a bench test alone: mass of so many pulses at several pulse widths and volts.
 *   m = S √(Δp/Δp₀) (t − X(U))      m  mass a pulse   kg     the rest as in `jointFit.ts`
 * Weighted by the mass itself: a balance errs by about a share of what it weighs. Pulses that leave the straight line are
 * told as a bend and do not pull the line.
 */
import { leastSquares } from '../../engineering/numerics/leastSquares.ts'
import { studentT95 } from '../../engineering/numerics/linearFit.ts'
import { biweight, medianScale } from '../../engineering/numerics/robust.ts'
import { INJECTOR_CARD_FORMAT, type InjectorCard } from '../../model/injectorCard.ts'
import { column } from '../query.ts'
import type { BoundRole, Role } from '../roles.ts'
import { shares, voltageKnots } from './deadTimeKnots.ts'
import type { DeadTimePoint, InjectorResult } from './result.ts'
import { roleTitles } from './series.ts'

export interface BenchRow {
  readonly pulse: number
  readonly voltage: number
  /** kg a pulse. */
  readonly mass: number
  /** Pa. */
  readonly across: number
}

export interface BenchOptions {
  readonly name: string
  readonly fluid: InjectorCard['fluid']
  /** Pa across, at which the slope is told and which the test had where it does not say. */
  readonly pressure: number
}

const PULSES = 1

export async function benchRows(
  parquet: string,
  roles: readonly BoundRole[],
  pressure: number,
): Promise<{ rows: BenchRow[]; missing: Role[] }> {
  const of = (role: Role): BoundRole | undefined => roles.find((bound) => bound.role === role)
  const needed: Role[] = ['injectorPulseWidth', 'fuelMass']
  const volts = of('injectorVoltage') ?? of('batteryVoltage')
  const missing = [...needed.filter((role) => !of(role)), ...(volts ? [] : (['injectorVoltage'] as const))]
  if (missing.length > 0 || !volts) return { rows: [], missing }
  const bound = [
    of('injectorPulseWidth')!,
    of('fuelMass')!,
    volts,
    of('pulseCount'),
    of('fuelPressureDifference') ?? of('fuelPressure'),
  ]
  const present = bound.filter((each): each is BoundRole => each !== undefined)
  const { values } = await column(
    parquet,
    present.map(({ channel }) => channel),
  )
  const read = (each: BoundRole | undefined, i: number, otherwise: number): number =>
    each ? values[present.indexOf(each)]![i]! * each.factor + each.offset : otherwise
  const rows = Array.from(
    values[0]!,
    (_, i): BenchRow => ({
      pulse: read(bound[0], i, Number.NaN),
      mass: read(bound[1], i, Number.NaN) / read(bound[3], i, PULSES),
      voltage: read(bound[2], i, Number.NaN),
      across: read(bound[4], i, pressure),
    }),
  ).filter((row) => Object.values(row).every((value) => Number.isFinite(value) && value > 0))
  return { rows, missing: [] }
}

export function characteriseBench(
  rows: readonly BenchRow[],
  options: BenchOptions,
  missing: readonly Role[] = [],
): InjectorResult {
  const provenance = { method: 'injectors-bench/1', known: null, unknown: options.name, card: null } as const
  if (missing.length > 0)
    return {
      answer: 'cannot-tell',
      because: 'missing-role',
      sentence: `Cannot tell: the bench test has no column for ${roleTitles(missing)}.`,
      missing: missing.map((role) => ({ log: 'unknown', role })),
      next: [
        'Write down pulse width, volts at the injector, number of pulses and the mass that came out, a row a test.',
      ],
      provenance,
    }
  const knots = voltageKnots(rows.map(({ voltage }) => voltage))
  const next = [
    'Weigh at least five pulse widths from 2 ms to 12 ms at 14 V, three at 12 V and three at 10 V, 1000 pulses or more each, and two below 2 ms for the bend.',
  ]
  const pulses = rows.map(({ pulse }) => pulse)
  if (rows.length < knots.length + 3 || Math.max(...pulses) < 1.5 * Math.min(...pulses))
    return {
      answer: 'cannot-tell',
      because: rows.length < knots.length + 3 ? 'too-few-windows' : 'not-separable',
      sentence: `Cannot tell: ${rows.length} weighings at ${knots.length} ${knots.length === 1 ? 'voltage' : 'voltages'} do not determine slope and dead times.`,
      next,
      provenance,
    }
  const lines = rows.map((row) => ({
    ...row,
    between: shares(knots, row.voltage),
    root: Math.sqrt(row.across / options.pressure),
  }))
  const misfit = (x: Float64Array, i: number): number => {
    const { pulse, mass, between, root } = lines[i]!
    const dead = between.reduce((sum, { index, value }) => sum + value * x[1 + index]!, 0)
    return (Math.exp(x[0]!) * root * (pulse - dead / 1e3)) / mass - 1
  }
  let weights = rows.map(() => 1)
  const longest = rows.reduce((best, row) => (row.pulse > best.pulse ? row : best))
  let start = [Math.log(longest.mass / (longest.pulse - 8e-4)), ...knots.map(() => 0.8)]
  // The longer half first: short pulses may bend, and begun on all of them the dead times would learn the bend.
  const half = [...pulses].sort((a, b) => a - b)[Math.floor(pulses.length / 3)]!
  const long = rows.map(({ pulse }) => (pulse >= half ? 1 : 1e-3))
  let fit = leastSquares({ start, residuals: (x) => Float64Array.from(rows, (_, i) => long[i]! * misfit(x, i)) })
  let scale = 1
  for (let round = 0; round < 10; round++) {
    scale = Math.max(medianScale(Float64Array.from(rows, (_, i) => misfit(Float64Array.from(fit.parameters), i))), 1e-4)
    weights = rows.map((_, i) => biweight(misfit(Float64Array.from(fit.parameters), i) / scale, 6))
    start = [...fit.parameters]
    if (weights.filter((weight) => weight > 0).length <= knots.length + 1) break
    fit = leastSquares({
      start,
      residuals: (x) => Float64Array.from(rows, (_, i) => Math.sqrt(weights[i]!) * misfit(x, i)),
    })
  }
  if (!fit.inverse)
    return {
      answer: 'cannot-tell',
      because: 'not-separable',
      sentence:
        'Cannot tell: at one of the voltages there are no two pulse widths, so its dead time is not determined.',
      next,
      provenance,
    }
  const counted = weights.filter((weight) => weight > 0).length
  const freedom = Math.max(1, counted - fit.parameters.length)
  const variance = fit.sumOfSquares / freedom
  const t = studentT95(freedom)
  const covariance = fit.inverse.map((row) => row.map((value) => value * variance))
  const value = Math.exp(fit.parameters[0]!)
  const slope = { value, plusMinus: value * t * Math.sqrt(covariance[0]![0]!) }
  const deadTime: DeadTimePoint[] = knots.map((voltage, i) => ({
    voltage,
    value: fit.parameters[1 + i]! / 1e3,
    plusMinus: (t * Math.sqrt(covariance[1 + i]![1 + i]!)) / 1e3,
    support: 'driven',
    windows: rows.filter((row) => Math.abs(row.voltage - voltage) <= 0.3).length,
  }))
  // Short pulses that the line was not let to follow, in order, are a bend; single ones are bad weighings.
  const off = rows
    .map((row, i) => ({
      pulse: row.pulse,
      weight: weights[i]!,
      share: -misfit(Float64Array.from(fit.parameters), i),
      mass: row.mass,
    }))
    .filter(({ weight }) => weight < 0.3)
  const straightFrom = Math.min(...rows.filter((_, i) => weights[i]! >= 0.3).map(({ pulse }) => pulse))
  const bent = off.filter(({ pulse }) => pulse < straightFrom).sort((a, b) => a.pulse - b.pulse)
  const middle = deadTime.reduce((best, each) =>
    Math.abs(each.voltage - 14) < Math.abs(best.voltage - 14) ? each : best,
  )
  const ms = (time: number): string => (time * 1e3).toFixed(3)
  return {
    answer: 'told',
    sentence: `The injectors flow ${(value * 6e4).toFixed(1)} ± ${(slope.plusMinus * 6e4).toFixed(1)} g/min of ${options.fluid.name} at ${(options.pressure / 1e3).toFixed(0)} kPa, with a dead time of ${ms(middle.value)} ± ${ms(middle.plusMinus)} ms at ${middle.voltage.toFixed(1)} V (95 %, ${counted} of ${rows.length} weighings).`,
    ratio: null,
    slope,
    pressure: options.pressure,
    deadTime,
    shortPulse: null,
    parameters: ['ln S', ...knots.map((volts) => `X at ${volts.toFixed(2)} V`)],
    covariance: covariance.map((row, i) => row.map((each, j) => each / (i === 0 ? 1 : 1e3) / (j === 0 ? 1 : 1e3))),
    notIdentified:
      knots.length < 2 ? [{ what: 'dead time at other volts', why: 'the test was made at one voltage' }] : [],
    next: knots.length < 2 ? next : [],
    assumptions: [`Every weighing errs by about the same share of its mass.`],
    cautions: [
      'Fuel and its vapour: outside, no ignition source, extinguisher at hand; a test fluid with a high flash point where you can.',
      'The ± is that of the weighings’ scatter: a balance or a pulse counter that is off as a whole is not in it.',
      ...(off.length > bent.length
        ? [`${off.length - bent.length} weighings stand so far off the line that they were not counted.`]
        : []),
    ],
    windows: rows.map((row, i) => ({
      log: 'unknown',
      from: i,
      to: i,
      speed: 0,
      pressure: row.across,
      pulse: row.pulse,
      voltage: row.voltage,
      residual: misfit(Float64Array.from(fit.parameters), i),
      plusMinus: t * Math.sqrt(variance),
      weight: weights[i]!,
    })),
    card: {
      format: INJECTOR_CARD_FORMAT,
      name: options.name.slice(0, 160),
      fluid: options.fluid,
      pressure: { value: options.pressure },
      slope: { ...slope, unit: 'g/min' },
      deadTime: deadTime.map(({ voltage, value: time, plusMinus }) => [
        { value: Number(voltage.toFixed(2)) },
        { value: time, plusMinus, unit: 'ms' },
      ]),
      ...(bent.length > 0
        ? {
            shortPulse: {
              below: { value: straightFrom },
              added: bent.map(({ pulse, share, mass }) => [{ value: pulse }, { value: (share * mass) / value }]),
            },
          }
        : {}),
      coverage: 0.95,
      method: 'bench test',
      provenance: { from: options.name.slice(0, 160) },
    },
    provenance,
  }
}
