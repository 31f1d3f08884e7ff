/**
 * The rows of a log, one at a time, judged: a row of values, a repeated name row, or something to set aside. The
 * pass that reports and the pass that writes both walk the file through here, so they cannot disagree.
 */
import { BLANK, type CellResult, isHexadecimal, NUMBER, readCell, TEXT } from './cells.ts'
import { decode } from './fileKind.ts'
import type { ReadingPlan, TimeForm } from './plan.ts'
import { RowReader } from './rowReader.ts'
import { distinctNames, nameAndUnit } from './sniff.ts'
import { clockSeconds, dateSeconds, dateTimeSeconds } from './timeText.ts'
import { looksLikeUnit } from './unitSymbols.ts'

export type AsideReason = 'short' | 'long' | 'not values' | 'NUL bytes' | 'endless' | 'cut short' | 'blank'

export interface Channel {
  readonly name: string
  unit: string
  /** Counts so far: numbers, texts, words for "no value". */
  numbers: number
  texts: number
}

const TIME_SCALE: Readonly<Record<string, number>> = {
  seconds: 1,
  epoch: 1,
  milliseconds: 1e-3,
  'epoch-milliseconds': 1e-3,
  microseconds: 1e-6,
  minutes: 60,
  hours: 3600,
}

/** Seconds of a printed number; undefined for forms that are not one number. One operation, so no second rounding. */
export function toSeconds(form: TimeForm, value: number): number | undefined {
  const scale = TIME_SCALE[form]
  if (scale === undefined) return undefined
  return scale >= 1 ? value * scale : value / Math.round(1 / scale)
}

export class LogRows {
  readonly channels: Channel[]
  /** Values of the present row by channel; NaN where there is none. */
  values: Float64Array
  kinds: Uint8Array
  /** Seconds as written; NaN when missing. */
  time = Number.NaN
  row = -1
  line = 0
  /** True when a name row stands before the present row. */
  restart = false
  /** True when the last line has no line end although it is complete. */
  openEnd = false
  readonly suffixes: Map<number, string> = new Map()
  private readonly plan: ReadingPlan
  private readonly reader: RowReader
  private readonly onAside: (reason: AsideReason, line: number) => void
  private readonly decimal: number
  /** A degree sign is one byte in the one, two in the other. */
  private readonly letters: 'utf8' | 'latin1'
  private readonly cell: CellResult = { kind: 0, value: 0, suffix: '' }
  private map: Int32Array
  private timeCell: number
  private dateCell: number
  private printed: readonly string[]
  private afterNames = false
  private textCells: Int32Array
  /** Columns of bare hexadecimal figures, until a name row changes the columns. */
  private hexadecimal: ReadonlySet<number>
  private dateText = ''
  private dateValue = Number.NaN

  constructor(path: string, plan: ReadingPlan, onAside: (reason: AsideReason, line: number) => void) {
    this.plan = plan
    this.onAside = onAside
    this.reader = new RowReader(path, {
      delimiter: plan.delimiter,
      skipBytes: plan.encoding.startsWith('utf-16') ? 0 : plan.mark,
    })
    this.decimal = plan.decimal.charCodeAt(0)
    this.letters = plan.encoding === 'windows-1252' ? 'latin1' : 'utf8'
    this.timeCell = plan.time.column
    this.dateCell = plan.time.dateColumn ?? -1
    this.printed = plan.printedNames
    this.hexadecimal = new Set(plan.hexadecimal)
    this.channels = []
    this.map = Int32Array.from(plan.names, (name, column) =>
      this.isTime(column) ? -1 : this.channels.push({ name, unit: plan.units[column] ?? '', numbers: 0, texts: 0 }) - 1,
    )
    this.values = new Float64Array(this.channels.length)
    this.kinds = new Uint8Array(this.channels.length)
    this.textCells = new Int32Array(this.channels.length)
    while (this.reader.line < plan.dataLine - 1 && this.reader.next());
  }

  get bytesRead(): number {
    return this.reader.bytesRead
  }

  close(): void {
    this.reader.close()
  }

  /** The text of a channel's cell in the present row. */
  text(channel: number): string {
    return this.cellText(this.textCells[channel]!)
  }

