/** What is there to show for one thing asked: entries, readings, photographs. The latest word counts; the rest stays readable. */
import type { Build } from '../../model/build.ts'
import { formatQuantity } from '../../units/index.ts'
import { KINDS, type Kind } from '../../units/kinds.ts'
import { own } from '../make.ts'
import type { EvidenceEntry, EvidenceLine, Figure, FigureField, Reading } from './types.ts'

/** What evidence and photographs of it are filed under. */
export const filedUnder = (ask: string): string => `gate/${ask}`
/** What a reading taken at a gate calls itself in its `test`. */
export const fieldName = (ask: string, field: string): string => `gate/${ask}/${field}`

/** Oldest first; without a time before those that have one. */
export const byTime = <T extends { readonly when?: string | undefined }>(items: readonly T[]): T[] =>
  [...items].sort((a, b) => (a.when ?? '').localeCompare(b.when ?? ''))

export const entriesOf = (build: Build, of: string): EvidenceEntry[] =>
  byTime(Object.values(build.collections.evidence).filter((entry) => entry.of === of))

/** The word that counts: the latest that is more than a remark. */
export const wordOf = (entries: readonly EvidenceEntry[]): EvidenceEntry | undefined =>
  entries.findLast(({ shows }) => shows !== 'a remark')

export const photosOf = (build: Build, about: string) =>
  byTime(Object.values(build.collections.photos).filter((photo) => photo.about === about))

/** The latest reading taken for this field, or referred to by an entry of it. */
export const readingFor = (build: Build, ask: string, field: string): Reading | undefined => {
  const name = fieldName(ask, field)
  const { readings, evidence } = build.collections
  const taken = Object.values(readings).filter(({ test }) => test === name)
  const referred = Object.values(evidence).flatMap(({ of, reading }) => {
    const found = of === name && reading !== undefined ? own(readings, reading) : undefined
    return found ? [found] : []
  })
  return byTime([...taken, ...referred]).at(-1)
}

export const figureIn = ({ value, plusMinus, accuracy }: Reading): Figure => ({
  value,
  plusMinus: plusMinus ?? (accuracy ? accuracy.relative * Math.abs(value) + accuracy.absolute : undefined),
})

export const figureText = (reading: Reading, unit?: string): string => {
  const { value, plusMinus } = figureIn(reading)
  return Object.hasOwn(KINDS, reading.quantity)
    ? formatQuantity(reading.quantity as Kind, value as never, {
        ...(unit === undefined ? {} : { unit }),
        ...(plusMinus === undefined ? {} : { plusMinus }),
      })
    : String(value)
}

/** `E-1` or a reading taken here: the id by which it is taken back. */
export const lineOfReading = (reading: Reading, { says, unit }: FigureField): EvidenceLine => ({
  says,
  figure: figureText(reading, unit),
  when: reading.when,
  by: reading.by,
})

export const linesOf = (build: Build, of: string): EvidenceLine[] => [
  ...entriesOf(build, of).map(({ id, shows, says, reading, when, by }): EvidenceLine => {
    const referred = reading === undefined ? undefined : own(build.collections.readings, reading)
    return {
      says:
        shows === 'a remark'
          ? (says ?? '')
          : `${shows.charAt(0).toUpperCase()}${shows.slice(1)}${says ? `: ${says}` : ''}`,
      ...(referred ? { figure: figureText(referred) } : {}),
      when,
      by,
      entry: id,
    }
  }),
  ...photosOf(build, of).map(
    ({ id, caption, when }): EvidenceLine => ({ says: caption ?? 'Photograph', when, by: undefined, photo: id }),
  ),
]
