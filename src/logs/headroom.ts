/**
 * What is left in the injectors: duty against speed at a few manifold pressures, carried on to the target.
 *   duty = k t n / 4π      t = X + p (c₀ + c₁ n + c₂ n²)
 *   k  pulses of one injector a cycle   t  commanded pulse   s    n  engine speed   rad/s    p  manifold pressure   Pa
 *   X  dead time   s                    c  breathing and mixture
 * The fit is linear in X and c; windows are robustly weighted and counted as fewer where neighbours resemble each other.
 * The interval holds the fit's own ± and the difference to the same fit without c₂: what the choice of form moves.
 * Source: four-stroke cycle of two turns; the form of t is speed–density (Heywood, Internal Combustion Engine
 * Fundamentals, from memory). The limit of duty is the builder's: common practice 0.80 … 0.85, no published source.
 */
import { type LinearFit, linearFit, studentT95 } from '../engineering/numerics/linearFit.ts'
import { biweight, medianScale } from '../engineering/numerics/robust.ts'
import { grid } from './grid.ts'
import { type BoundRole, ROLES, type Role } from './roles.ts'

export interface HeadroomOptions {
  readonly log: string
  /** rad/s; the highest speed driven where it is not given. */
  readonly targetSpeed?: number
  /** Pa absolute; the highest pressure driven where it is not given. */
  readonly targetPressure?: number
  /** Share of the cycle that an injector may be open. */
  readonly limit?: number
  /** Pulses of one injector in two turns: 1 sequential, 2 banked. */
  readonly pulsesPerCycle?: number
}

export interface DutyPoint {
  readonly speed: number
  readonly duty: number
  readonly low: number
  readonly high: number
}

export interface HeadroomCurve {
  readonly pressure: number
  readonly points: readonly DutyPoint[]
}

export interface HeadroomProvenance {
  readonly log: string
  readonly method: 'injector-headroom/1'
  readonly from: 'injector duty' | 'pulse width and speed'
  readonly limit: number
  readonly pulsesPerCycle: number
}

export type HeadroomResult =
  | {
      readonly answer: 'told'
      readonly sentence: string
      readonly target: DutyPoint & { readonly pressure: number; readonly extrapolated: boolean }
      /** rad/s at which the limit is met at the target pressure; null: not below 1.3 times the target speed. */
      readonly meetsLimitAt: number | null
      readonly curves: readonly HeadroomCurve[]
      readonly windows: readonly {
        readonly speed: number
        readonly pressure: number
        readonly duty: number
        readonly weight: number
      }[]
      readonly cautions: readonly string[]
      readonly provenance: HeadroomProvenance
    }
  | {
      readonly answer: 'cannot-tell'
      readonly because: 'missing-role' | 'too-few-windows' | 'too-far'
      readonly sentence: string
      readonly missing?: readonly Role[]
      readonly next: string
      readonly provenance: HeadroomProvenance
    }

const STEP = 0.5
const NEEDED = 12
/** How far beyond what was driven a straight continuation is told at all, as a share. */
const REACH = 1.3
const SAFETY = 'Do it with the person who tunes the engine, lambda watched; somebody else watches the road.'
const rpm = (speed: number): string => `${Math.round((speed * 30) / Math.PI / 10) * 10} rpm`
const kpa = (pressure: number): string => `${Math.round(pressure / 1e3)} kPa`

interface Cell {
  readonly speed: number
  readonly pressure: number
  readonly pulse: number
}

