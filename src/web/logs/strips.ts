/** Strips from the server, and which channels bear on a question. */
import type { Entity } from '../../model/build.ts'
import { ask } from '../workbench/api.ts'
import type { Question } from './questions.ts'

export type Log = Entity<'logs'>
export interface Strip {
  readonly channel: string
  readonly unit: string
  readonly min: readonly (number | null)[]
  readonly max: readonly (number | null)[]
}
export interface StripSet {
  readonly t0: number
  readonly t1: number
  readonly pixels: number
  readonly strips: readonly Strip[]
}

/** A channel name may hold a comma, so the server parts names by the unit separator. */
const BETWEEN = '\u001f'

export const fetchStrips = (
  log: string,
  channels: readonly string[],
  from: number,
  to: number,
  pixels: number,
): Promise<StripSet> =>
  ask<StripSet>(
    `/api/logs/${encodeURIComponent(log)}/strip?${new URLSearchParams({
      channels: channels.join(BETWEEN),
      from: String(from),
      to: String(to),
      pixels: String(pixels),
    })}`,
  )

const AT_FIRST = 6
/** The channels that bear on the question, by role first and name second; the first few where none does. */
export const channelsFor = (log: Log, question: Question | undefined): readonly string[] => {
  const found = (question?.channels ?? []).flatMap((pattern) =>
    log.channels.filter(({ name, role }) => pattern.test(role ?? '') || pattern.test(name)).map(({ name }) => name),
  )
  const unique = [...new Set(found)]
  return (unique.length > 0 ? unique : log.channels.map(({ name }) => name)).slice(0, AT_FIRST)
}
