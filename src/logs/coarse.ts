/**
 * Extremes of every 64 rows of a stored log, in a small file beside it, so that a view of the whole costs the same
 * whether the log holds 10⁵ rows or 10⁸. A block's extremes count under the pixels in which it begins and ends: no
 * extreme is ever hidden, and at the eight blocks a pixel that are asked for it moves by an eighth of one at most.
 */
import { existsSync, renameSync, rmSync, statSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { literal, withDuck } from './duck.ts'
import { readStored } from './parquetFile.ts'

const ROWS = 64
/** Fewer rows than this are read faster than a second file is opened. */
const WORTH_IT = 100_000
const ROWS_A_PIXEL = 8 * ROWS

export const coarsePath = (parquet: string): string =>
  join(dirname(parquet), `${basename(parquet).replace(/\.parquet$/, '')}.coarse.parquet`)

export async function makeCoarse(parquet: string, samples: number): Promise<void> {
  if (samples < WORTH_IT) return
  const folder = dirname(resolve(parquet))
  const final = coarsePath(resolve(parquet))
  const part = join(folder, `.${basename(final)}.part`)
  try {
    await withDuck({ folders: [folder], spill: folder }, async (connection) => {
      const source = literal(resolve(parquet))
      const stored = await readStored(connection, source)
      const numbers = stored?.channels.filter(({ states }) => !states) ?? []
      if (numbers.length === 0) return
      const list = numbers.flatMap(({ column }) =>
        ['min', 'max'].map((which) => `${which}(${column}) as ${which}_${column}`),
      )
      await connection.run(
        `copy (select session, file_row_number // ${ROWS} as block, min(t) as a, max(t) as b, ${list.join(', ')} from read_parquet(${source}, file_row_number=true) where t is not null group by session, block order by block, session) to ${literal(part)} (format parquet, compression zstd)`,
      )
    })
    if (existsSync(part)) renameSync(part, final)
  } finally {
    rmSync(part, { force: true })
  }
}

/** The file of extremes, where it is there, is not older than the log and is fine enough for so many rows a pixel. */
export function coarseFor(parquet: string, rowsInWindow: number, pixels: number): string | undefined {
  if (rowsInWindow < ROWS_A_PIXEL * pixels) return undefined
  const file = coarsePath(resolve(parquet))
  return existsSync(file) && statSync(file).mtimeMs >= statSync(parquet).mtimeMs ? file : undefined
}
