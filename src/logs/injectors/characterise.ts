/** Injector data from two logs of one engine: one with injectors whose card is known, one with those that are not. */
import { deadTimeAt } from '../../engineering/fuel/deadTime.ts'
import { studentT95 } from '../../engineering/numerics/linearFit.ts'
import { INJECTOR_CARD_FORMAT, type InjectorCard } from '../../model/injectorCard.ts'
import type { BoundRole, Role } from '../roles.ts'
import { NEAR_VOLTAGE, voltageKnots } from './deadTimeKnots.ts'
import { type Delay, findDelay } from './delay.ts'
import { type JointFit, jointFit, type KnownSet } from './jointFit.ts'
import { nextDriving, reachOf } from './nextDriving.ts'
import {
  type DeadTimePoint,
  INJECTOR_CAUTIONS,
  type InjectorProvenance,
  type InjectorResult,
  type InjectorUnknown,
} from './result.ts'
import { type InjectorSeries, injectorSeries, missingRoles, pressureWay, roleTitles } from './series.ts'
import { makeSurface } from './surface.ts'
import type { InjectorWindow, Interval } from './types.ts'
import { injectorWindows, type LeftOut, steadied } from './windows.ts'

export interface LogOfSet {
  readonly name: string
  readonly parquet: string
  readonly roles: readonly BoundRole[]
  /** Pulses of one injector in two turns of the engine: 1 sequential, 2 banked or batch-fired. */
  readonly pulsesPerCycle?: number
  /** Pa across the injectors where the log does not hold it. */
  readonly across?: number
}

export interface InjectorOptions {
  /** What of the engine's breathing was changed between the logs: exhaust, camshafts, turbocharger… Anything makes the answer unknown. */
  readonly changed?: readonly string[]
  /** The logged pulse lacks the closed-loop trim that is logged beside it. */
  readonly trimMissing?: boolean
  readonly narrowBand?: boolean
  /** How far lambda may read differently in the one log than in the other, as a share, 95 %. */
  readonly lambdaTolerance?: number
  readonly unknownName?: string
}

const WINDOW = 1
/** A narrow-band sensor must swing through its switching voltage within a window. */
const NARROW_WINDOW = 1.5
const SETTLE = 1.2
const WINDOWS_NEEDED = 18
const DEFAULT_LAMBDA = 0.01
/** K that the charge may differ by between the logs where nobody logged it (common practice, no published source). */
const TEMPERATURE_DOUBT = 10
const TEMPERATURE = 310
/** Share that the pressure across may differ by where nobody logged it (common practice, no published source). */
const PRESSURE_DOUBT = 0.05
const TOO_WIDE = 0.25

const ms = (time: number): string => (time * 1e3).toFixed(3)

