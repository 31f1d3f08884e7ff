/**
 * The search engine as a partner to talk to: told to start, then asked with the evidence. It runs in a worker, so that
 * the page stays alive for the seconds that a start takes; where there is none, in the page itself.
 */
import { type ReadySearch, type SearchView, startSearch, withEvidence } from '../../assess/faults/faults.ts'
import type { SearchStart } from '../../assess/faults/types.ts'
import type { Build, Entity } from '../../model/build.ts'
import { type Problem, Refusal } from '../../units/problem.ts'

/** What the screens see of a search that is ready: plain data, that can be handed over. */
export type ShownSearch = Pick<ReadySearch, 'build' | 'points' | 'parts' | 'lacking' | 'leftOut'>

export type Asked =
  | { readonly kind: 'start'; readonly build: Build; readonly start: SearchStart }
  | {
      readonly kind: 'weigh'
      readonly ask: number
      readonly evidence: Entity<'faultSearches'>['evidence']
      readonly readings: Build['collections']['readings']
    }
export type Answered =
  | { readonly kind: 'ready'; readonly shown: Omit<ShownSearch, 'build'> }
  | { readonly kind: 'weighed'; readonly ask: number; readonly view: SearchView }
  | { readonly kind: 'refused'; readonly ask?: number; readonly problems: readonly Problem[] }

export const searchEngine = (answer: (said: Answered) => void): ((asked: Asked) => void) => {
  let ready: ReadySearch | undefined
  return (asked) => {
    try {
      if (asked.kind === 'start') {
        ready = startSearch(asked.build, asked.start)
        const { points, parts, lacking, leftOut } = ready
        answer({ kind: 'ready', shown: { points, parts, lacking, leftOut } })
      } else if (ready)
        answer({ kind: 'weighed', ask: asked.ask, view: withEvidence(ready, asked.evidence, asked.readings) })
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      answer({ kind: 'refused', problems: error.problems, ...(asked.kind === 'weigh' ? { ask: asked.ask } : {}) })
    }
  }
}
