/**
 * The joint model of two logs on one engine.
 *   ln λ + ln S + ½ ln(Δp/Δp₀) + ln(t − X(U) + b(t)) − ln(p/T) = f(n, p) + noise
 *   λ  lambda   S  mass flow of one injector while open at Δp₀   kg/s     Δp  pressure across it   Pa
 *   t  commanded pulse   s     X  dead time   s     U  volts at the injector   V     b  bend of short pulses   s
 *   p  manifold pressure   Pa     T  charge temperature   K     n  engine speed   rad/s
 *   f  logarithm of the engine's breathing, an unknown smooth surface that both logs share
 * For the known set S, X and b come from its card; for the unknown one they are sought. Fuel, pulses per cycle and swept
 * volume are alike in both logs and vanish in f, so only the ratio of S to the known S is fixed. What may differ between
 * the logs as a whole (card ±, lambda ±, pressure ±) is one offset with its own spread, carried into the interval.
 * Robust: iterated biweight at 6 standard deviations. The surface's stiffness by restricted maximum likelihood.
 * Sources: Patterson & Thompson, Biometrika 58 (1971); covariance of a robust fit Huber & Ronchetti §7.6 (from memory).
 */
import { cholesky, choleskyLogDeterminant, choleskySolve } from '../../engineering/numerics/cholesky.ts'
import { biweight, medianScale } from '../../engineering/numerics/robust.ts'
import { shares } from './deadTimeKnots.ts'
import { makeSurface } from './surface.ts'
import type { InjectorWindow } from './types.ts'

export interface KnownSet {
  /** kg/s at `pressure`. */
  readonly slope: number
  /** Pa across. */
  readonly pressure: number
  /** s, at these volts. */
  readonly deadTime: (volts: number) => number
  /** Time to add to a commanded pulse, s. */
  readonly added: (pulse: number) => number
  /** One standard deviation of the dead time as a whole, s. */
  readonly deadTimeSpread: number
}

export interface JointOptions {
  /** Pa; the unknown slope is told at this pressure. */
  readonly reference: number
  readonly knots: readonly number[]
  /** Standard deviation of what differs between the logs as a whole, as a share. */
  readonly offsetSpread: number
  /** Open time, s, below which a bend of the unknown set is sought; undefined: none. */
  readonly bendBelow?: number
}

export interface JointFit {
  /** ln S, then dead times at the knots in s, then the bend's depth in s if one was sought. */
  readonly parameters: readonly number[]
  readonly names: readonly string[]
  /** With the card's and lambda's ±. */
  readonly covariance: readonly (readonly number[])[]
  /** As if the card were exact: what the logs alone leave open. */
  readonly covarianceOfRatio: readonly (readonly number[])[]
  readonly freedom: number
  /** Residual of each window as a share of fuel, and its weight 0 … 1. */
  readonly residuals: Float64Array
  readonly weights: Float64Array
  /** ln of the air that the surface gives, less ln(p/T), at each window. */
  readonly breathing: Float64Array
  /** Scatter of the windows over what their own noise explains. */
  readonly excess: number
  readonly stiffness: number
  /** −2 ln of the restricted likelihood, to choose between models of the same windows. */
  readonly criterion: number
}

const bend = (open: number, below: number): number => (open < below ? (1 - open / below) ** 2 : 0)
const bendSlope = (open: number, below: number): number => (open < below ? (-2 * (1 - open / below)) / below : 0)
type Row = readonly { readonly index: number; readonly value: number }[]
/** Times stand in milliseconds inside, so that all unknowns are of about one size. */
const UNIT = 1e3
const STIFFNESS = Array.from({ length: 13 }, (_, i) => 10 ** (-3 + 0.75 * i))
const REACH = 6
/** Of a stop's own scatter; nearer to one there is nothing left to judge it by. */
const MOST_HIDDEN = 0.9
/** Between a half (without bias, but too narrow for few stops) and one (as if each stop were left out in turn: too wide). */
const HIDING = 0.75

