/** Photographs of the build: the file is kept as it came, under a name of our own; the record says what it is about. */
import { createHash } from 'node:crypto'
import { copyFileSync, existsSync, readFileSync, renameSync } from 'node:fs'
import { join } from 'node:path'
import type { Entity } from '../model/build.ts'
import { refuse } from '../units/problem.ts'
import type { Store } from './store.ts'

const LARGEST = 60e6
/** First bytes: JPEG ISO/IEC 10918-1, PNG ISO/IEC 15948, WebP RFC 9649, HEIF ISO/IEC 23008-12. */
const KINDS: readonly { readonly ending: string; readonly type: string; readonly is: (head: Buffer) => boolean }[] = [
  { ending: '.jpg', type: 'image/jpeg', is: (head) => head.subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff])) },
  { ending: '.png', type: 'image/png', is: (head) => head.subarray(1, 4).toString('latin1') === 'PNG' },
  {
    ending: '.webp',
    type: 'image/webp',
    is: (head) =>
      head.subarray(0, 4).toString('latin1') === 'RIFF' && head.subarray(8, 12).toString('latin1') === 'WEBP',
  },
  {
    ending: '.heic',
    type: 'image/heic',
    is: (head) => /^ftyp(heic|heix|mif1|msf1)/.test(head.subarray(4, 12).toString('latin1')),
  },
]

/** Adds a photograph. The same picture sent twice (its first answer lost) is kept once. Throws Refusal. */
export const addPhoto = (
  store: Store,
  file: string,
  { name, about, when }: { readonly name: string; readonly about?: string; readonly when: string },
): Entity<'photos'> => {
  const bytes = readFileSync(file)
  if (bytes.length > LARGEST)
    throw refuse('too-large', `${name} is larger than 60 MB.`, 'Take it again at a smaller size.')
  const kind = KINDS.find(({ is }) => is(bytes.subarray(0, 16)))
  if (!kind)
    throw refuse('not-a-photo', `${name} is no JPEG, PNG, WebP or HEIC picture.`, 'Choose the photograph itself.')
  const id = `P-${createHash('sha256').update(bytes).digest('hex').slice(0, 12)}`
  const known = store.read().collections.photos[id]
  if (known) return known
  const stored = `${id}${kind.ending}`
  const place = join(store.folder, 'photos', stored)
  copyFileSync(file, `${place}.part`)
  renameSync(`${place}.part`, place)
  const photo: Entity<'photos'> = {
    id,
    file: stored,
    ...(about === undefined ? {} : { about }),
    when: Number.isNaN(Date.parse(when)) ? new Date().toISOString() : new Date(when).toISOString(),
  }
  store.edit({ label: `Photo ${name}`.slice(0, 160), changes: [{ collection: 'photos', id, value: photo }] })
  return photo
}

/** The stored bytes of a photograph and their type. Throws Refusal. */
export const photoFile = (store: Store, id: string): { readonly type: string; readonly bytes: Buffer } => {
  const photos = store.read().collections.photos
  const photo = Object.hasOwn(photos, id) ? photos[id] : undefined
  const place = photo && join(store.folder, 'photos', photo.file.replace(/[/\\]/g, '_'))
  if (!photo || !place || !existsSync(place))
    throw refuse('no-photo', `The build has no photograph ${id}.`, 'It may have been taken away; reload the page.')
  const kind = KINDS.find(({ ending }) => photo.file.endsWith(ending))
  return { type: kind?.type ?? 'application/octet-stream', bytes: readFileSync(place) }
}
