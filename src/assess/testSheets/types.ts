/** What a test sheet is: lines in the order in which they are taken. SI; cautions stand where they are needed. */

import type { MeterQuantity } from '../faults/typed.ts'

export type SheetQuantity = MeterQuantity

/** What to expect, with the limits between which a reading is in tolerance. Both ends from model, meter and contacts. */
export interface Expectation {
  /** V, Ω or A; `null`: nothing, the point floats, or the ohms are without end. */
  readonly value: number | null
  readonly least: number
  readonly most: number
  /** What the tolerance is made of, one line each. */
  readonly working: readonly string[]
}

export interface SheetTest {
  /** Stable while the circuit stays what it is: a stored reading refers to it. */
  readonly id: string
  readonly kind: 'test'
  readonly quantity: SheetQuantity
  /** Points as in a fault search: endpoint, or endpoint and wire. `against` absent: battery negative. */
  readonly at: string
  readonly against?: string
  /** Ohms of a part by itself: unplugged, or out of its socket. */
  readonly alone?: true
  /** Nothing should feed it in this case, and it is no earth: a supply's volts there are no slip of a thousand. */
  readonly dead?: true
  /** `fan-relay pin 87 to battery negative`. */
  readonly says: string
  /** Not known: the datum that is missing is named in `missing`. */
  readonly expect?: Expectation
  readonly missing?: string
  /** What this line cannot prove, and which does: read before the reading is trusted. */
  readonly limit?: string
  /** What a wrong reading would mean: too low, too high, in words. */
  readonly low?: string
  readonly high?: string
}

/** Something to do, not to measure: unplug, fit a lamp, put in a fuse. */
export interface SheetStep {
  readonly id: string
  readonly kind: 'do'
  readonly says: string
}

/** A part of the sheet that is done in one state of the car; its cautions are read before its first line. */
export interface SheetSection {
  readonly id: string
  readonly title: string
  /** State of the car: battery off, ignition on, lamp in series… */
  readonly state: string
  readonly cautions: readonly string[]
  readonly lines: readonly (SheetTest | SheetStep)[]
}

export interface TestSheet {
  readonly id: string
  readonly title: string
  /** Operating case that its volts are of; absent where sections state their own. */
  readonly case?: string
  readonly sections: readonly SheetSection[]
  /** What of this circuit is left to those whose work it is, and what could not be expected and why. */
  readonly notes: readonly string[]
}

export type ReadingVerdict =
  | { readonly kind: 'in tolerance'; readonly expect: Expectation }
  /** Opens a fault search with this reading as evidence. */
  | {
      readonly kind: 'out of tolerance'
      readonly expect: Expectation
      readonly side: 'low' | 'high'
      readonly means: string
    }
  /** Doubtful: asked about, never silently used. `value` and `unit`: what it would be, were the doubt right. */
  | {
      readonly kind: 'asked about'
      readonly code: string
      readonly question: string
      readonly value?: number
      readonly unit?: string
    }
  | { readonly kind: 'unknown'; readonly missing: string }