export async function characteriseInjectors(
  known: LogOfSet,
  unknown: LogOfSet,
  card: InjectorCard,
  options: InjectorOptions = {},
): Promise<InjectorResult> {
  const seriesOptions = { trimMissing: options.trimMissing ?? false, narrowBand: options.narrowBand ?? false }
  const provenance: InjectorProvenance = {
    method: 'injectors-joint/1',
    known: known.name,
    unknown: unknown.name,
    card: card.name,
  }
  const cannot = (
    because: InjectorUnknown['because'],
    why: string,
    next: readonly string[],
    more: Partial<InjectorUnknown> = {},
  ): InjectorUnknown => ({
    answer: 'cannot-tell',
    because,
    sentence: `Cannot tell: ${why}.`,
    next,
    provenance,
    ...more,
  })
  if (options.changed && options.changed.length > 0)
    return cannot(
      'changed-hardware',
      `${options.changed.join(', ')} changed between the logs, and with it the air that the engine takes at the same speed and pressure`,
      ['Log the known set again with the hardware as it is now, or test the unknown set on a bench.'],
    )
  const missing = ([known, unknown] as const).flatMap((log, i) =>
    missingRoles(log.roles, seriesOptions).map((role) => ({
      log: i === 0 ? ('known' as const) : ('unknown' as const),
      role,
    })),
  )
  if (missing.length > 0) {
    const of = (log: 'known' | 'unknown'): Role[] => missing.filter((each) => each.log === log).map(({ role }) => role)
    const parts = (['known', 'unknown'] as const)
      .filter((log) => of(log).length > 0)
      .map((log) => `the log of the ${log} set has no channel for ${roleTitles(of(log))}`)
    return cannot('missing-role', parts.join(', and '), ['Bind a channel to each of these, or log them.'], { missing })
  }
  const assumptions: string[] = []
  const doubts: number[] = [relative(card.slope), options.lambdaTolerance ?? DEFAULT_LAMBDA]
  if (options.lambdaTolerance === undefined)
    assumptions.push(
      `Lambda may read ${DEFAULT_LAMBDA * 100} % differently in the one log than in the other (no figure was given).`,
    )
  const ways = [known, unknown].map((log) => (log.across === undefined ? pressureWay(log.roles) : 'given'))
  if (ways.includes('none')) {
    doubts.push(PRESSURE_DOUBT / 2)
    assumptions.push(
      `No pressure across the injectors was logged or given for ${ways[0] === 'none' ? (ways[1] === 'none' ? 'either log' : 'the known set') : 'the unknown set'}: the card's ${(card.pressure.value / 1e3).toFixed(0)} kPa ± 5 % is taken, as a regulator referenced to the manifold gives.`,
    )
  }
  if (ways.includes('rail') && !([known, unknown] as const).every(({ roles }) => has(roles, 'barometricPressure')))
    assumptions.push(
      'Air pressure was not logged: 101.3 kPa is taken to turn gauge fuel pressure into pressure across.',
    )
  if (![known, unknown].every(({ roles }) => has(roles, 'chargeTemperatureAfter'))) {
    doubts.push(TEMPERATURE_DOUBT / TEMPERATURE)
    assumptions.push(
      `Charge temperature was not logged in both: it may have differed by ${TEMPERATURE_DOUBT} K, ${((100 * TEMPERATURE_DOUBT) / TEMPERATURE).toFixed(0)} % of density.`,
    )
  }
  if (known.pulsesPerCycle === undefined || unknown.pulsesPerCycle === undefined)
    assumptions.push(
      'One pulse of each injector a cycle (sequential) where nothing else was said; alike in both logs it cancels.',
    )
  assumptions.push(
    seriesOptions.trimMissing
      ? 'The closed-loop trim is multiplied onto the logged pulse.'
      : 'The logged pulse is the one commanded, with all trims in it.',
  )

  const runs: Record<'known' | 'unknown', InjectorSeries[]> = {
    known: await injectorSeries(known.parquet, known.roles, seriesOptions),
    unknown: await injectorSeries(unknown.parquet, unknown.roles, seriesOptions),
  }
  const table = card.deadTime.map(([volts, time]) => [volts.value, time.value] as const)
  const volts = table.map(([each]) => each)
  const clampVolts = (each: number): number => Math.min(Math.max(...volts), Math.max(Math.min(...volts), each))
  const deadTime = (each: number): number => deadTimeAt(table, clampVolts(each))!
  const delays: Record<'known' | 'unknown', Delay> = {
    known: findDelay(seriesOptions.narrowBand ? [] : runs.known, deadTime),
    unknown: findDelay(seriesOptions.narrowBand ? [] : runs.unknown, deadTime),
  }
  // One exhaust, one sensor: where one log shows no delay, the other's serves.
  if (delays.known.correlation === undefined && delays.unknown.correlation !== undefined) delays.known = delays.unknown
  if (delays.unknown.correlation === undefined && delays.known.correlation !== undefined) delays.unknown = delays.known
  if (delays.known.correlation === undefined && !seriesOptions.narrowBand)
    assumptions.push(
      'The delay of lambda could not be found in either log; it is taken as none, and only long steady stretches bear that.',
    )
  const found = (['known', 'unknown'] as const).map((log) => {
    const given = log === 'known' ? known : unknown
    return injectorWindows(runs[log], log, delays[log], {
      length: Math.max(seriesOptions.narrowBand ? NARROW_WINDOW : WINDOW, 12 * (runs[log][0]?.step ?? 0.1)),
      settle: SETTLE,
      pulsesPerCycle: given.pulsesPerCycle ?? 1,
      across: given.across ?? (pressureWay(given.roles) === 'none' ? card.pressure.value : undefined),
      temperature: TEMPERATURE,
      narrowBand: seriesOptions.narrowBand,
    })
  })
  const leftOut: Record<'known' | 'unknown', LeftOut & Record<string, number>> = {
    known: { ...found[0]!.leftOut },
    unknown: { ...found[1]!.leftOut },
  }
  const full: InjectorProvenance = {
    ...provenance,
    delay: {
      known: { a: delays.known.a, b: delays.known.b, found: delays.known.correlation !== undefined },
      unknown: { a: delays.unknown.a, b: delays.unknown.b, found: delays.unknown.correlation !== undefined },
    },
    leftOut,
  }
  // The card speaks only for its own volts and, where it bends, not for pulses below.
  const shortOfCard = card.shortPulse
  const spoken = found[0]!.windows.filter(({ voltage, pulse }) => {
    if (Math.abs(voltage - clampVolts(voltage)) > NEAR_VOLTAGE) return false
    return !(shortOfCard && !shortOfCard.added && pulse < shortOfCard.below.value)
  })
  leftOut.known['volts or pulses that the card does not speak of'] = seconds(found[0]!.windows) - seconds(spoken)
  const hold = WINDOW * 6 + SETTLE
  const few = (log: string, count: number): InjectorUnknown =>
    cannot(
      'too-few-windows',
      `the log of the ${log} set has ${count === 0 ? 'no steady window' : `only ${count} steady window${count === 1 ? '' : 's'}`} of ${seriesOptions.narrowBand ? NARROW_WINDOW : WINDOW} s with speed, pressure, pulse, volts and lambda at rest; ${WINDOWS_NEEDED} are needed`,
      [
        `Hold six or more loads from idle to the longest safe pulse, ${Math.ceil(3 * hold)} s each, with the ${log} set.`,
      ],
      { provenance: full },
    )
  if (spoken.length < WINDOWS_NEEDED) return few('known', spoken.length)
  if (found[1]!.windows.length < WINDOWS_NEEDED) return few('unknown', found[1]!.windows.length)
  const surface = makeSurface([...spoken, ...found[1]!.windows].map(({ speed, pressure }) => [speed, pressure]))
  const shared = found[1]!.windows.filter(({ speed, pressure }) =>
    spoken.some((one) => surface.distance([speed, pressure], [one.speed, one.pressure]) < 1),
  )
  leftOut.unknown['at airflow that the known set was not driven at'] = seconds(found[1]!.windows) - seconds(shared)
  if (shared.length < WINDOWS_NEEDED)
    return cannot(
      'no-overlap',
      `only ${shared.length} of ${found[1]!.windows.length} steady windows of the unknown set lie at speeds and pressures that the known set was driven at`,
      ['Drive the unknown set at the speeds and manifold pressures of the first log.'],
      { provenance: full },
    )
  const windows = steadied([...spoken, ...shared])
  const knots = voltageKnots(shared.map(({ voltage }) => voltage))
  const reach = reachOf(windows, knots)
  const next = nextDriving(reach, 2 * hold)
  if (reach.pulses[1] / reach.pulses[0] < 1.5)
    return cannot(
      'not-separable',
      `the pulses of the unknown set only span ${ms(reach.pulses[0])} to ${ms(reach.pulses[1])} ms, from which slope and dead time cannot be told apart`,
      next,
      { provenance: full },
    )
  const added = shortOfCard?.added
  const set: KnownSet = {
    slope: card.slope.value,
    pressure: card.pressure.value,
    deadTime,
    added: (pulse) => (added && shortOfCard && pulse < shortOfCard.below.value ? between(added, pulse) : 0),
    deadTimeSpread: Math.max(0, ...card.deadTime.map(([, time]) => time.plusMinus ?? 0)) / 1.96,
  }
  const joint = (below?: number, of: readonly InjectorWindow[] = windows): JointFit | undefined =>
    jointFit(of, set, {
      reference: card.pressure.value,
      knots,
      offsetSpread: Math.hypot(...doubts) / 1.96,
      ...(below === undefined ? {} : { bendBelow: below }),
    })
  const straight = joint()
  if (!straight)
    return cannot('not-separable', 'the windows do not determine slope and dead time', next, { provenance: full })
  const notIdentified: { what: string; why: string }[] = [
    {
      what: 'mass flow by itself',
      why: `two logs fix only the ratio to the known set; the flow follows from the card “${card.name}” and carries its ±`,
    },
  ]
  const bending = seekBend(windows, straight, joint, set, knots, shortOfCard !== undefined)
  const chosen = bending.fit ?? straight
  if (bending.why) notIdentified.push({ what: 'a bend of short pulses', why: bending.why })

  const t = studentT95(Math.floor(chosen.freedom))
  const half = (i: number, of: readonly (readonly number[])[] = chosen.covariance): number => t * Math.sqrt(of[i]![i]!)
  const value = Math.exp(chosen.parameters[0]!)
  const slope: Interval = { value, plusMinus: value * half(0) }
  const ratio: Interval = {
    value: value / card.slope.value,
    plusMinus: (value / card.slope.value) * half(0, chosen.covarianceOfRatio),
  }
  if (half(0) > TOO_WIDE)
    return cannot(
      'too-wide',
      `the slope comes out as ${(value * 6e4).toFixed(0)} g/min, but ± ${Math.round(100 * half(0))} % is left open`,
      next.length > 0 ? next : [`Drive longer: ${Math.ceil(3 * hold)} s at each load.`],
      { provenance: full },
    )
  const deadTimes = deadTimePoints(chosen, knots, shared, t)
  if (reach.span < 1)
    notIdentified.push({
      what: 'dead time at other volts',
      why: `the unknown set was driven at ${knots.map((each) => each.toFixed(1)).join(', ')} V only`,
    })
  if (reach.wide.length < 2)
    notIdentified.push({
      what: 'slope and dead time apart, well',
      why: `the pulses span four to one at ${reach.wide.length === 0 ? 'no voltage' : 'one voltage only'} (${reach.ratio.toFixed(1)} to one at best)`,
    })
  const cautions = [...INJECTOR_CAUTIONS]
  if (chosen.excess > 3)
    cautions.push(
      `The windows scatter ${chosen.excess.toFixed(1)} times as far as their own noise: something that the model does not hold (another fuel, changed breathing, a leaking regulator) is in one of the logs. The intervals are widened by it but cannot hold a bias.`,
    )
  const outliers = chosen.weights.filter((weight) => weight === 0).length
  if (outliers > 0)
    cautions.push(`${outliers} of ${windows.length} windows stand so far off that they were not counted.`)
  for (const { voltage, support } of deadTimes) {
    const speeds = windows.filter((each) => each.log === 'unknown' && Math.abs(each.voltage - voltage) <= NEAR_VOLTAGE)
    const range = speeds.map(({ speed }) => speed)
    if (support === 'driven' && knots.length > 1 && Math.max(...range) < 1.1 * Math.min(...range))
      cautions.push(
        `The dead time at ${voltage.toFixed(1)} V rests on one stop of the drive (about ${Math.round(range[0]! * (30 / Math.PI))} rpm): its ± cannot hold what was amiss at that stop. Hold the same volts at another load.`,
      )
  }
  const across = windows.map(({ logAcross }) => Math.exp(logAcross))
  const spreadAcross = Math.max(...across) / Math.min(...across)
  if (spreadAcross > 1.1 || Math.abs(Math.log(median(across) / card.pressure.value)) > 0.1)
    cautions.push(
      `The pressure across ran from ${(Math.min(...across) / 1e3).toFixed(0)} to ${(Math.max(...across) / 1e3).toFixed(0)} kPa: flow is referred to ${(card.pressure.value / 1e3).toFixed(0)} kPa by its square root, dead time is that of the pressures driven and rises with pressure.`,
    )
  cautions.push(
    `Flow is in the fluid of the known card (${card.fluid.name}); the same petrol in both logs cancels, another blend in one of them does not.`,
  )
  const middle = deadTimes
    .filter(({ support }) => support === 'driven')
    .reduce((best, each) => (Math.abs(each.voltage - 14) < Math.abs(best.voltage - 14) ? each : best))
  const driven = deadTimes.filter(({ support }) => support === 'driven')
  const name = options.unknownName ?? `Injectors of ${unknown.name}`.slice(0, 160)
  return {
    answer: 'told',
    sentence: `The unknown injectors flow ${(value * 6e4).toFixed(1)} ± ${(slope.plusMinus * 6e4).toFixed(1)} g/min at ${(card.pressure.value / 1e3).toFixed(0)} kPa, ${ratio.value.toFixed(4)} ± ${ratio.plusMinus.toFixed(4)} times the known set, with a dead time of ${ms(middle.value)} ± ${ms(middle.plusMinus)} ms at ${middle.voltage.toFixed(1)} V (95 %, ${spoken.length} and ${shared.length} steady windows); the logs fix only the ratio, the known card's ± and lambda's are carried into the flow.`,
    ratio,
    slope,
    pressure: card.pressure.value,
    deadTime: deadTimes,
    shortPulse: bending.fit
      ? {
          below: bending.below!,
          depth: { value: chosen.parameters.at(-1)!, plusMinus: half(chosen.parameters.length - 1) },
        }
      : null,
    parameters: chosen.names,
    covariance: chosen.covariance,
    notIdentified,
    next,
    assumptions,
    cautions,
    windows: windows.map((window, i) => ({
      log: window.log,
      from: window.from,
      to: window.to,
      speed: window.speed,
      pressure: window.pressure,
      pulse: window.pulse,
      voltage: window.voltage,
      residual: chosen.residuals[i]!,
      plusMinus: 1.96 * window.noise * Math.max(1, chosen.excess),
      weight: chosen.weights[i]!,
    })),
    card: {
      format: INJECTOR_CARD_FORMAT,
      name,
      fluid: card.fluid,
      pressure: card.pressure,
      slope: { ...slope, unit: 'g/min' },
      deadTime: driven.map(({ voltage, value: time, plusMinus }) => [
        { value: Number(voltage.toFixed(2)) },
        { value: time, plusMinus, unit: 'ms' },
      ]),
      ...(bending.fit
        ? { shortPulse: shortPulseOf(chosen, bending.below!, driven, half(chosen.parameters.length - 1)) }
        : {}),
      coverage: 0.95,
      method: 'two logs',
      provenance: {
        from: `logs ${known.name} and ${unknown.name}, known card ${card.name}`.slice(0, 160),
        remark:
          'Dead times stand only for the volts listed; beyond them they were not driven. The ± of the known card and of lambda are in every figure.',
      },
    },
    provenance: full,
  }
}

