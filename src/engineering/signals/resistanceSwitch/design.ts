/**
 * Resistors for a several-button switch so that the smallest gap between any two states is as wide as can be, proven.
 *
 * Branch and bound over the choice of pull-up, end-of-line resistor and one resistor a button, from the wire upwards.
 * The bound: were resistors to be had in every value (and with the least tolerance on offer), the states still to come
 * could do no better than to follow one another at exactly the gap asked for. Since band ends rise with resistance, that
 * chain ends at the lowest possible place; if even it does not fit below the state on top, no choice of real resistors
 * does, and the branch is cut. Nothing is cut for any other reason, save a chain whose sum and depth were met before with no smaller gap.
 */
import { Refusal } from '../../../units/problem.ts'
import { type Interval, sideBySide, within } from '../interval.ts'
import { type Envelope, envelopeOf, type InputCircuit } from './circuit.ts'
import type { Surroundings } from './levels.ts'

export interface Part {
  /** Ω */
  readonly nominal: number
  /** Relative; includes temperature and age where they matter. */
  readonly tolerance: number
  /** How many there are; left out: as many as needed. */
  readonly stock?: number
}

export interface DesignQuestion {
  readonly topology: 'branches' | 'chain'
  /** How many buttons. */
  readonly buttons: number
  /** What the switch's resistors may be. */
  readonly parts: readonly Part[]
  /** What the pull-up may be; a single one where it sits inside the controller. */
  readonly pullUps: readonly Part[]
  /** Whether “no button” is to be told from a broken wire by an end-of-line resistor. */
  readonly endOfLine: boolean
  readonly circuit: Omit<InputCircuit, 'pullUp'>
  readonly around: Surroundings
}

export interface Design {
  readonly pullUp: Part
  /** Of branches: by rising resistance. Of a chain: from the wire on. */
  readonly resistors: readonly Part[]
  readonly idle?: Part
  /** V */
  readonly smallestGap: number
  readonly proof: {
    /** Choices looked at, and cut off by the bound. */
    readonly nodes: number
    readonly cut: number
    /** V: no choice from these parts beats `smallestGap` by more than this. */
    readonly within: number
    /** V: what resistors of every value would reach. */
    readonly unreachable: number
  }
}

/** Share of full scale within which an optimum is called equal. */
const EQUAL = 1e-9
/** Room for rounding, so that the bound never cuts what it should not. */
const ROUNDING = 1e-12
const INFINITE = Number.POSITIVE_INFINITY

interface Root {
  readonly pullUp: Part
  /** Of branches with an end-of-line resistor: its place among the parts. */
  readonly idle: number | undefined
  readonly envelope: Envelope
  readonly floor: number
  readonly top: number
  readonly idleBand: Interval
  /** Least share between the state on top and the one above it that no button changes. */
  readonly fixedGap: number
  bound: number
}

interface Found {
  gap: number
  root: Root | undefined
  chosen: number[]
}

function questionProblems(question: DesignQuestion): void {
  const { buttons, parts, pullUps } = question
  const problems = []
  if (!Number.isInteger(buttons) || buttons < 1 || buttons > 16)
    problems.push({
      code: 'out-of-range',
      path: 'buttons',
      says: `A switch of ${buttons} buttons is outside 1 … 16.`,
      todo: 'Count the buttons; more than 16 need a second wire.',
    })
  for (const [path, list] of [
    ['parts', parts],
    ['pullUps', pullUps],
  ] as const) {
    if (list.length === 0)
      problems.push({
        code: 'missing-input',
        path,
        says: `There is nothing to choose ${path} from.`,
        todo: 'Name a series, or what is in the drawer.',
      })
    for (const { nominal } of list)
      if (!(nominal > 0) || !Number.isFinite(nominal))
        problems.push({
          code: 'out-of-range',
          path,
          says: `A resistor of ${nominal} Ω cannot be used here.`,
          todo: 'Take values above 0 Ω; a bridge of 0 Ω could not be told from a short to earth.',
        })
  }
  if (problems.length > 0) throw new Refusal(problems)
}

