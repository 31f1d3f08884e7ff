/**
 * `controller-table/1`: a curve as a controller takes it, as CSV and JSON. Described in docs/formats/controller-table.md.
 * Pure: text in, table out, and back without a change.
 */
import { fromUnit, KINDS, type Kind, unitsOf } from '../../../units/index.ts'
import { type Problem, Refusal } from '../../../units/problem.ts'
import type { Point } from './bestRows.ts'

export const CONTROLLER_TABLE = 'controller-table/1'

export interface Axis {
  readonly name: string
  readonly kind: Kind
  /** Of the numbers in the file. */
  readonly unit: string
}

export interface ControllerTable {
  readonly format: typeof CONTROLLER_TABLE
  readonly title: string
  readonly x: Axis
  readonly y: Axis
  /** x rising, numbers in the axes' units; straight between rows, held beyond the ends. */
  readonly rows: readonly Point[]
  /** Largest error of the lines against the curve, in y's unit (of °C: K). */
  readonly largestError?: number
  /** In x's unit: below it the wire is shorted, above it open. */
  readonly shortBelow?: number
  readonly openAbove?: number
  /** Where the curve comes from: readings, a data sheet. */
  readonly source?: string
}

const OPTIONAL_NUMBERS = ['largestError', 'shortBelow', 'openAbove'] as const

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

function axisOf(name: 'x' | 'y', given: unknown, problems: Problem[]): Axis {
  const axis = isRecord(given) ? given : {}
  const text = (key: string): string => (typeof axis[key] === 'string' ? (axis[key] as string) : '')
  const [title, kind, unit] = [text('name'), text('kind'), text('unit')]
  if (title === '')
    problems.push({
      code: 'missing-name',
      path: `${name}/name`,
      says: `The ${name} axis has no name.`,
      todo: 'Name it, such as “voltage”.',
    })
  if (!Object.hasOwn(KINDS, kind))
    problems.push({
      code: 'unknown-kind',
      path: `${name}/kind`,
      says: `“${kind}” is no kind of quantity.`,
      todo: `Use one of ${Object.keys(KINDS).join(', ')}.`,
    })
  else if (!unitsOf(kind as Kind).includes(unit))
    problems.push({
      code: 'unknown-unit',
      path: `${name}/unit`,
      says: `“${unit}” is no unit of ${KINDS[kind as Kind].title}.`,
      todo: `Use one of ${unitsOf(kind as Kind).join(', ')}.`,
    })
  return { name: title, kind: kind as Kind, unit }
}

/** Looks through anything that was read and returns the table, or throws `Refusal` with all that is wrong. Unknown keys are refused. */
export function checkControllerTable(given: unknown): ControllerTable {
  const problems: Problem[] = []
  const table = isRecord(given) ? given : {}
  if (table.format !== CONTROLLER_TABLE)
    throw new Refusal([
      {
        code: 'unknown-format',
        path: 'format',
        says: `This is not a ${CONTROLLER_TABLE} (its format is “${String(table.format)}”).`,
        todo: `Give a file whose format says ${CONTROLLER_TABLE}.`,
      },
    ])
  const known = ['format', 'title', 'x', 'y', 'rows', 'source', ...OPTIONAL_NUMBERS]
  for (const key of Object.keys(table))
    if (!known.includes(key))
      problems.push({
        code: 'unknown-key',
        path: key,
        says: `“${key}” is not part of the format.`,
        todo: `Known are ${known.join(', ')}.`,
      })
  if (typeof table.title !== 'string' || table.title === '')
    problems.push({ code: 'missing-name', path: 'title', says: 'The table has no title.', todo: 'Say what it is of.' })
  if (table.source !== undefined && typeof table.source !== 'string')
    problems.push({
      code: 'not-text',
      path: 'source',
      says: 'The source is not text.',
      todo: 'Write where the curve comes from.',
    })
  const [x, y] = [axisOf('x', table.x, problems), axisOf('y', table.y, problems)]
  for (const key of OPTIONAL_NUMBERS)
    if (table[key] !== undefined && !Number.isFinite(table[key]))
      problems.push({
        code: 'not-a-number',
        path: key,
        says: `“${String(table[key])}” is not a number.`,
        todo: 'Correct it or leave it out.',
      })
  const rows: Point[] = []
  const list: readonly unknown[] = Array.isArray(table.rows) ? table.rows : []
  if (list.length < 2)
    problems.push({
      code: 'missing-rows',
      path: 'rows',
      says: `The table has ${list.length} rows, two are needed.`,
      todo: 'Add rows.',
    })
  list.forEach((row, i) => {
    const [a, b] = Array.isArray(row) && row.length === 2 ? (row as [unknown, unknown]) : [undefined, undefined]
    if (typeof a !== 'number' || typeof b !== 'number' || !Number.isFinite(a) || !Number.isFinite(b))
      problems.push({
        code: 'not-a-number',
        path: `rows/${i + 1}`,
        says: `Row ${i + 1} is not two numbers.`,
        todo: 'Write x and y.',
      })
    else {
      if (rows.length > 0 && a <= rows.at(-1)!.x)
        problems.push({
          code: 'not-monotone',
          path: `rows/${i + 1}`,
          says: `Row ${i + 1} begins at ${a}, not above the row before it.`,
          todo: 'Sort the rows by x and leave out doubles.',
        })
      rows.push({ x: a, y: b })
    }
  })
  if (problems.length > 0) throw new Refusal(problems)
  return {
    format: CONTROLLER_TABLE,
    title: table.title as string,
    x,
    y,
    rows,
    ...Object.fromEntries(OPTIONAL_NUMBERS.filter((key) => table[key] !== undefined).map((key) => [key, table[key]])),
    ...(table.source === undefined ? {} : { source: table.source as string }),
  }
}

