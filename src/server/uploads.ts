/** A file sent by the page, streamed to a folder of its own; the name it came with never becomes a path. */
import { createWriteStream } from 'node:fs'
import { mkdtemp, rm, statfs } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, extname, join } from 'node:path'
import { Readable, Transform } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import type { ReadableStream as NodeStream } from 'node:stream/web'
import { refuse } from '../units/problem.ts'

/** A file may fill half of what is free: the other half is for the store that it becomes. */
const within = (room: number): Transform => {
  let taken = 0
  return new Transform({
    transform(chunk: Uint8Array, _encoding, done) {
      taken += chunk.byteLength
      if (taken <= room) done(null, chunk)
      else
        done(
          refuse(
            'no-room',
            `The file is larger than the ${Math.floor(room / 1e6)} MB that this machine can take in now.`,
            'Free some disk space, or read the file in with "swapwright log add".',
          ),
        )
    },
  })
}

export const withUpload = async <T>(
  body: ReadableStream<Uint8Array> | null,
  name: string,
  use: (file: string, name: string) => Promise<T>,
): Promise<T> => {
  if (!body) throw refuse('no-file', 'No file came with the request.', 'Choose the file again.')
  const folder = await mkdtemp(join(tmpdir(), 'swapwright-'))
  try {
    const plain = basename(name).slice(0, 120) || 'file'
    const file = join(
      folder,
      `upload${extname(plain)
        .replace(/[^A-Za-z0-9.]/g, '')
        .slice(0, 8)}`,
    )
    const { bavail, bsize } = await statfs(folder)
    await pipeline(
      Readable.fromWeb(body as NodeStream<Uint8Array>),
      within((bavail * bsize) / 2),
      createWriteStream(file),
    )
    return await use(file, plain)
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}
