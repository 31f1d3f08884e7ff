/**
 * What a file is before it is read as a log: by its first bytes, its last ones and how its bytes are spread.
 * A file that cannot be a log is refused with a sentence that says what it is; nothing more of it is read.
 * Signatures: the file formats' own published magic numbers (PNG ISO/IEC 15948, JPEG ISO/IEC 10918-1, PDF ISO 32000,
 * ZIP APPNOTE 6.3, gzip RFC 1952, SQLite file format, Apache Parquet format).
 */
import { closeSync, openSync, readSync, statSync } from 'node:fs'
import { basename } from 'node:path'
import { refuse } from '../units/problem.ts'

export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252'

export interface FileSample {
  readonly name: string
  readonly size: number
  readonly head: Buffer
  readonly tail: Buffer
}

export const HEAD_BYTES = 256 * 1024
const TAIL_BYTES = 4096

export function sampleFile(path: string): FileSample {
  let fd: number
  try {
    if (!statSync(path).isFile())
      throw refuse('not-a-file', `${basename(path)} is a folder, not a log.`, 'Choose a file.')
    fd = openSync(path, 'r')
  } catch (cause) {
    if (cause instanceof Error && cause.name === 'Refusal') throw cause
    throw refuse(
      'unreadable-file',
      `${basename(path)} cannot be opened.`,
      'Check that it exists and that you may read it.',
    )
  }
  try {
    const size = statSync(path).size
    const head = Buffer.alloc(Math.min(size, HEAD_BYTES))
    const tail = Buffer.alloc(Math.min(size, TAIL_BYTES))
    readSync(fd, head, 0, head.length, 0)
    readSync(fd, tail, 0, tail.length, size - tail.length)
    return { name: basename(path), size, head, tail }
  } finally {
    closeSync(fd)
  }
}

/** [first bytes in hexadecimal, what it is, what to do]. */
const SIGNATURES: readonly (readonly [string, string, string])[] = [
  ['89504e470d0a1a0a', 'a PNG picture', 'Export the log itself as text, not a picture of it.'],
  ['ffd8ff', 'a JPEG picture', 'Export the log itself as text, not a picture of it.'],
  ['47494638', 'a GIF picture', 'Export the log itself as text, not a picture of it.'],
  ['49492a00', 'a TIFF picture', 'Export the log itself as text, not a picture of it.'],
  ['4d4d002a', 'a TIFF picture', 'Export the log itself as text, not a picture of it.'],
  ['25504446', 'a PDF document', 'Export the log as delimited text.'],
  ['1f8b', 'a gzip archive', 'Unpack it and import the file inside.'],
  ['377abcaf271c', 'a 7-Zip archive', 'Unpack it and import the file inside.'],
  ['425a68', 'a bzip2 archive', 'Unpack it and import the file inside.'],
  ['fd377a585a00', 'an xz archive', 'Unpack it and import the file inside.'],
  ['28b52ffd', 'a Zstandard archive', 'Unpack it and import the file inside.'],
  ['526172211a07', 'a RAR archive', 'Unpack it and import the file inside.'],
  ['53514c69746520666f726d6174203300', 'an SQLite database', 'Export the table that holds the log as delimited text.'],
  ['d0cf11e0a1b11ae1', 'an old office document (such as an XLS workbook)', 'Save the sheet as CSV.'],
  ['4d44462020202020', 'a measurement file in binary form (MDF)', 'Export it as delimited text.'],
  ['7f454c46', 'a program', 'Choose the log file.'],
  ['4d5a9000', 'a program', 'Choose the log file.'],
  ['7b5c727466', 'a rich-text document', 'Save it as plain text.'],
]

const refuseAs = (name: string, what: string, todo: string): never => {
  throw refuse('not-a-log', `${name} is ${what}, not a log.`, todo)
}

export const isParquet = ({ head, tail }: FileSample): boolean =>
  head.length >= 12 && head.toString('latin1', 0, 4) === 'PAR1' && tail.toString('latin1', tail.length - 4) === 'PAR1'

