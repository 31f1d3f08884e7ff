/** The front door of the store: a build folder, opened. Rules are numbered in SPEC.md. */

import { mkdirSync } from 'node:fs'
import type { Database } from 'better-sqlite3'
import { type Build, type Change, type Edit, emptyBuild, FORMAT } from '../model/build.ts'
import { applyChanges } from '../model/read.ts'
import { refuse } from '../units/problem.ts'
import { changesBetween } from './changes.ts'
import { createDatabase, hasBuild, openDatabase } from './database.ts'
import { takeLock } from './lock.ts'
import { getMeta, readRows, setMeta, writeRows } from './rows.ts'
import { type Assess, settledJobs } from './settleJobs.ts'

export interface JournalEntry {
  readonly seq: number
  readonly label: string
  readonly when: string
  readonly undone: boolean
  /** How many records and sheets it changed. */
  readonly changes: number
}

export interface OpenBuild {
  readonly folder: string
  readonly readOnly: boolean
  read(): Build
  /** Counts every edit, undo and redo; never goes back. */
  seq(): number
  /** Returns once the edit is on the disk. An edit that changes nothing is not journaled. Throws Refusal. */
  edit(edit: Edit): number
  undo(): JournalEntry
  redo(): JournalEntry
  /** Newest first. */
  history(limit?: number): JournalEntry[]
  close(): void
}

export interface OpenOptions {
  /** Makes the build when the folder has none. */
  readonly create?: boolean | Build
  readonly readOnly?: boolean
  /** Lets jobs made from findings close by themselves. */
  readonly assess?: Assess
}

interface Row {
  seq: number
  label: string
  when: string
  before: string
  after: string
  undone: number
}

const entryOf = (row: Row): JournalEntry => ({
  seq: row.seq,
  label: row.label,
  when: row.when,
  undone: row.undone === 1,
  changes: (JSON.parse(row.after) as Change[]).length,
})

const fill = (build: Build) => (db: Database) => {
  setMeta(db, 'format', FORMAT)
  setMeta(db, 'name', build.name)
  setMeta(db, 'seq', '0')
  writeRows(db, changesBetween({ ...emptyBuild(build.name), name: build.name }, build))
}

export const openBuild = (folder: string, options: OpenOptions = {}): OpenBuild => {
  const readOnly = options.readOnly ?? false
  if (options.create !== undefined && options.create !== false && !readOnly) makeFolder(folder)
  if (readOnly || (!options.create && !hasBuild(folder)))
    return attach(folder, openDatabase(folder, true), () => {}, options)
  const unlock = takeLock(folder)
  try {
    if (!hasBuild(folder))
      createDatabase(folder, fill(typeof options.create === 'object' ? options.create : emptyBuild('My build')))
    return attach(folder, openDatabase(folder, false), unlock, options)
  } catch (error) {
    unlock()
    throw error
  }
}

const makeFolder = (folder: string): void => {
  try {
    mkdirSync(folder, { recursive: true })
  } catch (error) {
    throw refuse(
      'unreachable',
      `The folder ${folder} cannot be made (${(error as NodeJS.ErrnoException).code}).`,
      'Name a folder that you may write to.',
      folder,
    )
  }
}

const attach = (folder: string, db: Database, unlock: () => void, options: OpenOptions): OpenBuild => {
  const readOnly = options.readOnly ?? false
  let build: Build
  try {
    build = readRows(db)
  } catch (error) {
    db.close()
    throw error
  }

  const writable = (): void => {
    if (readOnly)
      throw refuse('read-only', `The build in ${folder} is open for reading only.`, 'Open it for writing.', folder)
  }
  const nextSeq = (): number => {
    const next = Number(getMeta(db, 'seq') ?? 0) + 1
    setMeta(db, 'seq', String(next))
    return next
  }
  /** Rows and the build in memory change together: the build only once the transaction is on the disk. */
  const commit = (next: Build, changes: readonly Change[], journal: (seq: number) => void): number => {
    const seq = db.transaction(() => {
      const number = nextSeq()
      writeRows(db, changes)
      journal(number)
      return number
    })()
    build = next
    return seq
  }
  const step = (undo: boolean): JournalEntry => {
    writable()
    const row = db
      .prepare(`select * from journal where undone = ? order by seq ${undo ? 'desc' : 'asc'} limit 1`)
      .get(undo ? 0 : 1) as Row | undefined
    if (row === undefined)
      throw refuse(
        undo ? 'nothing-to-undo' : 'nothing-to-redo',
        `There is nothing to ${undo ? 'undo' : 'redo'} in ${build.name}.`,
        undo ? 'Its journal is empty, or all of it is undone.' : 'Undo something first.',
      )
    const changes = JSON.parse(undo ? row.before : row.after) as Change[]
    commit(applyChanges(build, changes), changes, () => {
      db.prepare('update journal set undone = ? where seq = ?').run(undo ? 1 : 0, row.seq)
    })
    return entryOf({ ...row, undone: undo ? 1 : 0 })
  }

  return {
    folder,
    readOnly,
    read: () => {
      // Another process may have written since; a writer is alone, so its copy is always the newest.
      if (readOnly) build = readRows(db)
      return build
    },
    seq: () => Number(getMeta(db, 'seq') ?? 0),
    edit: ({ label, changes }) => {
      writable()
      const asked = applyChanges(build, changes)
      const next = options.assess === undefined ? asked : applyChanges(asked, settledJobs(asked, options.assess))
      const after = changesBetween(build, next)
      if (after.length === 0) return Number(getMeta(db, 'seq') ?? 0)
      const before = changesBetween(next, build)
      return commit(next, after, (seq) => {
        db.prepare('delete from journal where undone = 1').run()
        db.prepare('insert into journal (seq, label, "when", before, after) values (?, ?, ?, ?, ?)').run(
          seq,
          label.slice(0, 200),
          new Date().toISOString(),
          JSON.stringify(before),
          JSON.stringify(after),
        )
      })
    },
    undo: () => step(true),
    redo: () => step(false),
    history: (limit = 200) =>
      (db.prepare('select * from journal order by seq desc limit ?').all(limit) as Row[]).map(entryOf),
    close: () => {
      if (db.open) db.close()
      unlock()
    },
  }
}
