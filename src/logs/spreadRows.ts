/**
 * A log of one value a row (time, name of the channel, value), spread over channels: rows of one time are one sample,
 * and a channel that comes again begins the next. Walked through `LogRows`, so both passes see the same.
 */
import { BLANK, NUMBER, TEXT } from './cells.ts'
import { type AsideReason, type Channel, LogRows } from './logRows.ts'
import type { ReadingPlan } from './plan.ts'

/** What both kinds of walk offer. */
export type Rows = Pick<
  LogRows,
  | 'channels'
  | 'values'
  | 'kinds'
  | 'time'
  | 'row'
  | 'line'
  | 'restart'
  | 'openEnd'
  | 'suffixes'
  | 'bytesRead'
  | 'text'
  | 'next'
  | 'close'
>

export const openRows = (
  path: string,
  plan: ReadingPlan,
  onAside: (reason: AsideReason, line: number) => void,
): Rows => {
  const rows = new LogRows(path, plan, onAside)
  return plan.spread ? new SpreadRows(rows, plan, plan.spread) : rows
}

class SpreadRows implements Rows {
  readonly channels: Channel[] = []
  values = new Float64Array()
  kinds = new Uint8Array()
  time = Number.NaN
  row = -1
  line = 0
  restart = false
  openEnd = false
  readonly suffixes: Map<number, string> = new Map()
  private readonly rows: LogRows
  private readonly name: number
  private readonly value: number
  private readonly unit: number
  private readonly known = new Map<string, number>()
  private texts: string[] = []
  /** The inner walk stands on a row that belongs to the next sample. */
  private held = false

  constructor(rows: LogRows, plan: ReadingPlan, columns: NonNullable<ReadingPlan['spread']>) {
    this.rows = rows
    const channelOf = (column: number): number =>
      rows.channels.findIndex(({ name }) => column >= 0 && name === plan.names[column])
    this.name = channelOf(columns.name)
    this.value = channelOf(columns.value)
    this.unit = channelOf(columns.unit)
  }

  get bytesRead(): number {
    return this.rows.bytesRead
  }
  close(): void {
    this.rows.close()
  }
  text(channel: number): string {
    return this.texts[channel] ?? ''
  }

  next(): boolean {
    const { rows } = this
    if (!this.held && !rows.next()) return false
    this.held = false
    this.values = new Float64Array(this.channels.length).fill(Number.NaN)
    this.kinds = new Uint8Array(this.channels.length).fill(BLANK)
    this.texts = []
    this.time = rows.time
    this.line = rows.line
    this.restart = rows.restart
    const taken = new Set<number>()
    do {
      const channel = this.channelOf(rows.text(this.name))
      // One time or none at all keeps rows together; a name row between them does not.
      const same = taken.size === 0 || (!rows.restart && Object.is(rows.time, this.time) && !taken.has(channel))
      if (!same) {
        this.held = true
        break
      }
      taken.add(channel)
      this.put(channel)
      this.openEnd = rows.openEnd
    } while (rows.next())
    this.row++
    return true
  }

  private channelOf(name: string): number {
    const at = this.known.get(name)
    if (at !== undefined) return at
    const unit = this.unit >= 0 ? this.rows.text(this.unit) : ''
    const channel = this.channels.push({ name, unit, numbers: 0, texts: 0 }) - 1
    this.known.set(name, channel)
    this.values = grown(this.values, new Float64Array(channel + 1).fill(Number.NaN))
    this.kinds = grown(this.kinds, new Uint8Array(channel + 1).fill(BLANK))
    return channel
  }

  private put(channel: number): void {
    const { rows } = this
    const kind = rows.kinds[this.value]!
    this.kinds[channel] = kind
    if (kind === NUMBER) this.values[channel] = rows.values[this.value]!
    if (kind !== BLANK) this.texts[channel] = rows.text(this.value)
    const entry = this.channels[channel]!
    if (kind === NUMBER) entry.numbers++
    else if (kind === TEXT) entry.texts++
    const suffix = rows.suffixes.get(this.value)
    if (entry.unit === '' && suffix !== undefined) this.suffixes.set(channel, suffix)
  }
}

const grown = <T extends Float64Array | Uint8Array>(from: T, to: T): T => {
  to.set(from)
  return to
}
