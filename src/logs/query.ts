/** Questions to a stored log: strips for drawing, whole columns, the reading at a moment. */
import type { DuckDBConnection } from '@duckdb/node-api'
import { refuse } from '../units/problem.ts'
import { coarseFor } from './coarse.ts'
import { eachChunk, literal, orNan, withParquet } from './duck.ts'
import { readStored, type StoredChannel, type StoredLog } from './parquetFile.ts'

export interface Strip {
  readonly channel: string
  readonly unit: string
  /** Smallest and largest value under each pixel; NaN where no sample lies. */
  readonly min: Float64Array
  readonly max: Float64Array
}

export interface StripSet {
  readonly t0: number
  readonly t1: number
  readonly pixels: number
  readonly strips: readonly Strip[]
}

async function open(connection: DuckDBConnection, source: string): Promise<StoredLog> {
  const stored = await readStored(connection, source)
  if (stored === undefined) throw refuse('not-imported', 'This Parquet file was not stored here.', 'Import it first.')
  return stored
}

function find(stored: StoredLog, name: string): StoredChannel {
  const channel = stored.channels.find((entry) => entry.name === name)
  if (channel === undefined)
    throw refuse('no-channel', `The log has no channel "${name}".`, 'Choose one of its channels.', name)
  return channel
}

const numeric = (channel: StoredChannel): string => {
  if (channel.states)
    throw refuse(
      'not-a-number',
      `Channel "${channel.name}" holds states, not numbers.`,
      'Choose a channel of numbers.',
      channel.name,
    )
  return channel.column
}

export const describeStored = (parquet: string): Promise<StoredLog> => withParquet(parquet, open)

/** Channels as a guess of their meaning needs them: with the extremes of those that hold numbers. */
export const withRanges = (
  parquet: string,
): Promise<{ name: string; unit: string; min: number | null; mean: null; max: number | null; states?: string[] }[]> =>
  withParquet(parquet, async (connection, source) => {
    const { channels } = await open(connection, source)
    const numbers = channels.filter(({ states }) => !states)
    const row =
      numbers.length === 0
        ? []
        : (
            await connection.runAndReadAll(
              `select ${numbers.map(({ column: c }) => `min(${c}), max(${c})`).join(', ')} from read_parquet(${source})`,
            )
          ).getRows()[0]!
    const value = (at: number): number | null => (typeof row[at] === 'number' ? row[at] : null)
    return channels.map(({ name, unit, states }) => {
      const at = numbers.findIndex((each) => each.name === name)
      return {
        name,
        unit,
        min: at < 0 ? null : value(2 * at),
        mean: null,
        max: at < 0 ? null : value(2 * at + 1),
        ...(states ? { states: [] } : {}),
      }
    })
  })

/** About how many rows a window holds, from the file's footer: rows are spread evenly enough for a choice of level. */
async function rowsBetween(connection: DuckDBConnection, source: string, t0: number, t1: number): Promise<number> {
  const row = (
    await connection.runAndReadAll(
      `select sum(num_values)::double, min(stats_min_value::double), max(stats_max_value::double) from parquet_metadata(${source}) where path_in_schema = 't'`,
    )
  ).getRows()[0]!
  const [rows, first, last] = row.map(Number) as [number, number, number]
  return last > first ? (rows * Math.max(0, Math.min(t1, last) - Math.max(t0, first))) / (last - first) : rows
}

/** The same from the file of extremes: each block under the pixel in which it begins and under that in which it ends. */
function coarseSql(
  source: string,
  channels: readonly StoredChannel[],
  t0: number,
  t1: number,
  only: string,
  slice: string,
): string {
  const columns = channels.map(numeric)
  const names = columns.map((c) => `min_${c}, max_${c}`).join(', ')
  const end = (at: string): string =>
    `select ${at} as t, ${names} from read_parquet(${source}) where ${at} >= ${t0} and ${at} < ${t1}${only}`
  const list = columns.map((c) => `${orNan(`min(min_${c})`)}, ${orNan(`max(max_${c})`)}`).join(', ')
  return `select ${slice}::double as pixel, ${list} from (${end('a')} union all ${end('b')}) group by pixel`
}