/** Windows that follow one another resemble each other where a loop trims or a film dries: fewer of them count, (1 + ρ)/(1 − ρ). */
function kinship(
  windows: readonly InjectorWindow[],
  residuals: Float64Array,
  noise: Float64Array,
  scale: number,
): number {
  let [products, squares, pairs] = [0, 0, 0]
  const standard = (i: number): number => Math.max(-3, Math.min(3, residuals[i]! / noise[i]! / scale))
  for (let i = 1; i < windows.length; i++) {
    const [a, b] = [windows[i - 1]!, windows[i]!]
    if (a.log !== b.log || a.session !== b.session || b.from - a.to > 0.5 * (a.to - a.from)) continue
    products += standard(i - 1) * standard(i)
    squares += (standard(i - 1) ** 2 + standard(i) ** 2) / 2
    pairs++
  }
  if (pairs < 10) return 1
  const rho = products / squares
  return rho > 2 / Math.sqrt(pairs) ? (1 + Math.min(rho, 0.8)) / (1 - Math.min(rho, 0.8)) : 1
}

/**
 * Windows of one stop of the drive, by their places in the list: one after another at about one speed. `byVolts` parts a
 * stop where the volts step: of a voltage that was driven at one stop alone, the stop as a whole cannot show the scatter.
 */
function stops(windows: readonly InjectorWindow[], byVolts: boolean): number[][] {
  const out: number[][] = []
  windows.forEach((window, i) => {
    const before = windows[i - 1]
    const same =
      before !== undefined &&
      before.log === window.log &&
      before.session === window.session &&
      window.from - before.to < 2.5 &&
      (!byVolts || Math.abs(window.voltage - before.voltage) < 0.3) &&
      Math.abs(window.speed / before.speed - 1) < 0.03 &&
      Math.abs(window.pressure / before.pressure - 1) < 0.06
    if (same) out.at(-1)!.push(i)
    else out.push([i])
  })
  return out
}

