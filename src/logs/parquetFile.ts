/**
 * The Parquet files that logs are kept in, and Parquet from elsewhere.
 *
 * Layout: `session` INTEGER, `t` DOUBLE (seconds as logged, NULL where unknown; the row number where the log has no
 * time), then `c0` … DOUBLE in the logger's own units, or VARCHAR for channels of states. Names, units and sessions
 * stand in the file's own key `swapwright`, so the file explains itself.
 */
import { basename } from 'node:path'
import type { DuckDBConnection } from '@duckdb/node-api'
import { refuse } from '../units/problem.ts'
import { eachChunk, literal, orNan, withParquet } from './duck.ts'
import { findTime } from './findTime.ts'
import type { Overrides, TimeForm } from './plan.ts'
import type { Inspection } from './report.ts'
import { nameAndUnit } from './sniff.ts'
import { Timeline } from './timeline.ts'

export interface StoredChannel {
  readonly name: string
  readonly unit: string
  readonly column: string
  readonly states: boolean
}

export interface StoredLog {
  readonly format: 'swapwright-log/1'
  readonly channels: readonly StoredChannel[]
  /** False: `t` only numbers the rows. */
  readonly timed: boolean
}

export const storedLog = (
  channels: readonly { name: string; unit: string; states?: unknown }[],
  timed: boolean,
): StoredLog => ({
  format: 'swapwright-log/1',
  channels: channels.map(({ name, unit, states }, index) => ({
    name,
    unit,
    column: `c${index}`,
    states: states !== undefined,
  })),
  timed,
})

export async function readStored(connection: DuckDBConnection, source: string): Promise<StoredLog | undefined> {
  const rows = await connection.runAndReadAll(
    `select decode(value) from parquet_kv_metadata(${source}) where decode(key) = 'swapwright'`,
  )
  const text = rows.getRows()[0]?.[0]
  if (typeof text !== 'string') return undefined
  const stored = JSON.parse(text) as StoredLog
  if (stored.format !== 'swapwright-log/1')
    throw refuse(
      'newer-log',
      `The log was stored in the form ${String(stored.format)}.`,
      'Open it with the version that wrote it.',
    )
  return stored
}

export interface ForeignParquet {
  readonly names: readonly string[]
  readonly units: readonly string[]
  /** Select list: seconds as t, then every channel. */
  readonly time: string
  readonly form: TimeForm
  readonly channels: readonly { name: string; unit: string; sql: string; states?: true }[]
  readonly guesses: readonly { says: string; override: keyof Overrides }[]
  readonly understood: readonly string[]
}

const NUMERIC = /^(TINYINT|SMALLINT|INTEGER|BIGINT|HUGEINT|U\w+INT\w*|UINTEGER|FLOAT|DOUBLE|DECIMAL.*|BOOLEAN)$/
const quoteName = (name: string): string => `"${name.replaceAll('"', '""')}"`

/** How to read a Parquet file that was not written here. */
export async function readForeign(
  connection: DuckDBConnection,
  source: string,
  overrides: Overrides,
): Promise<ForeignParquet> {
  const described = (await connection.runAndReadAll(`describe select * from read_parquet(${source})`)).getRows()
  const columns = described.map(([name, type]) => ({ name: String(name), type: String(type) }))
  const rows = (await connection.runAndReadAll(`select columns(*)::varchar from read_parquet(${source}) limit 400`))
    .getRows()
    .map((row) => row.map((cell) => (cell === null ? '' : String(cell))))
  const split = columns.map(({ name }) => nameAndUnit(name))
  const names = split.map(({ name }) => name)
  const units = split.map(({ unit }) => unit)
  const found = findTime(names, units, rows, '.', [], overrides)
  const { form, column, rate } = found.rule
  const timeSql = (): string => {
    if (form === 'none') return 'null::double'
    if (column < 0) return `(file_row_number / ${rate})`
    const at = quoteName(columns[column]!.name)
    if (form === 'date-time') return `epoch(${at}::timestamp)`
    if (form === 'clock') return `epoch(${at}::time)`
    if (form === 'sample-number') return `(${at}::double / ${rate})`
    const per: Partial<Record<TimeForm, string>> = {
      milliseconds: '/ 1e3',
      'epoch-milliseconds': '/ 1e3',
      microseconds: '/ 1e6',
      minutes: '* 60',
      hours: '* 3600',
    }
    return `(${at}::double ${per[form] ?? ''})`
  }
  const used = columns.map((entry, index) => ({ ...entry, index })).filter(({ index }) => index !== column)
  return {
    names,
    units,
    time: timeSql(),
    form,
    channels: used.map(({ name, type, index }) => ({
      name: names[index]!,
      unit: units[index]!,
      ...(NUMERIC.test(type)
        ? { sql: `${quoteName(name)}::double` }
        : { sql: `${quoteName(name)}::varchar`, states: true as const }),
    })),
    guesses: found.guesses,
    understood: [`A Parquet file with ${columns.length} columns.`, ...found.understood],
  }
}

export interface ColumnStats {
  readonly samples: number
  readonly missing: number
  readonly min: number | null
  readonly mean: number | null
  readonly max: number | null
}

