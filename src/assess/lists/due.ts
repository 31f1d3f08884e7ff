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

const everyText = ({ time, months, distance }: Every): string =>
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
    const [then, today] = [counterAt(build, subject, done.slice(0, 10)), counterAt(build, subject)]
    if (then === undefined || today === undefined) {
      missing.push(`${subject} ${then === undefined ? 'when it was done' : 'today'}`)
      return
    }
    const rest = then + limit.value - today
    const text = formatQuantity(kind, Math.abs(rest) as never, { unit: limit.unit ?? unit })
    if (rest < 0) past.push(`${text} over`)
    else left.push(`in ${text}`)
  }
  counter(ENGINE_HOURS, 'time', every.time, 'h')
  counter(ODOMETER, 'length', every.distance, 'km')
  if (every.months) {
    const day = monthsOn(done.slice(0, 10), every.months)
    if (day < now) past.push(`since ${day}`)
    else left.push(`on ${day}`)
  }
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
