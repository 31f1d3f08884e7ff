/** When a service falls due again: by hours that the engine has run, months and distance, whichever comes first. */
import type { Build, Entity } from '../../model/build.ts'
import { formatQuantity } from '../../units/index.ts'
import { byTime } from '../commissioning/evidence.ts'
import type { Verdict } from '../finding.ts'
import { list } from '../make.ts'

type Every = NonNullable<Entity<'checks'>['every']>
type Word = Entity<'evidence'> | undefined

/** Subjects under which the two counters are kept as readings: s that the engine has run, m that the car has gone. */
export const ENGINE_HOURS = 'engine hours'
export const ODOMETER = 'odometer'

/** The counter on a day (YYYY-MM-DD): the latest reading not after it; without a day the latest of all. */
export const counterAt = (build: Build, subject: string, day?: string): number | undefined =>
  byTime(
    Object.values(build.collections.readings).filter(
      (reading) => reading.subject === subject && (day === undefined || (reading.when ?? '').slice(0, 10) <= day),
    ),
  ).at(-1)?.value

/** The same day so many months on; a day that the month does not have becomes its last. */
export const monthsOn = (day: string, months: number): string => {
  const [year, month, date] = day.split('-').map(Number) as [number, number, number]
  const first = new Date(Date.UTC(year, month - 1 + months, 1))
  const last = new Date(Date.UTC(first.getUTCFullYear(), first.getUTCMonth() + 1, 0)).getUTCDate()
  first.setUTCDate(Math.min(date, last))
  return first.toISOString().slice(0, 10)
}

export interface Due {
  readonly verdict: Verdict
  readonly word: string
  readonly says: string
  readonly missing?: string
}

/** What may make a thing due; a day is one of its own, whenever it was done. */
export interface Limits extends Every {
  readonly day?: string | undefined
}
/** What is over already, what is still to come, and which counters nobody read. `done`, `now`: YYYY-MM-DD. */
export const spentOf = (
  build: Build,
  limits: Limits,
  done: string,
  now: string,
): { readonly past: readonly string[]; readonly left: readonly string[]; readonly missing: readonly string[] } => {
  const past: string[] = []
  const left: string[] = []
  const missing: string[] = []
  const counter = (
    subject: string,
    kind: 'time' | 'length',
    limit: { readonly value: number; readonly unit?: string | undefined } | undefined,
    unit: string,
  ): void => {
    if (!limit) return
    const [then, today] = [counterAt(build, subject, done), counterAt(build, subject)]
    if (then === undefined || today === undefined) {
      missing.push(`${subject} ${then === undefined ? 'when it was done' : 'today'}`)
      return
    }
    const rest = then + limit.value - today
    const text = formatQuantity(kind, Math.abs(rest) as never, { unit: limit.unit ?? unit })
    if (rest < 0) past.push(`${text} over`)
    else left.push(`in ${text}`)
  }
  counter(ENGINE_HOURS, 'time', limits.time, 'h')
  counter(ODOMETER, 'length', limits.distance, 'km')
  const days = [...(limits.months ? [monthsOn(done, limits.months)] : []), ...(limits.day ? [limits.day] : [])]
  for (const day of days)
    if (day < now) past.push(`since ${day}`)
    else left.push(`on ${day}`)
  return { past, left, missing }
}

export const everyText = ({ time, months, distance }: Every): string =>
  list([
    ...(time ? [formatQuantity('time', time.value, { unit: time.unit ?? 'h' })] : []),
    ...(months ? [`${months} months`] : []),
    ...(distance ? [formatQuantity('length', distance.value, { unit: distance.unit ?? 'km' })] : []),
  ])

/** `now`: YYYY-MM-DD. Never done, or a counter that nobody read: `unknown`, and which. */
export const dueOf = (build: Build, every: Every, word: Word, now: string): Due => {
  const rule = `Every ${everyText(every)}, whichever comes first.`
  if (!word?.when)
    return { verdict: 'unknown', word: 'nothing to show yet', says: rule, missing: 'when it was last done' }
  const done = word.when
  const { past, left, missing } = spentOf(build, every, done.slice(0, 10), now)
  const by = `Last done ${done.slice(0, 10)}${word.by ? ` by ${word.by}` : ''}.`
  if (past.length > 0) return { verdict: 'marginal', word: 'due', says: `Due: ${list(past)}. ${by} ${rule}` }
  if (missing.length > 0)
    return {
      verdict: 'unknown',
      word: left.length > 0 ? 'due, as far as is known, later' : 'not known',
      says: `${left.length > 0 ? `Due ${list(left)} at the latest. ` : ''}${by} ${rule}`,
      missing: list(missing),
    }
  return { verdict: 'sound', word: 'done', says: `Due ${list(left)}, whichever comes first. ${by}` }
}
