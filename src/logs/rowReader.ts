/**
 * Delimited lines straight from the file's bytes: synchronous, one megabyte at a time, any line end (CR, LF, CRLF,
 * mixed). A line is never longer than the buffer; a longer one is passed over and flagged, so rubbish costs no memory.
 * A quoted cell never runs over a line end: loggers do not write such, and an unclosed quote must not eat the file.
 */
import { closeSync, openSync, readSync } from 'node:fs'

const CHUNK = 1 << 20
const MAX_CELLS = 1 << 14

export interface RowForm {
  /** '' for one value a line, ' ' for runs of blanks. */
  readonly delimiter: string
  readonly skipBytes: number
}

export class RowReader {
  /** Cells of the present row: buf[starts[k], ends[k]). Valid until the next call. */
  buf: Buffer = Buffer.allocUnsafe(CHUNK)
  readonly starts = new Int32Array(MAX_CELLS)
  readonly ends = new Int32Array(MAX_CELLS)
  count = 0
  /** Number of the present line, from 1. */
  line = 0
  lineStart = 0
  lineEnd = 0
  hasNul = false
  overlong = false
  unclosed = false
  /** False only for a last line without a line end. */
  ended = true
  bytesRead = 0
  private readonly fd: number
  private readonly delimiter: number
  private readonly blanks: boolean
  private pos = 0
  private len = 0
  private eof = false
  private closed = false

  constructor(path: string, form: RowForm) {
    this.fd = openSync(path, 'r')
    this.blanks = form.delimiter === ' '
    this.delimiter = form.delimiter === '' ? -1 : form.delimiter.charCodeAt(0)
    if (form.skipBytes > 0) readSync(this.fd, Buffer.alloc(form.skipBytes), 0, form.skipBytes, null)
  }

  /** Moves to the next line. False at the end of the file. */
  next(): boolean {
    this.overlong = false
    for (;;) {
      const done = this.split()
      if (done) return this.lineEnd >= 0
      if (this.pos === 0 && this.len === CHUNK) this.skipOverlong()
      else this.refill()
    }
  }

  close(): void {
    if (!this.closed) closeSync(this.fd)
    this.closed = true
  }

  private refill(): void {
    this.buf.copyWithin(0, this.pos, this.len)
    this.len -= this.pos
    this.pos = 0
    const got = readSync(this.fd, this.buf, this.len, CHUNK - this.len, null)
    this.len += got
    this.bytesRead += got
    if (got === 0) this.eof = true
  }

  /** The line fills the whole buffer: drop bytes until its end comes into sight, and hand out what is left of it. */
  private skipOverlong(): void {
    this.overlong = true
    for (;;) {
      let end = 0
      while (end < this.len && this.buf[end] !== 10 && this.buf[end] !== 13) end++
      if (end < this.len) {
        this.pos = end
        return
      }
      this.len = 0
      this.refill()
      if (this.eof) return
    }
  }

  /** Splits the line at `pos`. False when its end is not in the buffer yet. Sets lineEnd = -1 at the end of the file. */
  private split(): boolean {
    const { buf, len, starts, ends, delimiter, blanks, eof } = this
    let i = this.pos
    let start = i
    let n = 0
    this.hasNul = false
    this.unclosed = false
    if (i >= len) {
      if (!eof) return false
      if (!this.overlong) {
        this.lineEnd = -1
        return true
      }
    }
    let ended = false
    let quotedEnd = -1
    while (i < len) {
      const byte = buf[i]!
      if (byte > 44 && byte < 59 && byte !== delimiter) {
        i++
        continue
      }
      if (byte === 10 || byte === 13) {
        ended = true
        break
      }
      if (byte === delimiter || (blanks && byte === 9)) {
        if (blanks) {
          if (i > start && n < MAX_CELLS) {
            starts[n] = start
            ends[n++] = i
          }
        } else if (n < MAX_CELLS) {
          starts[n] = start
          ends[n++] = quotedEnd >= 0 ? quotedEnd : i
        }
        quotedEnd = -1
        start = ++i
        continue
      }
      if (byte === 34 && i === start) {
        let j = i + 1
        while (j < len && buf[j] !== 10 && buf[j] !== 13 && !(buf[j] === 34 && buf[j + 1] !== 34))
          j += buf[j] === 34 ? 2 : 1
        if (j >= len && !eof) return false
        if (j < len && buf[j] === 34) {
          start = i + 1
          quotedEnd = j
          i = j + 1
          if (i >= len && !eof) return false
          continue
        }
        this.unclosed = true
      } else if (byte === 0) this.hasNul = true
      i++
    }
    if (!ended && !eof) return false
    // CR and LF may stand on both sides of the buffer's edge.
    if (ended && buf[i] === 13 && i + 1 >= len && !eof) return false
    if (!blanks || i > start) {
      if (n < MAX_CELLS) {
        starts[n] = start
        ends[n++] = quotedEnd >= 0 ? quotedEnd : i
      }
    }
    this.count = n
    this.lineStart = this.pos
    this.lineEnd = i
    this.ended = ended
    this.line++
    this.pos = ended ? i + (buf[i] === 13 && i + 1 < len && buf[i + 1] === 10 ? 2 : 1) : i
    return true
  }
}
