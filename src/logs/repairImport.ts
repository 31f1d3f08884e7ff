/** Writes a scanned log, row by row, into Parquet: DuckDB asks for rows and our reader hands them over. */
import { dirname } from 'node:path'
import { DOUBLE, type DuckDBDataChunk, DuckDBTableFunction, INTEGER, VARCHAR } from '@duckdb/node-api'
import { TEXT } from './cells.ts'
import { literal, withDuck } from './duck.ts'
import { metadataClause, storedLog } from './parquetFile.ts'
import type { ReadingPlan } from './plan.ts'
import type { Scan, Walk } from './scan.ts'
import { openRows } from './spreadRows.ts'

const CHUNK_ROWS = 2048

export async function writeRepaired(
  path: string,
  target: string,
  plan: ReadingPlan,
  scan: Scan,
  walk: Walk,
): Promise<void> {
  const log = openRows(path, plan, () => {})
  const { channels } = scan
  const texts = channels.map(({ states }) => states !== undefined)
  const marks = channels.map(({ sentinels }) => new Set(sentinels))
  const marked = marks.map((set) => set.size > 0)
  const starts = scan.sessions.map(({ firstRow }) => firstRow)
  const strays = new Set(scan.timeline.strays)
  const shifts = scan.timeline.shifts
  let session = 0
  let shiftAt = 0
  let shift = 0
  const columns = channels.map((_, channel) =>
    texts[channel] ? new Array<string | null>(CHUNK_ROWS) : new Float64Array(CHUNK_ROWS),
  )
  const times = new Float64Array(CHUNK_ROWS)
  const sessions = new Int32Array(CHUNK_ROWS)

  const fill = (): number => {
    let rows = 0
    while (rows < CHUNK_ROWS && log.next()) {
      while (session + 1 < starts.length && log.row >= starts[session + 1]!) session++
      while (shiftAt < shifts.length && log.row >= shifts[shiftAt]!.row) shift = shifts[shiftAt++]!.add
      sessions[rows] = session
      times[rows] = !scan.timeUsable ? log.row : strays.has(log.row) ? Number.NaN : log.time + shift
      for (let channel = 0; channel < columns.length; channel++) {
        const column = columns[channel]!
        const present = channel < log.kinds.length
        if (column instanceof Float64Array) {
          const value = present ? log.values[channel]! : Number.NaN
          column[rows] = marked[channel] && marks[channel]!.has(value) ? Number.NaN : value
        } else
          column[rows] =
            present && (log.kinds[channel] === TEXT || !Number.isNaN(log.values[channel]!)) ? log.text(channel) : null
      }
      rows++
    }
    return rows
  }

  const write = (
    chunk: DuckDBDataChunk,
    at: number,
    column: Float64Array | (string | null)[] | Int32Array,
    rows: number,
  ): void => {
    const vector = chunk.getColumnVector(at) as unknown as {
      setItem(row: number, value: number | string | null): void
      flush(): void
    }
    for (let row = 0; row < rows; row++) {
      const value = column[row]!
      vector.setItem(row, typeof value === 'number' && Number.isNaN(value) ? null : value)
    }
    vector.flush()
  }

  try {
    await withDuck({ folders: [dirname(target)], spill: dirname(target) }, async (connection) => {
      let calls = 0
      const source = DuckDBTableFunction.create({
        name: 'log_rows',
        bindFunction: (bind) => {
          bind.addResultColumn('session', INTEGER)
          bind.addResultColumn('t', DOUBLE)
          channels.forEach((_, channel) => {
            bind.addResultColumn(`c${channel}`, texts[channel] ? VARCHAR : DOUBLE)
          })
        },
        initFunction: () => {},
        mainFunction: (info, chunk) => {
          if (walk.signal?.aborted) {
            info.setError('cancelled')
            return
          }
          const rows = fill()
          chunk.rowCount = rows
          if (rows === 0) return
          write(chunk, 0, sessions, rows)
          write(chunk, 1, times, rows)
          columns.forEach((column, channel) => {
            write(chunk, channel + 2, column, rows)
          })
          if (++calls % 16 === 0) walk.onProgress?.(log.bytesRead)
        },
      })
      connection.registerTableFunction(source)
      try {
        await connection.run(
          `copy (select * from log_rows()) to ${literal(target)} (format parquet, compression zstd, use_tmp_file false, ${metadataClause(storedLog(channels, scan.timeUsable))})`,
        )
      } catch (cause) {
        walk.signal?.throwIfAborted()
        throw cause
      }
    })
  } finally {
    log.close()
  }
  if (log.row + 1 !== scan.samples)
    throw new Error(`the log changed while it was read: ${scan.samples} rows, then ${log.row + 1}`)
}
