/**
 * Formats of the build file. A file of an older format is brought up one step at a time; a newer one is refused.
 * To add format 2: raise FORMAT in build.ts, add `{ from: 1, up }` here, keep fixtures/build-1.json as it is.
 */
import { refuse } from '../units/problem.ts'
import { FORMAT } from './build.ts'

export interface Migration {
  /** Format number that `up` takes; it returns the next. */
  readonly from: number
  readonly up: (build: Record<string, unknown>) => Record<string, unknown>
}

/** Format 1 is the first, so there is nothing to bring up yet. */
export const MIGRATIONS: readonly Migration[] = []

const numberOf = (format: string): number => Number(format.slice(format.indexOf('/') + 1))

export const migrate = (json: unknown, steps: readonly Migration[] = MIGRATIONS, to: string = FORMAT): unknown => {
  if (typeof json !== 'object' || json === null || Array.isArray(json))
    throw refuse('not-a-build', 'This is not a Swapwright build: it is not a JSON object.', 'Choose a build file.')
  const build = json as Record<string, unknown>
  const format = build.format
  if (typeof format !== 'string' || !/^swapwright-build\/[1-9]\d{0,5}$/.test(format))
    throw refuse(
      'not-a-build',
      `This is not a Swapwright build: its format is ${format === undefined ? 'missing' : typeof format === 'string' ? `“${format.slice(0, 60)}”` : 'not text'}.`,
      `Choose a file whose format is ${to}.`,
      'format',
    )
  if (numberOf(format) > numberOf(to))
    throw refuse(
      'newer-format',
      `This build was written by a newer Swapwright (format ${format}); this one reads up to ${to}.`,
      'Update Swapwright and open it again. The file was not changed.',
      'format',
    )
  let current = build
  for (let at = numberOf(format); at < numberOf(to); at++) {
    const step = steps.find((migration) => migration.from === at)
    if (step === undefined)
      throw refuse(
        'no-migration',
        `A build of format swapwright-build/${at} cannot be brought up to ${to}.`,
        'Open it with the Swapwright that wrote it and export it again.',
        'format',
      )
    current = { ...step.up(current), format: `swapwright-build/${at + 1}` }
  }
  return current
}