export async function injectorHeadroom(
  parquet: string,
  roles: readonly BoundRole[],
  options: HeadroomOptions,
): Promise<HeadroomResult> {
  const of = (role: Role): BoundRole | undefined => roles.find((bound) => bound.role === role)
  const byDuty = of('injectorPulseWidth') === undefined && of('injectorDuty') !== undefined
  const limit = options.limit ?? 0.85
  const pulses = options.pulsesPerCycle ?? 1
  const provenance: HeadroomProvenance = {
    log: options.log,
    method: 'injector-headroom/1',
    from: byDuty ? 'injector duty' : 'pulse width and speed',
    limit,
    pulsesPerCycle: pulses,
  }
  const needed: Role[] = ['engineSpeed', 'manifoldPressure', byDuty ? 'injectorDuty' : 'injectorPulseWidth']
  const missing = needed.filter((role) => of(role) === undefined)
  if (missing.length > 0) {
    const titles = missing.map((role) => ROLES[role].title).join(' and ')
    return {
      answer: 'cannot-tell',
      because: 'missing-role',
      missing,
      sentence: `Cannot tell: the log has no channel bound to ${titles}.`,
      next: `Bind a channel to ${titles}, or log it.`,
      provenance,
    }
  }
  const cells = await calmCells(
    parquet,
    needed.map((role) => of(role)!),
    byDuty ? pulses : undefined,
  )
  const top = Math.max(0, ...cells.map(({ pressure }) => pressure))
  // Idle and overrun say nothing about full load, and their breathing would bend the form.
  const used = cells.filter(({ pressure }) => pressure > 0.45 * top)
  const fastest = Math.max(0, ...used.map(({ speed }) => speed))
  const targetSpeed = options.targetSpeed ?? fastest
  const targetPressure = options.targetPressure ?? top
  const drive = `Pull from ${rpm(0.5 * targetSpeed)} to ${rpm(Math.min(targetSpeed, Math.max(fastest, 0.8 * targetSpeed)))} in a high gear at three throttle openings, up to ${kpa(Math.min(targetPressure, Math.max(top, 0.8 * targetPressure)))}, twice each. ${SAFETY}`
  const cannot = (because: 'too-few-windows' | 'too-far', why: string): HeadroomResult => ({
    answer: 'cannot-tell',
    because,
    sentence: `Cannot tell: ${why}.`,
    next: drive,
    provenance,
  })
  const speeds = used.map(({ speed }) => speed)
  if (used.length < NEEDED || fastest < 1.3 * Math.min(...speeds))
    return cannot(
      'too-few-windows',
      used.length < NEEDED
        ? `the log holds ${used.length} calm half seconds above ${kpa(0.45 * top)}; ${NEEDED} are needed`
        : `all loaded driving is near ${rpm(fastest)}, and duty against speed needs a spread of speeds`,
    )
  if (targetSpeed > REACH * fastest || targetPressure > REACH * top)
    return cannot(
      'too-far',
      `the target of ${rpm(targetSpeed)} at ${kpa(targetPressure)} lies too far beyond what was driven (${rpm(fastest)}, ${kpa(top)})`,
    )
  const model = fitPulse(used, true)
  const plain = fitPulse(used, false)
  if (!model || !plain)
    return cannot('too-few-windows', 'speed and pressure always rose together, so their shares cannot be told apart')
  const dutyAt = (speed: number, pressure: number): DutyPoint => {
    const scale = (pulses * speed) / (4 * Math.PI)
    const [value, half] = predict(model, speed, pressure)
    const other = predict(plain, speed, pressure)[0]
    const outside = speed > fastest || pressure > top
    const width = scale * Math.hypot(half, outside ? value - other : 0)
    return { speed, duty: scale * value, low: scale * value - width, high: scale * value + width }
  }
  const target = dutyAt(targetSpeed, targetPressure)
  let meets: number | null = null
  for (let speed = 0.3 * targetSpeed; speed <= REACH * targetSpeed; speed += 1)
    if (dutyAt(speed, targetPressure).duty >= limit) {
      meets = speed
      break
    }
  const extrapolated = targetSpeed > fastest || targetPressure > top
  const half = (target.high - target.low) / 2
  const left = limit - target.duty
  const verdict =
    target.high <= limit
      ? `There is injector left: ${Math.round(100 * left)} % of the cycle below the limit of ${Math.round(100 * limit)} %`
      : target.low >= limit
        ? `There is no injector left: the limit of ${Math.round(100 * limit)} % is passed`
        : `Whether injector is left cannot be told yet: the limit of ${Math.round(100 * limit)} % lies within the interval`
  const sentence = `${verdict}. Duty is ${(100 * target.duty).toFixed(1)} ± ${(100 * half).toFixed(1)} % at ${rpm(targetSpeed)} and ${kpa(targetPressure)}${extrapolated ? ', beyond what was driven' : ''} (95 %, ${used.length} windows)${meets === null ? '' : `; the limit is met at about ${rpm(meets)}`}.`
  const low = Math.min(...used.map(({ pressure }) => pressure))
  const pressures = [
    ...new Set(
      [low + (top - low) / 3, low + (2 * (top - low)) / 3, top, targetPressure].map(
        (each) => Math.round(each / 5e3) * 5e3,
      ),
    ),
  ]
  const most = Math.max(fastest, targetSpeed)
  return {
    answer: 'told',
    sentence,
    target: { ...target, pressure: targetPressure, extrapolated },
    meetsLimitAt: meets,
    curves: pressures.map((pressure) => ({
      pressure,
      points: Array.from({ length: 13 }, (_, i) =>
        dutyAt(Math.min(...speeds) + ((most - Math.min(...speeds)) * i) / 12, pressure),
      ),
    })),
    windows: used.map(({ speed, pressure, pulse }, i) => ({
      speed,
      pressure,
      duty: (pulses * pulse * speed) / (4 * Math.PI),
      weight: model.weights[i]!,
    })),
    cautions: [
      'Duty follows the mixture, fuel pressure and volts of this log: a richer mixture at the target, or volts that sag, need more.',
      ...(options.limit === undefined
        ? ['The limit of 85 % is common practice, without a published source; give your own.']
        : []),
      ...(options.pulsesPerCycle === undefined && !byDuty
        ? ['One pulse of each injector a cycle is taken; banked firing gives two.']
        : []),
      'Lean running under boost melts pistons: an injector at its limit cannot make up for more air.',
    ],
    provenance,
  }
}

