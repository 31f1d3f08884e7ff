/** Everything that can be printed of a build, one row each: what it is, what it still lacks, where it stands, its page. */
import { closingOf, gatesOf } from '../assess/commissioning/row.ts'
import type { Finding, System } from '../assess/finding.ts'
import { ledgerOf } from '../assess/ledger/ledger.ts'
import { listStanding } from '../assess/lists/rows.ts'
import { FIRST_POWER, testSheet } from '../assess/testSheets/testSheet.ts'
import type { Build } from '../model/build.ts'
import { chaptersOf } from './evidence.ts'
import { figuresPage, findingsPage } from './findingsPage.ts'
import { layoutBoard } from './loom/board.ts'
import { boardPage, listPage as loomPage } from './loom/htmlPage.ts'
import { LIST_NAMES, LISTS } from './loom/list.ts'
import { loomList } from './loom/lists.ts'
import { bookPage } from './page.ts'
import { breakdownCard, cardPage } from './records/card.ts'
import { gatesPage } from './records/gatesPage.ts'
import { ledgerLacks, ledgerPage } from './records/ledgerPage.ts'
import { listPage } from './records/listPage.ts'
import { registerLacks, registerPage } from './records/registerPage.ts'
import { testSheetPage } from './testSheetPage.ts'

export const CHAPTERS = ['The car', 'Figures', 'Loom', 'Test sheets', 'Records', 'Evidence'] as const
export interface Document {
  readonly id: string
  readonly chapter: (typeof CHAPTERS)[number]
  readonly title: string
  /** What it is for. */
  readonly says: string
  /** Each thing that keeps it from being whole. */
  readonly missing: readonly string[]
  /** Nothing in it yet: why. */
  readonly empty?: string
  /** Its bench in the workbench. */
  readonly place: string
  /** Its HTML page; absent where it is printed from its bench only. */
  readonly page?: () => string
  /** Printed by itself: its paper is not the Book's. */
  readonly alone?: true
}

interface Figures {
  readonly id: string
  readonly title: string
  readonly systems: readonly System[]
  readonly place: string
}
const FIGURES: readonly Figures[] = [
  { id: 'electrical', title: 'Electrics reckoned', systems: ['electrical'], place: '/circuits' },
  { id: 'signals', title: 'Signals reckoned', systems: ['signals'], place: '/signals' },
  { id: 'fuel', title: 'Fuel reckoned', systems: ['fuel'], place: '/fuel' },
  { id: 'air', title: 'Air reckoned', systems: ['air'], place: '/air' },
  { id: 'cooling', title: 'Cooling reckoned', systems: ['cooling'], place: '/cooling' },
  { id: 'brakes', title: 'Brakes reckoned', systems: ['brakes'], place: '/brakes' },
  { id: 'driveline', title: 'Driveline reckoned', systems: ['driveline'], place: '/driveline' },
  { id: 'services', title: 'Oil, exhaust and cabin services reckoned', systems: ['services'], place: '/services' },
]

/** Where a list has nothing in it, that is said and not what it lacks besides. */
const nothing = (empty: string | undefined): { readonly empty?: string } => (empty === undefined ? {} : { empty })

