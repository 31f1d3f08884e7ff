/**
 * Follows the time column through a file: midnight, counters that roll over, restarts (a new session), stray stamps,
 * repeated stamps, gaps. A row's fate is settled when the next one is seen; what was decided is kept as a short list,
 * so the pass that writes can do the same again.
 */
import type { TimeForm } from './plan.ts'

export interface SessionRange {
  readonly firstRow: number
  readonly firstLine: number
  samples: number
  first: number | null
  last: number | null
}

export interface TimelineResult {
  readonly sessions: readonly SessionRange[]
  /** Rows whose stamp is not believed: their values are kept, their time is missing. */
  readonly strays: readonly number[]
  /** From `row` on, `add` seconds are added to what is written. */
  readonly shifts: readonly { readonly row: number; readonly add: number; readonly line: number }[]
  readonly step: number | null
  readonly repeated: { readonly count: number; readonly line: number }
  readonly gaps: { readonly count: number; readonly line: number; readonly longest: number }
  readonly strayLines: readonly number[]
  readonly missing: { readonly count: number; readonly line: number }
}

interface Stamp {
  readonly row: number
  readonly line: number
  readonly raw: number
}

const GAP_STEPS = 5
const RESERVOIR = 8192
/** Sizes at which counters roll over: 16, 24, 31 and 32 bits, counted in seconds, milliseconds or microseconds. */
const ROLL_OVERS = [2 ** 16, 2 ** 24, 2 ** 31, 2 ** 32].flatMap((size) => [size, size / 1e3, size / 1e6])

export class Timeline {
  readonly sessions: SessionRange[] = []
  private readonly strays: number[] = []
  private readonly strayLines: number[] = []
  private readonly shifts: { row: number; add: number; line: number }[] = []
  private readonly form: TimeForm
  private shift = 0
  /** Where the clock stood when the session before ended: midnight may lie between. */
  private clockBefore: number | undefined
  private last: Stamp | undefined
  private pending: Stamp | undefined
  private steps: number[] = []
  private stride = 1
  private seen = 0
  private early: { dt: number; line: number }[] = []
  private usual = Number.NaN
  private repeats = { count: 0, line: 0 }
  private gapsFound = { count: 0, line: 0, longest: 0 }
  private blanks = { count: 0, line: 0 }

  constructor(form: TimeForm) {
    this.form = form
  }

  /** `raw` in seconds as written; NaN where the row has none. `restart` when a name row stands before this row. */
  push(row: number, line: number, raw: number, restart: boolean): void {
    if (restart || row === 0) {
      this.settle(undefined)
      this.open(row, line)
    }
    if (Number.isNaN(raw)) {
      if (this.form !== 'none') {
        this.blanks.line ||= line
        this.blanks.count++
      }
      this.current().samples++
      return
    }
    const stamp = { row, line, raw }
    this.settle(stamp)
    this.pending = stamp
    this.current().samples++
  }

  finish(): TimelineResult {
    this.settle(undefined)
    this.fixUsual()
    const sorted = [...this.steps].sort((a, b) => a - b)
    return {
      sessions: this.sessions,
      strays: this.strays,
      strayLines: this.strayLines,
      shifts: this.shifts,
      step: sorted.length === 0 ? null : printedStep(this.median(sorted), this.sessions),
      repeated: this.repeats,
      gaps: this.gapsFound,
      missing: this.blanks,
    }
  }

  private median(sorted: readonly number[]): number {
    const middle = sorted[Math.floor(sorted.length / 2)]!
    return sorted.length % 2 === 1 ? middle : (sorted[sorted.length / 2 - 1]! + middle) / 2
  }

  private current(): SessionRange {
    return this.sessions.at(-1)!
  }

  private open(row: number, line: number): void {
    this.sessions.push({ firstRow: row, firstLine: line, samples: 0, first: null, last: null })
    this.clockBefore = this.form === 'clock' ? this.last?.raw : undefined
    this.last = undefined
    // A clock past midnight stays past it behind another row of names; a counter begins anew.
    if (this.shift !== 0 && this.form !== 'clock') {
      this.shift = 0
      this.shifts.push({ row, add: 0, line })
    }
  }

  private usualStep(): number {
    if (!Number.isNaN(this.usual)) return this.usual
    const known = this.early
      .map(({ dt }) => dt)
      .filter((dt) => dt > 0)
      .sort((a, b) => a - b)
    return known[Math.floor(known.length / 2)] ?? Number.POSITIVE_INFINITY
  }

