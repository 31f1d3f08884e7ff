/** A build as rows, and back. */
import type { Database } from 'better-sqlite3'
import { type Build, type Change, FORMAT, collections as schemas } from '../model/build.ts'
import { readBuild } from '../model/read.ts'
import { refuse } from '../units/problem.ts'

const COLLECTIONS = Object.keys(schemas)

const parse = (json: string, where: string): unknown => {
  try {
    return JSON.parse(json)
  } catch {
    throw refuse(
      'damaged-record',
      `${where} in the build file is not readable.`,
      'Put back a copy of the folder.',
      where,
    )
  }
}

export const getMeta = (db: Database, key: string): string | undefined =>
  db.prepare('select value from meta where key = ?').pluck().get(key) as string | undefined

export const setMeta = (db: Database, key: string, value: string): void => {
  db.prepare('insert into meta values (?, ?) on conflict (key) do update set value = excluded.value').run(key, value)
}

/** Reads through the same door as an imported document: older records are migrated, unfit ones refused by name. */
export const readRows = (db: Database): Build => {
  const collections: Record<string, Record<string, unknown>> = {}
  for (const name of COLLECTIONS) collections[name] = {}
  const records = db.prepare('select collection, id, json from record').all() as {
    collection: string
    id: string
    json: string
  }[]
  for (const { collection, id, json } of records) {
    collections[collection] ??= {}
    Object.assign(collections[collection], { [id]: parse(json, `${collection}/${id}`) })
  }
  const sheets = Object.fromEntries(
    (db.prepare('select name, json from sheet').all() as { name: string; json: string }[]).map(({ name, json }) => [
      name,
      parse(json, `sheets/${name}`),
    ]),
  )
  return readBuild({ format: getMeta(db, 'format') ?? FORMAT, name: getMeta(db, 'name'), sheets, collections })
}

/** Writes changes whose values already passed the schema. */
export const writeRows = (db: Database, changes: readonly Change[]): void => {
  const put = db.prepare(
    'insert into record values (?, ?, ?) on conflict (collection, id) do update set json = excluded.json',
  )
  const remove = db.prepare('delete from record where collection = ? and id = ?')
  const putSheet = db.prepare('insert into sheet values (?, ?) on conflict (name) do update set json = excluded.json')
  const removeSheet = db.prepare('delete from sheet where name = ?')
  for (const change of changes) {
    if ('name' in change) setMeta(db, 'name', change.name)
    else if ('sheet' in change) {
      if (change.value === null) removeSheet.run(change.sheet)
      else putSheet.run(change.sheet, JSON.stringify(change.value))
    } else if (change.value === null) remove.run(change.collection, change.id)
    else put.run(change.collection, change.id, JSON.stringify(change.value))
  }
}
