/** What the columns of a wire list mean, guessed from their headings and confirmed by the builder. */
export interface FieldSpec {
  readonly title: string
  readonly needed: boolean
  /** Headings in use, in small letters: common practice, no published source. */
  readonly headings: readonly string[]
}

export type Field =
  | 'id'
  | 'from'
  | 'fromPin'
  | 'to'
  | 'toPin'
  | 'area'
  | 'length'
  | 'colour'
  | 'material'
  | 'circuit'
  | 'remark'

export const FIELDS: Readonly<Record<Field, FieldSpec>> = {
  id: {
    title: 'wire',
    needed: false,
    headings: ['id', 'wire', 'wire id', 'wire no', 'wire number', 'wire name', 'no', 'number', 'nr', 'ref', 'label'],
  },
  from: {
    title: 'from',
    needed: true,
    headings: ['from', 'from device', 'from component', 'start', 'source', 'end a'],
  },
  fromPin: {
    title: 'pin at its start',
    needed: false,
    headings: ['from pin', 'from terminal', 'from cavity', 'start pin', 'pin a'],
  },
  to: { title: 'to', needed: true, headings: ['to', 'to device', 'to component', 'end', 'destination', 'end b'] },
  toPin: {
    title: 'pin at its end',
    needed: false,
    headings: ['to pin', 'to terminal', 'to cavity', 'end pin', 'pin b'],
  },
  area: {
    title: 'size',
    needed: false,
    headings: ['size', 'wire size', 'area', 'cross section', 'csa', 'section', 'gauge', 'wire gauge', 'awg', 'mm2'],
  },
  length: { title: 'length', needed: false, headings: ['length', 'wire length', 'len'] },
  colour: { title: 'colour', needed: false, headings: ['colour', 'color', 'wire colour', 'wire color', 'col'] },
  material: { title: 'material', needed: false, headings: ['material', 'conductor', 'metal'] },
  circuit: { title: 'circuit', needed: false, headings: ['circuit', 'function', 'system', 'circuit name'] },
  remark: { title: 'remark', needed: false, headings: ['remark', 'remarks', 'note', 'notes', 'comment', 'comments'] },
}

/** Field → index of its column. */
export type ColumnMap = Partial<Record<Field, number>>

const SQUARE = /mm\s*(2|²|\^2)|sq\s*mm/i
const UNITS: readonly (readonly [RegExp, string])[] = [
  [SQUARE, 'mm²'],
  [/\bawg\b/i, 'AWG'],
  [/\bmm\b/i, 'mm'],
  [/\bcm\b/i, 'cm'],
  [/\b(ft|feet|foot)\b/i, 'ft'],
  [/\b(in|inch|inches)\b/i, 'in'],
  [/\b(m|metres?|meters?)\b/i, 'm'],
]

/** The unit that a heading states: `mm²` of "Size (mm²)", `AWG` of "AWG"; undefined when it states none. */
export const headerUnit = (heading: string): string | undefined => UNITS.find(([pattern]) => pattern.test(heading))?.[1]

const plain = (heading: string): string =>
  heading
    .toLowerCase()
    .replace(/[[(].*?[\])]/g, ' ')
    .replace(SQUARE, (unit, ...rest) => (String(rest.at(-1)).trim() === unit ? 'mm2' : ' '))
    .replace(/[._/#:-]+/g, ' ')
    .replace(/(?<=\S)\s+(mm|cm|m|ft|feet|in|inch|inches|awg)\s*$/, '')
    .replace(/\s+/g, ' ')
    .trim()

export const guessColumns = (headings: readonly string[]): ColumnMap => {
  const map: ColumnMap = {}
  const taken = new Set<number>()
  for (const field of Object.keys(FIELDS) as Field[]) {
    for (const wanted of FIELDS[field].headings) {
      const index = headings.findIndex((heading, at) => !taken.has(at) && plain(heading) === wanted)
      if (index < 0) continue
      map[field] = index
      taken.add(index)
      break
    }
  }
  return map
}
