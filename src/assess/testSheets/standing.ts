/** How far a sheet is: the latest word on each line, what is out, and which repaired faults it has to confirm. */
import type { Build, Entity } from '../../model/build.ts'
import type { StoredSearch } from '../faults/types.ts'
import { deviceIdOf } from '../make.ts'
import { judgeReading } from './judge.ts'
import type { ReadingVerdict, SheetStep, SheetTest, TestSheet } from './types.ts'

type Reading = Entity<'readings'>

/** Quantity of a reading that says only that a line was done, or showed what it should. */
export const TICK = 'tick'

/** What a stored reading calls a line of a sheet. */
export const lineName = (sheet: TestSheet, line: SheetTest | SheetStep): string => `${sheet.id}/${line.id}`

export interface LineStanding {
  readonly line: SheetTest | SheetStep
  /** The latest reading or tick. */
  readonly reading?: Reading
  /** Of a reading; a tick has none. */
  readonly verdict?: ReadingVerdict
  readonly done: boolean
}

/** A search whose fault was found: lines to read again after the repair, and those that have passed since. */
export interface Confirmation {
  readonly search: StoredSearch
  readonly lines: readonly SheetTest[]
  readonly passed: readonly { readonly line: SheetTest; readonly reading: Reading }[]
  readonly confirmed: boolean
}

export interface SheetStanding {
  /** By line id. */
  readonly lines: ReadonlyMap<string, LineStanding>
  readonly out: readonly LineStanding[]
  readonly done: number
  readonly confirmations: readonly Confirmation[]
}

/** Later by its time; of equal or no times the one that was entered later. */
const latest = (readings: readonly Reading[]): Reading | undefined =>
  readings.reduce<Reading | undefined>((p, q) => (p && (p.when ?? '') > (q.when ?? '') ? p : q), undefined)

const isDone = (line: SheetTest | SheetStep, verdict: ReadingVerdict | undefined): boolean =>
  line.kind === 'do' || verdict === undefined || verdict.kind === 'in tolerance' || verdict.kind === 'unknown'

export const sheetStanding = (build: Build, sheet: TestSheet): SheetStanding => {
  const byTest = new Map<string, Reading[]>()
  // Another case expects other volts: its readings are of another sheet.
  for (const reading of Object.values(build.collections.readings))
    if (reading.test !== undefined && reading.case === sheet.case)
      byTest.set(reading.test, [...(byTest.get(reading.test) ?? []), reading])
  const lines = new Map<string, LineStanding>()
  for (const line of sheet.sections.flatMap((section) => section.lines)) {
    const reading = latest(byTest.get(lineName(sheet, line)) ?? [])
    const verdict =
      reading && reading.quantity !== TICK && line.kind === 'test' ? judgeReading(build, reading, line) : undefined
    lines.set(line.id, {
      line,
      ...(reading ? { reading } : {}),
      ...(verdict ? { verdict } : {}),
      done: reading !== undefined && isDone(line, verdict),
    })
  }
  const all = [...lines.values()]
  return {
    lines,
    out: all.filter(({ verdict }) => verdict?.kind === 'out of tolerance'),
    done: all.filter(({ done }) => done).length,
    confirmations: Object.values(build.collections.faultSearches).flatMap(
      (search) => confirmationOf(build, sheet, lines, search) ?? [],
    ),
  }
}

const confirmationOf = (
  build: Build,
  sheet: TestSheet,
  standing: ReadonlyMap<string, LineStanding>,
  search: StoredSearch,
): Confirmation | undefined => {
  if (search.status !== 'open' || search.found === undefined) return undefined
  const complained = search.complaint.device
  const taken = new Set(
    Object.values(build.collections.readings).flatMap((reading) =>
      reading.search === search.id && reading.test !== undefined ? [reading.test] : [],
    ),
  )
  const lines = [...standing.values()].flatMap(({ line }): SheetTest[] => {
    if (line.kind !== 'test' || !line.expect) return []
    const across =
      line.quantity === 'volts' &&
      sheet.case === search.case &&
      deviceIdOf(line.at) === complained &&
      line.against !== undefined &&
      deviceIdOf(line.against) === complained
    return across || taken.has(lineName(sheet, line)) ? [line] : []
  })
  if (lines.length === 0) return undefined
  const since = search.history?.findLast(({ says }) => says.startsWith('Found:'))?.when ?? ''
  const passed = lines.flatMap((line) => {
    const { reading, verdict } = standing.get(line.id)!
    return reading && verdict?.kind === 'in tolerance' && (reading.when ?? '') > since ? [{ line, reading }] : []
  })
  return { search, lines, passed, confirmed: passed.length === lines.length }
}