/** Smallest and largest value of each channel in each of `pixels` equal slices of [t0, t1). One session, or all. */
export async function strip(
  parquet: string,
  channels: readonly string[],
  t0: number,
  t1: number,
  pixels: number,
  session?: number,
): Promise<StripSet> {
  if (!(t1 > t0) || !Number.isInteger(pixels) || pixels < 1)
    throw refuse(
      'bad-window',
      `The window ${t0} … ${t1} s over ${pixels} pixels is empty.`,
      'Give a later end and at least one pixel.',
    )
  return withParquet(parquet, async (connection, source) => {
    const stored = await open(connection, source)
    const found = channels.map((name) => find(stored, name))
    const strips = found.map(({ name, unit }) => ({
      channel: name,
      unit,
      min: new Float64Array(pixels).fill(Number.NaN),
      max: new Float64Array(pixels).fill(Number.NaN),
    }))
    if (found.length === 0) return { t0, t1, pixels, strips }
    const list = found
      .map((channel) => `, ${orNan(`min(${numeric(channel)})`)}, ${orNan(`max(${numeric(channel)})`)}`)
      .join('')
    const only = session === undefined ? '' : ` and session = ${Math.trunc(session)}`
    const slice = `least(${pixels - 1}, floor((t - (${t0})) * ${pixels / (t1 - t0)}))`
    const coarse = coarseFor(parquet, await rowsBetween(connection, source, t0, t1), pixels)
    const from = coarse
      ? coarseSql(literal(coarse), found, t0, t1, only, slice)
      : `select ${slice}::double as pixel${list} from read_parquet(${source}) where t >= ${t0} and t < ${t1}${only} group by pixel`
    await eachChunk(connection, from, (columns, rows) => {
      for (let row = 0; row < rows; row++) {
        const pixel = columns[0]![row]!
        strips.forEach((entry, at) => {
          entry.min[pixel] = columns[1 + 2 * at]![row]!
          entry.max[pixel] = columns[2 + 2 * at]![row]!
        })
      }
    })
    return { t0, t1, pixels, strips }
  })
}

export interface Columns {
  readonly session: Float64Array
  readonly t: Float64Array
  readonly values: readonly Float64Array[]
  readonly units: readonly string[]
  readonly timed: boolean
}

/** Time, session and the named channels, whole, in the logger's units; NaN where there is no value. */
export async function column(parquet: string, channels: readonly string[]): Promise<Columns> {
  return withParquet(parquet, async (connection, source) => {
    const stored = await open(connection, source)
    const found = channels.map((name) => find(stored, name))
    const total = Number(
      (await connection.runAndReadAll(`select count(*)::double from read_parquet(${source})`)).getRows()[0]![0],
    )
    const arrays = Array.from({ length: found.length + 2 }, () => new Float64Array(total))
    let at = 0
    await eachChunk(
      connection,
      `select session::double, ${orNan('t')}${found.map((channel) => `, ${orNan(numeric(channel))}`).join('')} from read_parquet(${source})`,
      (columns, rows) => {
        columns.forEach((items, index) => {
          arrays[index]!.set(items.subarray(0, rows), at)
        })
        at += rows
      },
    )
    return {
      session: arrays[0]!,
      t: arrays[1]!,
      values: arrays.slice(2),
      units: found.map(({ unit }) => unit),
      timed: stored.timed,
    }
  })
}

export interface Moment {
  readonly t: number
  readonly readings: readonly {
    readonly channel: string
    readonly unit: string
    readonly value: number | string | null
    readonly t: number | null
  }[]
}

/** Seconds, one after the other, within which the last value before a moment is looked for. */
const LOOK_BACK = [2, 60, Number.POSITIVE_INFINITY]

/** What every channel read at a moment: its last value at or before it, with the time of that value. */
export async function at(parquet: string, time: number, session?: number): Promise<Moment> {
  return withParquet(parquet, async (connection, source) => {
    const stored = await open(connection, source)
    const only = session === undefined ? '' : ` and session = ${Math.trunc(session)}`
    const found = new Map<string, readonly [value: unknown, stamp: unknown]>()
    // Most channels spoke within the last seconds; only the silent ones are looked for further back.
    for (const back of LOOK_BACK) {
      const silent = stored.channels.filter(({ column: name }) => !found.has(name))
      if (silent.length === 0) break
      const list = silent.flatMap(({ column: name }) => [
        `arg_max(${name}, t) filter (where ${name} is not null)`,
        `max(t) filter (where ${name} is not null)`,
      ])
      const since = Number.isFinite(back) ? ` and t > ${time - back}` : ''
      const row = (
        await connection.runAndReadAll(
          `select ${list.join(', ')} from read_parquet(${source}) where t <= ${time}${since}${only}`,
        )
      ).getRows()[0]!
      silent.forEach(({ column: name }, i) => {
        if (row[2 * i + 1] !== null) found.set(name, [row[2 * i], row[2 * i + 1]])
      })
    }
    return {
      t: time,
      readings: stored.channels.map(({ name, unit, column: at }) => {
        const [value, stamp] = found.get(at) ?? []
        return {
          channel: name,
          unit,
          value: value === null || value === undefined ? null : typeof value === 'number' ? value : String(value),
          t: stamp === null || stamp === undefined ? null : Number(stamp),
        }
      }),
    }
  })
}
