/**
 * Phones that may work on this build from the home network. A phone brings a one-time code (shown on this machine,
 * ten minutes) and gets a token (ninety days); only the token's hash is kept, and revoking it takes effect at once.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto'
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'

export interface PairedDevice {
  readonly id: string
  readonly name: string
  readonly paired: string
  readonly ends: string
  readonly seen: string | null
  readonly revoked: boolean
}

export interface Devices {
  list(): PairedDevice[]
  /** A new one-time code; the one before it is void. */
  newCode(): { readonly code: string; readonly ends: Date }
  /** The token, or undefined for a code that is wrong, used or too old. */
  pair(code: string, name: string): { readonly token: string; readonly ends: Date } | undefined
  /** The device that a token belongs to, unless it is revoked or has ended. */
  deviceOf(token: string): PairedDevice | undefined
  revoke(id: string): void
  close(): void
}

const CODE_LASTS = 10 * 60_000
const TOKEN_LASTS = 90 * 86_400_000
const hash = (text: string): string => createHash('sha256').update(text).digest('hex')
const same = (a: string, b: string): boolean => a.length === b.length && timingSafeEqual(Buffer.from(a), Buffer.from(b))

interface Row {
  id: string
  name: string
  paired: string
  ends: string
  seen: string | null
  revoked: number
}
const deviceOfRow = (row: Row): PairedDevice => ({ ...row, revoked: row.revoked === 1 })

export const openDevices = (folder: string, now: () => number = Date.now): Devices => {
  mkdirSync(folder, { recursive: true, mode: 0o700 })
  const database = new Database(join(folder, 'devices.sqlite'))
  database.pragma('journal_mode = WAL')
  database.exec(`create table if not exists device (
    id text primary key, name text not null, token text not null unique, paired text not null, ends text not null,
    seen text, revoked integer not null default 0
  ) strict`)
  const columns = 'id, name, paired, ends, seen, revoked'
  const byToken = database.prepare(`select ${columns} from device where token = ? and revoked = 0 and ends > ?`)
  const touch = database.prepare('update device set seen = ? where id = ?')
  let code: { text: string; ends: number } | undefined
  const stamp = (at = now()): string => new Date(at).toISOString()
  return {
    list: () =>
      (database.prepare(`select ${columns} from device order by paired desc`).all() as Row[]).map(deviceOfRow),
    newCode: () => {
      code = { text: randomBytes(16).toString('base64url'), ends: now() + CODE_LASTS }
      return { code: code.text, ends: new Date(code.ends) }
    },
    pair: (given, name) => {
      if (!code || code.ends < now() || !same(hash(given), hash(code.text))) return undefined
      code = undefined
      const token = randomBytes(32).toString('base64url')
      const ends = new Date(now() + TOKEN_LASTS)
      database
        .prepare('insert into device (id, name, token, paired, ends) values (?, ?, ?, ?, ?)')
        .run(randomBytes(6).toString('hex'), name.slice(0, 60), hash(token), stamp(), ends.toISOString())
      return { token, ends }
    },
    deviceOf: (token) => {
      const row = byToken.get(hash(token), stamp()) as Row | undefined
      if (!row) return undefined
      // Once a minute is often enough to say when a phone was last here.
      if (row.seen === null || Date.parse(row.seen) < now() - 60_000) touch.run(stamp(), row.id)
      return deviceOfRow(row)
    },
    revoke: (id) => {
      database.prepare('update device set revoked = 1 where id = ?').run(id)
    },
    close: () => database.close(),
  }
}
