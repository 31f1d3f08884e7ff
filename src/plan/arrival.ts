/** When a part is at hand. */
import type { Entity } from '../model/build.ts'

export interface Arrival {
  readonly part: string
  readonly name: string
  /** YYYY-MM-DD; absent where nobody knows: not ordered, no date given, or the date has passed. */
  readonly due?: string
}

const AT_HAND: readonly Entity<'parts'>['status'][] = ['arrived', 'on the shelf', 'fitted', 'borrowed', 'removed']

/** `undefined` when the part is here. A part taken off this car is here; one given back is not. */
export const arrivalOf = (id: string, part: Entity<'parts'> | undefined, today: string): Arrival | undefined => {
  if (part === undefined) return { part: id, name: id }
  if (AT_HAND.includes(part.status)) return undefined
  return {
    part: id,
    name: part.name,
    ...(part.due === undefined || part.due < today || part.status === 'returned' ? {} : { due: part.due }),
  }
}

const DAY = 86_400_000
export const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY)
/** YYYY-MM-DD so many days after another. */
export const dayAfter = (from: string, days: number): string =>
  new Date(Date.parse(`${from}T00:00:00Z`) + Math.round(days) * DAY).toISOString().slice(0, 10)
