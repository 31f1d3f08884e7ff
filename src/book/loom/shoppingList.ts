/** What to buy for the loom: wire by size and colour, terminals by kind, sleeves by size, grommets, fuses. */
import { cutOf } from '../../assess/loom/cut.ts'
import { dressed, loomRuns } from '../../assess/loom/loom.ts'
import { loomSettings } from '../../assess/loom/settings.ts'
import { restrictedDevice } from '../../assess/make.ts'
import type { Build } from '../../model/build.ts'
import { colourText, counted, LIST_NAMES, type List, naturally, once, sizeText, type Table } from './list.ts'
import { wiresToCut } from './toCut.ts'

const mm = (metres: number): string => `${Number((metres * 1e3).toFixed(1))} mm`

interface Heap {
  metres: number
  count: number
  unknown: number
}
const heapUp = (heaps: Map<string, Heap>, key: readonly string[], metres: number | undefined): void => {
  const text = key.join('\t')
  const heap = heaps.get(text) ?? { metres: 0, count: 0, unknown: 0 }
  heaps.set(text, heap)
  heap.count += 1
  if (metres === undefined) heap.unknown += 1
  else heap.metres += metres
}
const sorted = (heaps: ReadonlyMap<string, Heap>): (readonly [readonly string[], Heap])[] =>
  [...heaps]
    .map(([key, heap]) => [key.split('\t'), heap] as const)
    .sort(([a], [b]) => naturally(a.join(' '), b.join(' ')))

