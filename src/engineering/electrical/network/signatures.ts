import { type PackedFactors, packFactors, solvePacked } from '../../numerics/sparseLdl.ts'
import type { Compiled } from './compiled.ts'
import { conductingComponents, presentComponents } from './connectivity.ts'
import { applyLaw, LAW, lawResult, PARAMETERS, stretchOf } from './laws.ts'
import { evaluate, jacobian, LEAST_SLOPE, type Workspace } from './newton.ts'
import type { Settled } from './powerRaise.ts'

/**
 * Low-rank re-solution: what a solved network becomes when a few of its elements change.
 *
 * Linearised at its healthy solution v0 (Jacobian J, factorised once), the network answers an element p that carries
 * d_p amperes more than its linearisation says by v = v0 − Σ z_p·d_p with z_p = J⁻¹(e_a − e_b). So a fault is found from
 * the voltages across the changed elements and the few others that leave the straight part of their law (a Newton
 * iteration of that size, by the columns z_p, which all faults share), and one solve with the healthy factors for the
 * small rest of all other laws. This is the Sherman–Morrison–Woodbury identity with the laws kept exact: the result
 * balances the same equations as a full solution. Anything out of the ordinary returns undefined, to be solved in full:
 * a node that comes loose, a load that collapses or changes its stretch, bad conditioning, no convergence.
 * Source: Hager, Updating the inverse of a matrix, SIAM Review 31 (1989), 221 (from memory).
 */
export interface Base {
  readonly state: Settled
  readonly share: number
  readonly current: Float64Array
  readonly slope: Float64Array
  readonly factors: PackedFactors
  /** Root of every node under the elements present, and under those that conduct; the reference roots what is tied. */
  readonly present: Int32Array
  readonly conducting: Int32Array
  /** Elements whose law is not a straight line here. */
  readonly bent: Int32Array
  /** Their nodes, by place in the order of elimination; the reference comes last. */
  readonly bentA: Int32Array
  readonly bentB: Int32Array
  /** 1: a lamp clearly above the voltage where its cold resistance takes over. */
  readonly hot: Uint8Array
  /** Whether any node is loose from the reference; whether any does not conduct to it. */
  readonly islands: boolean
  readonly loose: boolean
  readonly columns: (Float64Array | undefined)[]
  /** Of each column, what it does across the bent elements, in their order: read far more often than the rest. */
  readonly ports: (Float64Array | undefined)[]
  /** Voltage across each element, and (bent ones) the volts that an ampere through it makes across it. */
  readonly across: Float64Array
  readonly response: Float64Array
  readonly stretch: Uint8Array
  /** Whether a node hangs on blocking diodes alone, or may come to. */
  readonly diodes: boolean
}

const stretchAt = (c: Compiled, e: number, volts: number): number =>
  stretchOf(c.law[e]!, c.parameters, e * PARAMETERS, volts)

const placeOf = (c: Compiled, node: number): number => (node === c.count ? node : c.pattern.place[node]!)

/** Volts at all nodes (in the order of elimination, reference last) that an ampere through element e makes. */
const respond = (c: Compiled, factors: PackedFactors, e: number, into: Float64Array): void => {
  into.fill(0)
  into[placeOf(c, c.a[e]!)] = 1
  into[placeOf(c, c.b[e]!)]! -= 1
  solvePacked(factors, into)
  into[c.count] = 0
}

