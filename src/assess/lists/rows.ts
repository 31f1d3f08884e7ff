/** Rows of a list with what there is to show for each; a walk orders them by where on the car they are. */
import type { Build, Entity } from '../../model/build.ts'
import { entriesOf, linesOf, wordOf } from '../commissioning/evidence.ts'
import type { EvidenceLine } from '../commissioning/types.ts'
import type { Verdict } from '../finding.ts'
import { own } from '../make.ts'
import { dueOf } from './due.ts'

export type Check = Entity<'checks'>
export type ListRecord = Entity<'records'>

export interface RowStanding {
  readonly check: Check
  readonly verdict: Verdict
  /** The printed word: `shown`, `wrong`, `does not apply`, `nothing to show yet`, `due`. */
  readonly word: string
  readonly says: string
  readonly missing?: string
  readonly evidence: readonly EvidenceLine[]
  /** Of brakes, fuel, steering or structure: a builder’s word is never the last. */
  readonly qualified: boolean
}
const QUALIFIED: ReadonlySet<string> = new Set(['brakes', 'fuel', 'steering', 'structure'])
export const INSPECT = 'A qualified person must inspect it.'

export const filedUnderRow = ({ id }: Check): string => `checks/${id}`

export const rowsOf = (build: Build, list: string): Check[] =>
  Object.values(build.collections.checks).filter((check) => check.list === list)

/** `now`: the day, YYYY-MM-DD; services fall due by it. */
export const rowStanding = (build: Build, check: Check, now: string): RowStanding => {
  const filed = filedUnderRow(check)
  const entries = entriesOf(build, filed)
  const word = wordOf(entries)
  const qualified = QUALIFIED.has(check.group ?? '')
  const base = { check, evidence: linesOf(build, filed), qualified }
  const seen = word && `${word.by ?? 'Nobody’s name'}${word.when ? `, ${word.when.slice(0, 10)}` : ''}`
  if (word?.shows === 'not as it should')
    return { ...base, verdict: 'no-go', word: 'wrong', says: `${word.says ?? ''} (${seen})` }
  if (word?.shows === 'does not apply')
    return { ...base, verdict: 'sound', word: 'does not apply', says: `${word.says ?? ''} (${seen})` }
  if (check.every) return { ...base, ...dueOf(build, check.every, word, now) }
  if (!word)
    return {
      ...base,
      verdict: 'unknown',
      word: 'nothing to show yet',
      says: '',
      missing: 'somebody’s word, a figure or a photograph',
    }
  return {
    ...base,
    verdict: 'sound',
    word: 'shown',
    says: `${seen}${word.says ? `: ${word.says}` : ''}${qualified ? `. ${INSPECT}` : ''}`,
  }
}

export interface ListStanding {
  readonly record: ListRecord
  readonly rows: readonly RowStanding[]
  readonly shown: number
  readonly wrong: number
  /** What an inspection does not say of itself. */
  readonly lacks: readonly string[]
}
export const listStanding = (build: Build, record: ListRecord, now: string): ListStanding => {
  const rows = rowsOf(build, record.id).map((check) => rowStanding(build, check, now))
  const { country, category, day } = record.inspection ?? {}
  return {
    record,
    rows,
    shown: rows.filter(({ verdict }) => verdict === 'sound').length,
    wrong: rows.filter(({ verdict }) => verdict === 'no-go').length,
    lacks:
      record.kind === 'inspection'
        ? [
            ...(country === undefined ? ['the country'] : []),
            ...(category === undefined ? ['the category, as the authority calls it'] : []),
            ...(day === undefined ? ['the day'] : []),
          ]
        : [],
  }
}

export interface Group {
  readonly title: string
  readonly rows: readonly RowStanding[]
}
const grouped = (rows: readonly RowStanding[], of: (row: RowStanding) => string): Group[] => {
  const groups = new Map<string, RowStanding[]>()
  for (const row of rows) groups.set(of(row), [...(groups.get(of(row)) ?? []), row])
  return [...groups].map(([title, list]) => ({ title, rows: list }))
}

export const byGroup = ({ rows }: ListStanding): Group[] => grouped(rows, ({ check }) => check.group ?? 'other')

/** From the nose to the tail, as the plan view has the zones; what has no place comes last. */
export const byPlace = (build: Build, { rows }: ListStanding): Group[] => {
  const { zones } = build.collections
  const aft = (row: RowStanding): number => {
    const zone = row.check.zone === undefined ? undefined : own(zones, row.check.zone)
    if (!zone) return Number.POSITIVE_INFINITY
    const outline = zone.outline ?? []
    return outline.length === 0 ? 1e6 : outline.reduce((sum, [x]) => sum + x, 0) / outline.length
  }
  return grouped(
    [...rows].sort((a, b) => aft(a) - aft(b)),
    ({ check }) => (check.zone === undefined ? undefined : own(zones, check.zone)?.name) ?? 'No place on the car',
  )
}
