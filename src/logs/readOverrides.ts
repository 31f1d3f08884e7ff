/** What the builder says about how a file is to be read, as text or JSON, checked before it overrules a guess. */
import { z } from 'zod'
import { Refusal } from '../units/problem.ts'
import type { Overrides, TimeForm } from './plan.ts'

const TIME_FORMS: readonly TimeForm[] = [
  'seconds',
  'milliseconds',
  'microseconds',
  'minutes',
  'hours',
  'clock',
  'date-time',
  'date-and-clock',
  'epoch',
  'epoch-milliseconds',
  'sample-number',
  'none',
]
/** Signs that a shell or a form cannot well carry. */
const DELIMITERS: Readonly<Record<string, string>> = { tab: '\t', blanks: ' ', none: '' }
const line = z.number().int().min(0).max(1e9)

const SHAPE = z.strictObject({
  encoding: z.enum(['utf-8', 'utf-16le', 'utf-16be', 'windows-1252']).optional(),
  delimiter: z.enum([',', ';', '\t', '|', ' ', '']).optional(),
  decimal: z.enum(['.', ',']).optional(),
  nameLine: line.optional(),
  unitLine: line.optional(),
  dataLine: line.min(1).optional(),
  timeColumn: z.union([z.string().min(1).max(200), z.number().int().min(1).max(20_000), z.null()]).optional(),
  timeForm: z.enum(TIME_FORMS).optional(),
  dayFirst: z.boolean().optional(),
  rate: z.number().positive().max(1e7).optional(),
  sentinels: z.boolean().optional(),
  hexadecimal: z.boolean().optional(),
  spread: z.boolean().optional(),
})
type Key = keyof z.infer<typeof SHAPE>

/** What each may be, for people. */
const MAY_BE: Readonly<Record<Key, string>> = {
  encoding: 'utf-8, utf-16le, utf-16be or windows-1252',
  delimiter: '"," ";" "|" tab, blanks or none',
  decimal: '"." or ","',
  nameLine: 'the line of the names, from 1; 0 when there is none',
  unitLine: 'the line of the units, from 1; 0 when there is none',
  dataLine: 'the first line of values, from 1',
  timeColumn: 'the name or the number of the time column; none when there is none',
  timeForm: TIME_FORMS.join(', '),
  dayFirst: 'yes or no',
  rate: 'samples a second',
  sentinels: 'yes or no',
  hexadecimal: 'yes or no',
  spread: 'yes or no',
}
const isKey = (key: string): key is Key => Object.hasOwn(MAY_BE, key)

export function checkOverrides(given: unknown): Overrides {
  const read = SHAPE.safeParse(given)
  if (read.success) return Object.fromEntries(Object.entries(read.data).filter(([, value]) => value !== undefined))
  throw new Refusal(
    read.error.issues.map(({ path, code, ...issue }) => {
      const key = String(
        path[0] ?? (code === 'unrecognized_keys' ? (issue as { keys?: string[] }).keys?.[0] : '') ?? '',
      )
      return isKey(key)
        ? { code: 'bad-reading', says: `“${key}” cannot be that.`, todo: `It may be: ${MAY_BE[key]}.` }
        : {
            code: 'bad-reading',
            says: `“${key}” is nothing that can be told of a file.`,
            todo: `Choose from: ${Object.keys(MAY_BE).join(', ')}.`,
          }
    }),
  )
}

/** Of "decimal=,", "timeForm=milliseconds", "rate=50", "sentinels=no". */
export function overridesFromText(entries: readonly string[]): Overrides {
  const found: Record<string, unknown> = {}
  for (const entry of entries) {
    const at = entry.indexOf('=')
    const key = (at < 0 ? entry : entry.slice(0, at)).trim()
    const text = at < 0 ? '' : entry.slice(at + 1)
    found[key] = isKey(key) ? meant(key, text) : text
  }
  return checkOverrides(found)
}

function meant(key: Key, text: string): unknown {
  const plain = text.trim()
  if (key === 'delimiter') return DELIMITERS[plain] ?? text
  if (key === 'timeColumn') return plain === 'none' ? null : /^\d+$/.test(plain) ? Number(plain) : plain
  if (key === 'dayFirst' || key === 'sentinels' || key === 'hexadecimal' || key === 'spread')
    return /^(yes|true|1)$/i.test(plain) ? true : /^(no|false|0)$/i.test(plain) ? false : plain
  if (key === 'nameLine' || key === 'unitLine' || key === 'dataLine' || key === 'rate')
    return plain === '' ? plain : Number(plain)
  return plain
}