/** Linearises at a settled state; contacts must stand in `compiled` as they did when it was settled. */
export const linearise = (c: Compiled, w: Workspace, state: Settled, share = 1): Base | undefined => {
  if (!state.converged) return undefined
  evaluate(c, w, state.voltages, share)
  if (jacobian(c, w) > 0) return undefined
  const bent: number[] = []
  let diodes = false
  for (let e = 0; e < c.size; e++) {
    const faint = w.slope[e]! >= 0 && w.slope[e]! < LEAST_SLOPE
    if (c.law[e] !== LAW.absent && (c.law[e] !== LAW.linear || faint)) bent.push(e)
    if (c.law[e] === LAW.diode) diodes = true
  }
  const factors = packFactors(c.pattern, w.values)
  const present = presentComponents(c)
  const conducting = conductingComponents(c, state.voltages)
  const across = new Float64Array(c.size)
  const stretch = new Uint8Array(c.size)
  for (let e = 0; e < c.size; e++) {
    across[e] = state.voltages[c.a[e]!]! - state.voltages[c.b[e]!]!
    stretch[e] = stretchAt(c, e, across[e]!)
  }
  const response = new Float64Array(c.size)
  const z = new Float64Array(c.count + 1)
  for (const e of bent) {
    respond(c, factors, e, z)
    response[e] = z[placeOf(c, c.a[e]!)]! - z[placeOf(c, c.b[e]!)]!
  }
  return {
    state,
    share,
    current: w.current.slice(),
    slope: w.slope.map((siemens, e) =>
      c.law[e] !== LAW.absent && siemens >= 0 ? Math.max(siemens, LEAST_SLOPE) : siemens,
    ),
    factors,
    hot: Uint8Array.from(bent, (e) =>
      c.law[e] === LAW.lamp && Math.abs(across[e]!) > 1.01 * c.parameters[e * PARAMETERS + 2]! ? 1 : 0,
    ),
    islands: present.some((root) => root !== c.count),
    present,
    conducting,
    loose: conducting.some((root) => root !== c.count),
    bent: Int32Array.from(bent),
    bentA: Int32Array.from(bent, (e) => placeOf(c, c.a[e]!)),
    bentB: Int32Array.from(bent, (e) => placeOf(c, c.b[e]!)),
    columns: new Array<Float64Array | undefined>(c.size),
    ports: new Array<Float64Array | undefined>(c.size),
    across,
    response,
    stretch,
    diodes,
  }
}

/** Voltage error (V) that an element's law may still make anywhere in the network. */
const CLOSE = 3e-11
/** Most elements off their straight lines that are followed one by one, and most Newton steps. */
const MOST_CORE = 24
const EASY_CORE = 6
const MOST_ROUNDS = 40
/** Least pivot of the small system; below it the healthy factors have lost the digits that the fault needs. */
const LEAST_PIVOT = 1e-6
/** An unfed constant-power load has less than this (see `report.ts`). */
const FED = 1e-3

/** Working arrays, allocated once. By element: voltage across it, amperes beyond its straight line, slope beyond it. */
export interface Scratch {
  readonly across: Float64Array
  readonly extra: Float64Array
  readonly bend: Float64Array
  readonly inCore: Uint8Array
  readonly core: Int32Array
  /** Voltage at which a lamp's power was last worked out in full within a fault, and its amperes there. */
  readonly workedAt: Float64Array
  readonly workedOut: Float64Array
  /** By place in the core: volts there that the rest of the network causes. */
  readonly others: Float64Array
  /** In the order of elimination: currents off the straight lines, then what they make of the voltages. */
  readonly shift: Float64Array
  readonly matrix: Float64Array
  readonly vector: Float64Array
}

export const scratchFor = (c: Compiled): Scratch => ({
  across: new Float64Array(c.size),
  extra: new Float64Array(c.size),
  bend: new Float64Array(c.size),
  inCore: new Uint8Array(c.size),
  workedAt: new Float64Array(c.size).fill(Number.NaN),
  workedOut: new Float64Array(c.size),
  core: new Int32Array(MOST_CORE),
  others: new Float64Array(MOST_CORE),
  shift: new Float64Array(c.count + 1),
  matrix: new Float64Array(MOST_CORE * MOST_CORE),
  vector: new Float64Array(MOST_CORE),
})

const column = (c: Compiled, base: Base, e: number): Float64Array => {
  const known = base.columns[e]
  if (known) return known
  const placed = new Float64Array(c.count + 1)
  respond(c, base.factors, e, placed)
  const z = Float64Array.from(placed, (_, node) => placed[placeOf(c, node)]!)
  base.columns[e] = z
  base.ports[e] = Float64Array.from(base.bent, (_, n) => placed[base.bentA[n]!]! - placed[base.bentB[n]!]!)
  return z
}

/** Current and slope of element e beyond its straight line, at the voltage across it. */
const bendOf = (c: Compiled, base: Base, s: Scratch, e: number): void => {
  const volts = s.across[e]!
  const from = base.across[e]!
  applyLaw(c.law[e]!, c.parameters, e * PARAMETERS, volts, base.share)
  s.extra[e] = lawResult[0]! - base.current[e]! - base.slope[e]! * (volts - from)
  s.bend[e] = lawResult[1]! - base.slope[e]!
}

/** Relative change of voltage up to which four terms of the power series give a lamp's current to the last digits. */
const SMALL_CHANGE = 2e-3