/** Statistics of DOUBLE expressions over one source, in one pass. NaN counts as missing. */
export async function statistics(
  connection: DuckDBConnection,
  from: string,
  expressions: readonly string[],
): Promise<{ samples: number; stats: ColumnStats[] }> {
  const finite = (sql: string): string => `case when isfinite(${sql}) then ${sql} end`
  const list = expressions.flatMap((sql) => [
    `count(${finite(sql)})::double`,
    `min(${finite(sql)})`,
    `favg(${finite(sql)})`,
    `max(${finite(sql)})`,
  ])
  const row = (
    await connection.runAndReadAll(`select count(*)::double${list.map((sql) => `, ${sql}`).join('')} from ${from}`)
  ).getRows()[0]!
  const samples = Number(row[0])
  const value = (at: number): number | null => (row[at] === null || row[at] === undefined ? null : Number(row[at]))
  return {
    samples,
    stats: expressions.map((_, i) => ({
      samples,
      missing: samples - Number(row[1 + 4 * i]),
      min: value(2 + 4 * i),
      mean: value(3 + 4 * i),
      max: value(4 + 4 * i),
    })),
  }
}

/**
 * The same for the columns of a Parquet file just written here: extremes and blanks stand in its footer, so only the
 * means are computed. Undefined when a column holds NaN or infinity, which only its mean betrays.
 */
export async function footerStatistics(
  connection: DuckDBConnection,
  source: string,
  columns: readonly string[],
): Promise<{ samples: number; stats: ColumnStats[] } | undefined> {
  const footer = await connection.runAndReadAll(
    `select path_in_schema, min(stats_min_value::double), max(stats_max_value::double), sum(stats_null_count)::double, sum(num_values)::double from parquet_metadata(${source}) group by path_in_schema`,
  )
  const byName = new Map(footer.getRows().map(([name, ...rest]) => [String(name), rest]))
  const means = (
    await connection.runAndReadAll(
      `select ${columns.map((name) => `favg(${name})`).join(', ')} from read_parquet(${source})`,
    )
  ).getRows()[0]!
  const stats: ColumnStats[] = []
  for (const [at, name] of columns.entries()) {
    const [min, max, missing, samples] = byName.get(name) ?? []
    const mean = means[at] === null ? null : Number(means[at])
    if (typeof missing !== 'number' || typeof samples !== 'number') return undefined
    const empty = missing === samples
    if (!empty && (typeof min !== 'number' || typeof max !== 'number' || mean === null || !Number.isFinite(mean)))
      return undefined
    stats.push({ samples, missing, min: empty ? null : Number(min), mean, max: empty ? null : Number(max) })
  }
  return { samples: stats[0]?.samples ?? 0, stats }
}

export async function followTime(
  connection: DuckDBConnection,
  from: string,
  sql: string,
  form: TimeForm,
  /** Column that numbers the sessions, where the file was written here: one may follow another without a break in time. */
  session = '0',
): Promise<ReturnType<Timeline['finish']>> {
  const timeline = new Timeline(form)
  let row = 0
  let before: number | undefined
  await eachChunk(connection, `select ${orNan(sql)}, ${session}::double from ${from}`, ([times, sessions], rows) => {
    for (let i = 0; i < rows; i++, row++) {
      const now = sessions![i]!
      timeline.push(row, row + 1, times![i]!, before !== undefined && now !== before)
      before = now
    }
  })
  return timeline.finish()
}

export async function inspectParquet(file: string, overrides: Overrides): Promise<Omit<Inspection, 'peak_mb'>> {
  return withParquet(file, async (connection, source) => {
    const from = `read_parquet(${source}, file_row_number=true)`
    const stored = await readStored(connection, source)
    const foreign: ForeignParquet = stored
      ? {
          names: [],
          units: [],
          time: stored.timed ? 't' : 'null::double',
          form: stored.timed ? 'seconds' : 'none',
          guesses: [],
          understood: ['A log stored here.'],
          channels: stored.channels.map(({ name, unit, column, states }) => ({
            name,
            unit,
            sql: column,
            ...(states ? { states: true as const } : {}),
          })),
        }
      : await readForeign(connection, source, overrides)
    if (foreign.channels.length === 0)
      throw refuse('not-a-log', `${basename(file)} is a Parquet file without a channel.`, 'Choose another file.')
    const time = await followTime(connection, from, foreign.time, foreign.form, stored ? 'session' : undefined)
    const numbers = foreign.channels.filter(({ states }) => !states)
    const { samples, stats } = await statistics(
      connection,
      from,
      numbers.map(({ sql }) => sql),
    )
    if (samples === 0)
      throw refuse('not-a-log', `${basename(file)} is a Parquet file without a row.`, 'Choose another file.')
    const channels: Inspection['channels'][number][] = []
    for (const { name, unit, sql, states } of foreign.channels) {
      if (states) {
        const found = (
          await connection.runAndReadAll(
            `select ${sql} as s, count(*)::double, min(file_row_number) as m from ${from} where ${sql} is not null group by s order by m limit 64`,
          )
        ).getRows()
        const filled = Number(
          (await connection.runAndReadAll(`select count(${sql})::double from ${from}`)).getRows()[0]![0],
        )
        channels.push({
          name,
          unit,
          samples,
          missing: samples - filled,
          min: null,
          mean: null,
          max: null,
          states: found.map(([state]) => String(state)),
        })
      } else channels.push({ name, unit, ...stats[numbers.findIndex((number) => number.sql === sql)]! })
    }
    return {
      ok: true,
      error: null,
      samples,
      first: time.sessions[0]?.first ?? null,
      last: time.sessions.at(-1)?.last ?? null,
      step: time.step,
      channels,
      sessions: time.sessions.map(({ samples: count, first, last }) => ({ samples: count, first, last })),
      warnings: foreign.guesses.map(({ says, override }) => ({ text: `Guessed: ${says} (To reverse: ${override}.)` })),
      understood: foreign.understood,
      guesses: foreign.guesses,
    }
  })
}

export const metadataClause = (stored: StoredLog): string =>
  `kv_metadata {swapwright: ${literal(JSON.stringify(stored))}}`
