/**
 * What a fault search on a car takes and gives. Volts, ohms, amperes, seconds; probabilities 0 … 1.
 *
 * A point is an endpoint, `tail-left.+` (the contact of the device itself), or an endpoint and a wire,
 * `tail-left.+/W-126` (the terminal on that wire, before the contact). Both exist only where a probe can touch both.
 */
import type { Build, Entity } from '../../model/build.ts'

/** A search as it is stored: what is asked, in which state of the car, and what has been seen so far. */
export type StoredSearch = Entity<'faultSearches'>
export type Complaint = StoredSearch['complaint']
export type ComplaintKind = Complaint['kind']
export type Evidence = StoredSearch['evidence'][number]
export type ReadingEvidence = Extract<Evidence, { kind: 'reading' }>
export type RemarkEvidence = Extract<Evidence, { kind: 'remark' }>

/** What a search starts from; a `StoredSearch` is one. `case` with `switches` and `outputs` laid over it. */
export type SearchStart = Pick<StoredSearch, 'complaint' | 'case'> &
  Partial<Pick<StoredSearch, 'switches' | 'outputs' | 'priors' | 'sure'>>

/** A place where a probe can go. */
export interface Point {
  readonly id: string
  /** Endpoint that it belongs to, and wire when it is the wire's side. */
  readonly endpoint: string
  readonly wire?: string
  /** In words: `Tail lamp, left, pin +, on the terminal of wire W-126`. */
  readonly says: string
  readonly zone?: string
  /** What has to be open, by access id, and seconds to open it from where the car stands now. */
  readonly access?: string
  readonly accessTime: number
}

/** Two probes and a quantity. `against` absent: battery negative. */
export interface Test {
  readonly quantity: 'volts' | 'ohms' | 'amps'
  readonly at: string
  readonly against?: string
  /** Where the leads go, in words: `red lead on …, black lead on …`. */
  readonly says: string
}

export interface NextTest extends Test {
  /** Expected information about which part it is (bits). */
  readonly bits: number
  /** Seconds, an access not yet open included. */
  readonly time: number
  readonly access?: string
  /** Other tests of the same access that are worth taking while it is open. */
  readonly together: readonly Test[]
  /** What the most likely suspects would show, most likely first (V); `others` would show the same. */
  readonly expects: readonly {
    readonly part: string
    readonly name: string
    readonly value: number
    readonly others: number
  }[]
  /** Of this test, where it is taken. */
  readonly cautions: readonly string[]
}

/** A part that may be to blame: what a person would repair. */
export interface Suspect {
  readonly part: string
  /** In words: `holder of Tail lamp, left`. */
  readonly name: string
  readonly probability: number
  /** In words, most likely first: `5 Ω`, `open`, `comes and goes`. */
  readonly modes: readonly { readonly mode: string; readonly probability: number }[]
  /** Devices and wires that it consists of, for a drawing. */
  readonly devices: readonly string[]
  readonly wires: readonly string[]
  readonly zone?: string
}

export type SearchStanding =
  | { readonly kind: 'found'; readonly part: string; readonly name: string; readonly probability: number }
  | { readonly kind: 'searching' }
  /** No test that can be taken tells these apart: ids of suspects. */
  | { readonly kind: 'cannot tell apart'; readonly parts: readonly string[] }
  /** What it knows does not explain the readings: take the odd one again, or mend the model. */
  | { readonly kind: 'the model does not fit'; readonly share: number }
  /** A piece of evidence is doubtful and waits for an answer; the rest is used. */
  | { readonly kind: 'asks'; readonly questions: readonly string[] }

/** Doubt about a piece of evidence, which is not used until somebody has confirmed or mended it. */
export interface Question {
  /** Place in the evidence list. */
  readonly evidence: number
  readonly code:
    | 'unknown-point'
    | 'reversed'
    | 'millivolts'
    | 'out-of-scale'
    | 'contradicts'
    | 'floating'
    | 'live-circuit'
    | 'not-this-way'
  readonly says: string
  /** What it would be, were the doubt right: takes the entry's place when the person says yes. */
  readonly instead?: ReadingEvidence
}

/** Something to see or hear, answered with one of some remarks about the device. */
export interface LookFirst {
  readonly about: string
  readonly name: string
  /** As a question: “Does … work?” */
  readonly says: string
  readonly answers: readonly { readonly says: string; readonly remark: string }[]
  readonly bits: number
}

/** What an evidence list says, from the priors up: entries can be added, mended and taken back at any time. */
export interface SearchView {
  readonly standing: SearchStanding
  /** Most suspect first; those of a share below one in ten thousand left out. */
  readonly suspects: readonly Suspect[]
  readonly next: NextTest | null
  /** What to look or listen at before any probe: does it work, click, is it whole? Most telling first. */
  readonly looks: readonly LookFirst[]
  readonly questions: readonly Question[]
  /** Two faults at once were taken in, for no single one explains the readings. */
  readonly pairs: boolean
  readonly cautions: readonly string[]
}

/** A search that is ready: prepared once for a build, a case and a complaint. Opaque but for these. */
export interface CarSearch {
  readonly build: Build
  readonly start: SearchStart
  /** Where probes can go, by id. */
  readonly points: ReadonlyMap<string, Point>
  /** Parts that could make the complaint, by id. */
  readonly parts: ReadonlyMap<string, Omit<Suspect, 'probability' | 'modes'>>
  /** Data that the model lacks, which make it less sharp: named as the builder would enter them. */
  readonly lacking: readonly string[]
  /** Airbag and anti-lock parts that touch this circuit and were left to those whose work they are. */
  readonly leftOut: readonly string[]
}