/** `bendOf` for all bent elements outside the core, without the costly power where a lamp hardly moves. */
const bendOthers = (c: Compiled, base: Base, s: Scratch): void => {
  const { bent } = base
  const { inCore, across, extra, bend } = s
  for (let n = 0; n < bent.length; n++) {
    const e = bent[n]!
    if (inCore[e] === 1) continue
    const from = base.across[e]!
    if (c.law[e] !== LAW.lamp || base.hot[n] === 0) {
      bendOf(c, base, s, e)
      continue
    }
    const volts = across[e]!
    const exponent = c.parameters[e * PARAMETERS + 1]!
    const x = (volts - from) / from
    // (1 + x)^n − 1 − n·x
    const second = exponent * (exponent - 1) * 0.5
    const third = (second * (exponent - 2)) / 3
    const fourth = (third * (exponent - 3)) / 4
    if (x < SMALL_CHANGE && x > -SMALL_CHANGE) {
      extra[e] = base.current[e]! * x * x * (second + x * (third + x * fourth))
      bend[e] = (base.current[e]! / from) * x * (2 * second + x * (3 * third + x * 4 * fourth))
      continue
    }
    // From round to round it is mostly close to where it was worked out last.
    const y = (volts - s.workedAt[e]!) / s.workedAt[e]!
    if (y < SMALL_CHANGE && y > -SMALL_CHANGE) {
      const amperes = s.workedOut[e]! * (1 + y * (exponent + y * (second + y * (third + y * fourth))))
      extra[e] = amperes - base.current[e]! - base.slope[e]! * (volts - from)
      bend[e] = (exponent * amperes) / volts - base.slope[e]!
      continue
    }
    bendOf(c, base, s, e)
    if (Math.abs(volts) < 1.01 * c.parameters[e * PARAMETERS + 2]!) continue
    s.workedAt[e] = volts
    s.workedOut[e] = extra[e]! + base.current[e]! + base.slope[e]! * (volts - from)
  }
}

/** Newton system of the core, right-hand side in `vector`; the step comes back in it. */
const stepOfCore = (c: Compiled, base: Base, s: Scratch, k: number): boolean => {
  for (let j = 0; j < k; j++) {
    const q = s.core[j]!
    const z = column(c, base, q)
    const bend = s.bend[q]!
    for (let i = 0; i < k; i++) {
      const p = s.core[i]!
      s.matrix[i * k + j] = (i === j ? 1 : 0) + (z[c.a[p]!]! - z[c.b[p]!]!) * bend
    }
  }
  return eliminate(s.matrix, s.vector, k)
}

/** Moves the core to where its laws are met within `close`, the rest of the network on straight lines. */
const settleCore = (c: Compiled, base: Base, s: Scratch, k: number, close: number): boolean => {
  const { core, across, vector, extra } = s
  for (let round = 0; round < MOST_ROUNDS; round++) {
    for (let i = 0; i < k; i++) {
      bendOf(c, base, s, core[i]!)
      vector[i] = base.across[core[i]!]! - across[core[i]!]! - s.others[i]!
    }
    for (let j = 0; j < k; j++) {
      const z = column(c, base, core[j]!)
      const amperes = extra[core[j]!]!
      for (let i = 0; i < k; i++) vector[i]! -= (z[c.a[core[i]!]!]! - z[c.b[core[i]!]!]!) * amperes
    }
    let worst = 0
    for (let i = 0; i < k; i++) worst = Math.max(worst, Math.abs(vector[i]!))
    // One step in any case: a hair of voltage across a thousandth of an ohm is amperes elsewhere.
    if (worst <= close && round > 0) return true
    if (!(worst < 1e9) || !stepOfCore(c, base, s, k)) return false
    for (let i = 0; i < k; i++) {
      const e = core[i]!
      const next = across[e]! + vector[i]!
      // Past 0 V the tangent of a bent law leads nowhere: stop there and take the slope at rest.
      across[e] = c.law[e] !== LAW.linear && c.law[e] !== LAW.battery && next * across[e]! < 0 ? 0 : next
    }
  }
  return false
}

/**
 * Moves the bent elements outside the core as its first k members say. Returns the core's size with those that this
 * takes far off their straight line, or past a kink; −1: too many.
 */