/** Undefined where the windows do not determine the unknown set. */
export function jointFit(
  windows: readonly InjectorWindow[],
  known: KnownSet,
  options: JointOptions,
): JointFit | undefined {
  const surface = makeSurface(windows.map(({ speed, pressure }) => [speed, pressure]))
  const { knots, reference, bendBelow } = options
  const n = windows.length
  const own = 1 + knots.length + (bendBelow === undefined ? 0 : 1)
  if (n <= own + 4) return undefined
  // After the unknown set's own: what is carried in with a spread of its own, then the surface.
  const carriedSpreads = [options.offsetSpread, known.deadTimeSpread * UNIT]
  const carried: number[] = []
  let at = own
  const [offsetAt, shiftAt] = carriedSpreads.map((spread) => {
    if (!(spread > 0)) return -1
    carried.push(at)
    return at++
  }) as [number, number]
  const surfaceAt = at
  const count = surfaceAt + surface.count
  const splines = windows.map(({ speed, pressure }) => surface.at(speed, pressure))
  const between = windows.map(({ voltage }) => shares(knots, voltage))
  const unknownSet = windows.map(({ log }) => log === 'unknown')

  const x = new Float64Array(count)
  const shortest = Math.min(...windows.filter(({ log }) => log === 'unknown').map(({ pulse }) => pulse))
  knots.forEach((volts, i) => {
    x[1 + i] = Math.min(known.deadTime(volts), 0.6 * shortest) * UNIT
  })
  const entry = (of: Float64Array, index: number): number => (index < 0 ? 0 : of[index]!)
  const openTime = (i: number, of: Float64Array): { open: number; bent: number; bentSlope: number } => {
    const window = windows[i]!
    if (window.log === 'known') {
      const open = window.pulse - known.deadTime(window.voltage) - entry(of, shiftAt) / UNIT
      return { open: open + known.added(window.pulse), bent: 0, bentSlope: 1 }
    }
    let open = window.pulse
    for (const { index, value } of between[i]!) open -= (value * of[1 + index]!) / UNIT
    if (bendBelow === undefined) return { open, bent: 0, bentSlope: 1 }
    const depth = of[own - 1]! / UNIT
    const bent = bend(open, bendBelow)
    return { open: open + depth * bent, bent, bentSlope: 1 + depth * bendSlope(open, bendBelow) }
  }
  /** Left side of the model, without S of the unknown set. */
  const left = (i: number, of: Float64Array): number => {
    const window = windows[i]!
    const { slope, pressure } = window.log === 'known' ? known : { slope: 1, pressure: reference }
    return (
      window.logLambda +
      Math.log(slope) +
      0.5 * (window.logAcross - Math.log(pressure)) +
      Math.log(openTime(i, of).open) -
      window.logDensity
    )
  }
  const whole = (of: Float64Array): Float64Array =>
    Float64Array.from(windows, (_, i) => left(i, of) + (unknownSet[i] ? of[0]! : entry(of, offsetAt)))
  const meanOf = (wanted: boolean): number => {
    const values = windows.flatMap((_, i) => (unknownSet[i] === wanted ? [left(i, x)] : []))
    return values.reduce((sum, each) => sum + each, 0) / values.length
  }
  const centre = meanOf(false)
  if (!Number.isFinite(centre) || !Number.isFinite(meanOf(true))) return undefined
  x[0] = centre - meanOf(true)

  const noise = Float64Array.from(windows, (window) => window.noise)
  const weights = new Float64Array(n).fill(1)
  const breath = (of: Float64Array): Float64Array =>
    Float64Array.from(splines, (terms) =>
      terms.reduce((sum, { index, value }) => sum + value * of[surfaceAt + index]!, centre),
    )
  /** One window's row of the straightened problem, not weighted. */
  const rowOf = (i: number, of: Float64Array): Row => {
    const { open, bent, bentSlope } = openTime(i, of)
    const row: { index: number; value: number }[] = splines[i]!.map(({ index, value }) => ({
      index: surfaceAt + index,
      value: -value,
    }))
    if (unknownSet[i]) {
      row.push({ index: 0, value: 1 })
      for (const { index, value } of between[i]!)
        row.push({ index: 1 + index, value: (-value * bentSlope) / open / UNIT })
      if (bendBelow !== undefined && bent !== 0) row.push({ index: own - 1, value: bent / open / UNIT })
    } else {
      if (offsetAt >= 0) row.push({ index: offsetAt, value: 1 })
      if (shiftAt >= 0) row.push({ index: shiftAt, value: -1 / open / UNIT })
    }
    return row
  }
  const add = (matrix: Float64Array, right: Float64Array, row: Row, weight: number, value: number): void => {
    for (const one of row) {
      right[one.index]! -= weight * one.value * value
      for (const two of row) matrix[one.index * count + two.index]! += weight * one.value * two.value
    }
  }
  /** Normal equations at x: windows and priors in one, the penalty in the other, to be added with its stiffness. */
  const build = (of: Float64Array, scale: number) => {
    const [matrix, right] = [new Float64Array(count * count), new Float64Array(count)]
    const [stiff, stiffRight] = [new Float64Array(count * count), new Float64Array(count)]
    const [observed, fitted] = [whole(of), breath(of)]
    let cost = 0
    const residual = (i: number): number => observed[i]! - fitted[i]!
    for (let i = 0; i < n; i++) {
      const weight = weights[i]! / noise[i]! ** 2
      add(matrix, right, rowOf(i, of), weight, residual(i))
      cost += weight * residual(i) ** 2
    }
    carriedSpreads
      .filter((spread) => spread > 0)
      .forEach((spread, k) => {
        const weight = (scale / spread) ** 2
        add(matrix, right, [{ index: carried[k]!, value: 1 }], weight, of[carried[k]!]!)
        cost += weight * of[carried[k]!]! ** 2
      })
    // ln of breathing strays from its mean by 3 at most in any engine: wide enough to say nothing where there are data.
    for (let k = surfaceAt; k < count; k++) {
      add(matrix, right, [{ index: k, value: 1 }], (scale / 3) ** 2, of[k]!)
      cost += (scale / 3) ** 2 * of[k]! ** 2
    }
    let bent = 0
    for (const terms of surface.bends) {
      const row = terms.map(({ index, value }) => ({ index: surfaceAt + index, value }))
      const sum = row.reduce((total, { index, value }) => total + value * of[index]!, 0)
      add(stiff, stiffRight, row, 1, sum)
      bent += sum * sum
    }
    return { matrix, right, stiff, stiffRight, cost, bent }
  }
  const solve = (parts: ReturnType<typeof build>, stiffness: number) => {
    const matrix = parts.matrix.map((value, k) => value + stiffness * parts.stiff[k]!)
    const right = parts.right.map((value, k) => value + stiffness * parts.stiffRight[k]!)
    const factor = cholesky(matrix, count)
    if (!factor) return undefined
    const step = choleskySolve(factor, count, right)
    // Cost after the step: c − rᵀδ.
    const cost = parts.cost + stiffness * parts.bent - right.reduce((sum, value, k) => sum + value * step[k]!, 0)
    return { factor, step, cost }
  }
  const rank = surface.count - 4
  const freedomOfSurface = n - own - 4
  const score = (parts: ReturnType<typeof build>, stiffness: number): number => {
    const found = solve(parts, stiffness)
    if (!found) return Number.POSITIVE_INFINITY
    return (
      freedomOfSurface * Math.log(Math.max(found.cost, 1e-12) / freedomOfSurface) +
      choleskyLogDeterminant(found.factor, count) -
      rank * Math.log(stiffness)
    )
  }
  const choose = (parts: ReturnType<typeof build>): number => {
    const scores = STIFFNESS.map((each) => score(parts, each))
    return STIFFNESS[scores.indexOf(Math.min(...scores))]!
  }

  let stiffness = 1
  let scale = 1
  for (let round = 0; round < 20; round++) {
    const parts = build(x, scale)
    if (round === 2 || round === 5) stiffness = choose(parts)
    const found = solve(parts, stiffness)
    if (!found) return undefined
    const { step } = found
    // Shortened until every pulse stays longer than its dead time.
    let share = 1
    const tried = (): Float64Array => x.map((value, j) => value + share * step[j]!)
    while (share > 1e-6 && windows.some((_, i) => !(openTime(i, tried()).open > 2e-5))) share /= 2
    if (share <= 1e-6) return undefined
    x.set(tried())
    const [observed, fitted] = [whole(x), breath(x)]
    const standard = Float64Array.from(windows, (_, i) => (observed[i]! - fitted[i]!) / noise[i]!)
    scale = Math.max(medianScale(standard), 1e-6)
    // Least squares first; the weights follow once the surface fits.
    if (round >= 2) for (let i = 0; i < n; i++) weights[i] = biweight(standard[i]! / scale, REACH)
    if (round > 6 && share === 1 && step.every((value, j) => Math.abs(value) < 1e-8 * (1 + Math.abs(x[j]!)))) break
  }
  const last = build(x, scale)
  const final = solve(last, stiffness)
  if (!final) return undefined
  const inverse = Array.from({ length: count }, (_, j) => {
    const unit = new Float64Array(count)
    unit[j] = 1
    return choleskySolve(final.factor, count, unit)
  })
  let used = 0
  for (let i = 0; i < n; i++) {
    // Leverage of the window: what share of its residual the fit took up.
    const row = rowOf(i, x)
    let leverage = 0
    for (const one of row) for (const two of row) leverage += one.value * two.value * inverse[one.index]![two.index]!
    used += (leverage * weights[i]!) / noise[i]! ** 2
  }
  const [observed, fitted] = [whole(x), breath(x)]
  const residuals = Float64Array.from(observed, (value, i) => value - fitted[i]!)
  const freedom = Math.max(1, n - used)
  let [squares, slopes, total] = [0, 0, 0]
  for (let i = 0; i < n; i++) {
    const u = residuals[i]! / noise[i]! / scale
    squares += (u * biweight(u, REACH)) ** 2
    slopes += Math.abs(u) < REACH ? (1 - (u / REACH) ** 2) * (1 - 5 * (u / REACH) ** 2) : 0
    total += weights[i]!
  }
  const variance =
    ((scale ** 2 * (squares / freedom) * (total / n)) / (slopes / n) ** 2) * kinship(windows, residuals, noise, scale)
  const unit = (i: number): number => (i === 0 ? 1 : UNIT)
  // With what is carried in held fast: C − C_ug C_gg⁻¹ C_gu.
  const size = carried.length
  const gg = Float64Array.from(
    { length: size * size },
    (_, k) => inverse[carried[Math.floor(k / size)]!]![carried[k % size]!]!,
  )
  const ggFactor = size > 0 ? cholesky(gg, size) : undefined
  const held = Array.from({ length: own }, (_, i): Float64Array => {
    if (!ggFactor) return inverse[i]!
    const solved = choleskySolve(
      ggFactor,
      size,
      Float64Array.from(carried, (j) => inverse[i]![j]!),
    )
    return inverse[i]!.map((value, k) => value - carried.reduce((sum, j, p) => sum + solved[p]! * inverse[j]![k]!, 0))
  })
  // Some stops scatter more than others (idle with its late gas): each stop's pull on an unknown, as it was, may ask for more.
  // Bell & McCaffrey, Survey Methodology 28 (2002) (from memory).
  const pullOf = (members: readonly number[]): number[] => {
    // The surface bends towards each stop, which hides part of what a stop is off by: its leverage says how much.
    const together = new Float64Array(count)
    let weight = 0
    for (const i of members) {
      const share = weights[i]! / noise[i]! ** 2
      weight += share
      for (const { index, value } of rowOf(i, x)) together[index]! += share * value
    }
    const leverage = together.reduce(
      (sum, one, j) =>
        one === 0 ? sum : sum + one * together.reduce((inner, two, k) => inner + two * inverse[j]![k]!, 0),
      0,
    )
    const seen = (1 - Math.min(MOST_HIDDEN, weight > 0 ? leverage / weight : 0)) ** HIDING
    return held.map(
      (row) =>
        members.reduce((sum, i) => {
          const lever = rowOf(i, x).reduce((total, { index, value }) => total + value * row[index]!, 0)
          return sum + (weights[i]! * residuals[i]! * lever) / noise[i]! ** 2
        }, 0) / seen,
    )
  }
  const gatherings = [stops(windows, false), stops(windows, true)].map((parts) => parts.map(pullOf))
  const inflate = held.map((row, k) =>
    Math.max(
      1,
      ...gatherings
        .filter((pulls) => pulls.length >= 8)
        .map((pulls) => Math.sqrt(pulls.reduce((sum, pull) => sum + pull[k]! ** 2, 0) / (row[k]! * variance))),
    ),
  )
  const ratio = held.map((row, i) =>
    held.map((_, k) => (row[k]! * variance * inflate[i]! * inflate[k]!) / unit(i) / unit(k)),
  )
  // The spread of what is carried in was set in units of the scatter; it goes back to what was said.
  const covariance = ratio.map((row, i) =>
    row.map((value, k) => value + ((inverse[i]![k]! - held[i]![k]!) * scale ** 2) / unit(i) / unit(k)),
  )
  return {
    parameters: [...x.subarray(0, own)].map((value, i) => value / unit(i)),
    names: ['ln S', ...knots.map((volts) => `X at ${volts.toFixed(2)} V`), ...(bendBelow === undefined ? [] : ['b'])],
    covariance,
    covarianceOfRatio: ratio,
    freedom,
    residuals,
    weights,
    breathing: fitted,
    excess: Math.sqrt(variance),
    stiffness,
    criterion: score(last, stiffness),
  }
}
