/**
 * Hole and grip of a rivet nut.   table by kind and thread: the shortest nut that grips the sheet
 *   k   kind  one of thin sheet, wide grip
 *   M   thread  one of M4 to M12
 *   t   sheet              m    0.0003 … 0.02
 *   dh  hole               m
 *   dm  hole, at most      m
 *   g1  grip from          m
 *   g2  grip to            m
 *   L   length before      m
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: steel nuts of one maker; others bore other holes.
 * Source: data sheets KTOS-S and RFOS-BCTMG of a maker of rivet nuts [read].
 */
import { calculation, choice, quantity, result, type Source } from '../calculation.ts'

const thin: Source = {
  title: 'Rivetnut Technology Systems, data sheet KTOS-S: knurled, round, thin sheet, steel',
  where: 'hole −0 +0.10 mm: M4 6.4, M5 7.2, M6 9.6, M8 10.6; grip 0.5 to 3 mm',
  how: 'read',
}
const wide: Source = {
  title: 'Rivetnut Technology Systems, data sheet RFOS-BCTMG: round flat head, wide grip, steel',
  where: 'hole −0 +0.10 mm: M4 7, M5 8, M6 9, M8 11, M10 13, M12 16',
  how: 'read',
}
const KINDS = ['thin sheet', 'wide grip'] as const
const THREADS = ['M4', 'M5', 'M6', 'M8', 'M10', 'M12'] as const
type NutKind = (typeof KINDS)[number]
type Thread = (typeof THREADS)[number]
/** mm as printed: hole, grip from, grip to, length; the shortest first. */
type Row = readonly [hole: number, from: number, to: number, length: number]
const NUTS: Readonly<Record<NutKind, Partial<Record<Thread, readonly Row[]>>>> = {
  'thin sheet': {
    M4: [[6.4, 0.5, 2.5, 10.5]],
    M5: [[7.2, 0.5, 3, 11.8]],
    M6: [[9.6, 0.5, 3, 15.5]],
    M8: [[10.6, 0.5, 3, 16]],
  },
  'wide grip': {
    M4: [[7, 0.5, 4, 14]],
    M5: [[8, 0.5, 5, 17]],
    M6: [[9, 0.5, 6, 19.5]],
    M8: [
      [11, 0.5, 6, 20.5],
      [11, 0.5, 8, 23],
      [11, 4.5, 11, 26],
      [11, 6.5, 13, 28],
    ],
    M10: [
      [13, 1.5, 10, 30],
      [13, 5.5, 14, 34],
    ],
    M12: [[16, 8, 18, 41]],
  },
}
/** mm: makers allow the hole so much over. */
const OVER = 0.1
const EDGE = 1e-9
const nutFor = (kind: NutKind, thread: Thread, sheet: number): Row | undefined =>
  NUTS[kind][thread]?.find(([, from, to]) => sheet * 1e3 >= from - EDGE && sheet * 1e3 <= to + EDGE)

const row = (kind: NutKind, thread: Thread, sheet: number, output: string, mm: number) => ({
  inputs: { kind, thread, sheet: sheet / 1e3 },
  output,
  expected: mm / 1e3,
  tolerance: { abs: 5e-5 },
  because: 'last digit printed',
  source: kind === 'thin sheet' ? thin : wide,
  evidence: 'published' as const,
})

export const rivetNut = calculation({
  id: 'rivet-nut',
  title: 'Hole and grip of a rivet nut',
  inputs: {
    kind: choice(KINDS, { symbol: 'k', about: 'knurled for thin sheet, or round with a wide grip' }),
    thread: choice(THREADS, { symbol: 'M', about: 'thread of the screw' }),
    sheet: quantity('length', {
      symbol: 't',
      min: 0.0003,
      max: 0.02,
      plausible: [0.0005, 0.006],
      about: 'thickness that the nut grips: all sheets together, paint too',
    }),
  },
  outputs: {
    hole: result('length', { symbol: 'dh', about: 'hole to drill, never under it' }),
    most: result('length', { symbol: 'dm', about: 'widest that the hole may be' }),
    from: result('length', { symbol: 'g1', about: 'least thickness that this nut grips' }),
    to: result('length', { symbol: 'g2', about: 'greatest thickness that this nut grips' }),
    long: result('length', { symbol: 'L', about: 'length of the nut before it is set: room behind the sheet' }),
  },
  conditions: [
    {
      at: 'sheet',
      holds: ({ kind, thread, sheet }) => nutFor(kind, thread, sheet) !== undefined,
      says: 'None of these rivet nuts has that thread and grips that thickness.',
      todo: 'Take another thread or kind, or ask the maker for a longer one; too long a grip spins, too short pulls through.',
    },
  ],
  formula:
    '{hole}, {from}, {to}, {long} = table by {kind} and {thread}: the shortest nut that grips {sheet}\n{most} = {hole} + 0.1 mm',
  sources: [thin, wide],
  cautions: [
    'Not where a failure drops, burns or steers: no rivet nut holds seats, belts, brakes or steering without a qualified person’s word.',
  ],
  limits: [
    'Steel nuts of one maker; another maker’s hole differs by a millimetre and more (M6: 9 to 10 mm), so drill to the sheet of the nut in the hand. Deburr; steel and aluminium together corrode.',
  ],
  checks: [
    row('thin sheet', 'M6', 1.2, 'hole', 9.6),
    row('thin sheet', 'M4', 1, 'to', 2.5),
    row('wide grip', 'M8', 7, 'long', 23),
    row('wide grip', 'M8', 12, 'from', 6.5),
    row('wide grip', 'M10', 2, 'hole', 13),
    row('wide grip', 'M5', 2, 'most', 8.1),
  ],
  compute: ({ kind, thread, sheet }) => {
    const [hole, from, to, length] = nutFor(kind, thread, sheet)!
    return { hole: hole / 1e3, most: (hole + OVER) / 1e3, from: from / 1e3, to: to / 1e3, long: length / 1e3 }
  },
})