const moveOthers = (c: Compiled, base: Base, s: Scratch, k: number): number => {
  const { core, across, inCore, extra } = s
  const { bent } = base
  for (let n = 0; n < bent.length; n++)
    across[bent[n]!] = inCore[bent[n]!] === 1 ? across[bent[n]!]! : base.across[bent[n]!]!
  for (let j = 0; j < k; j++) {
    const port = base.ports[core[j]!]!
    const amperes = extra[core[j]!]!
    for (let n = 0; n < bent.length; n++) if (inCore[bent[n]!] === 0) across[bent[n]!]! -= port[n]! * amperes
  }
  let size = k
  for (let n = 0; n < bent.length; n++) {
    const p = bent[n]!
    if (inCore[p] === 1) continue
    const before = base.across[p]!
    const now = across[p]!
    if (stretchAt(c, p, now) === base.stretch[p]) {
      if (Math.abs(now - before) < 0.003 * Math.abs(before) + 1e-3) continue
      // The healthy response says little of a part that the fault cuts off, so a large move joins in any case; a small
      // one only where that saves a round, and not where the whole car moves together.
      bendOf(c, base, s, p)
      const far = now < 0.6 * before || now > 1.4 * before
      const weight = Math.abs(s.bend[p]!) * base.response[p]!
      if (!far && weight < 0.02 && (weight < 1e-6 || size >= EASY_CORE)) continue
    }
    if (size >= MOST_CORE) return -1
    if (now * before < 0) across[p] = 0
    core[size++] = p
    inCore[p] = 1
  }
  return size
}

/**
 * Voltages of all nodes (reference last, in `into`) with the elements in `changed` set in `compiled` as the fault has
 * them, within `close` volts. Returns false where a full solution is needed.
 */
export const resolve = (
  c: Compiled,
  base: Base,
  s: Scratch,
  changed: readonly number[],
  into: Float64Array,
  close = CLOSE,
): boolean => {
  const { core, inCore, across, extra, bend, shift, others } = s
  const { bent, bentA, bentB } = base
  if (changed.length > MOST_CORE) return false
  let k = 0
  for (const e of changed) {
    core[k++] = e
    inCore[e] = 1
    across[e] = base.across[e]!
  }
  let met = false
  others.fill(0)
  // Nothing is kept from fault to fault: the last digit of a result must not depend on what was asked before.
  s.workedAt.fill(Number.NaN)
  if (settleCore(c, base, s, k, 1e-7)) {
    for (;;) {
      const size = moveOthers(c, base, s, k)
      if (size === k) {
        met = true
        break
      }
      if (size < 0) break
      k = size
      if (!settleCore(c, base, s, k, 1e-7)) break
    }
  }
  if (!met) {
    for (const e of changed) inCore[e] = 0
    for (let i = 0; i < k; i++) inCore[core[i]!] = 0
    for (const e of base.bent) inCore[e] = 0
    return false
  }
  met = false
  for (let round = 0; round < 16 && !met; round++) {
    // What the other bent elements do to the core (Z is symmetric: the core's own columns tell), then all together.
    bendOthers(c, base, s)
    for (let i = 0; i < k; i++) {
      const port = base.ports[core[i]!]!
      let volts = 0
      for (let n = 0; n < bent.length; n++) if (inCore[bent[n]!] === 0) volts += port[n]! * extra[bent[n]!]!
      others[i] = volts
    }
    if (!settleCore(c, base, s, k, close)) break
    shift.fill(0)
    for (let i = 0; i < k; i++) {
      shift[placeOf(c, c.a[core[i]!]!)]! += extra[core[i]!]!
      shift[placeOf(c, c.b[core[i]!]!)]! -= extra[core[i]!]!
    }
    for (let n = 0; n < bent.length; n++) {
      const p = bent[n]!
      if (inCore[p] === 1) continue
      shift[bentA[n]!]! += extra[p]!
      shift[bentB[n]!]! -= extra[p]!
    }
    solvePacked(base.factors, shift)
    shift[c.count] = 0
    // How far each law is from being met, as volts that this makes in the network.
    met = true
    for (let n = 0; n < bent.length; n++) {
      const p = bent[n]!
      if (inCore[p] === 1) continue
      const now = base.across[p]! - shift[bentA[n]!]! + shift[bentB[n]!]!
      if (Math.abs((now - across[p]!) * bend[p]!) * base.response[p]! > close) met = false
      across[p] = now
    }
  }
  for (let i = 0; i < k; i++) inCore[core[i]!] = 0
  if (!met) return false
  const v0 = base.state.voltages
  for (let i = 0; i < c.count; i++) into[i] = v0[i]! - shift[c.pattern.place[i]!]!
  into[c.count] = 0
  return sameTies(c, base, into)
}

