/** The latest reading of a subject, and what it does to a computed figure. */
import type { Build } from '../../model/build.ts'
import type { Kind } from '../../units/kinds.ts'
import { type Datum, type Figure, figure, isKnown, type Known, known } from './chain.ts'

export interface Measured extends Known {
  readonly id: string
}

/** By its time, undated ones first. */
export const latest = (build: Build, subject: string) =>
  Object.values(build.collections.readings)
    .filter((reading) => reading.subject === subject)
    .sort((a, b) => ((a.when ?? '') < (b.when ?? '') ? -1 : 1))
    .at(-1)

/** Undefined without a reading. A reading of another kind of quantity is none of this subject. */
export const measured = (build: Build, subject: string, kind: Kind): Measured | undefined => {
  const reading = latest(build, subject)
  if (reading === undefined || reading.quantity !== kind) return undefined
  const how = [reading.provenance?.method ?? reading.instrument, reading.when?.slice(0, 10), reading.by]
    .filter((part) => part !== undefined)
    .join(', ')
  return {
    id: reading.id,
    ...known(reading.value, reading.plusMinus ?? 0, `Reading ${reading.id}${how === '' ? '' : `: ${how}`}`),
  }
}

/** The figure as measured where it was, with what had been reckoned beside it. */
export const supersede = (
  id: string,
  name: string,
  symbol: string,
  kind: Kind,
  computed: Datum,
  reading: Measured | undefined,
  origin: Figure['origin'] = 'computed',
): Figure =>
  reading === undefined
    ? figure(id, name, symbol, kind, computed, origin)
    : {
        ...figure(id, name, symbol, kind, reading, 'measured'),
        reading: reading.id,
        ...(isKnown(computed) ? { superseded: computed } : {}),
      }