export function readControllerTableJson(text: string): ControllerTable {
  let given: unknown
  try {
    given = JSON.parse(text)
  } catch {
    throw new Refusal([
      { code: 'unreadable', says: 'This text is not JSON.', todo: 'Give the file as it was written, or its CSV form.' },
    ])
  }
  return checkControllerTable(given)
}

export const writeControllerTableJson = (table: ControllerTable): string =>
  `${JSON.stringify({ ...table, rows: table.rows.map(({ x, y }) => [x, y]) }, null, 2)}\n`

const quoted = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text)
const line = (...cells: readonly (string | number)[]): string => cells.map((cell) => quoted(String(cell))).join(',')

/** CSV by RFC 4180; the first cell of each line says what the line is. */
export const writeControllerTableCsv = (table: ControllerTable): string =>
  `${[
    line('format', table.format),
    line('title', table.title),
    line('x', table.x.name, table.x.kind, table.x.unit),
    line('y', table.y.name, table.y.kind, table.y.unit),
    ...OPTIONAL_NUMBERS.flatMap((key) => (table[key] === undefined ? [] : [line(key, table[key])])),
    ...(table.source === undefined ? [] : [line('source', table.source)]),
    ...table.rows.map(({ x, y }) => line('row', x, y)),
  ].join('\r\n')}\r\n`

/** Cells of RFC 4180 text with the number of the line each record begins on; accepts a byte-order mark and any line ending. */
function csvRecords(text: string): { readonly cells: readonly string[]; readonly at: number }[] {
  const records: { cells: string[]; at: number }[] = []
  let cells: string[] = []
  let cell = ''
  let inside = false
  let [at, now] = [1, 1]
  const end = (): void => {
    cells.push(cell)
    if (cells.some((each) => each !== '')) records.push({ cells, at })
    cells = []
    cell = ''
  }
  const body = text.replace(/^\uFEFF/, '')
  for (let i = 0; i < body.length; i += 1) {
    const character = body[i]!
    if (character === '\n') now += 1
    if (inside) {
      if (character !== '"') cell += character
      else if (body[i + 1] === '"') {
        cell += '"'
        i += 1
      } else inside = false
    } else if (character === '"') inside = true
    else if (character === ',') {
      cells.push(cell)
      cell = ''
    } else if (character === '\n' || character === '\r') {
      if (character === '\r' && body[i + 1] === '\n') continue
      end()
      at = now
    } else cell += character
  }
  end()
  return records
}

export function readControllerTableCsv(text: string): ControllerTable {
  const table: Record<string, unknown> = {}
  const rows: unknown[] = []
  const problems: Problem[] = []
  const numberOf = (cell: string | undefined): number =>
    cell === undefined || cell.trim() === '' ? Number.NaN : Number(cell)
  for (const { cells, at } of csvRecords(text)) {
    const [key, ...rest] = cells as [string, ...string[]]
    if (key === 'row') {
      const spare = rest.slice(2).some((cell) => cell !== '')
      if (spare || Number.isNaN(numberOf(rest[0])) || Number.isNaN(numberOf(rest[1])))
        problems.push({
          code: 'not-a-number',
          line: at,
          says: `Line ${at} is not a row of two numbers.`,
          todo: 'Write row,x,y with a point as the decimal sign.',
        })
      rows.push([numberOf(rest[0]), numberOf(rest[1])])
    } else if (key === 'x' || key === 'y') table[key] = { name: rest[0], kind: rest[1], unit: rest[2] }
    else if ((OPTIONAL_NUMBERS as readonly string[]).includes(key)) table[key] = numberOf(rest[0])
    else table[key] = rest[0]
  }
  if (problems.length > 0) throw new Refusal(problems)
  return checkControllerTable({ ...table, rows })
}

/** The rows in SI. */
export const rowsInSi = ({ rows, x, y }: ControllerTable): Point[] =>
  rows.map((row) => ({ x: fromUnit(x.kind, x.unit, row.x), y: fromUnit(y.kind, y.unit, row.y) }))