/** Throws a refusal when the bytes say that this is something else than text. */
export function refuseOtherKinds(sample: FileSample): void {
  const { name, size, head, tail } = sample
  if (size === 0) refuseAs(name, 'empty', 'Check that the logger had finished writing it.')
  const hex = head.toString('hex', 0, 16)
  for (const [magic, what, todo] of SIGNATURES) if (hex.startsWith(magic)) refuseAs(name, what, todo)
  const ascii = head.toString('latin1', 0, 16)
  if (ascii.startsWith('RIFF')) refuseAs(name, 'a sound, film or picture file (RIFF)', 'Choose the log file.')
  if (/^....ftyp/s.test(ascii)) refuseAs(name, 'a film', 'Choose the log file.')
  if (ascii.startsWith('BM') && head.length > 14 && head.readUInt32LE(2) === size)
    refuseAs(name, 'a BMP picture', 'Export the log itself as text.')
  if (ascii.startsWith('PK\u0003\u0004') || ascii.startsWith('PK\u0005\u0006')) {
    const inside = `${head.toString('latin1')}${tail.toString('latin1')}`
    if (inside.includes('xl/')) refuseAs(name, 'an XLSX workbook', 'Save the sheet with the log as CSV.')
    if (inside.includes('word/'))
      refuseAs(name, 'a word-processor document (DOCX)', 'Export the log as delimited text.')
    refuseAs(name, 'a zip archive', 'Unpack it and import the file inside.')
  }
  if (ascii.startsWith('PAR1'))
    refuseAs(name, 'a Parquet file whose end is missing', 'Copy it again; it was cut short.')
  const start = head
    .toString('latin1', 0, 2048)
    .replace(/^(\xef\xbb\xbf)?\s*/, '')
    .toLowerCase()
  if (/^(<!doctype html|<html|<head|<!--)/.test(start))
    refuseAs(name, 'a web page (HTML)', 'Download the log itself, not the page that shows it.')
  if (/^<(\?xml|svg)/.test(start)) refuseAs(name, 'an XML document', 'Export the log as delimited text.')
  if (/^[{[]\s*["{[\]}]/.test(start)) refuseAs(name, 'a JSON document', 'Export the log as delimited text.')
}

export interface TextForm {
  readonly encoding: Encoding
  /** Bytes of the byte-order mark. */
  readonly mark: number
}

/** How the text is encoded. Two bytes a character shows by its zeros even without a mark. Refuses binary files. */
export function textForm({ name, head: whole }: FileSample): TextForm {
  // A logger that was switched off leaves the space it had reserved as NULs behind the text.
  let filled = whole.length
  while (filled > 0 && whole[filled - 1] === 0) filled--
  if (filled === 0)
    refuseAs(name, 'filled with NUL bytes (nothing was written in it)', 'Read it from the logger again.')
  const head = whole.subarray(0, Math.min(whole.length, filled + 1))
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) return { encoding: 'utf-8', mark: 3 }
  if (head[0] === 0xff && head[1] === 0xfe) return { encoding: 'utf-16le', mark: 2 }
  if (head[0] === 0xfe && head[1] === 0xff) return { encoding: 'utf-16be', mark: 2 }
  let evenZeros = 0
  let oddZeros = 0
  let control = 0
  for (let i = 0; i < head.length; i++) {
    const byte = head[i]!
    if (byte === 0 && i % 2 === 0) evenZeros++
    else if (byte === 0) oddZeros++
    else if (byte < 32 && byte !== 9 && byte !== 10 && byte !== 13 && byte !== 12 && byte !== 26) control++
  }
  const half = head.length / 2
  if (oddZeros > 0.7 * half && evenZeros < 0.05 * half) return { encoding: 'utf-16le', mark: 0 }
  if (evenZeros > 0.7 * half && oddZeros < 0.05 * half) return { encoding: 'utf-16be', mark: 0 }
  if (control > 0.05 * head.length || evenZeros + oddZeros > 0.5 * head.length)
    refuseAs(name, 'a binary file', "Export the log as delimited text from the logger's own program.")
  return { encoding: isUtf8(whole) ? 'utf-8' : 'windows-1252', mark: 0 }
}

function isUtf8(head: Buffer): boolean {
  try {
    // The sample may end in the middle of a character: `stream` lets that pass.
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: true })
    return true
  } catch {
    return false
  }
}

export const decode = (bytes: Uint8Array, encoding: Encoding): string =>
  new TextDecoder(encoding, { ignoreBOM: false }).decode(bytes)
