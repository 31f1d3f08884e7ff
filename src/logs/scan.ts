/**
 * The pass that reports: walks the whole file once and gathers what each channel holds, the sessions, and everything
 * that was set aside. Memory does not grow with the file.
 */
import { setImmediate } from 'node:timers/promises'
import { BLANK, NOTHING, NUMBER } from './cells.ts'
import type { AsideReason } from './logRows.ts'
import type { Guess, ReadingPlan } from './plan.ts'
import { openRows } from './spreadRows.ts'
import { Tally } from './tally.ts'
import { Timeline, type TimelineResult } from './timeline.ts'

export interface Warning {
  readonly line?: number
  readonly text: string
}

export interface ChannelReport {
  readonly name: string
  readonly unit: string
  /** Rows of the log. */
  readonly samples: number
  /** Rows without a value. */
  readonly missing: number
  readonly min: number | null
  readonly mean: number | null
  readonly max: number | null
  /** The texts of a channel of states, in order of first sight. */
  readonly states?: readonly string[]
  /** Values taken as marks of a missing one. */
  readonly sentinels: readonly number[]
}

export interface SessionReport {
  readonly samples: number
  readonly first: number | null
  readonly last: number | null
  readonly firstRow: number
  readonly firstLine: number
}

export interface Scan {
  readonly samples: number
  readonly first: number | null
  readonly last: number | null
  readonly step: number | null
  readonly channels: readonly ChannelReport[]
  readonly sessions: readonly SessionReport[]
  readonly warnings: readonly Warning[]
  readonly guesses: readonly Guess[]
  readonly timeline: TimelineResult
  /** Rows whose time is not believed at all: the time column does not run. */
  readonly timeUsable: boolean
}

const SAYS: Readonly<Record<AsideReason, (count: number) => string>> = {
  short: (count) => `${count} ${rows(count)} with too few values set aside`,
  long: (count) => `${count} ${rows(count)} with too many values set aside`,
  'not values': (count) => `${count} ${rows(count)} that ${count === 1 ? 'holds' : 'hold'} no values set aside`,
  'NUL bytes': (count) => `${count} ${rows(count)} with NUL bytes set aside`,
  endless: (count) => `${count} ${rows(count)} longer than a megabyte set aside`,
  'cut short': () => 'The last line is cut short and was set aside',
  blank: (count) => `${count} ${rows(count)} with blank cells only set aside`,
}
const rows = (count: number): string => (count === 1 ? 'line' : 'lines')

export interface Walk {
  readonly signal?: AbortSignal
  readonly onProgress?: (bytesRead: number) => void
}

export async function scan(path: string, plan: ReadingPlan, walk: Walk = {}): Promise<Scan> {
  const aside = new Map<AsideReason, { lines: number[]; count: number }>()
  const log = openRows(path, plan, (reason, line) => {
    const entry = aside.get(reason) ?? { lines: [], count: 0 }
    entry.count++
    if (entry.lines.length < 12) entry.lines.push(line)
    aside.set(reason, entry)
  })
  const timeline = new Timeline(plan.time.form)
  const tallies: Tally[] = []
  const repeats: number[] = []
  try {
    while (log.next()) {
      while (tallies.length < log.channels.length) tallies.push(new Tally())
      if (log.restart && log.row > 0) repeats.push(log.line)
      timeline.push(log.row, log.line, log.time, log.restart && log.row > 0)
      const { values, kinds } = log
      for (let channel = 0; channel < kinds.length; channel++) {
        const kind = kinds[channel]
        if (kind === NUMBER) tallies[channel]!.add(values[channel]!)
        else if (kind !== BLANK) tallies[channel]!.note(kind === NOTHING, log.line, () => log.text(channel))
      }
      if (log.row % 20_000 === 19_999) {
        walk.signal?.throwIfAborted()
        walk.onProgress?.(log.bytesRead)
        await setImmediate()
      }
    }
  } finally {
    log.close()
  }
  while (tallies.length < log.channels.length) tallies.push(new Tally())
  const samples = log.row + 1
  const warnings: Warning[] = []
  const guesses: Guess[] = [...plan.guesses]
  for (const [reason, { lines, count }] of aside)
    warnings.push({
      line: lines[0]!,
      text: `${SAYS[reason](count)} (line ${lines.join(', ')}${count > lines.length ? ', …' : ''}).`,
    })
  for (const line of repeats)
    warnings.push({ line, text: 'A name row stands in the middle of the file; a new session begins here.' })
  if (log.openEnd)
    warnings.push({ line: log.line, text: 'The last line has no line end; its last value may be cut short.' })
  const channels = log.channels.map((channel, index) =>
    channelReport(
      tallies[index]!,
      channel.name,
      channel.unit || (log.suffixes.get(index) ?? ''),
      samples,
      plan,
      warnings,
      guesses,
    ),
  )
  const time = timeline.finish()
  const disorder = time.strays.length + time.sessions.length - 1 - repeats.length
  const timeUsable =
    plan.time.form !== 'none' && time.missing.count < samples && disorder <= Math.max(3, 0.02 * samples)
  const sessions = timeUsable
    ? time.sessions
    : time.sessions
        .filter((session) => session.firstRow === 0 || repeats.includes(session.firstLine))
        .map((session, i, all) => ({
          ...session,
          samples: (all[i + 1]?.firstRow ?? samples) - session.firstRow,
          first: null,
          last: null,
        }))
  timeWarnings(time, plan, timeUsable, repeats.length, warnings)
  return {
    samples,
    first: sessions[0]?.first ?? null,
    last: sessions.at(-1)?.last ?? null,
    step: timeUsable ? time.step : null,
    channels,
    sessions: sessions.map(({ samples: count, first, last, firstRow, firstLine }) => ({
      samples: count,
      first,
      last,
      firstRow,
      firstLine,
    })),
    warnings,
    guesses,
    timeline: time,
    timeUsable,
  }
}

