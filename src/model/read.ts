/** In, out and change of the build document. Whatever is refused is refused whole, with every problem found. */
import { type Problem, Refusal, refuse } from '../units/problem.ts'
import { type Build, buildSchema, type Change, type CollectionName, collections, type SheetName } from './build.ts'
import { called } from './called.ts'
import { canonicalJson } from './canonicalJson.ts'
import { id as idSchema } from './electrical.ts'
import { migrate } from './migrations.ts'
import { schemaProblems } from './schemaProblems.ts'
import { sheets } from './sheets.ts'

/** Reads parsed JSON as a build, bringing an older format up first. Throws nothing but Refusal. */
export const readBuild = (json: unknown): Build => {
  const current = migrate(json)
  const result = buildSchema.safeParse(current)
  if (!result.success) throw new Refusal(schemaProblems(result.error.issues, current))
  return result.data as Build
}

/** Canonical text of a build: equal builds give equal bytes, and a small change gives a small difference. */
export const writeBuild = (build: Build): string => `${canonicalJson(build, buildSchema)}\n`

/**
 * The build after the changes, in order; the one passed in is left as it was. Removing what is not there is allowed,
 * because the state that was asked for is reached. Dangling references are not refused here: see checkIntegrity.
 */
export const applyChanges = (build: Build, changes: readonly Change[]): Build => {
  const problems: Problem[] = []
  const next = { ...build, sheets: { ...build.sheets }, collections: { ...build.collections } }
  const copied = new Set<CollectionName>()
  for (const change of changes) {
    if ('name' in change) {
      const result = buildSchema.shape.name.safeParse(change.name)
      if (result.success) next.name = result.data
      else problems.push(...schemaProblems(result.error.issues, change.name, ['name']))
    } else if ('sheet' in change) setSheet(next, change.sheet, change.value, problems)
    else {
      if (!Object.hasOwn(collections, change.collection)) {
        problems.push(...unknownPlace('collection', String(change.collection)))
        continue
      }
      if (!copied.has(change.collection)) {
        copied.add(change.collection)
        Object.assign(next.collections, { [change.collection]: { ...next.collections[change.collection] } })
      }
      setRecord(next, change.collection, change.id, change.value, problems)
    }
  }
  if (problems.length > 0) throw new Refusal(problems)
  return next
}

const setSheet = (build: Build, sheet: SheetName, value: unknown, problems: Problem[]): void => {
  if (!Object.hasOwn(sheets, sheet)) problems.push(...unknownPlace('sheet', String(sheet)))
  else if (value === null) delete build.sheets[sheet]
  else {
    const result = sheets[sheet].safeParse(value)
    if (result.success) Object.assign(build.sheets, { [sheet]: result.data })
    else problems.push(...schemaProblems(result.error.issues, value, ['sheets', sheet]))
  }
}

const setRecord = (build: Build, name: CollectionName, id: string, value: unknown, problems: Problem[]): void => {
  if (!idSchema.safeParse(id).success) {
    problems.push({
      code: 'unfit-id',
      path: `${name}/${id}`,
      says: `${called(name, `“${id}”`)} cannot be filed under that id.`,
      todo: 'Use up to 48 letters, digits, _, + or -, beginning with a letter or digit.',
    })
    return
  }
  const records = build.collections[name] as Record<string, unknown>
  if (value === null) {
    delete records[id]
    return
  }
  const result = collections[name].safeParse(value)
  if (!result.success) problems.push(...schemaProblems(result.error.issues, value, ['collections', name, id]))
  else if (result.data.id !== id)
    problems.push({
      code: 'id-mismatch',
      path: `${name}/${id}/id`,
      says: `${called(name, id)} calls itself ${result.data.id}.`,
      todo: 'Give it the id it is filed under.',
    })
  else records[id] = result.data
}

const unknownPlace = (what: 'collection' | 'sheet', name: string): readonly Problem[] =>
  refuse(`unknown-${what}`, `A build has no ${what} “${name}”.`, 'Check its spelling.', name).problems
