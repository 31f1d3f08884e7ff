/** Looks at a log without storing it: what `swapwright log inspect --json` prints. */
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { basename, join } from 'node:path'
import { Refusal } from '../units/problem.ts'
import { isParquet, sampleFile } from './fileKind.ts'
import { inspectParquet } from './parquetFile.ts'
import type { Overrides, ReadingPlan } from './plan.ts'
import type { Inspection } from './report.ts'
import { type Scan, scan, type Walk } from './scan.ts'
import { sniff } from './sniff.ts'
import { transcode } from './transcode.ts'

export type { Inspection } from './report.ts'

export const peakMegabytes = (): number => Math.round(process.resourceUsage().maxRSS / 102.4) / 10

export interface Reading {
  readonly plan: ReadingPlan
  readonly scan: Scan
  /** File whose bytes the plan describes: the log itself, or its UTF-8 copy. */
  readonly path: string
}

/** Sniffs and scans a text log, handing the result to `use` while a transcoded copy still exists. */
export async function readLog<T>(
  file: string,
  overrides: Overrides,
  walk: Walk,
  use: (reading: Reading) => Promise<T>,
): Promise<T> {
  const plan = sniff(sampleFile(file), overrides)
  if (!plan.encoding.startsWith('utf-16'))
    return use({ plan, scan: await checkedScan(file, file, plan, walk), path: file })
  const folder = await mkdtemp(join(tmpdir(), 'swapwright-log-'))
  try {
    const path = join(folder, 'utf8.txt')
    await transcode(file, path, plan.encoding, walk.signal)
    return await use({ plan, scan: await checkedScan(file, path, plan, walk), path })
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

async function checkedScan(file: string, path: string, plan: ReadingPlan, walk: Walk): Promise<Scan> {
  const result = await scan(path, plan, walk)
  if (result.samples === 0)
    throw new Refusal([
      {
        code: 'not-a-log',
        says: `${basename(file)} holds no row of values that agrees with its names.`,
        todo: 'Say in which line the values begin and how the columns are divided.',
      },
    ])
  return result
}

export async function inspectLog(file: string, overrides: Overrides = {}, walk: Walk = {}): Promise<Inspection> {
  try {
    if (isParquet(sampleFile(file))) return { ...(await inspectParquet(file, overrides)), peak_mb: peakMegabytes() }
    return await readLog(file, overrides, walk, async ({ plan, scan: found }) => ({
      ok: true,
      error: null,
      samples: found.samples,
      first: found.first,
      last: found.last,
      step: found.step,
      channels: found.channels.map(({ sentinels: _sentinels, ...channel }) => channel),
      sessions: found.sessions.map(({ samples, first, last }) => ({ samples, first, last })),
      warnings: [
        ...found.warnings,
        ...found.guesses.map(({ says, override }) => ({ text: `Guessed: ${says} (To reverse: ${override}.)` })),
      ],
      understood: plan.understood,
      guesses: found.guesses,
      peak_mb: peakMegabytes(),
    }))
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause
    const problem = cause.problems[0]!
    return {
      ok: false,
      error: problem.says,
      samples: 0,
      first: null,
      last: null,
      step: null,
      channels: [],
      sessions: [],
      warnings: cause.problems.map(({ says, todo, line }) => ({
        ...(line === undefined ? {} : { line }),
        text: `${says} ${todo}`,
      })),
      understood: [],
      guesses: [],
      peak_mb: peakMegabytes(),
    }
  }
}