  next(): boolean {
    const { reader } = this
    this.restart = false
    while (reader.next()) {
      this.line = reader.line
      if (reader.overlong) {
        this.onAside('endless', this.line)
        continue
      }
      if (this.isBlank()) continue
      let count = reader.count
      const width = this.map.length
      while (count > width && this.isEmpty(count - 1)) count--
      if (count !== width || reader.hasNul) {
        if (!reader.hasNul && this.takeNames(count)) continue
        this.afterNames = false
        this.onAside(
          reader.hasNul ? 'NUL bytes' : count > width ? 'long' : reader.ended ? 'short' : 'cut short',
          this.line,
        )
        continue
      }
      const verdict = this.readValues()
      if (verdict === 'values') {
        this.row++
        this.openEnd = !reader.ended
        this.afterNames = false
        return true
      }
      if (verdict === 'blank') this.onAside('blank', this.line)
      else if (!this.takeNames(count) && !this.takeUnits())
        this.onAside(reader.ended ? 'not values' : 'cut short', this.line)
    }
    return false
  }

  private isTime(column: number): boolean {
    return column === this.timeCell || column === this.dateCell
  }

  private cellText(cell: number): string {
    const { buf, starts, ends } = this.reader
    return decode(
      buf.subarray(starts[cell]!, ends[cell]!),
      this.plan.encoding.startsWith('utf-16') ? 'utf-8' : this.plan.encoding,
    ).trim()
  }

  private isEmpty(cell: number): boolean {
    for (let i = this.reader.starts[cell]!; i < this.reader.ends[cell]!; i++) {
      const byte = this.reader.buf[i]
      if (byte !== 32 && byte !== 9) return false
    }
    return true
  }

  private isBlank(): boolean {
    for (let i = this.reader.lineStart; i < this.reader.lineEnd; i++) {
      const byte = this.reader.buf[i]
      if (byte !== 32 && byte !== 9 && byte !== 12 && byte !== 26) return false
    }
    return true
  }

  private readValues(): 'values' | 'blank' | 'other' {
    const { reader, cell, map, values, kinds, channels } = this
    values.fill(Number.NaN)
    kinds.fill(BLANK)
    let numbers = 0
    let texts = 0
    let surprises = 0
    for (let column = 0; column < map.length; column++) {
      const channel = map[column]!
      if (channel < 0) continue
      if (this.hexadecimal.has(column)) this.readHexadecimal(column)
      else readCell(reader.buf, reader.starts[column]!, reader.ends[column]!, this.decimal, cell, this.letters)
      kinds[channel] = cell.kind
      this.textCells[channel] = column
      if (cell.kind === NUMBER) {
        values[channel] = cell.value
        numbers++
        if (cell.suffix !== '' && !this.suffixes.has(channel)) this.suffixes.set(channel, cell.suffix)
      } else if (cell.kind === TEXT) {
        texts++
        // Before the first row nothing is known of a column; a text there is a state until numbers follow.
        if (channels[channel]!.numbers > channels[channel]!.texts) surprises++
      }
    }
    this.time = this.readTime()
    // Where rows are counted every line has a time, words too: it proves nothing.
    const timed = this.timeCell >= 0 && !Number.isNaN(this.time)
    if (numbers === 0 && texts === 0 && !timed)
      return this.timeCell >= 0 && !this.isEmpty(this.timeCell) ? 'other' : 'blank'
    if (!timed && numbers === 0 && texts > 0 && (surprises > 0 || this.timeCell >= 0)) return 'other'
    // A footer such as "Total,300,rows": its time cannot be read, and it has words where numbers stood.
    if (!timed && (surprises > numbers || (surprises > 0 && this.timeCell >= 0 && !this.isEmpty(this.timeCell))))
      return 'other'
    for (let channel = 0; channel < channels.length; channel++) {
      if (kinds[channel] === NUMBER) channels[channel]!.numbers++
      else if (kinds[channel] === TEXT) channels[channel]!.texts++
    }
    return 'values'
  }

