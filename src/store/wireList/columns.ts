/** Which column means what, by its heading; the builder confirms it before anything is stored. */
import { type Problem, Refusal } from '../../units/problem.ts'
import type { Table } from './table.ts'

/** Headings in use for each field: common practice, no published source. */
const HEADINGS = {
  id: ['id', 'wire', 'wire id', 'wire no', 'wire number', 'wire name', 'no', 'number', 'nr', 'ref', 'reference', 'label', 'cable'],
  from: ['from', 'from device', 'from component', 'start', 'source', 'device a', 'end a', 'a end', 'from connector'],
  fromPin: ['from pin', 'from terminal', 'from cavity', 'start pin', 'source pin', 'pin a', 'a pin', 'from contact'],
  to: ['to', 'to device', 'to component', 'end', 'destination', 'dest', 'device b', 'end b', 'b end', 'to connector'],
  toPin: ['to pin', 'to terminal', 'to cavity', 'end pin', 'destination pin', 'dest pin', 'pin b', 'b pin', 'to contact'],
  size: ['size', 'wire size', 'area', 'cross section', 'cross sectional area', 'csa', 'section', 'gauge', 'wire gauge', 'awg', 'mm2', 'sqmm'],
  colour: ['colour', 'color', 'wire colour', 'wire color', 'col'],
  length: ['length', 'wire length', 'len'],
  material: ['material', 'conductor', 'metal'],
  insulation: ['insulation', 'insulation class', 'temperature class', 'class'],
  circuit: ['circuit', 'function', 'system', 'circuit name'],
  remark: ['remark', 'remarks', 'note', 'notes', 'comment', 'comments'],
} as const
export type Field = keyof typeof HEADINGS
export const FIELDS = Object.keys(HEADINGS) as Field[]
const NEEDED: readonly Field[] = ['from', 'to']

export interface Column {
  readonly index: number
  readonly heading: string
  /** Unit that the heading states: `mm²` in "Size (mm²)", `AWG` in "AWG". */
  readonly unit?: string
}
export interface Mapping {
  readonly columns: Partial<Record<Field, Column>>
  readonly unused: readonly string[]
}

const SQUARE = /mm\s*(2|²|\^2)|sq\s*mm|sqmm|mm-?sq/i
const UNIT_WORDS: Partial<Record<Field, readonly (readonly [RegExp, string])[]>> = {
  size: [
    [SQUARE, 'mm²'],
    [/\bawg\b|\bgauge\b/i, 'AWG'],
  ],
  length: [
    [/\bmm\b|millimet/i, 'mm'],
    [/\bcm\b|centimet/i, 'cm'],
    [/\b(ft|feet|foot)\b/i, 'ft'],
    [/\b(in|inch|inches)\b/i, 'in'],
    [/\bm\b|\bmet(re|er)s?\b/i, 'm'],
  ],
}

const plain = (heading: string): string =>
  heading
    .toLowerCase()
    .replace(SQUARE, (match) => (heading.trim().length === match.length ? 'mm2' : ' '))
    .replace(/[[(].*?[\])]/g, ' ')
    .replace(/[._/#:-]+/g, ' ')
    .replace(/\b(mm|cm|m|ft|feet|in|inch|inches|metres|meters)\s*$/, ' ')
    .replace(/\s+/g, ' ')
    .trim()

const withoutUnit = (field: Field, heading: string): string =>
  field === 'size' ? plain(heading).replace(/^(.+) awg$/, '$1') : plain(heading)

const column = (field: Field, heading: string, index: number): Column => {
  const unit = UNIT_WORDS[field]?.find(([pattern]) => pattern.test(heading))?.[1]
  return { index, heading, ...(unit === undefined ? {} : { unit }) }
}

/** `said`: field → heading, where the builder says so. Throws Refusal with every column that is wanted and not found. */
export const mapColumns = (table: Table, said: Readonly<Record<string, string>> = {}): Mapping => {
  const problems: Problem[] = []
  const columns: Partial<Record<Field, Column>> = {}
  const taken = new Set<number>()
  const headings = table.header.cells
  const named = `The columns are ${headings.filter(Boolean).map((heading) => `“${heading}”`).join(', ')}.`
  const put = (field: Field, index: number): void => {
    columns[field] = column(field, headings[index] ?? '', index)
    taken.add(index)
  }
  for (const [field, heading] of Object.entries(said)) {
    const index = headings.findIndex((candidate) => candidate.toLowerCase() === heading.toLowerCase())
    if (!FIELDS.includes(field as Field))
      problems.push({ code: 'no-field', says: `A wire has no field “${field}”.`, todo: `The fields are ${FIELDS.join(', ')}.` })
    else if (index < 0) problems.push({ code: 'no-column', says: `${table.file} has no column “${heading}”.`, todo: named })
    else put(field as Field, index)
  }
  for (const field of FIELDS) {
    if (columns[field] !== undefined) continue
    for (const wanted of HEADINGS[field]) {
      const index = headings.findIndex((heading, at) => !taken.has(at) && withoutUnit(field, heading) === wanted)
      if (index < 0) continue
      put(field, index)
      break
    }
  }
  for (const field of NEEDED)
    if (columns[field] === undefined && problems.length === 0)
      problems.push({ code: 'column-missing', line: table.header.line, says: `${table.file} has no column for where a wire goes ${field}.`, todo: `Say which: --map ${field}=“heading”. ${named}` })
  if (problems.length > 0) throw new Refusal(problems)
  return { columns, unused: headings.filter((heading, index) => heading !== '' && !taken.has(index)) }
}
