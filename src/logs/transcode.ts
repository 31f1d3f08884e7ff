/** UTF-16 to UTF-8 in a stream, into a file of its own: the readers and DuckDB then see bytes they know. */
import { createReadStream, createWriteStream } from 'node:fs'
import { rm } from 'node:fs/promises'
import { Transform } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import type { Encoding } from './fileKind.ts'

export async function transcode(
  source: string,
  target: string,
  encoding: Encoding,
  signal?: AbortSignal,
): Promise<void> {
  const decoder = new TextDecoder(encoding)
  const convert = new Transform({
    transform(chunk: Buffer, _encoding, done) {
      done(null, Buffer.from(decoder.decode(chunk, { stream: true }), 'utf-8'))
    },
    flush(done) {
      done(null, Buffer.from(decoder.decode(), 'utf-8'))
    },
  })
  try {
    await pipeline(createReadStream(source), convert, createWriteStream(target), { signal })
  } catch (cause) {
    await rm(target, { force: true })
    throw cause
  }
}