function channelReport(
  tally: Tally,
  name: string,
  unit: string,
  samples: number,
  plan: ReadingPlan,
  warnings: Warning[],
  guesses: Guess[],
): ChannelReport {
  const numbers = tally.count + [...tally.marks.values()].reduce((sum, count) => sum + count, 0)
  if (tally.texts > numbers) {
    if (numbers > 0)
      warnings.push({ text: `Channel "${name}" holds states; ${numbers} numbers in it are kept as text.` })
    return {
      name,
      unit,
      samples,
      missing: samples - tally.texts - numbers,
      min: null,
      mean: null,
      max: null,
      states: [...tally.states.keys()],
      sentinels: [],
    }
  }
  const sentinels = tally.settleMarks(plan.sentinels)
  if (sentinels.length > 0)
    guesses.push({
      says: `Channel "${name}": ${sentinels.join(', ')} ${sentinels.length === 1 ? 'stands' : 'stand'} for a missing value.`,
      override: 'sentinels',
    })
  if (tally.texts > 0)
    warnings.push({
      line: tally.textLine,
      text: `Channel "${name}": ${tally.texts} ${tally.texts === 1 ? 'cell is' : 'cells are'} not a number ("${tally.textSample.slice(0, 24)}") and ${tally.texts === 1 ? 'counts' : 'count'} as missing.`,
    })
  const empty = tally.count === 0
  if (tally.nothings > 0)
    warnings.push({
      text: `Channel "${name}": ${tally.nothings} ${tally.nothings === 1 ? 'cell says' : 'cells say'} "no value" in words (such as NaN) and ${tally.nothings === 1 ? 'counts' : 'count'} as missing.`,
    })
  return {
    name,
    unit,
    samples,
    missing: samples - tally.count,
    min: empty ? null : tally.min,
    mean: empty ? null : tally.mean,
    max: empty ? null : tally.max,
    sentinels,
  }
}

function timeWarnings(
  time: TimelineResult,
  plan: ReadingPlan,
  usable: boolean,
  repeats: number,
  warnings: Warning[],
): void {
  if (plan.time.form === 'none') return
  if (!usable) {
    warnings.push({ text: 'The time column does not run forward; the log has no usable time. Name another column.' })
    return
  }
  const restarts = time.sessions
    .slice(1)
    .filter((session) => !warnings.some((warning) => repeats > 0 && warning.line === session.firstLine))
  for (const session of restarts.slice(0, 20))
    warnings.push({ line: session.firstLine, text: 'The time starts again; a new session begins here.' })
  for (const { line, add } of time.shifts.slice(0, 20))
    if (add > 0)
      warnings.push({
        line,
        text:
          plan.time.form === 'clock'
            ? 'The clock passes midnight; time runs on.'
            : 'The time counter rolls over; time runs on.',
      })
  if (time.strayLines.length > 0)
    warnings.push({
      line: time.strayLines[0]!,
      text: `${time.strayLines.length} stray time ${time.strayLines.length === 1 ? 'stamp' : 'stamps'} (line ${time.strayLines.slice(0, 12).join(', ')}): the values are kept, their time is missing.`,
    })
  if (time.repeated.count > 0)
    warnings.push({
      line: time.repeated.line,
      text: `${time.repeated.count} ${time.repeated.count === 1 ? 'row repeats' : 'rows repeat'} the time of the row before.`,
    })
  if (time.missing.count > 0)
    warnings.push({
      line: time.missing.line,
      text: `${time.missing.count} ${time.missing.count === 1 ? 'row has' : 'rows have'} no readable time.`,
    })
  if (time.gaps.count > 0)
    warnings.push({
      line: time.gaps.line,
      text: `${time.gaps.count} ${time.gaps.count === 1 ? 'gap' : 'gaps'} in the time, the longest ${Number(time.gaps.longest.toPrecision(4))} s.`,
    })
}
