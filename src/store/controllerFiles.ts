/**
 * Files of the controller, kept in the build's folder under the SHA-256 of their content (FIPS 180-4): one content is
 * kept once, nothing is ever written over, and what comes out is checked to be what went in.
 */
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { FileDifference } from '../assess/ledger/difference.ts'
import { currentChange } from '../assess/ledger/ledger.ts'
import type { Build, Entity } from '../model/build.ts'
import { nextId } from '../model/newId.ts'
import { refuse } from '../units/problem.ts'
import { fileDifference } from './fileDifference.ts'
import type { Store } from './store.ts'

const LARGEST = 64e6
const sha256 = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex')
const placeOf = (store: Store, hash: string): string => join(store.folder, 'files', hash)

export interface FileSaid {
  readonly name: string
  /** Why it was changed. */
  readonly says: string
  readonly by: string
  readonly when: string
  /** collection/id or sheet/name. */
  readonly belongs?: readonly string[]
}
type Change = Entity<'records'>

/** Keeps the bytes and gives their hash; the same content is kept once. */
export const keepBytes = (store: Store, bytes: Buffer): string => {
  const hash = sha256(bytes)
  const place = placeOf(store, hash)
  if (!existsSync(place)) {
    mkdirSync(join(store.folder, 'files'), { recursive: true })
    writeFileSync(`${place}.part`, bytes)
    renameSync(`${place}.part`, place)
  }
  return hash
}

/** Bytes as they went in. Throws `Refusal` where they are gone or are no longer what their hash says. */
const bytesOf = (store: Store, { name, sha256: hash }: NonNullable<Change['file']>): Buffer => {
  const place = placeOf(store, hash)
  if (!existsSync(place))
    throw refuse('no-file', `${name} is not in the build’s folder.`, 'Bring it back from a copy of the folder.')
  const bytes = readFileSync(place)
  if (sha256(bytes) !== hash)
    throw refuse(
      'file-altered',
      `${name} in the build’s folder is no longer what was kept: its SHA-256 differs.`,
      'Do not load it into a controller. Bring it back from a copy of the folder.',
    )
  return bytes
}

const withFile = (build: Build, id: string): Change & { readonly file: NonNullable<Change['file']> } => {
  const record = Object.hasOwn(build.collections.records, id) ? build.collections.records[id] : undefined
  if (!record?.file) throw refuse('no-change', `There is no calibration change ${id}.`, 'Choose one of the list.')
  return { ...record, file: record.file }
}

const named = (by: string): void => {
  if (by.trim() === '')
    throw refuse('no-name', 'Nobody’s name is on it.', 'Say who changed it: the next one to drive will ask.')
}

const recordOf = (store: Store, bytes: Buffer, said: FileSaid, before: ReturnType<typeof currentChange>): Change => {
  const { records } = store.read().collections
  const difference = before && fileDifference(bytesOf(store, before.file), bytes)
  return {
    id: nextId(records, 'C'),
    kind: 'calibration change',
    title: said.says.trim().slice(0, 160) || 'First file',
    when: said.when,
    by: said.by.trim(),
    file: {
      name: said.name,
      sha256: keepBytes(store, bytes),
      bytes: bytes.length,
      ...(before ? { before: before.id } : {}),
      ...(difference
        ? { differs: { bytes: difference.bytes, ...(difference.lines ? { lines: difference.lines } : {}) } }
        : {}),
      ...(said.belongs && said.belongs.length > 0 ? { belongs: [...said.belongs] } : {}),
    },
  }
}

/** Keeps a file as the newest of the ledger. Throws `Refusal`: too large, no name, the same as the one before. */
export const addControllerFile = (store: Store, file: string, said: FileSaid): Change => {
  named(said.by)
  const bytes = readFileSync(file)
  if (bytes.length > LARGEST)
    throw refuse('too-large', `${said.name} is larger than 64 MB.`, 'Is it the controller’s file, and not a log?')
  if (bytes.length === 0) throw refuse('empty-file', `${said.name} is empty.`, 'Save it from the controller again.')
  const before = currentChange(store.read())
  if (before && before.file.sha256 === sha256(bytes))
    throw refuse(
      'same-file',
      `${said.name} is byte for byte the file of “${before.title}”.`,
      'Nothing was changed; nothing was kept twice.',
    )
  const record = recordOf(store, bytes, said, before)
  store.edit({
    label: `Controller file ${said.name}`.slice(0, 160),
    changes: [{ collection: 'records', id: record.id, value: record }],
  })
  return record
}

/** An older file is the one in the controller again: a change of its own, so that the way there stays readable. */
export const backToFile = (store: Store, id: string, said: Pick<FileSaid, 'by' | 'when'>): Change => {
  named(said.by)
  const old = withFile(store.read(), id)
  const before = currentChange(store.read())
  if (before?.file.sha256 === old.file.sha256)
    throw refuse('same-file', 'That is the file that is in the controller now.', 'Nothing is to be done.')
  const record = recordOf(
    store,
    bytesOf(store, old.file),
    {
      ...said,
      name: old.file.name,
      says: `Back to: ${old.title}`,
      ...(old.file.belongs ? { belongs: old.file.belongs } : {}),
    },
    before,
  )
  store.edit({
    label: `Controller file back to ${old.title}`.slice(0, 160),
    changes: [{ collection: 'records', id: record.id, value: record }],
  })
  return record
}

export const controllerFile = (store: Store, id: string): { readonly name: string; readonly bytes: Buffer } => {
  const { file } = withFile(store.read(), id)
  return { name: file.name, bytes: bytesOf(store, file) }
}

/** What differs from the file that it was made from, worked out anew from the kept files. */
export const controllerFileDiffers = (store: Store, id: string): FileDifference => {
  const build = store.read()
  const { file, title } = withFile(build, id)
  if (file.before === undefined)
    throw refuse('first-file', `“${title}” is the first file of the ledger.`, 'There is none to compare it with.')
  return fileDifference(bytesOf(store, withFile(build, file.before).file), bytesOf(store, file))
}
