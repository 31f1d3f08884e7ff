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
  /** By element: the lamps that are clearly above the voltage where their cold resistance takes over. */
  readonly hot: (HotLamp | undefined)[]
  /** By place in `bent`: voltage across the element. */
  readonly bentAcross: Float64Array
  /** By place in `bent`: volts that the element may move without question (see `moveOthers`); 0: none. */
  readonly calm: Float64Array
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
    hot: hotLamps(c, bent, across),
    bentAcross: Float64Array.from(bent, (e) => across[e]!),
    calm: Float64Array.from(bent, (e) => {
      const volts = across[e]!
      const room = 0.003 * Math.abs(volts) + 1e-3
      const below = stretchAt(c, e, volts - room)
      const same = below === stretch[e] && stretchAt(c, e, volts + room) === below
      return same && !(c.law[e] === LAW.power && below === 0) ? room : 0
    }),
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

/**
 * A lamp's current is a power of its voltage, and `**` costs more than all else that is done for an element. So powers
 * are kept for voltages on a grid (ratios to the healthy voltage, by GRID-ths), worked out when first needed; from the
 * nearest, four terms of the series give any other to the last digits. Kept or not, the figure is the same.
 */
interface HotLamp {
  readonly exponent: number
  readonly powers: Float64Array
  /** Least ratio for which this holds. */
  readonly least: number
}

const GRID = 512
const LEAST_RATIO = 0.5
const MOST_RATIO = 1.5

