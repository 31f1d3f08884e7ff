/**
 * Fault finding on a car: the door. `startSearch` once for a complaint, `withEvidence` as often as evidence is added,
 * mended or taken back; `repairOf`, `closeSearch` and `newSearch` give edits and records for the store.
 */
import type { Build } from '../../model/build.ts'
import { looksOf } from './remarkRatios.ts'
import { type ReadySearch, readySearch } from './start.ts'
import type { SearchStart } from './types.ts'

export { REMARKS } from './remarks.ts'
export { closeSearch, newSearch, repairOf } from './repair.ts'
export { type ReadySearch, SURE } from './start.ts'
export type * from './types.ts'
export { answerOf, withEvidence } from './view.ts'

/** Throws `Refusal` where the complaint names what is not there, or the case cannot be solved. */
export const startSearch = (build: Build, start: SearchStart): ReadySearch => {
  const ready = readySearch(build, start)
  // What the whole car does under each fault is solved here, so that no answer has to wait for it.
  looksOf(ready)
  return ready
}
