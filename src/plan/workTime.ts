/**
 * Reading a time of work as a builder types it: 2h · 90 min · 1 h 30 · 0.5 h. A bare number is in hours.
 * Errors, as `Refusal`: `not-hours` for "a weekend", days, other units, nothing or less.
 */

import { formatQuantity } from '../units/format.ts'
import { parseQuantity, type Quantity } from '../units/parse.ts'
import { Refusal, refuse } from '../units/problem.ts'

const notHours = (text: string): Refusal =>
  refuse('not-hours', `“${text}” is not a time of work in hours or minutes.`, 'Write it as 2 h, 90 min or 1 h 30.')

export const readWorkTime = (text: string): Quantity<'time'> => {
  // A day of work is eight hours to one and two to another, and 24 to a clock.
  if (!/\d/.test(text) || /\b(days?|d|weeks?|weekends?|evenings?|nights?)\b/i.test(text)) throw notHours(text.trim())
  let read: Quantity<'time'>
  try {
    read = parseQuantity('time', text, { unit: 'h' })
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    throw notHours(text.trim())
  }
  if (!(read.value > 0)) throw notHours(text.trim())
  return read
}

/** 5400 s → 1 h 30 min. */
export const hoursText = (seconds: number): string => {
  const minutes = Math.round(seconds / 60)
  if (seconds > 0 && minutes === 0) return 'under a minute'
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60]
  if (hours === 0) return formatQuantity('time', minutes * 60, { unit: 'min' })
  const whole = formatQuantity('time', hours * 3600, { unit: 'h' })
  return rest === 0 ? whole : `${whole} ${formatQuantity('time', rest * 60, { unit: 'min' })}`
}