/** Half seconds in which speed and pressure hardly move: an opening throttle wets the wall and tells another pulse. */
async function calmCells(
  parquet: string,
  roles: readonly BoundRole[],
  dutyPulses: number | undefined,
): Promise<Cell[]> {
  const cells: Cell[] = []
  for (const { series } of await grid(parquet, roles, STEP)) {
    const [speed, pressure, third] = series as [Float64Array, Float64Array, Float64Array]
    for (let i = 1; i + 1 < speed.length; i++) {
      const pulse = dutyPulses === undefined ? third[i]! : (third[i]! * 4 * Math.PI) / (dutyPulses * speed[i]!)
      if (!(speed[i]! > 50) || !(pulse > 5e-4) || Number.isNaN(pressure[i]!)) continue
      const moved = (values: Float64Array): number => Math.abs(values[i + 1]! - values[i - 1]!) / values[i]!
      if (moved(pressure) < 0.15 && moved(speed) < 0.2) cells.push({ speed: speed[i]!, pressure: pressure[i]!, pulse })
    }
  }
  return cells
}

interface PulseFit {
  readonly fit: LinearFit
  readonly scale: number
  readonly curved: boolean
  readonly weights: readonly number[]
  readonly half: number
}

const SPEED = 300
const PRESSURE = 1e5
const rowFor = (speed: number, pressure: number, curved: boolean): number[] => {
  const [n, p] = [speed / SPEED - 1, pressure / PRESSURE]
  return curved ? [1, p, p * n, p * n * n] : [1, p, p * n]
}

function fitPulse(cells: readonly Cell[], curved: boolean): PulseFit | undefined {
  const rows = cells.map(({ speed, pressure }) => rowFor(speed, pressure, curved))
  const observed = cells.map(({ pulse }) => pulse * 1e3)
  let weights = cells.map(() => 1)
  let fit = linearFit(rows, observed, weights)
  let scale = 1
  for (let round = 0; fit && round < 12; round++) {
    scale = Math.max(medianScale(Float64Array.from(fit.residuals)), 1e-4)
    weights = fit.residuals.map((residual) => Math.max(1e-6, biweight(residual / scale, 6)))
    fit = linearFit(rows, observed, weights)
  }
  if (!fit || fit.freedom < 3) return undefined
  // Neighbours in time share the wander of mixture and breathing.
  let [products, squares] = [0, 0]
  for (let i = 1; i < cells.length; i++) {
    const [a, b] = [fit.residuals[i - 1]! * Math.sqrt(weights[i - 1]!), fit.residuals[i]! * Math.sqrt(weights[i]!)]
    products += a * b
    squares += (a * a + b * b) / 2
  }
  const rho = Math.max(0, Math.min(0.9, products / squares))
  const variance = (fit.chiSquared / fit.freedom) * ((1 + rho) / (1 - rho))
  return { fit, scale, curved, weights, half: studentT95(fit.freedom) * Math.sqrt(variance) }
}

/** Pulse and half its interval, s. */
function predict({ fit, curved, half }: PulseFit, speed: number, pressure: number): [number, number] {
  const row = rowFor(speed, pressure, curved)
  const value = row.reduce((sum, each, i) => sum + each * fit.coefficients[i]!, 0)
  let variance = 0
  row.forEach((a, i) => {
    row.forEach((b, j) => {
      variance += a * b * fit.covariance[i]![j]!
    })
  })
  return [value / 1e3, (half * Math.sqrt(Math.max(0, variance))) / 1e3]
}
