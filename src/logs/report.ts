/** What is told of a log: when it is only looked at, and when it is stored. */
import type { Guess, TimeForm } from './plan.ts'
import type { ChannelReport, SessionReport, Warning } from './scan.ts'

export interface Inspection {
  readonly ok: boolean
  readonly error: string | null
  readonly samples: number
  /** Seconds, as logged; null where the log has no time. */
  readonly first: number | null
  readonly last: number | null
  readonly step: number | null
  readonly channels: readonly {
    name: string
    unit: string
    samples: number
    missing: number
    min: number | null
    mean: number | null
    max: number | null
    states?: readonly string[]
  }[]
  readonly sessions: readonly { samples: number; first: number | null; last: number | null }[]
  readonly warnings: readonly { line?: number; text: string }[]
  readonly understood: readonly string[]
  readonly guesses: readonly Guess[]
  readonly peak_mb: number
}

export interface LogReport {
  readonly source: string
  readonly bytes: number
  /** Way it took: `clean` read by DuckDB alone, `repaired` row by row, `parquet` as it came. */
  readonly way: 'clean' | 'repaired' | 'parquet'
  readonly samples: number
  readonly first: number | null
  readonly last: number | null
  readonly step: number | null
  readonly timeForm: TimeForm
  readonly channels: readonly ChannelReport[]
  readonly sessions: readonly SessionReport[]
  readonly warnings: readonly Warning[]
  readonly understood: readonly string[]
  readonly guesses: readonly Guess[]
}
