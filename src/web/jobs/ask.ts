/** What the page and the planner's worker say to each other. */
import type { Build } from '../../model/build.ts'
import type { Forecast, ForecastOptions } from '../../plan/forecast.ts'
import type { Plan, PlanOptions } from '../../plan/plan.ts'
import type { Progress } from '../../plan/sequence.ts'
import type { Sitting, SittingOptions } from '../../plan/sitting.ts'
import type { Problem } from '../../units/problem.ts'

/** A milestone on the way, reached with the job at that place of the order. */
export interface Reached {
  readonly id: string
  readonly name: string
  readonly after: number
  readonly dates?: Forecast['dates']
}
export interface Planned {
  readonly plan: Plan
  readonly forecast: Forecast
  readonly reached: readonly Reached[]
}
export type Ask =
  | {
      readonly kind: 'plan'
      readonly build: Build
      readonly options: Omit<PlanOptions, 'progress' | 'signal'>
      /** s of work in a week, where the builder says it. */
      readonly said?: number
    }
  | {
      readonly kind: 'sitting'
      readonly build: Build
      readonly options: SittingOptions
      /** Where the solver's compiled code lies. */
      readonly solver: string
    }
  | { readonly kind: 'forecast'; readonly build: Build; readonly plan: Plan; readonly options: ForecastOptions }
export interface Answers {
  readonly plan: Planned
  readonly sitting: Sitting
  readonly forecast: Forecast
}

export type ToWorker =
  | { readonly id: number; readonly ask: Ask }
  /** The best so far is wanted now. */
  | { readonly id: number; readonly stop: true }
export type FromWorker =
  | { readonly id: number; readonly progress: Progress }
  | { readonly id: number; readonly answer: Planned | Sitting | Forecast }
  | { readonly id: number; readonly problems: readonly Problem[] }
  | { readonly id: number; readonly broke: string }
