import type { Network } from '../network/network.ts'
import type { Effect } from './effects.ts'

/** One way in which the car may be at fault. */
export interface Hypothesis {
  readonly id: string
  /** The part to blame: what a person would repair. Hypotheses of one part add up. */
  readonly part: string
  /** In words: `open`, `5 Ω`, `chafed to body`… */
  readonly mode: string
  /** Prior weight; only ratios matter. */
  readonly weight: number
  readonly effects: readonly Effect[]
  /** Comes and goes: each reading finds it there or not, one time in two. */
  readonly intermittent?: boolean
}

/**
 * How far real parts lie from the model: limits of a uniform spread, `relative` of the value or `factor` up and down on
 * a log scale, or `absolute`.
 */
export interface Tolerance {
  readonly element: string
  readonly field: string
  readonly relative?: number
  readonly factor?: number
  readonly absolute?: number
}

/** A place that a person can reach with a meter, the other lead on the reference, or on `minus` where it is given. */
export interface TestPoint {
  readonly node: string
  readonly minus?: string
  /** What evidence calls it; the node where none is given. Two tests from one node need one each. */
  readonly id?: string
  /** Tests of one access are done together once it is open. */
  readonly access?: string
  /** Minutes to open the access, and for the reading itself. */
  readonly accessMinutes?: number
  readonly minutes?: number
}

export const pointId = ({ id, node }: TestPoint): string => id ?? node

export interface Fuse {
  readonly element: string
  readonly rating: number
}

/**
 * Error limits of the meter: `relative` of the reading plus `absolute` volts, and the step it shows (V), both on its range
 * for the car's voltage. `finer`: where its finer ranges end (V), each of steps and absolute limits a tenth of the one above.
 */
export interface Meter {
  readonly relative: number
  readonly absolute: number
  readonly step: number
  readonly finer?: readonly number[]
}

/** What the search began with: something that the load between `a` and `b` does. */
export interface Complaint {
  readonly a: string
  readonly b: string
  /** How likely it is under a fault, 0 … 1, from the volts across the load and those of the same car without the fault. */
  readonly likelihood: (fault: Hypothesis, volts: number, healthy: number) => number
}

/** Everything that a search starts from; nothing in it changes. */
export interface FaultProblem {
  readonly network: Network
  readonly hypotheses: readonly Hypothesis[]
  readonly testPoints: readonly TestPoint[]
  readonly tolerances: readonly Tolerance[]
  readonly fuses: readonly Fuse[]
  /** Times its rating at which a fuse opens. */
  readonly fuseBlowsAt: number
  readonly meter: Meter
  /** How sure of one part the search has to be, 0.5 … 1. */
  readonly sure: number
  /** Asked of every car that is drawn, so that ohms and loads that could not have caused it foretell nothing. */
  readonly complaint?: Complaint
  /** Prior share of "the model is wrong here": something that no hypothesis says. */
  readonly modelWrong: number
}

/**
 * Priors by kind of part, common practice, no published source: joints that move or get wet fail most. Adjustable: pass
 * your own.
 */
export const PRIOR_WEIGHTS: Readonly<Record<string, number>> = {
  bulb_holder: 4,
  exposed: 4,
  connector: 2,
  crimp: 1,
  solder: 1,
  wire: 0.3,
  load: 1,
  fuse: 1,
  switch: 1,
  battery: 0.3,
}
