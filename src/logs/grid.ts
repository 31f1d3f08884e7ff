/** Bound channels of a stored log on an even time grid, in SI: averages of each cell, short holes bridged. */
import { refuse } from '../units/problem.ts'
import { eachChunk, orNan, withParquet } from './duck.ts'
import { readStored } from './parquetFile.ts'
import type { BoundRole } from './roles.ts'

export interface GridRun {
  readonly session: number
  /** Time of the first cell's start, s. */
  readonly start: number
  readonly step: number
  /** One series a role, in the order asked for; NaN where there is no value. */
  readonly series: readonly Float64Array[]
}

/** Longest hole in a channel that is bridged by a straight line, in cells. */
const BRIDGE = 3
const LONGEST = 5_000_000

/** A run a session. `step` is at least `finest`, and no finer than the slowest channel writes. */
export async function grid(parquet: string, roles: readonly BoundRole[], finest: number): Promise<GridRun[]> {
  return withParquet(parquet, async (connection, source) => {
    const stored = await readStored(connection, source)
    if (stored === undefined) throw refuse('not-imported', 'This Parquet file was not stored here.', 'Import it first.')
    if (!stored.timed)
      throw refuse(
        'no-time',
        'The log has no time, so nothing in it can be called steady.',
        'Import it again with the samples per second or the time column.',
      )
    const columns = roles.map(({ channel }) => {
      const found = stored.channels.find(({ name }) => name === channel)
      if (found === undefined || found.states)
        throw refuse(
          'no-channel',
          `The log has no channel of numbers "${channel}".`,
          'Bind the role to another channel.',
          channel,
        )
      return found.column
    })
    const from = `read_parquet(${source})`
    const extent = (
      await connection.runAndReadAll(
        `select session, min(t), max(t)${columns.map((name) => `, count(${name})::double`).join('')} from ${from} where t is not null group by session order by session`,
      )
    ).getRows()
    let covered = 0
    const counts = columns.map(() => 0)
    for (const [, first, last, ...filled] of extent) {
      covered += Number(last) - Number(first)
      filled.forEach((count, i) => {
        counts[i]! += Number(count)
      })
    }
    const slowest = Math.max(0, ...counts.map((count) => (count > 1 ? covered / count : 0)))
    const step = Math.max(finest, slowest)
    const runs: GridRun[] = extent.map(([session, first, last]) => {
      const cells = Math.floor((Number(last) - Number(first)) / step) + 1
      if (cells > LONGEST)
        throw refuse(
          'too-long',
          `A session of ${Math.round(Number(last) - Number(first))} s is too long for a grid of ${step} s.`,
          'Check the time column.',
        )
      return {
        session: Number(session),
        start: Number(first),
        step,
        series: roles.map(() => new Float64Array(cells).fill(Number.NaN)),
      }
    })
    for (const run of runs) {
      const sql = `select floor((t - (${run.start})) / ${step})::double as cell${columns.map((name) => `, ${orNan(`avg(${name})`)}`).join('')} from ${from} where session = ${run.session} and t is not null group by cell`
      await eachChunk(connection, sql, (items, rows) => {
        for (let row = 0; row < rows; row++) {
          const cell = items[0]![row]!
          run.series.forEach((series, i) => {
            if (cell >= 0 && cell < series.length)
              series[cell] = items[i + 1]![row]! * roles[i]!.factor + roles[i]!.offset
          })
        }
      })
      run.series.forEach(bridge)
    }
    return runs
  })
}

function bridge(series: Float64Array): void {
  let last = -1
  for (let i = 0; i < series.length; i++) {
    if (Number.isNaN(series[i])) continue
    if (last >= 0 && i - last > 1 && i - last <= BRIDGE + 1) {
      const from = series[last]!
      for (let k = last + 1; k < i; k++) series[k] = from + ((series[i]! - from) * (k - last)) / (i - last)
    }
    last = i
  }
}
