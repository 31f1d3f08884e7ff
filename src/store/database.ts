/** The SQLite file of a build: its tables, how it is made, and how it is refused when it is not one. */

import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, readSync, renameSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { type Refusal, refuse } from '../units/problem.ts'

export const DATABASE_FILE = 'build.sqlite'
/** "Swap" in ASCII: tells our file from any other SQLite file (PRAGMA application_id). */
const APPLICATION_ID = 0x53776170
/** Version of the tables (PRAGMA user_version); the records inside follow the format of the build document. */
const TABLES_VERSION = 1

const TABLES = `
create table meta (key text primary key, value text not null) without rowid;
create table record (collection text not null, id text not null, json text not null, primary key (collection, id)) without rowid;
create table sheet (name text primary key, json text not null) without rowid;
create table journal (
  seq integer primary key,
  label text not null,
  "when" text not null,
  before text not null,
  after text not null,
  undone integer not null default 0
);
`

export const databasePath = (folder: string): string => join(folder, DATABASE_FILE)
export const hasBuild = (folder: string): boolean => existsSync(databasePath(folder))

const damaged = (path: string, how: string): Refusal =>
  refuse(
    'not-a-build-file',
    `${path} ${how}.`,
    'Put back a copy of the folder, or import an exported build into another folder. The file was not changed.',
    path,
  )

const HEADER = 'SQLite format 3\0'

const checkHeader = (path: string): void => {
  const head = Buffer.alloc(100)
  const file = openSync(path, 'r')
  let length: number
  try {
    length = readSync(file, head, 0, 100, 0)
  } finally {
    closeSync(file)
  }
  if (length === 0) throw damaged(path, 'is empty')
  if (head.toString('latin1', 0, Math.min(16, length)) !== HEADER.slice(0, Math.min(16, length)))
    throw damaged(path, 'is not a database')
  if (length < 100) throw damaged(path, 'is cut short')
}

/** Looks the file over through a read-only connection, so that a refused file keeps every byte. */
const inspect = (path: string): void => {
  checkHeader(path)
  const db = openFile(path, true)
  try {
    if (db.pragma('application_id', { simple: true }) !== APPLICATION_ID)
      throw damaged(path, 'is a database, but not of a Swapwright build')
    const version = db.pragma('user_version', { simple: true }) as number
    if (version > TABLES_VERSION)
      throw refuse(
        'newer-format',
        `${path} was written by a newer Swapwright (tables ${version}); this one reads up to ${TABLES_VERSION}.`,
        'Update Swapwright and open it again. The file was not changed.',
        path,
      )
    const answer = db.pragma('quick_check(1)', { simple: true })
    if (answer !== 'ok') throw damaged(path, `is damaged (${String(answer).split('\n')[0]?.slice(0, 120)})`)
  } catch (error) {
    throw asRefusal(path, error)
  } finally {
    db.close()
  }
}

const asRefusal = (path: string, error: unknown): unknown => {
  if (!(error instanceof Database.SqliteError)) return error
  if (error.code.startsWith('SQLITE_CORRUPT') || error.code === 'SQLITE_NOTADB')
    return damaged(path, `is cut short or damaged (${error.message})`)
  if (
    error.code.startsWith('SQLITE_CANTOPEN') ||
    error.code.startsWith('SQLITE_READONLY') ||
    error.code.startsWith('SQLITE_IOERR')
  )
    return refuse(
      'unreachable',
      `${path} cannot be opened (${error.message}).`,
      'Check the rights on the folder and the room on the disk.',
      path,
    )
  return error
}

const openFile = (path: string, readonly: boolean): Database.Database => {
  try {
    return new Database(path, { readonly, fileMustExist: true, timeout: 2000 })
  } catch (error) {
    throw asRefusal(path, error)
  }
}

export const openDatabase = (folder: string, readOnly: boolean): Database.Database => {
  const path = databasePath(folder)
  if (!existsSync(path))
    throw refuse(
      'no-build',
      `There is no build in ${folder}.`,
      'Name another folder, or make one: swapwright demo <folder>.',
      folder,
    )
  inspect(path)
  const db = openFile(path, readOnly)
  if (!readOnly) {
    db.pragma('journal_mode = WAL')
    db.pragma('synchronous = FULL')
  }
  return db
}

/** Makes the file beside its place and moves it there whole, so that a kill in between leaves no half-made build. */
export const createDatabase = (folder: string, fill: (db: Database.Database) => void): void => {
  for (const part of ['', 'logs', 'photos']) mkdirSync(join(folder, part), { recursive: true })
  const part = join(folder, `.${DATABASE_FILE}.${process.pid}.part`)
  rmSync(part, { force: true })
  try {
    const db = new Database(part)
    try {
      db.pragma('synchronous = FULL')
      db.pragma(`application_id = ${APPLICATION_ID}`)
      db.pragma(`user_version = ${TABLES_VERSION}`)
      db.transaction(() => {
        db.exec(TABLES)
        fill(db)
      })()
      db.pragma('journal_mode = WAL')
    } finally {
      db.close()
    }
    renameSync(part, databasePath(folder))
    syncFolder(folder)
  } catch (error) {
    for (const end of ['', '-journal', '-wal', '-shm']) rmSync(part + end, { force: true })
    throw error
  }
}

/** The rename itself must reach the disk. Some systems cannot open a folder; there the rename is as durable as it gets. */
const syncFolder = (folder: string): void => {
  try {
    const handle = openSync(folder, 'r')
    try {
      fsyncSync(handle)
    } finally {
      closeSync(handle)
    }
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code
    if (code !== 'EPERM' && code !== 'EISDIR' && code !== 'EINVAL' && code !== 'EACCES') throw error
  }
}
