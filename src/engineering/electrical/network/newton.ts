import { factorise, solveFactorised } from '../../numerics/sparseLdl.ts'
import type { Compiled } from './compiled.ts'
import { applyLaw, LAW, lawResult, PARAMETERS } from './laws.ts'

/** Working arrays of one network, allocated once. */
export interface Workspace {
  readonly current: Float64Array
  readonly slope: Float64Array
  /** Sum of currents leaving each node; last place: the reference. */
  readonly residual: Float64Array
  readonly tolerance: Float64Array
  readonly values: Float64Array
  readonly step: Float64Array
  readonly scratch: Float64Array
  readonly trial: Float64Array
  /** 1 at a node that stands in for the reference of a floating island. */
  readonly anchor: Uint8Array
}

export const workspace = ({ count, size, pattern }: Compiled): Workspace => ({
  current: new Float64Array(size),
  slope: new Float64Array(size),
  residual: new Float64Array(count + 1),
  tolerance: new Float64Array(count + 1),
  values: new Float64Array(pattern.size + 1),
  step: new Float64Array(count + 1),
  scratch: new Float64Array(count + 1),
  trial: new Float64Array(count + 1),
  anchor: new Uint8Array(count + 1),
})

/** Kirchhoff's sum at a node must vanish to this share of the currents that meet there… */
const RELATIVE = 1e-11
/** …or to what the rounding of node voltages does to the currents, or to this many amperes. */
const ROUNDING = 32 * 2 ** -52
const ABSOLUTE = 1e-14
/** Least slope used in the Jacobian (S), so that elements on the flat of their law leave it solvable. */
export const LEAST_SLOPE = 1e-10
/** No node moves further in one step (V). */
const LONGEST_STEP = 200
const MOST_STEPS = 200
const LAX_STEPS = 20

/** Currents, slopes and nodal sums at voltages v; returns whether every nodal sum is within tolerance. */
export const evaluate = (c: Compiled, w: Workspace, v: Float64Array, share: number): boolean => {
  const { a, b, law, parameters, count, size } = c
  const { current, slope, residual, tolerance, anchor } = w
  // Held locally: looked up in another module for each element they cost more than the arithmetic.
  const { absent, linear } = LAW
  const stride = PARAMETERS
  const apply = applyLaw
  const result = lawResult
  residual.fill(0)
  tolerance.fill(ABSOLUTE)
  for (let e = 0; e < size; e++) {
    const code = law[e]!
    if (code === absent) {
      current[e] = 0
      slope[e] = 0
      continue
    }
    const i = a[e]!
    const j = b[e]!
    let amperes: number
    let siemens: number
    if (code === linear) {
      siemens = parameters[e * stride]!
      amperes = (v[i]! - v[j]!) * siemens
    } else {
      apply(code, parameters, e * stride, v[i]! - v[j]!, share)
      amperes = result[0]!
      siemens = result[1]!
    }
    current[e] = amperes
    slope[e] = siemens
    residual[i]! += amperes
    residual[j]! -= amperes
    const allowed = RELATIVE * Math.abs(amperes) + ROUNDING * Math.abs(siemens) * (Math.abs(v[i]!) + Math.abs(v[j]!))
    tolerance[i]! += allowed
    tolerance[j]! += allowed
  }
  let within = true
  for (let i = 0; i < count; i++) {
    if (anchor[i] === 1) residual[i] = 0
    else if (!(Math.abs(residual[i]!) <= tolerance[i]!)) within = false
  }
  residual[count] = 0
  return within
}

/** Factorises the Jacobian from the slopes. Returns the count of pivots ≤ 0. */
export const jacobian = (c: Compiled, w: Workspace): number => {
  const { a, b, law, offDiagonal, diagonal, count, size, pattern } = c
  const { values, slope, anchor } = w
  const { absent } = LAW
  values.fill(0)
  for (let e = 0; e < size; e++) {
    if (law[e] === absent) continue
    let siemens = slope[e]!
    if (siemens >= 0 && siemens < LEAST_SLOPE) siemens = LEAST_SLOPE
    values[offDiagonal[e]!]! -= siemens
    values[diagonal[a[e]!]!]! += siemens
    values[diagonal[b[e]!]!]! += siemens
  }
  // An anchored node keeps its voltage.
  for (let i = 0; i < count; i++) if (anchor[i] === 1) values[diagonal[i]!] = 1e30
  return factorise(pattern, values)
}

