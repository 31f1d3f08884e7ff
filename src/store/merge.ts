/**
 * An edit made on an older copy of the build (a phone without signal) laid over the build as it stands. A record that
 * both changed is merged field by field; a field that both changed, each in its own way, is a conflict for the person.
 * Two things that were given one number apart are no conflict: the later one gets another. Lists that grow by what is
 * seen and done (the evidence of a search, its history) grow by both.
 */
import { isDeepStrictEqual } from 'node:util'
import type { Build, Change, Edit } from '../model/build.ts'
import type { Conflict } from '../model/conflict.ts'
import { isNumbered, type Renumbered, renumberedChange, renumberedRecord } from '../model/renumber.ts'

type Fields = Record<string, unknown>
const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
const same = (a: unknown, b: unknown): boolean => isDeepStrictEqual(a ?? null, b ?? null)

const subjectOf = (change: Change): string =>
  'name' in change ? 'name' : 'sheet' in change ? `sheet/${change.sheet}` : `${change.collection}/${change.id}`
const storedAt = (build: Build, change: Change): unknown => {
  if ('name' in change) return build.name
  if ('sheet' in change) return build.sheets[change.sheet] ?? null
  const records = build.collections[change.collection]
  return records && Object.hasOwn(records, change.id) ? records[change.id] : null
}
const wanted = (change: Change): unknown => ('name' in change ? change.name : change.value)
const withWanted = (change: Change, value: unknown): Change =>
  'name' in change ? { name: String(value) } : { ...change, value }

/** Fields that only ever grow at their end, by what somebody saw or did. */
const GROWING: readonly string[] = ['evidence', 'history']
/** What is stored and behind it what I added; undefined where one of the two did more than add. */
const grownByBoth = (was: unknown, my: unknown, now: unknown): unknown[] | undefined => {
  if (!Array.isArray(was) || !Array.isArray(my) || !Array.isArray(now)) return undefined
  const beginsWithWas = (list: readonly unknown[]): boolean => same(list.slice(0, was.length), was)
  if (!beginsWithWas(my) || !beginsWithWas(now)) return undefined
  // Sent twice: what is there already is not added again.
  return [...now, ...my.slice(was.length).filter((each) => !now.some((other) => same(other, each)))]
}

/** Before, mine and stored of one record: the merged record, or the fields that cannot be. */
const merged = (before: unknown, mine: unknown, stored: unknown): { value: unknown } | { fields: string[] } => {
  if (same(before, stored)) return { value: mine }
  if (same(mine, stored) || same(mine, before)) return { value: stored }
  if (!isFields(before) || !isFields(mine) || !isFields(stored)) return { fields: [] }
  const value: Fields = {}
  const fields: string[] = []
  for (const key of new Set([...Object.keys(before), ...Object.keys(mine), ...Object.keys(stored)])) {
    const [was, my, now] = [before[key], mine[key], stored[key]]
    if (same(was, now)) value[key] = my
    else if (same(was, my) || same(my, now)) value[key] = now
    else {
      const grown = GROWING.includes(key) ? grownByBoth(was ?? [], my ?? [], now ?? []) : undefined
      if (grown) value[key] = grown
      else fields.push(key)
    }
    if (value[key] === undefined) delete value[key]
  }
  return fields.length > 0 ? { fields } : { value }
}

/** New here and new there under one number: what mine is called from now on. */
const renumbering = (build: Build, edit: Edit, from: readonly unknown[]): Renumbered[] => {
  const taken = new Set(edit.changes.map(subjectOf))
  return edit.changes.flatMap((change, i): Renumbered[] => {
    if (!('collection' in change) || !isNumbered(change.collection)) return []
    const stored = storedAt(build, change)
    if ((from[i] ?? null) !== null || stored === null || change.value === null || same(change.value, stored)) return []
    const { collection, id } = change
    const [stem, first] = /^(.*?)(\d+)$/.test(id)
      ? [id.replace(/\d+$/, ''), Number(/\d+$/.exec(id)![0])]
      : [`${id}-`, 1]
    for (let n = first + 1; ; n++) {
      const to = `${stem}${n}`
      const by: Renumbered = { collection, from: id, to }
      const there = storedAt(build, { collection, id: to, value: null })
      // It came before, and the answer was lost: it has its number already.
      const cameBefore = there !== null && same(there, renumberedRecord(change.value, { collection, id }, by))
      if (!cameBefore && (there !== null || taken.has(`${collection}/${to}`))) continue
      taken.add(`${collection}/${to}`)
      return [by]
    }
  })
}

export type Merged =
  | { readonly edit: Edit; readonly renumbered?: readonly Renumbered[] }
  | { readonly conflicts: readonly Conflict[] }

/** `from`: what each changed record was when the edit was made, in the order of its changes. */
export const mergeEdit = (build: Build, edit: Edit, from: readonly unknown[]): Merged => {
  const renumbered = renumbering(build, edit, from)
  const conflicts: Conflict[] = []
  const changes = edit.changes.map((given, i): Change => {
    const change = renumbered.reduce(renumberedChange, given)
    const stored = storedAt(build, change)
    const result = merged(from[i] ?? null, wanted(change), stored)
    if ('value' in result) return withWanted(change, result.value)
    conflicts.push({ subject: subjectOf(change), fields: result.fields, mine: wanted(change), stored })
    return change
  })
  if (conflicts.length > 0) return { conflicts }
  return { edit: { label: edit.label, changes }, ...(renumbered.length > 0 ? { renumbered } : {}) }
}

/** True when the build already says what the edit wants: it came twice, the first answer having been lost. */
export const alreadyDone = (build: Build, edit: Edit): boolean =>
  edit.changes.every((change) => same(wanted(change), storedAt(build, change)))
