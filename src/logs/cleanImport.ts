/**
 * The short way for a clean file: DuckDB reads it strictly, so a ragged row or a cell that is no number stops it and
 * the long way is taken instead. Nothing is skipped and nothing padded here.
 */
import { basename, dirname } from 'node:path'
import { type CellResult, NUMBER, readCell, splitLine } from './cells.ts'
import { literal, withDuck } from './duck.ts'
import type { FileSample } from './fileKind.ts'
import { toSeconds } from './logRows.ts'
import { followTime, footerStatistics, metadataClause, storedLog } from './parquetFile.ts'
import type { ReadingPlan, TimeForm } from './plan.ts'
import type { LogReport } from './report.ts'

/** Seconds from the printed number, the way the other reader does it: one division, no second rounding. */
const TO_SECONDS: Partial<Record<TimeForm, string>> = {
  seconds: '',
  epoch: '',
  milliseconds: ' / 1000',
  'epoch-milliseconds': ' / 1000',
  microseconds: ' / 1000000',
  minutes: ' * 60',
  hours: ' * 3600',
}
const SUSPICIOUS = (low: number | null, high: number | null): boolean =>
  (low !== null && low <= -999) ||
  (high !== null && [9999, 99999, 999999, 32767, 65535, 2147483647, 4294967295].includes(high))

/** Undefined when the file is not clean enough: take the long way. */
export async function importClean(
  source: string,
  part: string,
  plan: ReadingPlan,
  sample: FileSample,
  walk: { signal?: AbortSignal; onProgress?: (share: number) => void },
): Promise<LogReport | undefined> {
  const { form, column, rate } = plan.time
  const scale = TO_SECONDS[form]
  const eligible =
    plan.encoding === 'utf-8' &&
    (plan.lineEnd === 'LF' || plan.lineEnd === 'CRLF') &&
    plan.delimiter !== '' &&
    plan.delimiter !== ' ' &&
    plan.hexadecimal.length === 0 &&
    plan.spread === undefined &&
    column >= 0 &&
    (scale !== undefined || form === 'sample-number')
  if (!eligible || plan.names.length < 2 || !tailFits(sample, plan)) return undefined
  const types = plan.names.map((_, index) => `'k${index}': 'DOUBLE'`).join(', ')
  const options = [
    `auto_detect=false`,
    `header=false`,
    `skip=${plan.dataLine - 1}`,
    `delim=${literal(plan.delimiter)}`,
    `quote='"'`,
    `escape='"'`,
    `decimal_separator=${literal(plan.decimal)}`,
    `columns={${types}}`,
    `max_line_size=1048576`,
  ]
  const kept = plan.names.map((_, index) => index).filter((index) => index !== column)
  const time = form === 'sample-number' ? `k${column} / ${rate}` : `k${column}${scale}`
  const channels = kept.map((index) => ({ name: plan.names[index]!, unit: plan.units[index] ?? '' }))
  return withDuck({ folders: [dirname(source), dirname(part)], spill: dirname(part) }, async (connection) => {
    const list = kept.map((index, at) => `, k${index} as c${at}`).join('')
    const cancel = (): void => connection.interrupt()
    walk.signal?.throwIfAborted()
    walk.signal?.addEventListener('abort', cancel, { once: true })
    const ticker = setInterval(() => walk.onProgress?.(Math.max(0, connection.progress.percentage) / 100), 200)
    try {
      await connection.run(
        `copy (select 0::integer as session, ${time} as t${list} from read_csv(${literal(source)}, ${options.join(', ')})) to ${literal(part)} (format parquet, compression zstd, use_tmp_file false, ${metadataClause(storedLog(channels, true))})`,
      )
    } catch {
      // Whatever stopped it (a short row, a text, a NUL), the long way names it with its line.
      walk.signal?.throwIfAborted()
      return undefined
    } finally {
      clearInterval(ticker)
      walk.signal?.removeEventListener('abort', cancel)
    }
    const from = `read_parquet(${literal(part)})`
    const track = await followTime(connection, from, 't', form)
    const found = await footerStatistics(
      connection,
      literal(part),
      channels.map((_, at) => `c${at}`),
    )
    if (found === undefined) return undefined
    const { samples, stats } = found
    const troubled =
      samples === 0 ||
      track.sessions.length !== 1 ||
      track.strays.length > 0 ||
      track.shifts.length > 0 ||
      track.repeated.count > 0 ||
      track.missing.count > 0 ||
      track.gaps.count > 0
    if (troubled || stats.some(({ min, max, missing }) => SUSPICIOUS(min, max) || missing === samples)) return undefined
    const { first, last } = track.sessions[0]!
    // DuckDB and we may count the lines before the data differently; a row lost there would leave no trace.
    if (first !== firstTime(sample, plan)) return undefined
    const endsOpen = !/[\r\n]$/.test(sample.tail.toString('latin1'))
    return {
      source: basename(source),
      bytes: sample.size,
      way: 'clean' as const,
      samples,
      first,
      last,
      step: track.step,
      timeForm: form,
      channels: channels.map((channel, at) => ({ ...channel, ...stats[at]!, sentinels: [] })),
      sessions: [{ samples, first, last, firstRow: 0, firstLine: plan.dataLine }],
      warnings: endsOpen ? [{ text: 'The last line has no line end; its last value may be cut short.' }] : [],
      understood: plan.understood,
      guesses: plan.guesses,
    }
  })
}

/** The last lines have as many cells as there are names: else DuckDB would read far to fail. */
function tailFits(sample: FileSample, plan: ReadingPlan): boolean {
  const lines = sample.tail
    .toString('latin1')
    .split(/\r?\n/)
    .slice(1)
    .filter((line) => line.trim() !== '')
  return lines.every((line) => splitLine(line, plan.delimiter).length === plan.names.length)
}

/** Seconds of the first row of values, as our own reader reads them. */
function firstTime(sample: FileSample, plan: ReadingPlan): number | undefined {
  const { form, column, rate } = plan.time
  const line = sample.head.toString('utf8', plan.mark).split(/\r?\n/)[plan.dataLine - 1] ?? ''
  const bytes = Buffer.from(splitLine(line, plan.delimiter)[column] ?? '')
  const cell: CellResult = { kind: 0, value: 0, suffix: '' }
  readCell(bytes, 0, bytes.length, plan.decimal.charCodeAt(0), cell)
  if (cell.kind !== NUMBER) return undefined
  return form === 'sample-number' ? cell.value / rate! : toSeconds(form, cell.value)
}
