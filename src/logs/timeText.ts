/**
 * Time as loggers write it: clocks, dates, date and clock in one cell.
 * Sources: ISO 8601-1:2019 for the year-first forms; ISO 8601 week and ordinal dates are not read.
 */
const CLOCK = /^(?:(\d{1,3}):)?(\d{1,2}):(\d{1,2})(?:[.,](\d+))?\s*(am|pm)?$/i
const YEAR_FIRST = /^(\d{4})([-/.]?)(\d{2})\2(\d{2})$/
const YEAR_LAST = /^(\d{1,2})[-/.](\d{1,2})[-/.](\d{2}|\d{4})$/
const ZONE = /(z|[-+]\d{2}(?::?\d{2})?)$/i

/** Seconds of hh:mm:ss(.fraction) or mm:ss(.fraction); hours may exceed 24. */
export function clockSeconds(text: string): number | undefined {
  const parts = CLOCK.exec(text.trim())
  if (!parts) return undefined
  const [, hours, minutes, seconds, fraction, half] = parts
  if (Number(minutes) > 59 && hours !== undefined) return undefined
  if (Number(seconds) > 60) return undefined
  let hour = Number(hours ?? 0)
  if (half) {
    if (hour > 12) return undefined
    hour = (hour % 12) + (half.toLowerCase() === 'pm' ? 12 : 0)
  }
  // One conversion of the whole decimal keeps the last digit as printed.
  return Number(`${hour * 3600 + Number(minutes) * 60 + Number(seconds)}.${fraction ?? '0'}`)
}

/** Seconds from 1970-01-01 to midnight of a date, UTC. */
export function dateSeconds(text: string, dayFirst: boolean): number | undefined {
  const tidy = text.trim()
  let year: number
  let month: number
  let day: number
  const first = YEAR_FIRST.exec(tidy)
  if (first) [year, month, day] = [Number(first[1]), Number(first[3]), Number(first[4])]
  else {
    const last = YEAR_LAST.exec(tidy)
    if (!last) return undefined
    year = Number(last[3]) + (last[3]!.length === 2 ? 2000 : 0)
    month = Number(last[dayFirst ? 2 : 1])
    day = Number(last[dayFirst ? 1 : 2])
  }
  if (month < 1 || month > 12 || day < 1 || day > 31) return undefined
  const at = Date.UTC(year, month - 1, day)
  return new Date(at).getUTCDate() === day ? at / 1000 : undefined
}

/** Seconds from 1970-01-01 of a date and clock in one cell; without a zone it is taken as written (UTC). */
export function dateTimeSeconds(text: string, dayFirst: boolean): number | undefined {
  const tidy = text.trim()
  const at = tidy.search(/[T\s]/i)
  if (at < 0) return undefined
  const date = dateSeconds(tidy.slice(0, at).replace(/,$/, ''), dayFirst)
  let clock = tidy.slice(at + 1).trim()
  if (date === undefined) return undefined
  let shift = 0
  const zone = /\d\s*(am|pm)$/i.test(clock) ? null : ZONE.exec(clock)
  if (zone) {
    clock = clock.slice(0, zone.index).trim()
    const digits = zone[1]!.replace(/[^\d]/g, '')
    if (digits !== '')
      shift =
        (zone[1]!.startsWith('-') ? 1 : -1) * (Number(digits.slice(0, 2)) * 3600 + Number(digits.slice(2) || 0) * 60)
  }
  if (/^\d{6}(\.\d+)?$/.test(clock)) clock = `${clock.slice(0, 2)}:${clock.slice(2, 4)}:${clock.slice(4)}`
  const seconds = clockSeconds(/^\d{1,2}:\d{2}$/.test(clock) ? `${clock}:00` : clock)
  if (seconds === undefined) return undefined
  // The fraction is added as printed: epoch seconds in a double hold about a quarter of a microsecond.
  return date + shift + seconds
}

/** Whether dates like 13/04/2024 can only be day first (true), month first (false), or either (undefined). */
export function dayOrder(dates: readonly string[]): boolean | undefined {
  let first = 0
  let second = 0
  for (const date of dates) {
    const last = YEAR_LAST.exec(date.trim().split(/[T\s]/i)[0]!)
    if (!last) continue
    first = Math.max(first, Number(last[1]))
    second = Math.max(second, Number(last[2]))
  }
  if (first > 12) return true
  if (second > 12) return false
  return undefined
}
