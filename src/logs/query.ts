/** Questions to a stored log: strips for drawing, whole columns, the reading at a moment. */
import type { DuckDBConnection } from '@duckdb/node-api'
import { refuse } from '../units/problem.ts'
import { eachChunk, orNan, withParquet } from './duck.ts'
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
    await eachChunk(
      connection,
      `select ${slice}::double as pixel${list} from read_parquet(${source}) where t >= ${t0} and t < ${t1}${only} group by pixel`,
      (columns, rows) => {
        for (let row = 0; row < rows; row++) {
          const pixel = columns[0]![row]!
          strips.forEach((entry, at) => {
            entry.min[pixel] = columns[1 + 2 * at]![row]!
            entry.max[pixel] = columns[2 + 2 * at]![row]!
          })
        }
      },
    )
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

/** What every channel read at a moment: its last value at or before it, with the time of that value. */
export async function at(parquet: string, time: number, session?: number): Promise<Moment> {
  return withParquet(parquet, async (connection, source) => {
    const stored = await open(connection, source)
    const only = session === undefined ? '' : ` and session = ${Math.trunc(session)}`
    const list = stored.channels.flatMap(({ column: name }) => [
      `arg_max(${name}, t) filter (where ${name} is not null)`,
      `max(t) filter (where ${name} is not null)`,
    ])
    const row =
      stored.channels.length === 0
        ? []
        : (
            await connection.runAndReadAll(
              `select ${list.join(', ')} from read_parquet(${source}) where t <= ${time}${only}`,
            )
          ).getRows()[0]!
    return {
      t: time,
      readings: stored.channels.map(({ name, unit }, i) => {
        const value = row[2 * i]
        const stamp = row[2 * i + 1]
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
