/** What waits in this browser while the server is out of reach: kept over a closed page, a build at a time. */
import { get, set } from 'idb-keyval'
import type { Build, Change, Edit } from '../../model/build.ts'
import type { Conflict } from '../../model/conflict.ts'
import { type Renumbered, renumberedChange, renumberedRecord } from '../../model/renumber.ts'
import type { Problem } from '../../units/problem.ts'

export interface Waiting {
  /** What the person did, as it is sent. */
  readonly edit: Edit
  /** The same with what it closes, as it is shown here. */
  readonly shown: Edit
  /** What each changed record was when the person did it. */
  readonly from: readonly unknown[]
  /** It could not be sent at once. */
  readonly waited?: true
}
/** An edit that the person has to settle: it met another, or it cannot be stored as it is. */
export interface Clash {
  readonly edit: Edit
  readonly conflicts: readonly Conflict[]
  /** Why it cannot be stored. */
  readonly problems?: readonly Problem[]
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

const renumberedEdit = ({ label, changes }: Edit, by: Renumbered): Edit => ({
  label,
  changes: changes.map((change) => renumberedChange(change, by)),
})
/** What still waits speaks of a thing that has been given another number: it goes along. */
export const renumberedWaiting = (waiting: Waiting, by: Renumbered): Waiting => ({
  ...waiting,
  edit: renumberedEdit(waiting.edit, by),
  shown: renumberedEdit(waiting.shown, by),
  from: waiting.from.map((was, i) => {
    const change = waiting.edit.changes[i]
    return change && 'collection' in change ? renumberedRecord(was, change, by) : was
  }),
})

/** Of a clash that is settled for what is stored: readings nobody else has are kept all the same. */
export const onlyHere = ({ edit, conflicts }: Clash): Edit | undefined => {
  const changes = edit.changes.filter(
    (change) =>
      'collection' in change &&
      change.collection === 'readings' &&
      change.value !== null &&
      !conflicts.some(({ subject }) => subject === `readings/${change.id}`),
  )
  return conflicts.length > 0 && changes.length > 0 ? { label: edit.label, changes } : undefined
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