const hotLamps = (c: Compiled, bent: readonly number[], across: Float64Array): (HotLamp | undefined)[] => {
  const lamps = new Array<HotLamp | undefined>(c.size).fill(undefined)
  const tables = new Map<number, Float64Array>()
  for (const e of bent) {
    const coldBelow = (1.01 * c.parameters[e * PARAMETERS + 2]!) / Math.abs(across[e]!)
    if (c.law[e] !== LAW.lamp || !(coldBelow < 1)) continue
    const exponent = c.parameters[e * PARAMETERS + 1]!
    const powers = tables.get(exponent) ?? new Float64Array(GRID * MOST_RATIO + 1).fill(Number.NaN)
    tables.set(exponent, powers)
    lamps[e] = { exponent, powers, least: Math.max(coldBelow, LEAST_RATIO) }
  }
  return lamps
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

const CHANGED = 2

/** Working arrays, allocated once. By element: voltage across it, amperes beyond its straight line, slope beyond it. */
export interface Scratch {
  readonly across: Float64Array
  readonly extra: Float64Array
  readonly bend: Float64Array
  /** By place in `bent`: amperes beyond the straight line of those outside the core, and voltages being moved. */
  readonly beyond: Float64Array
  readonly moved: Float64Array
  /** Of the round before: the voltages it came to, and by how much they were not those it started from. */
  readonly movedBefore: Float64Array
  readonly missedBefore: Float64Array
  /** 0: outside; 1: followed because it left its straight line; CHANGED: by the fault itself. */
  readonly inCore: Uint8Array
  readonly core: Int32Array
  /** By place in the core: volts there that the rest of the network causes. */
  readonly others: Float64Array
  /** In the order of elimination: currents off the straight lines, then what they make of the voltages. */
  readonly shift: Float64Array
  readonly coupling: Float64Array
  readonly matrix: Float64Array
  readonly vector: Float64Array
}

export const scratchFor = (c: Compiled): Scratch => ({
  across: new Float64Array(c.size),
  extra: new Float64Array(c.size),
  bend: new Float64Array(c.size),
  beyond: new Float64Array(c.size),
  moved: new Float64Array(c.size),
  movedBefore: new Float64Array(c.size),
  missedBefore: new Float64Array(c.size),
  inCore: new Uint8Array(c.size),
  core: new Int32Array(MOST_CORE),
  others: new Float64Array(MOST_CORE),
  shift: new Float64Array(c.count + 1),
  coupling: new Float64Array(MOST_CORE * MOST_CORE),
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
  const lamp = base.hot[e]
  // A lamp that is itself what the fault changes has another law.
  if (lamp !== undefined && s.inCore[e] !== CHANGED && bendOfLamp(base, s, e, lamp)) return
  applyLaw(c.law[e]!, c.parameters, e * PARAMETERS, volts, base.share)
  s.extra[e] = lawResult[0]! - base.current[e]! - base.slope[e]! * (volts - from)
  s.bend[e] = lawResult[1]! - base.slope[e]!
}

const bendOfLamp = (base: Base, s: Scratch, e: number, { exponent, powers, least }: HotLamp): boolean => {
  const ratio = s.across[e]! / base.across[e]!
  if (!(ratio > least && ratio < MOST_RATIO)) return false
  const place = (ratio * GRID + 0.5) | 0
  const y = (ratio * GRID - place) / place
  // (1 + y)^n − 1 − n·y
  const second = exponent * (exponent - 1) * 0.5
  const third = (second * (exponent - 2)) / 3
  const fourth = (third * (exponent - 3)) / 4
  const beyond = y * y * (second + y * (third + y * fourth))
  const current = base.current[e]!
  const slope = base.slope[e]!
  if (place === GRID) {
    s.extra[e] = current * beyond
    s.bend[e] = (slope / exponent) * y * (2 * second + y * (3 * third + y * 4 * fourth))
    return true
  }
  let power = powers[place]!
  if (Number.isNaN(power)) {
    power = (place / GRID) ** exponent
    powers[place] = power
  }
  power *= 1 + exponent * y + beyond
  s.extra[e] = current * (power - 1 - exponent * (ratio - 1))
  s.bend[e] = slope * (power / ratio - 1)
  return true
}

/** `bendOf` for the bent elements outside the core; what they carry also goes to `beyond`. */
const bendOthers = (c: Compiled, base: Base, s: Scratch): void => {
  const { bent } = base
  const { inCore, extra, beyond } = s
  for (let n = 0; n < bent.length; n++) {
    const e = bent[n]!
    if (inCore[e] === 0) {
      bendOf(c, base, s, e)
      beyond[n] = extra[e]!
    } else beyond[n] = 0
  }
}

/** Volts across each core element that an ampere through each makes, into `coupling` (row: where the volts are). */
const coupleCore = (c: Compiled, base: Base, s: Scratch, k: number): void => {
  const { core, coupling } = s
  for (let j = 0; j < k; j++) {
    const z = column(c, base, core[j]!)
    for (let i = 0; i < k; i++) coupling[i * k + j] = z[c.a[core[i]!]!]! - z[c.b[core[i]!]!]!
  }
}

/** Newton system of the core, right-hand side in `vector`; the step comes back in it. */
const stepOfCore = (s: Scratch, k: number): boolean => {
  const { core, coupling, matrix, bend } = s
  for (let j = 0; j < k; j++) {
    const siemens = bend[core[j]!]!
    for (let i = 0; i < k; i++) matrix[i * k + j] = coupling[i * k + j]! * siemens
    matrix[j * k + j]! += 1
  }
  return eliminate(matrix, s.vector, k)
}

/** Moves the core to where its laws are met within `close`, the rest of the network on straight lines. */
const settleCore = (c: Compiled, base: Base, s: Scratch, k: number, close: number): boolean => {
  const { core, across, vector, extra, coupling } = s
  coupleCore(c, base, s, k)
  for (let round = 0; round < MOST_ROUNDS; round++) {
    for (let i = 0; i < k; i++) {
      bendOf(c, base, s, core[i]!)
      vector[i] = base.across[core[i]!]! - across[core[i]!]! - s.others[i]!
    }
    for (let j = 0; j < k; j++) {
      const amperes = extra[core[j]!]!
      for (let i = 0; i < k; i++) vector[i]! -= coupling[i * k + j]! * amperes
    }
    let worst = 0
    for (let i = 0; i < k; i++) worst = Math.max(worst, Math.abs(vector[i]!))
    // One step in any case: a hair of voltage across a thousandth of an ohm is amperes elsewhere.
    if (worst <= close && round > 0) return true
    if (!(worst < 1e9) || !stepOfCore(s, k)) return false
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
  const { core, across, inCore, extra, moved } = s
  const { bent, calm, bentAcross } = base
  // By place and without a question in the loop: the core's own are worked out for nothing, which costs less.
  moved.set(bentAcross)
  for (let j = 0; j < k; j++) {
    const port = base.ports[core[j]!]!
    const amperes = extra[core[j]!]!
    for (let n = 0; n < port.length; n++) moved[n]! -= port[n]! * amperes
  }
  let size = k
  for (let n = 0; n < bent.length; n++) {
    const p = bent[n]!
    if (inCore[p] !== 0) continue
    const before = bentAcross[n]!
    const now = moved[n]!
    across[p] = now
    if (Math.abs(now - before) < calm[n]!) continue
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
  const { core, inCore, across, extra, bend, beyond, moved, movedBefore, missedBefore, shift, others } = s
  const { bent, bentA, bentB, bentAcross } = base
  if (changed.length > MOST_CORE) return false
  let k = 0
  for (const e of changed) {
    core[k++] = e
    inCore[e] = CHANGED
    across[e] = base.across[e]!
  }
  let met = false
  others.fill(0)
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
      for (let n = 0; n < port.length; n++) volts += port[n]! * beyond[n]!
      others[i] = volts
    }
    if (!settleCore(c, base, s, k, close)) break
    shift.fill(0)
    for (let i = 0; i < k; i++) {
      shift[placeOf(c, c.a[core[i]!]!)]! += extra[core[i]!]!
      shift[placeOf(c, c.b[core[i]!]!)]! -= extra[core[i]!]!
    }
    for (let n = 0; n < bent.length; n++) {
      shift[bentA[n]!]! += beyond[n]!
      shift[bentB[n]!]! -= beyond[n]!
    }
    solvePacked(base.factors, shift)
    // How far each law is from being met, as volts that this makes in the network.
    met = true
    let along = 0
    let square = 0
    for (let n = 0; n < bent.length; n++) {
      const p = bent[n]!
      if (inCore[p] !== 0) continue
      const now = bentAcross[n]! - shift[bentA[n]!]! + shift[bentB[n]!]!
      const missed = now - across[p]!
      if (Math.abs(missed * bend[p]!) * base.response[p]! > close) met = false
      const change = missed - missedBefore[n]!
      along += missed * change
      square += change * change
      missedBefore[n] = missed
      moved[n] = now
    }
    if (met) break
    // A fault that pulls the whole car down leaves mostly one error, the same share of it each round: a secant along
    // it saves a round (Anderson, J. ACM 12 (1965), 547, depth 1; from memory).
    const share = round > 0 && square > 0 ? along / square : 0
    for (let n = 0; n < bent.length; n++) {
      const p = bent[n]!
      if (inCore[p] !== 0) continue
      const now = moved[n]!
      across[p] = now - share * (now - movedBefore[n]!)
      movedBefore[n] = now
    }
  }
  for (let i = 0; i < k; i++) inCore[core[i]!] = 0
  if (!met) return false
  const v0 = base.state.voltages
  const { place } = c.pattern
  for (let i = 0; i < place.length; i++) into[i] = v0[i]! - shift[place[i]!]!
  into[c.count] = 0
  return sameTies(c, base, into)
}

/**
 * With constant power there may be two solutions; this is the upper one for certain only while every fed element is on
 * the stretch of its law where the healthy network has it (see `powerRaise.ts`). One without voltage stands aside: with
 * less than a millivolt across a load of at least 0.1 V minimum, what feeds it could not carry its power at all.
 */
export const sameBranch = (c: Compiled, base: Base, v: Float64Array, changed: readonly number[]): boolean => {
  if (c.powers.length === 0) return true
  const { bent, calm, across } = base
  for (let n = 0; n < bent.length; n++) {
    const e = bent[n]!
    const volts = v[c.a[e]!]! - v[c.b[e]!]!
    if (Math.abs(volts - across[e]!) < calm[n]! && !changed.includes(e)) continue
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

/** Share of its healthy voltage below which a constant-power load may stand on the lower of two solutions. */
const SAGGED = 0.8

/** Whether a load has come so low that its stretches alone do not tell the upper solution from an unstable one. */
export const hasSagged = (c: Compiled, base: Base, v: Float64Array): boolean =>
  c.powers.some((e) => {
    const volts = v[c.a[e]!]! - v[c.b[e]!]!
    return c.law[e] === LAW.power && Math.abs(volts) >= FED && volts < SAGGED * base.across[e]!
  })

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