const has = (roles: readonly BoundRole[], role: Role): boolean => roles.some((bound) => bound.role === role)
const relative = (measure: { value: number; plusMinus?: number | undefined }): number =>
  (measure.plusMinus ?? 0) / measure.value
const seconds = (windows: readonly InjectorWindow[]): number =>
  windows.reduce((sum, { from, to }) => sum + to - from, 0)
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!
const between = (table: readonly (readonly [{ value: number }, { value: number }])[], pulse: number): number => {
  const sorted = table.map(([a, b]) => [a.value, b.value] as const).sort((a, b) => a[0] - b[0])
  const right = sorted.findIndex(([each]) => each >= pulse)
  if (right <= 0) return sorted[right === 0 ? 0 : sorted.length - 1]![1]
  const [low, high] = [sorted[right - 1]!, sorted[right]!]
  return low[1] + ((high[1] - low[1]) * (pulse - low[0])) / (high[0] - low[0])
}

/** Where a knot was driven, its own figure; whole volts beyond are extrapolated, with the doubt between two forms of curve. */
function deadTimePoints(
  fit: JointFit,
  knots: readonly number[],
  windows: readonly InjectorWindow[],
  t: number,
): DeadTimePoint[] {
  const near = (at: number): number => windows.filter(({ voltage }) => Math.abs(voltage - at) <= NEAR_VOLTAGE).length
  const at = (i: number): number => fit.parameters[1 + i]!
  const points = knots.flatMap((voltage, i): DeadTimePoint[] =>
    near(voltage) < 3 && knots.length > 1
      ? []
      : [
          {
            voltage,
            value: at(i),
            plusMinus: t * Math.sqrt(fit.covariance[1 + i]![1 + i]!),
            support: 'driven',
            windows: near(voltage),
          },
        ],
  )
  const driven = points.map(({ voltage }) => knots.indexOf(voltage))
  const [first, last] = [driven[0], driven.at(-1)]
  if (first === undefined || last === undefined || knots[last]! - knots[first]! < 1) return points
  const far = [8, 9, 10, 11, 12, 13, 14, 15, 16].filter(
    (each) => each < knots[first]! - NEAR_VOLTAGE || each > knots[last]! + NEAR_VOLTAGE,
  )
  for (const voltage of far) {
    const share = (form: (each: number) => number): number =>
      (form(voltage) - form(knots[first]!)) / (form(knots[last]!) - form(knots[first]!))
    const [w, line] = [share((each) => 1 / each), share((each) => each)]
    const [a, b] = [1 + first, 1 + last]
    const c = fit.covariance
    const variance = (1 - w) ** 2 * c[a]![a]! + w ** 2 * c[b]![b]! + 2 * w * (1 - w) * c[a]![b]!
    const doubt = Math.abs((w - line) * (at(last) - at(first)))
    points.push({
      voltage,
      value: at(first) + w * (at(last) - at(first)),
      plusMinus: Math.hypot(t * Math.sqrt(Math.max(0, variance)), 2 * doubt),
      support: 'extrapolated',
      windows: 0,
    })
  }
  return points.sort((x, y) => x.voltage - y.voltage)
}

