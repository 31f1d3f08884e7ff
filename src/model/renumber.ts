/**
 * Readings, searches, notes and photographs are numbered where they are made. Two people who work apart give the same
 * number to different things: neither is a newer form of the other, so the one that comes later gets another number,
 * and whatever speaks of it goes along.
 */
import type { Change, CollectionName } from './build.ts'

export interface Renumbered {
  readonly collection: CollectionName
  readonly from: string
  readonly to: string
}

const NUMBERED: readonly CollectionName[] = ['readings', 'faultSearches', 'notes', 'photos', 'evidence']
export const isNumbered = (collection: CollectionName): boolean => NUMBERED.includes(collection)

/** Fields by which records speak of a reading or a search. */
const SPEAKS: Partial<Record<CollectionName, string>> = { readings: 'reading', faultSearches: 'search' }

const within = (value: unknown, { collection, from, to }: Renumbered): unknown => {
  const field = SPEAKS[collection]
  if (field === undefined) return value
  if (Array.isArray(value)) return value.map((each) => within(each, { collection, from, to }))
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value).map(([key, each]) => [
      key,
      key === field && each === from ? to : within(each, { collection, from, to }),
    ]),
  )
}

/** One record as it is after the renumbering. `at`: where it stands. */
export const renumberedRecord = (
  value: unknown,
  at: { readonly collection: CollectionName; readonly id: string },
  change: Renumbered,
): unknown => {
  const own = at.collection === change.collection && at.id === change.from
  const inside = within(value, change)
  return own && typeof inside === 'object' && inside !== null ? { ...inside, id: change.to } : inside
}

export const renumberedChange = (change: Change, by: Renumbered): Change => {
  if (!('collection' in change)) return change
  const { collection, id } = change
  return {
    ...change,
    id: collection === by.collection && id === by.from ? by.to : id,
    value: renumberedRecord(change.value, { collection, id }, by),
  }
}
