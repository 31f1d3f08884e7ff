/** Reading logs in: a clean CSV of 60 channels against DuckDB's own `read_csv` → Parquet, and a messy one against that rate. */

import { once } from 'node:events'
import { createWriteStream, mkdtempSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { coarsePath, makeCoarse } from '../src/logs/coarse.ts'
import { literal, withDuck } from '../src/logs/duck.ts'
import { importLog } from '../src/logs/import.ts'
import { peakMegabytes } from '../src/logs/inspect.ts'
import { metadataClause, storedLog } from '../src/logs/parquetFile.ts'
import { strip } from '../src/logs/query.ts'
import type { Row } from './rows.ts'

const CHANNELS = 60
const BYTES = 200e6

/** 100 samples a second; written in pieces, so that the writing costs no memory. */
const write = async (file: string, bytes: number, messy: boolean): Promise<void> => {
  const out = createWriteStream(file)
  const names = Array.from({ length: CHANNELS }, (_, i) => (messy ? `Kanal ${i} [V]` : `Channel ${i} [V]`))
  const cell = messy ? ';' : ','
  out.write(
    `${messy ? 'Aufzeichnung vom Prüfstand\r\n\r\n' : ''}${[messy ? 'Zeit [s]' : 'Time [s]', ...names].join(cell)}${messy ? '\r\n' : '\n'}`,
  )
  let sent = 0
  for (let row = 0; sent < bytes; ) {
    let piece = ''
    for (let k = 0; k < 500; k++, row++) {
      const cells = [(row / 100).toFixed(2)]
      for (let i = 0; i < CHANNELS; i++) cells.push(((i + 1) * Math.sin(row * (0.001 + i * 1e-4))).toFixed(3))
      if (messy) {
        if (row % 997 === 0) cells.pop()
        if (row % 1501 === 0) cells[3] = '---'
        piece += `${cells.join(';').replaceAll('.', ',')}\r\n`
      } else piece += `${cells.join(',')}\n`
    }
    sent += piece.length
    if (!out.write(piece)) await once(out, 'drain')
  }
  out.end()
  await once(out, 'finish')
}

const LONG_ROWS = 16_700_000
const LONG_CHANNELS = 6
/** A stored log of 10⁸ samples, written by the store's own engine: what is timed is the looking. */
const writeLong = async (file: string, folder: string): Promise<void> => {
  const names = Array.from({ length: LONG_CHANNELS }, (_, i) => ({ name: `Long ${i}`, unit: 'V' }))
  const values = names.map((_, i) => `, round(${i + 1} * sin(i * ${0.001 + i * 1e-4}), 3) as c${i}`).join('')
  await withDuck({ folders: [folder], spill: folder }, (connection) =>
    connection.run(
      `copy (select 0::integer as session, i / 100.0 as t${values} from range(${LONG_ROWS}) r(i)) to ${literal(file)} (format parquet, compression zstd, ${metadataClause(storedLog(names, true))})`,
    ),
  )
}

const timed = async (work: () => Promise<unknown>): Promise<number> => {
  const began = performance.now()
  await work()
  return (performance.now() - began) / 1000
}

export const benchLog = async (): Promise<Row[]> => {
  const folder = mkdtempSync(join(tmpdir(), 'swapwright-bench-'))
  const at = (name: string): string => join(folder, name)
  try {
    await write(at('clean.csv'), BYTES, false)
    await write(at('messy.csv'), BYTES / 4, true)
    const size = statSync(at('clean.csv')).size
    const ours: number[] = []
    const theirs: number[] = []
    let samples = 0
    let peak = 0
    // In turns, so that what else the machine does falls on both alike.
    for (let round = 0; round < 3; round++) {
      ours.push(
        await timed(async () => {
          samples = (await importLog(at('clean.csv'), at('ours.parquet'))).samples
        }),
      )
      if (round === 0) peak = peakMegabytes()
      theirs.push(
        await timed(() =>
          withDuck({ folders: [folder], spill: folder }, (connection) =>
            connection.run(
              `copy (select * from read_csv(${literal(at('clean.csv'))})) to ${literal(at('theirs.parquet'))} (format parquet, compression zstd)`,
            ),
          ),
        ),
      )
    }
    const messy = await timed(() => importLog(at('messy.csv'), at('messy.parquet')))
    const [own, peer] = [Math.min(...ours), Math.min(...theirs)]
    const rate = statSync(at('messy.csv')).size / messy / (size / own)
    const look = await timed(() =>
      strip(
        at('ours.parquet'),
        ['Channel 0', 'Channel 1', 'Channel 2', 'Channel 3', 'Channel 4', 'Channel 5'],
        0,
        samples / 100,
        1200,
      ),
    )
    await writeLong(at('long.parquet'), folder)
    const long = (): Promise<unknown> =>
      strip(
        at('long.parquet'),
        Array.from({ length: LONG_CHANNELS }, (_, i) => `Long ${i}`),
        0,
        LONG_ROWS / 100,
        1200,
      )
    const rowByRow = await timed(long)
    const making = await timed(() => makeCoarse(at('long.parquet'), LONG_ROWS))
    const whole = await timed(long)
    return [
      {
        name: `import of a clean CSV, ${(size / 1e6).toFixed(0)} MB, ${CHANNELS} channels, ${samples} samples`,
        value: `${own.toFixed(2)} s against ${peer.toFixed(2)} s of read_csv → Parquet: ${(own / peer).toFixed(2)} ×`,
        reach: '≤ 1.25 ×',
        reached: own <= 1.25 * peer,
      },
      { name: 'memory at its height', value: `${peak.toFixed(0)} MB`, reach: '≤ 800 MB', reached: peak <= 800 },
      {
        name: 'a messy file, with its report',
        value: `${messy.toFixed(2)} s for ${(statSync(at('messy.csv')).size / 1e6).toFixed(0)} MB: ${rate.toFixed(2)} of the clean rate`,
        reach: '≥ 0.25',
        reached: rate >= 0.25,
      },
      { name: 'strips of six channels, whole log at 1200 pixels', value: `${(1000 * look).toFixed(0)} ms` },
      {
        name: 'strips of six channels, 10⁸ samples, whole log at 1200 pixels',
        value: `${(1000 * whole).toFixed(0)} ms; row by row ${(1000 * rowByRow).toFixed(0)} ms; the file of extremes, once, ${making.toFixed(1)} s and ${(statSync(coarsePath(at('long.parquet'))).size / 1e6).toFixed(0)} MB`,
        reach: '≤ 1 s',
        reached: whole <= 1,
      },
    ]
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}
