/** The changes that lead from one build to another: what undo, redo and an import write. */
import { type Build, type Change, type CollectionName, collections, type SheetName, sheets } from '../model/build.ts'

const same = (a: unknown, b: unknown): boolean => a === b || JSON.stringify(a) === JSON.stringify(b)

/** Every record or sheet that differs, once. Both builds have passed the schema, so fields stand in one order. */
export const changesBetween = (from: Build, to: Build): Change[] => {
  const changes: Change[] = []
  if (from.name !== to.name) changes.push({ name: to.name })
  for (const sheet of Object.keys(sheets) as SheetName[])
    if (!same(from.sheets[sheet], to.sheets[sheet])) changes.push({ sheet, value: to.sheets[sheet] ?? null })
  for (const collection of Object.keys(collections) as CollectionName[]) {
    const old: Readonly<Record<string, unknown>> = from.collections[collection]
    const next: Readonly<Record<string, unknown>> = to.collections[collection]
    if (old === next) continue
    for (const id of Object.keys(old)) if (!Object.hasOwn(next, id)) changes.push({ collection, id, value: null })
    for (const id of Object.keys(next))
      if (!Object.hasOwn(old, id) || !same(old[id], next[id])) changes.push({ collection, id, value: next[id] })
  }
  return changes
}