/**
 * With constant power there may be two solutions; this is the upper one for certain only while every fed element is on
 * the stretch of its law where the healthy network has it (see `powerRaise.ts`). One without voltage stands aside: with
 * less than a millivolt across a load of at least 0.1 V minimum, what feeds it could not carry its power at all.
 */
export const sameBranch = (c: Compiled, base: Base, v: Float64Array): boolean => {
  if (c.powers.length === 0) return true
  for (const e of base.bent) {
    const volts = v[c.a[e]!]! - v[c.b[e]!]!
    const unfed = Math.abs(volts) < FED
    const code = c.law[e]!
    if (code === LAW.power && volts < c.parameters[e * PARAMETERS + 1]!) {
      if (!unfed || c.parameters[e * PARAMETERS + 1]! < 0.1) return false
      continue
    }
    if (unfed || code === LAW.absent) continue
    if (stretchAt(c, e, volts) !== base.stretch[e]) return false
  }
  return true
}

/** Volts by which the unloaded voltages may be off: only the stretches they lie on are asked for. */
export const IDLE_CLOSE = 1e-3

/**
 * The second way to be certain: the solution is stable (`isStable`), and every element is on the stretch where it is with
 * the powers all but nil (`idle`).
 */
export const sameStretches = (c: Compiled, base: Base, v: Float64Array, idle: Float64Array): boolean => {
  for (const e of base.bent) {
    const here = stretchAt(c, e, v[c.a[e]!]! - v[c.b[e]!]!)
    const unloaded = idle[c.a[e]!]! - idle[c.b[e]!]!
    if (here !== stretchAt(c, e, unloaded - IDLE_CLOSE) || here !== stretchAt(c, e, unloaded + IDLE_CLOSE)) return false
  }
  return true
}

/** Whether the solution that `resolve` has just left in the scratch arrays has a positive definite Jacobian. */
export const isStable = (c: Compiled, w: Workspace, base: Base, s: Scratch, changed: readonly number[]): boolean => {
  w.slope.set(base.slope)
  for (const e of base.bent) w.slope[e] = base.slope[e]! + s.bend[e]!
  for (const e of changed) w.slope[e] = base.slope[e]! + s.bend[e]!
  for (let i = 0; i < c.count; i++) w.anchor[i] = base.present[i] === i ? 1 : 0
  return jacobian(c, w) === 0
}

/** Whether the fault leaves every node tied, or loose, as it is in the healthy network. */
const sameTies = (c: Compiled, base: Base, v: Float64Array): boolean => {
  // What a removed element alone tied would have made the small system singular; only where nodes were loose before may
  // an added one tie them.
  if (base.islands) {
    const present = presentComponents(c)
    for (let i = 0; i < c.count; i++) if (present[i] !== base.present[i]) return false
  }
  if (!base.diodes) return true
  const conducting = conductingComponents(c, v)
  for (let i = 0; i < c.count; i++) if (conducting[i] !== base.conducting[i]) return false
  return true
}

/** Gaussian elimination with row exchange, in place; false where a pivot is too small. */
const eliminate = (m: Float64Array, x: Float64Array, k: number): boolean => {
  for (let col = 0; col < k; col++) {
    let pivot = col
    for (let i = col + 1; i < k; i++) if (Math.abs(m[i * k + col]!) > Math.abs(m[pivot * k + col]!)) pivot = i
    const size = m[pivot * k + col]!
    if (!(Math.abs(size) > LEAST_PIVOT)) return false
    if (pivot !== col) {
      for (let j = col; j < k; j++) {
        const keep = m[col * k + j]!
        m[col * k + j] = m[pivot * k + j]!
        m[pivot * k + j] = keep
      }
      const keep = x[col]!
      x[col] = x[pivot]!
      x[pivot] = keep
    }
    for (let i = col + 1; i < k; i++) {
      const factor = m[i * k + col]! / size
      if (factor === 0) continue
      for (let j = col + 1; j < k; j++) m[i * k + j]! -= factor * m[col * k + j]!
      x[i]! -= factor * x[col]!
    }
  }
  for (let i = k - 1; i >= 0; i--) {
    let value = x[i]!
    for (let j = i + 1; j < k; j++) value -= m[i * k + j]! * x[j]!
    x[i] = value / m[i * k + i]!
  }
  return true
}