  /** Decides about the pending stamp, now that the one after it is known. */
  private settle(next: Stamp | undefined): void {
    const stamp = this.pending
    if (stamp === undefined) return
    this.pending = undefined
    const before = this.last
    if (before === undefined) {
      if (this.clockBefore !== undefined) {
        const turn = this.rollOver(this.clockBefore, stamp.raw, 0)
        this.shift += turn
        if (turn > 0) this.shifts.push({ row: stamp.row, add: this.shift, line: stamp.line })
      }
      this.accept(stamp)
      return
    }
    const near = GAP_STEPS * this.usualStep()
    const back = stamp.raw < before.raw
    const follows = next !== undefined && next.raw >= before.raw && next.raw - before.raw <= near
    const leap = next !== undefined && next.raw < stamp.raw && stamp.raw - before.raw > 4 * near
    if (follows && (back ? this.rollOver(before.raw, stamp.raw, near) === 0 : leap)) {
      this.stray(stamp)
      return
    }
    if (!back) {
      this.accept(stamp)
      return
    }
    const turn = this.rollOver(before.raw, stamp.raw, near)
    if (turn > 0) {
      this.shift += turn
      this.shifts.push({ row: stamp.row, add: this.shift, line: stamp.line })
      this.accept(stamp, turn)
      return
    }
    // The time starts again: the rows from here on are a session of their own.
    const moved = this.current()
    const taken = 1 + this.rowsAfter(stamp, moved)
    moved.samples -= taken
    this.open(stamp.row, stamp.line)
    this.current().samples = taken
    this.accept(stamp)
  }

  /** Rows already counted behind `stamp`: those without a stamp of their own. */
  private rowsAfter(stamp: Stamp, session: SessionRange): number {
    return session.firstRow + session.samples - stamp.row - 1
  }

  private rollOver(before: number, after: number, near: number): number {
    if (this.form === 'clock') return before - after > 43200 ? 86400 : 0
    if (
      this.form !== 'seconds' &&
      this.form !== 'milliseconds' &&
      this.form !== 'microseconds' &&
      this.form !== 'sample-number'
    )
      return 0
    return (
      ROLL_OVERS.find(
        (size) => before > 0.98 * size && before <= size && after < 0.02 * size && after + size - before <= near,
      ) ?? 0
    )
  }

  private stray(stamp: Stamp): void {
    this.strays.push(stamp.row)
    this.strayLines.push(stamp.line)
  }

  private accept(stamp: Stamp, turn = 0): void {
    const session = this.current()
    const at = stamp.raw + this.shift
    session.first ??= at
    if (this.last !== undefined) this.note(turn + stamp.raw - this.last.raw, stamp.line)
    session.last = at
    this.last = stamp
  }

  private note(dt: number, line: number): void {
    if (dt === 0) {
      this.repeats.line ||= line
      this.repeats.count++
      return
    }
    if (this.seen++ % this.stride === 0) {
      this.steps.push(dt)
      if (this.steps.length >= RESERVOIR) {
        this.steps = this.steps.filter((_, i) => i % 2 === 0)
        this.stride *= 2
      }
    }
    if (Number.isNaN(this.usual)) {
      this.early.push({ dt, line })
      if (this.early.length >= 64) this.fixUsual()
    } else this.checkGap(dt, line)
  }

  private fixUsual(): void {
    if (!Number.isNaN(this.usual) || this.early.length < 3) return
    this.usual = this.usualStep()
    for (const { dt, line } of this.early) this.checkGap(dt, line)
    this.early = []
  }

  private checkGap(dt: number, line: number): void {
    if (dt <= GAP_STEPS * this.usual) return
    this.gapsFound.line ||= line
    this.gapsFound.count++
    this.gapsFound.longest = Math.max(this.gapsFound.longest, dt)
  }
}

/** The step as it was printed: a difference of two doubles carries their last bits, no more. */
function printedStep(step: number, sessions: readonly SessionRange[]): number {
  const largest = Math.max(...sessions.map(({ first, last }) => Math.max(Math.abs(first ?? 0), Math.abs(last ?? 0))))
  for (let digits = 1; digits <= 15; digits++) {
    const plain = Number(step.toPrecision(digits))
    if (Math.abs(plain - step) <= 4 * largest * Number.EPSILON) return plain
  }
  return step
}
