/** The reading plan: how a file is to be read, which of it was plain and which was guessed. */
import type { Encoding } from './fileKind.ts'

export type TimeForm =
  | 'seconds'
  | 'milliseconds'
  | 'microseconds'
  | 'minutes'
  | 'hours'
  | 'clock'
  | 'date-time'
  | 'date-and-clock'
  | 'epoch'
  | 'epoch-milliseconds'
  | 'sample-number'
  | 'none'

export interface TimeRule {
  readonly form: TimeForm
  /** Cell that holds the time (for `date-and-clock` the clock); -1 when there is none. */
  readonly column: number
  /** Cell that holds the date, for `date-and-clock`. */
  readonly dateColumn?: number
  /** Day before month in dates like 03/04/2024. */
  readonly dayFirst?: boolean
  /** Samples a second, where time is counted in samples or rows. */
  readonly rate?: number
}

/** What may be told instead of guessed. Each guess names the override that reverses it. */
export interface Overrides {
  readonly encoding?: Encoding
  /** ',' ';' '\t' '|' ' ' (runs of blanks) or '' (one value a line). */
  readonly delimiter?: string
  readonly decimal?: '.' | ','
  /** Line of the channel names, from 1; 0 when there is none. */
  readonly nameLine?: number
  /** Line of the units, from 1; 0 when there is none. */
  readonly unitLine?: number
  /** First line of values, from 1. */
  readonly dataLine?: number
  /** Name or column number (from 1) of the time column; `null` when there is none. */
  readonly timeColumn?: string | number | null
  readonly timeForm?: TimeForm
  readonly dayFirst?: boolean
  /** Samples a second. */
  readonly rate?: number
  /** False: values such as -9999 are values, not marks of a missing one. */
  readonly sentinels?: boolean
  /** False: cells such as 0A and 1F are text, not hexadecimal figures. */
  readonly hexadecimal?: boolean
  /** False: a column of channel names beside one of values is kept as it stands, not spread over channels. */
  readonly spread?: boolean
}

export interface Guess {
  readonly says: string
  readonly override: keyof Overrides
}

export interface ReadingPlan {
  readonly encoding: Encoding
  readonly mark: number
  readonly delimiter: string
  readonly decimal: '.' | ','
  readonly lineEnd: 'LF' | 'CRLF' | 'CR' | 'mixed'
  readonly nameLine: number
  readonly unitLine: number
  readonly dataLine: number
  readonly names: readonly string[]
  readonly units: readonly string[]
  /** The names as printed in the file, to know a repeated name row again. */
  readonly printedNames: readonly string[]
  readonly preamble: readonly string[]
  readonly time: TimeRule
  readonly sentinels: boolean
  /** Columns of bare hexadecimal figures. */
  readonly hexadecimal: readonly number[]
  /** One value a row: the column that names the channel, that of its value and, where there is one, of its unit. */
  readonly spread?: { readonly name: number; readonly value: number; readonly unit: number }
  readonly understood: readonly string[]
  readonly guesses: readonly Guess[]
}

export const delimiterName = (delimiter: string): string =>
  ({ ',': 'commas', ';': 'semicolons', '\t': 'tabs', '|': 'pipes', ' ': 'blanks', '': 'nothing (one value a line)' })[
    delimiter
  ] ?? `"${delimiter}"`