/** A bend is only claimed where it stands well clear of noise and the known set is trusted at that airflow. */
function seekBend(
  windows: readonly InjectorWindow[],
  straight: JointFit,
  bentFit: (below: number) => JointFit | undefined,
  set: KnownSet,
  knots: readonly number[],
  cardSpeaks: boolean,
): { fit?: JointFit; below?: number; why?: string } {
  const nearest = (voltage: number): number =>
    knots.reduce((best, each, i) => (Math.abs(each - voltage) < Math.abs(knots[best]! - voltage) ? i : best), 0)
  const open = windows
    .filter(({ log }) => log === 'unknown')
    .map(({ pulse, voltage }) => pulse - straight.parameters[1 + nearest(voltage)]!)
    .sort((a, b) => a - b)
  const shortest = open[0]!
  const candidates = [1.5, 2, 2.7, 3.6]
    .map((times) => shortest * times)
    .filter((below) => {
      const inside = open.filter((each) => each < below).length
      return below < 5e-3 && inside >= 6 && open.length - inside >= WINDOWS_NEEDED
    })
  if (candidates.length === 0)
    return { why: `the shortest opening of the unknown set was ${ms(shortest)} ms with too few windows near it` }
  let best: { fit: JointFit; below: number; strength: number } | undefined
  for (const below of candidates) {
    const found = bentFit(below)
    if (!found) continue
    const last = found.parameters.length - 1
    const strength = Math.abs(found.parameters[last]!) / Math.sqrt(found.covarianceOfRatio[last]![last]!)
    if (!best || strength > best.strength) best = { fit: found, below, strength }
  }
  if (!best || best.strength < 4) return { why: `none shows down to an opening of ${ms(shortest)} ms, beyond noise` }
  const knownOpen = windows
    .filter(({ log }) => log === 'known')
    .map(({ pulse, voltage }) => pulse - set.deadTime(voltage))
  if (!cardSpeaks && Math.min(...knownOpen) < best.below)
    return {
      why: `something bends below an opening of ${ms(best.below)} ms, but the known card does not say how its own short pulses behave, and it was driven there too: a bench test of either set settles it`,
    }
  return { fit: best.fit, below: best.below }
}

function shortPulseOf(
  fit: JointFit,
  below: number,
  driven: readonly DeadTimePoint[],
  plusMinus: number,
): NonNullable<InjectorCard['shortPulse']> {
  const dead = driven.reduce((best, each) =>
    Math.abs(each.voltage - 14) < Math.abs(best.voltage - 14) ? each : best,
  ).value
  const depth = fit.parameters.at(-1)!
  const points = [0.25, 0.5, 0.75, 1].map((part) => part * below)
  return {
    below: { value: dead + below },
    added: points.map((open) => {
      const share = (1 - open / below) ** 2
      return [{ value: dead + open }, { value: depth * share, plusMinus: plusMinus * share }]
    }),
  }
}
