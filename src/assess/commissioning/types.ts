/** Gates of commissioning: what each asks, what is there to show for it, and where it stands among the others. */
import type { Build, Entity } from '../../model/build.ts'
import type { Kind } from '../../units/kinds.ts'
import type { Finding, System, Verdict } from '../finding.ts'

export type Reading = Entity<'readings'>
export type EvidenceEntry = Entity<'evidence'>

/** A figure that is there: SI, ± as kept. */
export interface Figure {
  readonly value: number
  readonly plusMinus: number | undefined
}
export interface Judged {
  readonly verdict: Verdict
  readonly says: string
  /** For `unknown`: what is missing. */
  readonly missing?: string
  readonly next?: Next
  /** Findings that it is made from, worst first: key and what they say. */
  readonly findings?: readonly { readonly key: string; readonly verdict: Verdict; readonly says: string }[]
}
/** The one thing to do next, and where in the workbench it is done. */
export interface Next {
  readonly says: string
  readonly at?:
    | { readonly sheet: string }
    | { readonly finding: string }
    | { readonly bench: 'signals' | 'fuel' | 'findings' | 'jobs' | 'circuits' }
}

export interface FigureField {
  readonly id: string
  readonly says: string
  readonly kind: Kind
  readonly unit: string
}

interface Asked {
  /** Stable, unique among all gates: evidence refers to it as `gate/<id>`. */
  readonly id: string
  readonly says: string
  /** Of fuel at best “arithmetic holds” is said. */
  readonly system?: System
}
export type Ask = Asked &
  (
    | {
        /** Lines of the first-power test sheet. */
        readonly kind: 'lines'
        readonly section: string
        readonly of: 'readings' | 'steps'
        /** Only lines whose id begins so; `notStarting`: only the others. */
        readonly starting?: string
        readonly notStarting?: string
        /** What has to be entered for there to be any such line. */
        readonly needs?: string
      }
    | {
        /** What the assessment finds about it. What it does not know may be gone on with, by name and with a reason. */
        readonly kind: 'findings'
        readonly about: (finding: Finding) => boolean
      }
    | { readonly kind: 'known'; readonly judge: (build: Build, findings: readonly Finding[]) => Judged }
    | {
        readonly kind: 'figures'
        readonly fields: readonly FigureField[]
        /** Every field is there. */
        readonly judge: (figures: Readonly<Record<string, Figure>>, build: Build) => Judged
      }
    | {
        /** What only a person at the car can see. */
        readonly kind: 'hand'
        readonly photo?: true
        /** It applies to every car. */
        readonly always?: true
      }
  )

export type Sequence = 'first power' | 'first start'
export interface Gate {
  readonly id: string
  readonly sequence: Sequence
  readonly title: string
  /** State of the car in which its evidence is taken. */
  readonly state: string
  readonly cautions: readonly string[]
  readonly asks: readonly Ask[]
}

export interface EvidenceLine {
  readonly says: string
  readonly figure?: string
  readonly when: string | undefined
  readonly by: string | undefined
  /** Entry that can be taken back. */
  readonly entry?: string
  readonly photo?: string
}
export interface AskStanding extends Judged {
  readonly ask: Ask
  readonly evidence: readonly EvidenceLine[]
}
/**
 * `closed`: somebody closed it, and its evidence still says so. `asks again`: closed once, and since then something is
 * missing or speaks against it. `locked`: a gate before it has a no-go. `waits`: a gate before it is not closed yet.
 */
export type Stand = 'closed' | 'asks again' | 'in turn' | 'waits' | 'locked'
export interface GateStanding {
  readonly gate: Gate
  readonly verdict: Verdict
  readonly asks: readonly AskStanding[]
  readonly stand: Stand
  /** The gate that it waits for or that locks it. */
  readonly behind?: Gate
  readonly closedBy?: Entity<'records'>
  readonly next?: Next
}