export type Outcome = 'converged' | 'folded' | 'stuck'

/**
 * Solves Σ currents = 0 at every node, moving `v` in place, at a `share` of the constant powers.
 *
 * The nodal sums are the gradient of a potential (the network's co-content), so the directional derivative along a
 * Newton step tells whether the step went too far; it is then shortened to where that derivative vanishes. With
 * rising laws the potential is convex and the iteration arrives from any start.
 * Constant power makes it concave in places. `strict` then gives up with 'folded' where the Jacobian is not positive
 * definite; otherwise the signs of its negative pivots are turned, which still goes downhill to a stable solution.
 * Source: Millar, Phil. Mag. 42 (1951), 1150 (co-content); Nocedal and Wright, Numerical Optimization (2006), ch. 3
 * (both from memory).
 */
export const descend = (c: Compiled, w: Workspace, v: Float64Array, share: number, strict: boolean): Outcome => {
  const { count } = c
  const { residual, step, trial, scratch, values } = w
  let within = evaluate(c, w, v, share)
  for (let iteration = 0; iteration < MOST_STEPS; iteration++) {
    const creeping = jacobian(c, w) > 0
    if (creeping) {
      if (strict) return 'folded'
      // Past a fold the way down is the direction of the negative pivot: turning its sign keeps that direction and
      // makes it lead downhill. (Leaving the falling slopes out was tried: it zigzags for hundreds of steps.)
      for (let k = 0; k < count; k++) if (!(values[k]! > 0)) values[k] = Math.max(-values[k]!, LEAST_SLOPE)
    }
    if (within) return 'converged'
    solveFactorised(c.pattern, values, residual, step, scratch)
    let longest = 0
    let before = 0
    for (let i = 0; i < count; i++) {
      step[i] = -step[i]!
      before += step[i]! * residual[i]!
      const size = Math.abs(step[i]!)
      if (size > longest) longest = size
    }
    if (!Number.isFinite(longest)) return 'stuck'
    let low = 0
    let high = Number.POSITIVE_INFINITY
    let atLow = before
    let atHigh = 0
    let t = longest > LONGEST_STEP ? LONGEST_STEP / longest : 1
    for (let attempt = 0; ; attempt++) {
      for (let i = 0; i < count; i++) trial[i] = v[i]! + t * step[i]!
      within = evaluate(c, w, trial, share)
      if (within) break
      let after = 0
      for (let i = 0; i < count; i++) after += step[i]! * residual[i]!
      if (attempt >= 60) break
      // A creeping step is far too short where the branch has just ended: double it as long as it goes downhill.
      if (creeping && after < 0 && high === Number.POSITIVE_INFINITY && 2 * t * longest <= LONGEST_STEP) {
        low = t
        atLow = after
        t *= 2
        continue
      }
      // Accept unless the step went past the lowest point along it by more than a share of what it started above it.
      // Between flat stretches a lax share can go round in circles; a strict one makes every step lower the potential.
      const allowed = (iteration < LAX_STEPS ? -0.5 : -0.02) * before
      if (after <= allowed && (after >= -allowed || high === Number.POSITIVE_INFINITY)) break
      if (after < 0) {
        low = t
        atLow = after
      } else {
        high = t
        atHigh = after
      }
      // Secant through the bracket, kept off its ends.
      const guess = low + ((high - low) * -atLow) / (atHigh - atLow)
      t = Math.min(Math.max(guess, low + 0.05 * (high - low)), high - 0.05 * (high - low))
      if (!(t > 0)) break
    }
    v.set(trial)
    v[count] = 0
  }
  return within ? 'converged' : 'stuck'
}