/** `printed`: the day that stands on each. */
export const documentsOf = (build: Build, findings: readonly Finding[], printed: string): Document[] => {
  const { circuits, devices, records, checks, fixings } = build.collections
  const unknown = findings.filter(({ verdict }) => verdict === 'unknown')
  const asked = (systems: readonly System[]): string[] => [
    ...new Set(
      unknown.filter(({ system }) => systems.includes(system)).map(({ about, missing }) => `${about}: ${missing}`),
    ),
  ]
  const gates = gatesOf(build)
  const openGates = gates.filter(({ id }) => closingOf(build, id) === undefined)
  const card = breakdownCard(build)
  const evidence = chaptersOf(build)
  const lists = Object.values(records).filter(({ id }) => Object.values(checks).some(({ list }) => list === id))
  const board = layoutBoard(build, 'A4')
  const noDevice = Object.keys(devices).length === 0 ? 'No device is entered yet.' : undefined
  return [
    {
      id: 'findings',
      chapter: 'The car',
      title: 'Findings',
      says: 'What is wrong, near its limit or not known, worst first, with what to do.',
      missing: [],
      ...nothing(findings.length === 0 ? 'Nothing is entered that could be judged.' : undefined),
      place: '/findings',
      page: () => findingsPage(build, findings, printed),
    },
    {
      id: 'circuits',
      chapter: 'The car',
      title: 'Circuit drawings and tables',
      says: `${Object.keys(circuits).length} circuits; each is printed from its own drawing on the bench.`,
      missing: [],
      ...nothing(noDevice),
      place: '/circuits',
    },
    {
      id: 'card',
      chapter: 'The car',
      title: 'Breakdown card',
      says: 'One sheet for the glovebox: what to do first, where things are, what each fuse feeds.',
      missing: card.lacks,
      place: '/records/use',
      page: () => cardPage(build, printed),
    },
    ...FIGURES.map(
      ({ id, title, systems, place }): Document => ({
        id: `figures-${id}`,
        chapter: 'Figures',
        title,
        says: 'Every figure with its formula, the numbers put in and its source.',
        missing: asked(systems),
        ...nothing(
          findings.some(({ system }) => systems.includes(system))
            ? undefined
            : 'Nothing is entered that could be judged.',
        ),
        place,
        page: () => figuresPage(build, findings, { title, systems }, printed),
      }),
    ),
    ...LISTS.map((id): Document => {
      const list = loomList(build, id)
      return {
        id: `loom-${id}`,
        chapter: 'Loom',
        title: LIST_NAMES[id],
        says: list.says,
        missing: list.missing,
        ...nothing(list.empty),
        place: `/loom/lists/${id}`,
        page: () => loomPage(build, list, printed),
      }
    }),
    {
      id: 'board',
      chapter: 'Loom',
      title: 'Layout board, A4',
      says: 'The loom at full size on sheets to be glued; printed by itself, at 100 %.',
      missing: [],
      ...nothing(board.empty),
      place: '/loom/board/A4',
      page: () => boardPage(build, board),
      alone: true,
    },
    {
      id: 'sheet-first-power',
      chapter: 'Test sheets',
      title: 'Test sheet: first power',
      says: 'What a meter should show, point by point, before and at first power.',
      missing: [],
      ...nothing(noDevice),
      place: `/faults/sheets/${FIRST_POWER}`,
      page: () => testSheetPage(build, testSheet(build, FIRST_POWER), printed),
    },
    ...Object.values(circuits).map(
      ({ id, name }): Document => ({
        id: `sheet-${id}`,
        chapter: 'Test sheets',
        title: `Test sheet: ${name}`,
        says: 'What a meter should show at each point of the circuit.',
        missing: [],
        place: `/faults/sheets/${encodeURIComponent(id)}`,
        page: () => testSheetPage(build, testSheet(build, id), printed),
      }),
    ),
    {
      id: 'gates',
      chapter: 'Records',
      title: 'Commissioning',
      says: 'First power and first start, gate by gate, each with its evidence.',
      missing: openGates.map(({ title }) => `not closed: ${title}`),
      place: '/records/gates',
      page: () => gatesPage(build, findings, testSheet(build, FIRST_POWER), printed),
    },
    {
      id: 'ledger',
      chapter: 'Records',
      title: 'Calibration ledger',
      says: 'Each file that the controller had: what differs, why, by whom.',
      missing: ledgerLacks(build),
      ...nothing(ledgerOf(build).length === 0 ? 'No file of the controller is kept yet.' : undefined),
      place: '/records/files',
      page: () => ledgerPage(build, printed),
    },
    {
      id: 'register',
      chapter: 'Records',
      title: 'Torques and clearances',
      says: 'What each joint and gap is to have, what it had, how it is marked, when again.',
      missing: registerLacks(build, printed),
      ...nothing(Object.keys(fixings).length === 0 ? 'No torque or clearance is entered yet.' : undefined),
      place: '/records/fixings',
      page: () => registerPage(build, printed),
    },
    ...lists.map((record): Document => {
      const { rows, lacks } = listStanding(build, record, printed)
      return {
        id: `list-${record.id}`,
        chapter: 'Records',
        title: record.title,
        says: 'The list as a walk round the car, with what there is to show for each row.',
        missing: [
          ...lacks,
          ...rows.flatMap(({ check, missing }) => (missing === undefined ? [] : [`${check.title}: ${missing}`])),
        ],
        place: `/records/lists/${encodeURIComponent(record.id)}`,
        page: () => listPage(build, record, printed),
      }
    }),
    {
      id: 'evidence',
      chapter: 'Evidence',
      title: 'Evidence',
      says: 'What was measured and how, curves and cards in use, faults found, sittings.',
      missing: evidence.flatMap(({ title, empty, entries }) =>
        empty === undefined
          ? entries.flatMap((entry) => (entry.lacks.length === 0 ? [] : [`${entry.title}: ${entry.lacks.join('; ')}`]))
          : [`${title}: ${empty}`],
      ),
      ...nothing(
        evidence.every(({ empty }) => empty !== undefined) ? 'Nothing has been measured or kept yet.' : undefined,
      ),
      place: '/book/evidence',
      page: () => bookPage(build, printed),
    },
  ]
}