/** Throws `Refusal`: `out-of-range`, `missing-input`, `overwhelmed`; `no-design` when no choice keeps the states apart. */
export function designSwitch(question: DesignQuestion): Design {
  questionProblems(question)
  const { topology, buttons, endOfLine, circuit, around } = question
  const chain = topology === 'chain'
  const parts = question.parts
    .map((part) => ({ part, ...within(part.nominal, part.tolerance) }))
    .sort((a, b) => a.low - b.low || a.high - b.high)
  // A chain's end-of-line resistor is one more step of the string, without a contact.
  const steps = buttons + (chain && endOfLine ? 1 : 0)
  const uniform = parts.every(({ part }) => part.tolerance === parts[0]!.part.tolerance)
  const scarce = parts.some(({ part }) => part.stock !== undefined)
  const leastTolerance = Math.min(...parts.map(({ part }) => part.tolerance))
  const widening = (1 + leastTolerance) / (1 - leastTolerance)
  const contactOf = (step: number): number => (step < buttons ? around.contact : 0)

  const roots: Root[] = []
  let refused: Refusal | undefined
  for (const pullUp of question.pullUps) {
    let envelope: Envelope
    try {
      envelope = envelopeOf({ ...circuit, pullUp: within(pullUp.nominal, pullUp.tolerance) })
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      refused = error
      continue
    }
    const floor = envelope.highest(around.short)
    const open = envelope.lowest(around.insulation)
    const add = (idle: number | undefined): void => {
      const band = idle === undefined ? { low: INFINITE, high: INFINITE } : parts[idle]!
      const top = idle === undefined ? open : envelope.lowest(sideBySide(band.low, around.insulation))
      const fixedGap = idle === undefined ? INFINITE : open - envelope.highest(band.high)
      roots.push({ pullUp, idle, envelope, floor, top, idleBand: band, fixedGap, bound: 0 })
    }
    if (!chain && endOfLine) for (let i = 0; i < parts.length; i += 1) add(i)
    else add(undefined)
  }

  // A pull-up too large for the leakage is no choice; when all are, or the circuit itself is wrong, that is the answer.
  if (roots.length === 0) throw refused

  const lowAt = (root: Root, low: number): number =>
    root.envelope.lowest(sideBySide(low, root.idleBand.low, around.insulation))
  const highAt = (root: Root, high: number, step: number): number =>
    root.envelope.highest(sideBySide(high + contactOf(step), root.idleBand.high))
  /** Least low end of a resistor (or sum) whose lowest reading is at least `reading`. */
  const needFor = (root: Root, reading: number): number => {
    const resistance = root.envelope.resistanceFor(reading)
    if (resistance === 0) return 0
    const rest = 1 / resistance - 1 / root.idleBand.low - 1 / around.insulation
    return rest > 0 ? 1 / rest : INFINITE
  }
  /** Could resistors of any value keep `gap` from step `step` on, above a state whose band ends at `y`? */
  const couldFit = (root: Root, y: number, step: number, gap: number): boolean => {
    let last = y
    for (let at = step; at < steps; at += 1) {
      const need = needFor(root, last + gap - ROUNDING)
      if (need === INFINITE) return false
      last = highAt(root, need * widening, at)
    }
    return root.top - last >= gap - ROUNDING
  }
  const boundOf = (root: Root): number => {
    let [low, high] = [0, 1]
    for (let turn = 0; turn < 16; turn += 1) {
      const mid = (low + high) / 2
      if (couldFit(root, root.floor, 0, mid)) low = mid
      else high = mid
    }
    // The end that did not fit, so that it stays a bound however coarse the halving.
    return Math.min(high, root.fixedGap)
  }
  for (const root of roots) root.bound = boundOf(root)
  roots.sort((a, b) => b.bound - a.bound)

  const best: Found = { gap: 0, root: undefined, chosen: [] }
  const keep = (root: Root, gap: number, chosen: readonly number[]): void => {
    if (gap > best.gap + EQUAL || (best.root === undefined && gap > best.gap)) {
      best.gap = gap
      best.root = root
      best.chosen = [...chosen]
    }
  }
  const inStock = (root: Root, chosen: readonly number[], i: number): boolean => {
    const stock = parts[i]!.part.stock
    if (stock === undefined) return true
    return chosen.filter((other) => other === i).length + (root.idle === i ? 1 : 0) < stock
  }
  /** First part whose low end is at least `low`. */
  const firstFrom = (low: number): number => {
    let [from, to] = [0, parts.length]
    while (from < to) {
      const mid = (from + to) >> 1
      if (parts[mid]!.low >= low) to = mid
      else from = mid + 1
    }
    return from
  }

  /** Takes the least part that keeps `gap` at every step: a good choice to begin with, not a proof. */
  const greedy = (root: Root, gap: number): { gap: number; chosen: number[] } | undefined => {
    const chosen: number[] = []
    let [y, low, high, smallest] = [root.floor, 0, 0, root.fixedGap]
    for (let step = 0; step < steps; step += 1) {
      const need = needFor(root, y + gap)
      let i = firstFrom((chain ? need - low : need) * (1 - ROUNDING))
      while (i < parts.length && !inStock(root, chosen, i)) i += 1
      if (need === INFINITE || i >= parts.length) return undefined
      const part = parts[i]!
      const [nextLow, nextHigh] = chain ? [low + part.low, high + part.high] : [part.low, part.high]
      smallest = Math.min(smallest, lowAt(root, nextLow) - y)
      low = nextLow
      high = nextHigh
      y = highAt(root, high, step)
      chosen.push(i)
    }
    return { gap: Math.min(smallest, root.top - y), chosen }
  }

  let nodes = 0
  let cut = 0
  const search = (root: Root): void => {
    const met = new Map<string, number>()
    const chosen: number[] = []
    const visit = (step: number, y: number, low: number, high: number, smallest: number): void => {
      nodes += 1
      if (step === steps) {
        keep(root, Math.min(smallest, root.top - y), chosen)
        return
      }
      if (chain && uniform && !scarce) {
        const key = `${step}/${low.toPrecision(13)}`
        const before = met.get(key)
        if (before !== undefined && before >= smallest) return
        met.set(key, smallest)
      }
      const need = needFor(root, y + best.gap)
      if (need === INFINITE) return
      for (let i = firstFrom((chain ? need - low : need) * (1 - 1e-9)); i < parts.length; i += 1) {
        if (!inStock(root, chosen, i)) continue
        const part = parts[i]!
        const [nextLow, nextHigh] = chain ? [low + part.low, high + part.high] : [part.low, part.high]
        const gap = Math.min(smallest, lowAt(root, nextLow) - y)
        const nextY = highAt(root, nextHigh, step)
        if (gap <= best.gap + EQUAL) continue
        if (!couldFit(root, nextY, step + 1, best.gap + EQUAL)) {
          cut += 1
          // With one tolerance a larger resistor ends higher still; with several the next may be closer and end lower.
          if (uniform) break
          continue
        }
        chosen.push(i)
        visit(step + 1, nextY, nextLow, nextHigh, gap)
        chosen.pop()
      }
    }
    visit(0, root.floor, 0, 0, root.fixedGap)
  }

  for (const root of roots) {
    if (root.bound <= best.gap + EQUAL) {
      cut += 1
      continue
    }
    let [low, high] = [best.gap, root.bound]
    for (let turn = 0; turn < 12; turn += 1) {
      const mid = (low + high) / 2
      const found = greedy(root, mid)
      if (found) keep(root, found.gap, found.chosen)
      if (found && found.gap >= mid) low = mid
      else high = mid
    }
    search(root)
  }

  const fullScale = roots[0]!.envelope.fullScale
  const unreachable = roots[0]!.bound * fullScale
  if (best.root === undefined)
    throw new Refusal([
      {
        code: 'no-design',
        path: 'parts',
        says: `No choice of these parts keeps ${buttons} buttons, a short and an open circuit apart in the worst case.`,
        todo: 'Take closer resistors, clean or replace the contacts, mend the earth, or split the buttons over two wires.',
      },
    ])
  const chosen = best.chosen.map((i) => parts[i]!.part)
  const idle = chain
    ? endOfLine
      ? chosen[buttons]
      : undefined
    : best.root.idle === undefined
      ? undefined
      : parts[best.root.idle]!.part
  return {
    pullUp: best.root.pullUp,
    resistors: chosen.slice(0, buttons),
    ...(idle === undefined ? {} : { idle }),
    smallestGap: best.gap * fullScale,
    proof: { nodes, cut, within: EQUAL * fullScale, unreachable },
  }
}
