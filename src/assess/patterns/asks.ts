/** What a pattern asks: the kind of thing that is answered, and how the question is put. */
import type { Device } from '../../model/build.ts'
import type { Kind } from '../../units/kinds.ts'

type DeviceKind = Device['spec']['kind']
/** What kind of thing is answered. */
export type Asks =
  | { readonly type: 'quantity'; readonly kind: Kind }
  /** A device of the build, of one of these kinds. */
  | { readonly type: 'device'; readonly of: readonly DeviceKind[] }
  /** `device.pin`, or a device that says by itself which pin is meant (splice, stud, battery). */
  | { readonly type: 'terminal' }
  | { readonly type: 'branch point' }
  /** Several, with commas between. */
  | { readonly type: 'branch points'; readonly least: number; readonly most: number }
  /** Free pins of the controller that another answer names. */
  | { readonly type: 'controller pins'; readonly controller: string; readonly least: number; readonly most: number }
  | { readonly type: 'choice'; readonly options: readonly string[] }
  | { readonly type: 'count'; readonly least: number; readonly most: number }
  | { readonly type: 'text' }

export interface Question {
  readonly name: string
  readonly asks: Asks
  /** What is wanted, in words. */
  readonly title: string
  /** An answer as one would write it, or where to find it. */
  readonly hint: string
  /** May stay unanswered. */
  readonly optional?: boolean
  /** Taken, and said, when nothing is answered. */
  readonly otherwise?: string
}