export const shoppingList = (build: Build): List => {
  const { wires, notes } = wiresToCut(build)
  const { waste, tape } = loomSettings(build)
  const more = 1 + waste.value
  const missing: string[] = []
  const wire = new Map<string, Heap>()
  const ends = new Map<string, Heap>()
  for (const each of wires) {
    const { cut, missing: lacks } = cutOf(build, each)
    if (lacks !== undefined) missing.push(`${lacks}, for ${each.id}`)
    if (each.area === undefined) missing.push(`cross-section of ${each.id}`)
    if (each.colour === undefined) missing.push(`colour of ${each.id}`)
    const size = sizeText(each) ?? 'size not entered'
    heapUp(
      wire,
      [
        size,
        colourText(each) ?? 'colour not entered',
        `${each.insulation === undefined ? 'class not entered' : `class ${each.insulation}`}${each.screened ? ', screened' : ''}${each.twistedWith === undefined ? '' : ', twisted pair'}${each.material === undefined || each.material === 'copper' ? '' : `, ${each.material}`}`,
      ],
      cut,
    )
    for (const end of ['from', 'to'] as const) {
      const made = each.ends?.[end]
      heapUp(
        ends,
        [
          made?.method ?? 'not said how it ends',
          `${made?.terminal ?? 'terminal not said'}${made?.sealed ? ', sealed' : ''}`,
          size,
        ],
        0,
      )
    }
  }
  const unsaid = wires.reduce(
    (sum, each) => sum + [each.ends?.from, each.ends?.to].filter((end) => end?.terminal === undefined).length,
    0,
  )
  if (unsaid > 0) missing.push(`kind of terminal at ${counted(unsaid, 'wire end', 'wire ends')}`)

  const sleeves = new Map<string, Heap>()
  for (const run of loomRuns(build)) {
    if (run.sleeve === 'none' || run.wires.length === 0) continue
    const { bundle, tubing } = dressed(build, run)
    const kind = run.run.sleeve!
    const size = run.run.sleeveBore
      ? `${mm(run.run.sleeveBore.value)} inside, as entered`
      : run.sleeve === 'tape'
        ? `${mm(tape.value)} thick, half over itself`
        : bundle === undefined
          ? 'size unknown'
          : tubing === undefined
            ? `for bundles of ${Math.ceil(bundle.laid * 1e3)} mm`
            : tubing === 'none'
              ? `larger than ${mm(0.0318)} inside: no size of the table`
              : `size ${tubing.size}, ${mm(tubing.bore)} inside`
    if (bundle === undefined && !run.run.sleeveBore && run.sleeve !== 'tape')
      missing.push(
        `size of the sleeve of run ${run.run.id}: ${run.missing[0]}${run.missing.length > 1 ? ` and ${run.missing.length - 1} more` : ''}`,
      )
    if (run.run.length === undefined) missing.push(`length of run ${run.run.id}`)
    heapUp(sleeves, [kind, size], run.run.length?.value)
  }

  const grommets = new Map<string, Heap>()
  for (const { name, grommet, hole, bore } of Object.values(build.collections.passages)) {
    if (grommet === false) continue
    if (hole === undefined) missing.push(`diameter of the hole at ${name}`)
    if (bore === undefined) missing.push(`bore of the grommet at ${name}`)
    heapUp(grommets, [`hole ${hole ? mm(hole.value) : 'unknown'}, bore ${bore ? mm(bore.value) : 'unknown'}`], 0)
  }
  const fuses = new Map<string, Heap>()
  for (const { id, name, spec } of Object.values(build.collections.devices)) {
    if (spec.kind !== 'fuse' || restrictedDevice(build, id)) continue
    if (spec.rating === undefined) missing.push(`rating of ${name}`)
    heapUp(
      fuses,
      [
        spec.rating ? `${Number((spec.rating.value as number).toPrecision(3))} A` : 'rating unknown',
        spec.pattern ?? 'type not said',
      ],
      0,
    )
  }

  /** Wire and tubing are sold by the metre; what is unknown is never bought as nothing. */
  const byMetre = (title: string, names: readonly string[], heaps: ReadonlyMap<string, Heap>): Table => ({
    title,
    columns: [
      ...names.map((name) => ({ name })),
      { name: 'Pieces' },
      { name: 'Needed, m', digits: 2 },
      { name: 'Buy, m' },
      { name: 'Not in it' },
    ],
    rows: sorted(heaps).map(([key, { metres, count, unknown }]) => [
      ...key,
      count,
      unknown === count ? undefined : metres,
      unknown === count ? undefined : Math.ceil(metres * more - 1e-9),
      unknown === 0 ? '' : `${counted(unknown, 'piece', 'pieces')} of unknown length`,
    ]),
  })
  const byPiece = (title: string, names: readonly string[], heaps: ReadonlyMap<string, Heap>): Table => ({
    title,
    columns: [...names.map((name) => ({ name })), { name: 'Pieces' }],
    rows: sorted(heaps).map(([key, { count }]) => [...key, count]),
  })
  const tables = [
    byMetre('Wire', ['Size', 'Colour', 'Make'], wire),
    byPiece('Wire ends', ['Joined by', 'Terminal', 'Wire size'], ends),
    byMetre('Sleeves and tape, by length of loom', ['Kind', 'Size'], sleeves),
    byPiece('Grommets', ['Size'], grommets),
    byPiece('Fuses', ['Rating', 'Type'], fuses),
  ].filter(({ rows }) => rows.length > 0)
  return {
    id: 'shopping',
    title: LIST_NAMES.shopping,
    says: 'What the loom takes: metres with what is wasted, ends, sleeves, grommets and fuses.',
    tables,
    notes: [
      `“Buy” is what is needed and ${(waste.value * 100).toFixed(0)} % for waste (${waste.from}), up to the next whole metre of each colour. Ends, grommets and fuses are counted without spares.`,
      'Tape is told by the length of loom it covers, not by the length that comes off the roll.',
      'Tubing is the smallest that its bundle, laid by hand, fills to 70 % at most, as a conduit maker’s guide recommends.',
      ...notes,
    ],
    missing: once(missing),
    ...(tables.length === 0 ? { empty: 'There is nothing to buy yet: no wire, run or fuse is entered.' } : {}),
  }
}
