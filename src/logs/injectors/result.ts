/** What a characterisation answers: never only a number. */
import type { InjectorCard } from '../../model/injectorCard.ts'
import type { Role } from '../roles.ts'
import type { Interval } from './types.ts'

export interface DeadTimePoint extends Interval {
  readonly voltage: number
  /** `driven`: steady windows lie within 0.3 V. `extrapolated`: none do; the interval then holds the doubt of the curve's form. */
  readonly support: 'driven' | 'extrapolated'
  readonly windows: number
}

export interface WindowPicture {
  readonly log: 'known' | 'unknown'
  readonly from: number
  readonly to: number
  readonly speed: number
  readonly pressure: number
  readonly pulse: number
  readonly voltage: number
  /** Fuel by lambda and airflow against fuel by the fitted injector, as a share. */
  readonly residual: number
  /** ± of the window, 95 %. */
  readonly plusMinus: number
  /** 0: taken for an outlier. */
  readonly weight: number
}

export interface InjectorProvenance {
  readonly method: 'injectors-joint/1' | 'injectors-bench/1'
  readonly known: string | null
  readonly unknown: string
  readonly card: string | null
  readonly delay?: Readonly<
    Record<'known' | 'unknown', { readonly a: number; readonly b: number; readonly found: boolean }>
  >
  readonly leftOut?: Readonly<Record<'known' | 'unknown', Readonly<Record<string, number>>>>
}

export interface InjectorTold {
  readonly answer: 'told'
  readonly sentence: string
  /** Unknown slope over known slope: all that two logs fix. Null from a bench test. */
  readonly ratio: Interval | null
  /** kg/s at `pressure`, with the card's and lambda's ±. */
  readonly slope: Interval
  /** Pa across the injector. */
  readonly pressure: number
  readonly deadTime: readonly DeadTimePoint[]
  /** s added to the open time below `below`: depth at no open time, falling as a square. */
  readonly shortPulse: { readonly below: number; readonly depth: Interval } | null
  readonly parameters: readonly string[]
  readonly covariance: readonly (readonly number[])[]
  readonly notIdentified: readonly { readonly what: string; readonly why: string }[]
  readonly next: readonly string[]
  readonly assumptions: readonly string[]
  readonly cautions: readonly string[]
  readonly windows: readonly WindowPicture[]
  readonly card: InjectorCard
  readonly provenance: InjectorProvenance
}

export interface InjectorUnknown {
  readonly answer: 'cannot-tell'
  readonly because:
    | 'missing-role'
    | 'changed-hardware'
    | 'too-few-windows'
    | 'no-overlap'
    | 'not-separable'
    | 'too-wide'
  readonly sentence: string
  readonly missing?: readonly { readonly log: 'known' | 'unknown'; readonly role: Role }[]
  readonly next: readonly string[]
  readonly provenance: InjectorProvenance
}

export type InjectorResult = InjectorTold | InjectorUnknown

export const INJECTOR_CAUTIONS = [
  'Somebody else drives or watches the road: nobody reads a screen while driving.',
  'Lean under boost melts pistons: enter new injector data rich, at light load first, with lambda watched by the person who tunes the engine; what that person decides goes before this figure.',
]
