/**
 * An edit made on an older copy of the build (a phone without signal) laid over the build as it stands. A record that
 * both changed is merged field by field; a field that both changed, each in its own way, is a conflict for the person.
 */
import { isDeepStrictEqual } from 'node:util'
import type { Build, Change, Edit } from '../model/build.ts'
import type { Conflict } from '../model/conflict.ts'

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
    else fields.push(key)
    if (value[key] === undefined) delete value[key]
  }
  return fields.length > 0 ? { fields } : { value }
}

/** `from`: what each changed record was when the edit was made, in the order of its changes. */
export const mergeEdit = (
  build: Build,
  edit: Edit,
  from: readonly unknown[],
): { readonly edit: Edit } | { readonly conflicts: readonly Conflict[] } => {
  const conflicts: Conflict[] = []
  const changes = edit.changes.map((change, i): Change => {
    const stored = storedAt(build, change)
    const result = merged(from[i] ?? null, wanted(change), stored)
    if ('value' in result) return withWanted(change, result.value)
    conflicts.push({ subject: subjectOf(change), fields: result.fields, mine: wanted(change), stored })
    return change
  })
  return conflicts.length > 0 ? { conflicts } : { edit: { label: edit.label, changes } }
}

/** True when the build already says what the edit wants: it came twice, the first answer having been lost. */
export const alreadyDone = (build: Build, edit: Edit): boolean =>
  edit.changes.every((change) => same(wanted(change), storedAt(build, change)))
