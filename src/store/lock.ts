/**
 * One writer to a build (SPEC 5). The lock is a tiny SQLite file whose write lock is held as long as the build is open: the
 * operating system frees it when the process ends in any way, so a killed process leaves nothing stale behind.
 * Inside stands who holds it, readable by whoever is refused. Not to be trusted on network drives without file locks.
 */

import { join } from 'node:path'
import Database from 'better-sqlite3'
import { refuse } from '../units/problem.ts'

export const LOCK_FILE = 'build.lock'

interface Holder {
  readonly pid: number
  readonly since: string
}

const isBusy = (error: unknown): boolean =>
  error instanceof Database.SqliteError && (error.code.startsWith('SQLITE_BUSY') || error.code === 'SQLITE_LOCKED')

const holderOf = (db: Database.Database): Holder | undefined => {
  try {
    return db.prepare('select pid, since from holder').get() as Holder | undefined
  } catch {
    // The holder is just writing its name. The refusal stands without it.
    return undefined
  }
}

/** Takes the lock and returns what gives it back. Throws Refusal `build-in-use`. */
export const takeLock = (folder: string): (() => void) => {
  const db = new Database(join(folder, LOCK_FILE), { timeout: 0 })
  try {
    db.pragma('journal_mode = DELETE')
    db.exec('begin immediate; create table if not exists holder (pid integer not null, since text not null)')
    db.prepare('delete from holder').run()
    db.prepare('insert into holder values (?, ?)').run(process.pid, new Date().toISOString())
    db.exec('commit; begin immediate')
  } catch (error) {
    const holder = holderOf(db)
    db.close()
    if (isBusy(error))
      throw refuse(
        'build-in-use',
        `The build in ${folder} is open in another Swapwright${holder === undefined ? '' : ` (process ${holder.pid}) since ${holder.since}`}.`,
        'Close that one, or make the change there; nothing was changed. Reading and checking work meanwhile.',
        folder,
      )
    if (error instanceof Database.SqliteError)
      throw refuse(
        'lock-unusable',
        `${join(folder, LOCK_FILE)} cannot be used as a lock (${error.message}).`,
        'Check that the folder can be written to; if no workbench runs, delete that file.',
        folder,
      )
    throw error
  }
  return () => {
    if (!db.open) return
    db.exec('rollback')
    db.close()
  }
}
