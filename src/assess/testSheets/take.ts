/** Edits of a sheet: a reading kept on a line, the search that it opens when it is out, the search that it closes. */
import type { Build, Change, Edit, Entity } from '../../model/build.ts'
import { nextId } from '../../model/newId.ts'
import { closeSearch, newSearch } from '../faults/repair.ts'
import { KIND, stepOf } from '../faults/typed.ts'
import type { StoredSearch } from '../faults/types.ts'
import { deviceName } from '../make.ts'
import { complaintOf } from './complaintOf.ts'
import { figureOf } from './figures.ts'
import { judgeReading } from './judge.ts'
import { type Confirmation, lineName, TICK } from './standing.ts'
import type { ReadingVerdict, SheetStep, SheetTest, TestSheet } from './types.ts'

type Reading = Entity<'readings'>

export interface Taken {
  readonly edit: Edit
  /** Undefined for a tick. */
  readonly verdict?: ReadingVerdict
  /** The search that the reading opened, or joined. */
  readonly search?: string
}

/** What the person adds to a value: the unit it was typed in, when, by whom, with which instrument. */
export type HowTaken = Pick<
  Reading,
  'unit' | 'step' | 'when' | 'by' | 'instrument' | 'accuracy' | 'inputResistance' | 'leadResistance'
>

const where = (sheet: TestSheet): Partial<Reading> => (sheet.case === undefined ? {} : { case: sheet.case })

/** `value` in V, Ω or A, as the meter shows it; leads are taken off when it is judged, where they are entered. */
export const takeReading = (build: Build, sheet: TestSheet, line: SheetTest, value: number, how: HowTaken): Taken => {
  const reading: Reading = {
    id: nextId(build.collections.readings, 'M'),
    subject: line.says.slice(0, 160),
    quantity: KIND[line.quantity],
    value,
    at: line.at,
    ...(line.against === undefined ? {} : { against: line.against }),
    ...where(sheet),
    ...how,
    test: lineName(sheet, line),
  }
  return judged(build, line, reading, `${figureOf(value, line.quantity, how.unit)} at ${line.says}`)
}

/** The reading as it stands after the person has answered a doubt: another value, or the same one stood by. */
export const mendReading = (
  build: Build,
  line: SheetTest,
  { unit: typed, step, ...reading }: Reading,
  value: number,
  unit = typed,
): Taken =>
  judged(
    build,
    line,
    {
      ...reading,
      value,
      ...stepOf(step, reading.value, value),
      ...(unit === undefined ? {} : { unit }),
      confirmed: true,
    },
    `Confirmed: ${reading.subject}`,
  )

const judged = (build: Build, line: SheetTest, reading: Reading, label: string): Taken => {
  const verdict = judgeReading(build, reading, line)
  const start = complaintOf(build, reading, verdict)
  const put = (value: Reading): Change => ({ collection: 'readings', id: value.id, value })
  if (!start) return { edit: { label: label.slice(0, 160), changes: [put(reading)] }, verdict }
  const { device, kind } = start.complaint
  const open = Object.values(build.collections.faultSearches).find(
    (search) =>
      search.status === 'open' &&
      search.found === undefined &&
      search.complaint.device === device &&
      // What is dead is no evidence about what is weak: other faults make it.
      search.complaint.kind === kind &&
      search.case === start.case,
  )
  const search: StoredSearch = open ?? newSearch(build, start, reading.when)
  const quantity = line.quantity
  const entry: StoredSearch['evidence'][number] = {
    kind: 'reading',
    quantity,
    at: line.at,
    ...(line.against === undefined ? {} : { against: line.against }),
    value: reading.value - (quantity === 'ohms' ? (reading.leadResistance?.value ?? 0) : 0),
    ...(reading.unit === undefined ? {} : { unit: reading.unit }),
    ...(reading.step === undefined ? {} : { step: reading.step }),
    reading: reading.id,
    ...(line.alone ? { alone: true } : {}),
    ...(reading.confirmed ? { confirmed: true } : {}),
    ...(reading.when === undefined ? {} : { when: reading.when }),
  }
  const value: StoredSearch = { ...search, evidence: [...search.evidence, entry] }
  return {
    edit: {
      label: `${label}: out, ${open ? 'to' : 'opens'} the search ${deviceName(build, device)}, ${kind}`.slice(0, 160),
      changes: [{ collection: 'faultSearches', id: search.id, value }, put({ ...reading, search: search.id })],
    },
    verdict,
    search: search.id,
  }
}

/** A line ticked: a step that is done, or a test that shows what the sheet says without a figure being typed. */
export const tickLine = (
  build: Build,
  sheet: TestSheet,
  line: SheetTest | SheetStep,
  how: Pick<HowTaken, 'when' | 'by'>,
): Edit => {
  const reading: Reading = {
    id: nextId(build.collections.readings, 'M'),
    subject: line.says.slice(0, 160),
    quantity: TICK,
    value: 1,
    ...(line.kind === 'test' ? { at: line.at, ...(line.against === undefined ? {} : { against: line.against }) } : {}),
    ...where(sheet),
    ...how,
    test: lineName(sheet, line),
  }
  return {
    label: `Ticked: ${line.says}`.slice(0, 160),
    changes: [{ collection: 'readings', id: reading.id, value: reading }],
  }
}

/** Searches that weigh this reading and have found nothing yet. */
const searchesWith = (build: Build, reading: string): StoredSearch[] =>
  Object.values(build.collections.faultSearches).filter(({ evidence }) =>
    evidence.some((entry) => entry.kind === 'reading' && entry.reading === reading),
  )
/** A reading on which a fault was found stays as it was read: read the line again instead. */
export const canUntake = (build: Build, { id }: Reading): boolean =>
  searchesWith(build, id).every(({ status, found }) => status === 'open' && found === undefined)

/**
 * Takes back the latest word on a line, out of the evidence of open searches too: what was mistyped must not go on being
 * weighed. A search that stands on nothing else goes with it.
 */
export const untake = (build: Build, { id, subject }: Reading): Edit => ({
  label: `Taken back: ${subject}`.slice(0, 160),
  changes: [
    ...searchesWith(build, id).map((search): Change => {
      const evidence = search.evidence.filter((entry) => entry.kind !== 'reading' || entry.reading !== id)
      const openedByIt = evidence.length === 0 && build.collections.readings[id]?.search === search.id
      return {
        collection: 'faultSearches',
        id: search.id,
        value: openedByIt ? null : { ...search, evidence },
      }
    }),
    { collection: 'readings', id, value: null },
  ],
})

/** Closes a search that the sheet confirms: which line, which figure. */
export const confirmRepair = (build: Build, sheet: TestSheet, { search, passed }: Confirmation, when: string): Edit => {
  const figures = passed.map(
    ({ line, reading }) => `${line.says}: ${figureOf(reading.value, line.quantity, reading.unit)}`,
  )
  return closeSearch(build, search, `Test sheet ${sheet.title} confirms it. ${figures.join('; ')}.`.slice(0, 480), when)
}
