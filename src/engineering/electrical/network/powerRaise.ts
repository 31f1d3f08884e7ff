import type { Compiled } from './compiled.ts'
import { forcedCollapse } from './forcedCollapse.ts'
import { PARAMETERS } from './laws.ts'
import { descend, type Workspace } from './newton.ts'
import { across, stretches } from './stretches.ts'

/** One solved state, kept to start the next from. */
export interface Settled {
  readonly voltages: Float64Array
  readonly stretches: Uint8Array
  /** Voltage across each constant-power load with its power all but nil, in the order of `compiled.powers`. */
  readonly unloaded: Float64Array
  readonly converged: boolean
}

/** "Nothing" in "raised from nothing": a share so small that no voltage notices, yet every node stays tied. */
export const NOTHING = 1e-7
const LARGEST_MOVE = 0.05
const SMALLEST_RISE = 1e-5

const same = (p: Uint8Array, q: Uint8Array): boolean => {
  for (let e = 0; e < p.length; e++) if (p[e] !== q[e]) return false
  return true
}

/**
 * Solves the network where contacts stand as they do. Without constant power the solution is unique. With it there can
 * be two: the upper is the one reached by raising the power from nothing, followed past a fold where it ceases to be.
 *
 * Short cut: while no element has changed from one stretch of its law to another and the Jacobian stays positive
 * definite, what the loads leave to spare is a concave function of what they draw, and the upper solution is the only
 * stable one, so a Newton iteration that ends there has found it. Loads that cannot stand even alone are dealt with in
 * `forcedCollapse.ts`. Otherwise the power is raised in small steps.
 * `from` is a solved state of a similar network, or a guess without `trusted`.
 */
export const settle = (c: Compiled, w: Workspace, from: Settled, trusted: boolean): Settled => {
  const v = from.voltages.slice()
  if (c.powers.length === 0) {
    const converged = descend(c, w, v, 1, false) === 'converged'
    return { voltages: v, stretches: from.stretches, unloaded: from.unloaded, converged }
  }
  if (trusted) {
    if (descend(c, w, v, 1, true) === 'converged') {
      const reached = stretches(c, v)
      if (same(reached, from.stretches) && !suspicious(c, v, from.unloaded))
        return { voltages: v, stretches: reached, unloaded: from.unloaded, converged: true }
    }
    v.set(from.voltages)
  }
  if (descend(c, w, v, NOTHING, false) !== 'converged')
    return { voltages: v, stretches: stretches(c, v), unloaded: from.unloaded, converged: false }
  const unloaded = Float64Array.from(c.powers, (e) => across(c, v, e))
  const atNothing = stretches(c, v)
  const direct = v.slice()
  if (descend(c, w, direct, 1, true) === 'converged' && same(stretches(c, direct), atNothing))
    return { voltages: direct, stretches: atNothing, unloaded, converged: true }
  const collapsed = forcedCollapse(c, w, v, NOTHING)
  if (collapsed) return { voltages: collapsed, stretches: stretches(c, collapsed), unloaded, converged: true }
  const converged = raise(c, w, v)
  return { voltages: v, stretches: stretches(c, v), unloaded, converged }
}

/** The network with its powers all but nil, from a solved state of it; undefined where it does not settle. */
export const settleIdle = (c: Compiled, w: Workspace, from: Settled): Settled | undefined => {
  const v = from.voltages.slice()
  if (descend(c, w, v, NOTHING, false) !== 'converged') return undefined
  return { voltages: v, stretches: stretches(c, v), unloaded: from.unloaded, converged: true }
}

/** So little across a load (V) that it is fed by nothing: even a collapsed one behind kilohms of corrosion has more. */
const UNFED = 1e-6

/** A load that was not fed before and has a voltage now, or that lies below its minimum though it was fed. */
const suspicious = (c: Compiled, v: Float64Array, unloaded: Float64Array): boolean =>
  c.powers.some((e, k) => {
    const volts = across(c, v, e)
    if (volts >= c.parameters[e * PARAMETERS + 1]!) return false
    return Math.abs(volts) > UNFED || Math.abs(unloaded[k]!) > 1e-3
  })

/**
 * Raises the powers from nothing to their full value. A step may be as large as it likes while every element stays on its
 * stretch (see above); one that changes a stretch must be small enough to move no load's voltage by much.
 */
const raise = (c: Compiled, w: Workspace, v: Float64Array): boolean => {
  const attempt = new Float64Array(v.length)
  let share = NOTHING
  let rise = 0.125
  for (let steps = 0; share < 1 && steps < 2000; steps++) {
    const next = Math.min(1, share + rise)
    attempt.set(v)
    const held = descend(c, w, attempt, next, true) === 'converged'
    const small = held && (same(stretches(c, attempt), stretches(c, v)) || largestMove(c, v, attempt) <= LARGEST_MOVE)
    if (small || (held && next - share <= SMALLEST_RISE)) {
      v.set(attempt)
      share = next
      rise *= 2
    } else if (next - share > SMALLEST_RISE) rise = (next - share) / 4
    else {
      // The branch ends here: go down to the stable state below it.
      if (descend(c, w, v, next, false) !== 'converged') return false
      share = next
      rise = 0.125
    }
  }
  return share >= 1 && descend(c, w, v, 1, false) === 'converged'
}

/** Largest change of any load's voltage, against that voltage or its minimum. */
const largestMove = (c: Compiled, from: Float64Array, to: Float64Array): number => {
  let moved = 0
  for (const e of c.powers) {
    const before = across(c, from, e)
    const change = Math.abs(across(c, to, e) - before)
    moved = Math.max(moved, change / Math.max(Math.abs(before), c.parameters[e * PARAMETERS + 1]!))
  }
  return moved
}
