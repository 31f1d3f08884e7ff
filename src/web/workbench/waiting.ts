/** What waits in this browser while the server is out of reach: kept over a closed page, a build at a time. */
import { get, set } from 'idb-keyval'
import type { Build, Change, Edit } from '../../model/build.ts'
import type { Conflict } from '../../model/conflict.ts'

export interface Waiting {
  /** What the person did, as it is sent. */
  readonly edit: Edit
  /** The same with what it closes, as it is shown here. */
  readonly shown: Edit
  /** What each changed record was when the person did it. */
  readonly from: readonly unknown[]
}
export interface Clash {
  readonly edit: Edit
  readonly conflicts: readonly Conflict[]
}
interface Kept {
  readonly waiting: readonly Waiting[]
  readonly clashes: readonly Clash[]
}

export const valueAt = (build: Build, change: Change): unknown => {
  if ('name' in change) return build.name
  if ('sheet' in change) return build.sheets[change.sheet] ?? null
  const records = build.collections[change.collection]
  return Object.hasOwn(records, change.id) ? records[change.id] : null
}

export const keptFor = (identity: string) => {
  const key = `waiting/${identity}`
  let written: Promise<void> = Promise.resolve()
  return {
    read: async (): Promise<Kept> => (await get<Kept>(key).catch(() => undefined)) ?? { waiting: [], clashes: [] },
    write: (kept: Kept): void => {
      // One after another, so that the newest is what stays. A browser that keeps nothing still has the open page.
      written = written.then(() => set(key, kept)).catch(() => undefined)
    },
  }
}
