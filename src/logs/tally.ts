/** What one channel holds, gathered sample by sample in memory that does not grow. */

/** Values that loggers write for "no value", tried only where they stand far outside the rest. */
const SENTINELS = new Set([
  -999, -9999, -99999, -32768, -2147483648, 9999, 99999, 999999, 32767, 65535, 2147483647, 4294967295,
])
const MAX_STATES = 64

export class Tally {
  count = 0
  sum = 0
  private lost = 0
  min = Number.POSITIVE_INFINITY
  max = Number.NEGATIVE_INFINITY
  nothings = 0
  texts = 0
  textLine = 0
  textSample = ''
  marks = new Map<number, number>()
  states = new Map<string, number>()

  add(value: number): void {
    if (value === Math.trunc(value) && (value > 9998 || value < -998) && SENTINELS.has(value)) {
      this.marks.set(value, (this.marks.get(value) ?? 0) + 1)
      return
    }
    this.take(value, 1)
  }

  /** Neumaier's compensated sum: the mean of 10⁸ samples keeps its digits. */
  take(value: number, times: number): void {
    this.count += times
    const term = value * times
    const total = this.sum + term
    this.lost += Math.abs(this.sum) >= Math.abs(term) ? this.sum - total + term : term - total + this.sum
    this.sum = total
    if (value < this.min) this.min = value
    if (value > this.max) this.max = value
  }

  get mean(): number {
    return (this.sum + this.lost) / this.count
  }

  /** Sorts the suspicious values into marks of a missing value and plain values. */
  settleMarks(believe: boolean): number[] {
    const marks: number[] = []
    const clean = this.count
    const [low, high] = [this.min, this.max]
    for (const [value, times] of this.marks) {
      const far =
        clean === 0 ? value < 0 : value < 0 ? low > -300 : value > 3 * Math.max(Math.abs(low), Math.abs(high), 1)
      if (believe && far) marks.push(value)
      else this.take(value, times)
    }
    return marks
  }

  /** A cell that is no number: a word for "no value", or a text. */
  note(nothing: boolean, line: number, read: () => string): void {
    if (nothing) {
      this.nothings++
      return
    }
    if (this.texts === 0) this.textLine = line
    this.texts++
    const text = read()
    if (this.textSample === '') this.textSample = text
    const known = this.states.get(text)
    if (known !== undefined) this.states.set(text, known + 1)
    else if (this.states.size < MAX_STATES) this.states.set(text, 1)
  }
}
