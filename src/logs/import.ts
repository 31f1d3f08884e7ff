/**
 * A log file into Parquet. A clean text file goes straight through DuckDB; anything it stumbles over goes through our
 * own reader, twice: once to report, once to write. The target appears whole or not at all.
 */
import { randomBytes } from 'node:crypto'
import { mkdir, rename, rm, stat } from 'node:fs/promises'
import { basename, dirname, resolve } from 'node:path'
import { refuse } from '../units/problem.ts'
import { importClean } from './cleanImport.ts'
import { literal, withDuck } from './duck.ts'
import { isParquet, sampleFile } from './fileKind.ts'
import { inspectLog, readLog } from './inspect.ts'
import { followTime, metadataClause, readForeign, readStored, storedLog } from './parquetFile.ts'
import type { Overrides, TimeForm } from './plan.ts'
import { writeRepaired } from './repairImport.ts'
import type { LogReport } from './report.ts'
import { sniff } from './sniff.ts'

export type { LogReport } from './report.ts'

export interface ImportOptions {
  readonly overrides?: Overrides
  /** Share done, 0 … 1. */
  readonly onProgress?: (share: number) => void
  readonly signal?: AbortSignal
}

export async function importLog(file: string, target: string, options: ImportOptions = {}): Promise<LogReport> {
  const overrides = options.overrides ?? {}
  const source = resolve(file)
  const final = resolve(target)
  if (source === final) throw refuse('same-file', 'The log would be stored over itself.', 'Give another target.')
  const sample = sampleFile(source)
  const part = resolve(dirname(final), `.${basename(final)}.${randomBytes(4).toString('hex')}.part`)
  await mkdir(dirname(final), { recursive: true })
  const report = (done: number): void => options.onProgress?.(Math.min(1, done))
  try {
    const result = isParquet(sample) ? await importParquet(source, part, overrides) : await importText()
    options.signal?.throwIfAborted()
    await rename(part, final)
    report(1)
    return result
  } catch (cause) {
    await rm(part, { force: true })
    throw cause
  }

  async function importText(): Promise<LogReport> {
    const plan = sniff(sample, overrides)
    const clean = await importClean(source, part, plan, sample, {
      ...(options.signal ? { signal: options.signal } : {}),
      onProgress: (share) => report(share * 0.99),
    })
    if (clean) return clean
    await rm(part, { force: true })
    const size = Math.max(1, (await stat(source)).size)
    const walk = {
      ...(options.signal ? { signal: options.signal } : {}),
      onProgress: (bytes: number) => report((0.5 * bytes) / size),
    }
    return readLog(source, overrides, walk, async ({ plan: read, scan, path }) => {
      await writeRepaired(path, part, read, scan, {
        ...(options.signal ? { signal: options.signal } : {}),
        onProgress: (bytes) => report(0.5 + (0.5 * bytes) / size),
      })
      const { samples, first, last, step, channels, sessions, warnings, guesses } = scan
      return {
        source: basename(source),
        bytes: size,
        way: 'repaired',
        samples,
        first,
        last,
        step,
        timeForm: scan.timeUsable ? read.time.form : 'none',
        channels,
        sessions,
        warnings,
        understood: read.understood,
        guesses,
      }
    })
  }
}

async function importParquet(source: string, part: string, overrides: Overrides): Promise<LogReport> {
  const found = await inspectLog(source, overrides)
  if (!found.ok) throw refuse('not-a-log', found.error ?? 'The file cannot be read.', 'Choose another file.')
  return withDuck({ folders: [dirname(source), dirname(part)], spill: dirname(part) }, async (connection) => {
    const from = `read_parquet(${literal(source)}, file_row_number=true)`
    const stored = await readStored(connection, literal(source))
    const read = stored ? undefined : await readForeign(connection, literal(source), overrides)
    const form: TimeForm = read ? read.form : stored!.timed ? 'seconds' : 'none'
    const timeSql = read ? read.time : 't'
    const time = await followTime(connection, from, timeSql, form, stored ? 'session' : undefined)
    const starts = time.sessions.slice(1).map(({ firstRow }) => firstRow)
    const session =
      starts.length === 0
        ? '0'
        : `case ${[...starts]
            .map((row, i) => [row, i + 1] as const)
            .reverse()
            .map(([row, n]) => `when file_row_number >= ${row} then ${n}`)
            .join(' ')} else 0 end`
    const stray = time.strays.length === 0 ? '' : `when file_row_number in (${time.strays.join(', ')}) then null`
    const shift =
      time.shifts.length === 0
        ? '0'
        : `case ${[...time.shifts]
            .reverse()
            .map(({ row, add }) => `when file_row_number >= ${row} then ${add}`)
            .join(' ')} else 0 end`
    const t =
      form === 'none'
        ? 'file_row_number::double'
        : stray === ''
          ? `${timeSql} + ${shift}`
          : `case ${stray} else ${timeSql} + ${shift} end`
    const channels = read
      ? read.channels
      : stored!.channels.map(({ name, unit, column, states }) => ({
          name,
          unit,
          sql: column,
          ...(states ? { states: true as const } : {}),
        }))
    const list = channels.map(
      ({ sql, states }, i) => `${states ? sql : `case when isfinite(${sql}) then ${sql} end`} as c${i}`,
    )
    await connection.run(
      `copy (select (${session})::integer as session, ${t} as t${list.map((item) => `, ${item}`).join('')} from ${from}) to ${literal(part)} (format parquet, compression zstd, use_tmp_file false, ${metadataClause(storedLog(channels, form !== 'none'))})`,
    )
    return {
      source: basename(source),
      bytes: (await stat(source)).size,
      way: 'parquet' as const,
      samples: found.samples,
      first: found.first,
      last: found.last,
      step: found.step,
      timeForm: form,
      channels: found.channels.map((channel) => ({ ...channel, sentinels: [] })),
      sessions: time.sessions.map((entry) => ({ ...entry })),
      warnings: found.warnings,
      understood: found.understood,
      guesses: found.guesses,
    }
  })
}
