/**
 * A build folder opened for reading and editing. Rules: SPEC.md beside this file.
 * Records are rows, an edit is one transaction with its journal entry, undo swaps `before` and `after`.
 */
import { randomUUID } from 'node:crypto'
import { existsSync, mkdirSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import {
  type Build,
  type Change,
  type CollectionName,
  type Edit,
  emptyBuild,
  FORMAT,
  type SheetName,
} from '../model/build.ts'
import { applyChanges, readBuild } from '../model/read.ts'
import { Refusal, refuse } from '../units/problem.ts'
import { takeLock } from './lock.ts'
import { createTables, STORE_FORMAT } from './schema.ts'

export interface HistoryEntry {
  readonly seq: number
  readonly at: string
  readonly label: string
  readonly undone: boolean
}

export interface Store {
  readonly folder: string
  /** Of this folder, for as long as it is there: what waits on a phone for one build must not reach another. */
  readonly identity: string
  read(): Build
  /** Number of the newest change to the build; grows by one with every edit, undo and redo. */
  version(): number
  edit(edit: Edit): Build
  undo(): { build: Build; label: string } | null
  redo(): { build: Build; label: string } | null
  /** Replaces the whole build, as one journal entry. */
  replace(build: Build, label: string): Build
  history(): HistoryEntry[]
  close(): void
}

export const buildFile = (folder: string): string => join(folder, 'build.sqlite')
export const hasBuild = (folder: string): boolean => existsSync(buildFile(folder))

const broken = (file: string, error: unknown): Refusal =>
  refuse(
    'unreadable-build',
    `${file} is not a whole Swapwright build (${error instanceof Error ? error.message : String(error)}).`,
    'It was left as it is. Bring back a copy, or import an exported build into a new folder.',
  )

/** Opens the database, or refuses it untouched (SPEC 6). */
const openDatabase = (folder: string, create: boolean, readOnly: boolean): Database.Database => {
  const file = buildFile(folder)
  if (!create && !existsSync(file)) {
    throw refuse(
      'no-build',
      `There is no build in ${folder}.`,
      `Make one with "swapwright demo ${folder}" or "swapwright import <file> ${folder}".`,
    )
  }
  let database: Database.Database
  try {
    // A reader's connection cannot write, whatever the code above it does.
    database = new Database(file, { readonly: readOnly })
    const check = database.pragma('quick_check', { simple: true })
    if (check !== 'ok') throw new Error(String(check))
  } catch (error) {
    throw broken(file, error)
  }
  try {
    const tables = database.prepare("select count(*) as n from sqlite_master where type = 'table'").get() as {
      n: number
    }
    if (tables.n > 0) {
      const row = database.prepare("select value from meta where key = 'format'").get() as { value: string } | undefined
      const format = Number(row?.value)
      if (!Number.isInteger(format)) throw new Error('it holds no Swapwright tables')
      if (format > STORE_FORMAT) {
        throw refuse(
          'newer-format',
          `${file} was written by a newer Swapwright (store format ${format}; this one reads ${STORE_FORMAT}).`,
          'Update Swapwright. The file was left as it is.',
        )
      }
    } else if (!create) {
      throw new Error('it holds no tables')
    }
  } catch (error) {
    database.close()
    throw error instanceof Refusal ? error : broken(file, error)
  }
  if (!readOnly) {
    database.pragma('journal_mode = WAL')
    database.pragma('synchronous = FULL')
  }
  return database
}

const valueNow = (build: Build, change: Change): unknown => {
  if ('name' in change) return build.name
  if ('sheet' in change) return build.sheets[change.sheet] ?? null
  return build.collections[change.collection][change.id] ?? null
}

const withValue = (change: Change, value: unknown): Change =>
  'name' in change
    ? { name: String(value) }
    : 'sheet' in change
      ? { sheet: change.sheet, value }
      : { collection: change.collection, id: change.id, value }

/** The change that takes `build` back to where it was before `changes`, in reverse order of them. */
const inverse = (build: Build, changes: readonly Change[]): Change[] => {
  const seen = new Set<string>()
  const first: Change[] = []
  for (const change of changes) {
    const key =
      'name' in change ? 'name' : 'sheet' in change ? `sheet/${change.sheet}` : `${change.collection}/${change.id}`
    if (seen.has(key)) continue
    seen.add(key)
    first.push(withValue(change, valueNow(build, change)))
  }
  return first
}

const differences = (from: Build, to: Build): Change[] => {
  const changes: Change[] = []
  if (from.name !== to.name) changes.push({ name: to.name })
  const sheetNames = new Set([...Object.keys(from.sheets), ...Object.keys(to.sheets)]) as Set<SheetName>
  for (const sheet of sheetNames) changes.push({ sheet, value: to.sheets[sheet] ?? null })
  for (const collection of Object.keys(to.collections) as CollectionName[]) {
    for (const id of Object.keys(from.collections[collection])) {
      if (!(id in to.collections[collection])) changes.push({ collection, id, value: null })
    }
    for (const [id, value] of Object.entries(to.collections[collection])) changes.push({ collection, id, value })
  }
  return changes
}

export const openBuild = (folder: string, options: { create?: string; readOnly?: boolean } = {}): Store => {
  if (options.create !== undefined) {
    if (hasBuild(folder))
      throw refuse('build-exists', `${folder} already holds a build.`, 'Name another folder; nothing was changed.')
    try {
      mkdirSync(folder, { recursive: true })
    } catch (error) {
      throw refuse(
        'no-folder',
        `The folder ${folder} cannot be made (${(error as NodeJS.ErrnoException).code}).`,
        'Name a folder that is not a file and that you may write to.',
      )
    }
  }
  const readOnly = options.readOnly ?? false
  const release = readOnly ? () => {} : existsSync(folder) ? takeLock(folder) : () => {}
  let database: Database.Database
  try {
    database = openDatabase(folder, options.create !== undefined, readOnly)
  } catch (error) {
    release()
    throw error
  }
  if (!readOnly) for (const part of ['logs', 'photos']) mkdirSync(join(folder, part), { recursive: true })

  if (options.create !== undefined) {
    const title = options.create
    database.transaction(() => {
      createTables(database)
      const put = database.prepare('insert or replace into meta (key, value) values (?, ?)')
      put.run('format', String(STORE_FORMAT))
      put.run('name', title)
      put.run('version', '0')
    })()
  }

  const readMeta = (key: string): string =>
    (database.prepare('select value from meta where key = ?').get(key) as { value: string }).value
  const putMeta = database.prepare('insert or replace into meta (key, value) values (?, ?)')
  const putRecord = database.prepare('insert or replace into record (collection, id, json) values (?, ?, ?)')
  const dropRecord = database.prepare('delete from record where collection = ? and id = ?')
  const putSheet = database.prepare('insert or replace into sheet (name, json) values (?, ?)')
  const dropSheet = database.prepare('delete from sheet where name = ?')

  const load = (): Build => {
    const blank = emptyBuild(readMeta('name'))
    const document: Record<string, Record<string, unknown>> = structuredClone(blank.collections)
    for (const row of database.prepare('select collection, id, json from record').iterate() as IterableIterator<{
      collection: string
      id: string
      json: string
    }>) {
      const collection = document[row.collection] ?? {}
      collection[row.id] = JSON.parse(row.json)
      document[row.collection] = collection
    }
    const sheets: Record<string, unknown> = {}
    for (const row of database.prepare('select name, json from sheet').iterate() as IterableIterator<{
      name: string
      json: string
    }>) {
      sheets[row.name] = JSON.parse(row.json)
    }
    return readBuild({ format: FORMAT, name: blank.name, sheets, collections: document })
  }

  let current: Build
  const named = database.prepare("select value from meta where key = 'identity'").get() as { value: string } | undefined
  const identity = named?.value ?? randomUUID()
  if (named === undefined && !readOnly) putMeta.run('identity', identity)
  try {
    current = load()
  } catch (error) {
    database.close()
    release()
    throw error
  }

  const writable = (): void => {
    if (readOnly)
      throw refuse(
        'read-only',
        `The build in ${folder} is open for reading only.`,
        'Open it for writing; nothing was changed.',
      )
  }
  const write = (changes: readonly Change[]): void => {
    for (const change of changes) {
      if ('name' in change) putMeta.run('name', change.name)
      else if ('sheet' in change) {
        if (change.value === null) dropSheet.run(change.sheet)
        else putSheet.run(change.sheet, JSON.stringify(change.value))
      } else if (change.value === null) dropRecord.run(change.collection, change.id)
      else putRecord.run(change.collection, change.id, JSON.stringify(change.value))
    }
    putMeta.run('version', String(Number(readMeta('version')) + 1))
  }

  const commit = (label: string, changes: readonly Change[]): Build => {
    writable()
    const next = applyChanges(current, changes)
    const before = inverse(current, changes)
    const after = inverse(next, changes)
    database.transaction(() => {
      database.prepare('delete from journal where undone = 1').run()
      database
        .prepare('insert into journal (at, label, before, after) values (?, ?, ?, ?)')
        .run(new Date().toISOString(), label, JSON.stringify(before), JSON.stringify(after))
      write(after)
    })()
    current = next
    return next
  }

  const step = (undone: 0 | 1): { build: Build; label: string } | null => {
    writable()
    const order = undone === 0 ? 'desc' : 'asc'
    const row = database
      .prepare(`select seq, label, before, after from journal where undone = ? order by seq ${order} limit 1`)
      .get(undone) as { seq: number; label: string; before: string; after: string } | undefined
    if (!row) return null
    const changes = JSON.parse(undone === 0 ? row.before : row.after) as Change[]
    const next = applyChanges(current, changes)
    database.transaction(() => {
      database.prepare('update journal set undone = ? where seq = ?').run(1 - undone, row.seq)
      write(changes)
    })()
    current = next
    return { build: next, label: row.label }
  }

  return {
    folder,
    identity,
    read: () => {
      // The writer may have moved on since; a writer itself is alone, so its copy is the newest.
      if (readOnly) current = load()
      return current
    },
    version: () => Number(readMeta('version')),
    edit: (edit) => commit(edit.label, edit.changes),
    undo: () => step(0),
    redo: () => step(1),
    replace: (build, label) => commit(label, differences(current, build)),
    history: () =>
      (
        database.prepare('select seq, at, label, undone from journal order by seq').all() as {
          seq: number
          at: string
          label: string
          undone: number
        }[]
      ).map((row) => ({ ...row, undone: row.undone === 1 })),
    close: () => {
      database.close()
      release()
    },
  }
}