  private readHexadecimal(column: number): void {
    const text = this.cellText(column)
    const read = text !== '' && isHexadecimal(text)
    this.cell.kind = read ? NUMBER : text === '' ? BLANK : TEXT
    this.cell.value = read ? Number.parseInt(text, 16) : Number.NaN
    this.cell.suffix = ''
  }

  private readTime(): number {
    const { plan, reader, cell } = this
    const { form } = plan.time
    const dayFirst = plan.time.dayFirst ?? true
    if (form === 'none') return Number.NaN
    if (form === 'sample-number') {
      if (this.timeCell < 0) return (this.row + 1) / plan.time.rate!
      readCell(reader.buf, reader.starts[this.timeCell]!, reader.ends[this.timeCell]!, this.decimal, cell, this.letters)
      return cell.kind === NUMBER ? cell.value / plan.time.rate! : Number.NaN
    }
    if (this.timeCell < 0) return Number.NaN
    if (TIME_SCALE[form] !== undefined) {
      readCell(reader.buf, reader.starts[this.timeCell]!, reader.ends[this.timeCell]!, this.decimal, cell, this.letters)
      return cell.kind === NUMBER ? toSeconds(form, cell.value)! : Number.NaN
    }
    const text = this.cellText(this.timeCell)
    if (form === 'clock') return clockSeconds(text) ?? Number.NaN
    if (form === 'date-time') return dateTimeSeconds(text, dayFirst) ?? Number.NaN
    const date = this.cellText(this.dateCell)
    if (date !== this.dateText) {
      this.dateText = date
      this.dateValue = dateSeconds(date, dayFirst) ?? Number.NaN
    }
    return this.dateValue + (clockSeconds(text) ?? Number.NaN)
  }

  /** A name row in the middle of the file: the same columns again, or others. */
  private takeNames(count: number): boolean {
    const cells = Array.from({ length: count }, (_, i) => this.cellText(i).replace(/^"|"$/g, ''))
    const known = new Set(this.printed.filter((name) => name !== ''))
    const shared = cells.filter((cell) => known.has(cell)).length
    const filled = cells.filter((cell) => cell !== '')
    if (shared === 0 || filled.length < count / 2 || filled.some((cell) => !/\p{L}|^#$/u.test(cell))) return false
    if (count === this.map.length && shared < filled.length / 3) return false
    this.restart = true
    this.afterNames = true
    if (count === this.printed.length && cells.every((cell, i) => cell === this.printed[i])) return true
    const timeName = this.timeCell >= 0 ? this.printed[this.timeCell] : undefined
    const dateName = this.dateCell >= 0 ? this.printed[this.dateCell] : undefined
    const hexadecimal = new Set([...this.hexadecimal].map((column) => this.printed[column]))
    this.printed = cells
    this.hexadecimal = new Set(cells.flatMap((name, column) => (hexadecimal.has(name) ? [column] : [])))
    this.timeCell = timeName === undefined ? -1 : cells.indexOf(timeName)
    this.dateCell = dateName === undefined ? -1 : cells.indexOf(dateName)
    const split = cells.map(nameAndUnit)
    const names = distinctNames(split.map(({ name }) => name))
    this.map = Int32Array.from(names, (name, column) =>
      this.isTime(column) ? -1 : this.channelFor(name, split[column]!.unit),
    )
    this.values = new Float64Array(this.channels.length)
    this.kinds = new Uint8Array(this.channels.length)
    this.textCells = new Int32Array(this.channels.length)
    return true
  }

  private channelFor(name: string, unit: string): number {
    const at = this.channels.findIndex((channel) => channel.name === name)
    return at >= 0 ? at : this.channels.push({ name, unit, numbers: 0, texts: 0 }) - 1
  }

  private takeUnits(): boolean {
    if (!this.afterNames) return false
    const cells = Array.from({ length: this.reader.count }, (_, i) =>
      this.cellText(i).replace(/^[[(<{]\s*|\s*[\])>}]$/g, ''),
    )
    const filled = cells.filter((cell) => cell !== '')
    if (filled.length === 0 || filled.filter(looksLikeUnit).length < 0.6 * filled.length) return false
    cells.forEach((unit, column) => {
      const channel = this.channels[this.map[column] ?? -1]
      if (channel && channel.unit === '') channel.unit = unit
    })
    return true
  }
}
