/** A spreadsheet of wires as rows of text with their line numbers. CSV (comma, semicolon or tab) and XLSX. */
import { readFileSync, statSync } from 'node:fs'
import { basename } from 'node:path'
import { parse } from 'csv-parse/sync'
import { readSheet } from 'read-excel-file/node'
import { refuse } from '../../units/problem.ts'

export interface Row {
  /** Line of the file, or row of the sheet, counted from 1. */
  readonly line: number
  readonly cells: readonly string[]
}
/** No wire list kept by hand comes near it; a file beyond it is something else. */
const LARGEST = 20e6
const isZip = (bytes: Buffer): boolean => bytes.subarray(0, 4).toString('latin1') === 'PK\x03\x04'

/** The rows that hold anything, the headings first. Throws Refusal for what is no table. */
export const readTable = async (path: string): Promise<Row[]> => {
  const file = basename(path)
  const bytes = load(path, file)
  const rows = isZip(bytes) ? await sheetRows(bytes, file) : textRows(bytes, file)
  const filled = rows.filter(({ cells }) => cells.some((cell) => cell !== ''))
  // A title above the table fills one cell only.
  const start = filled.findIndex(({ cells }) => cells.filter((cell) => cell !== '').length >= 2)
  if (start < 0)
    throw refuse('no-table', `${file} holds no table.`, 'It needs a row of column names and a row for each wire.', file)
  return filled.slice(start)
}

const load = (path: string, file: string): Buffer => {
  try {
    if (!statSync(path).isFile()) throw refuse('no-file', `${file} is not a file.`, 'Name a CSV or XLSX file.', file)
    if (statSync(path).size > LARGEST)
      throw refuse(
        'too-large',
        `${file} is larger than 20 MB, too large for a wire list.`,
        'Choose the wire list.',
        file,
      )
    return readFileSync(path)
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code
    if (code === 'ENOENT') throw refuse('no-file', `${path} does not exist.`, 'Check its name.', file)
    if (code === 'EACCES') throw refuse('no-file', `${path} may not be read.`, 'Check its rights.', file)
    throw error
  }
}

const sheetRows = async (bytes: Buffer, file: string): Promise<Row[]> => {
  try {
    const rows = await readSheet(bytes)
    return rows.map((row, index) => ({ line: index + 1, cells: row.map(cellText) }))
  } catch (error) {
    throw refuse(
      'not-a-wire-list',
      `${file} could not be read as an XLSX workbook (${(error as Error).message.slice(0, 160)}).`,
      'Save it again as XLSX or CSV.',
      file,
    )
  }
}

const cellText = (cell: unknown): string => {
  if (cell === null || cell === undefined) return ''
  if (cell instanceof Date) return cell.toISOString().slice(0, 10)
  return String(cell).trim()
}

const textRows = (bytes: Buffer, file: string): Row[] => {
  const sample = bytes.subarray(0, 65536)
  if (sample.includes(0) || sample.subarray(0, 8).toString('latin1').startsWith('\x89PNG'))
    throw refuse(
      'not-a-wire-list',
      `${file} is neither a CSV nor an XLSX file: it holds binary data.`,
      'Save the wire list as CSV or XLSX.',
      file,
    )
  const text = decode(bytes).replace(/^\uFEFF/, '')
  try {
    const records = parse(text, {
      delimiter: delimiterOf(text),
      relax_column_count: true,
      skip_empty_lines: true,
      trim: true,
      info: true,
    }) as unknown as {
      record: string[]
      info: { lines: number }
    }[]
    return records.map(({ record, info }) => ({ line: info.lines, cells: record }))
  } catch (error) {
    throw refuse(
      'not-a-wire-list',
      `${file} could not be read as CSV (${(error as Error).message.slice(0, 160)}).`,
      'Check its quotation marks, or save it again as CSV.',
      file,
    )
  }
}

/** Spreadsheets on older systems save in Windows-1252; text that is no UTF-8 is read so. */
const decode = (bytes: Buffer): string => {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return new TextDecoder('windows-1252').decode(bytes)
  }
}

/** The sign that divides the first lines into most columns; a decimal comma loses to the semicolon beside it. */
const delimiterOf = (text: string): string => {
  const lines = text
    .split(/\r?\n/)
    .filter((line) => line.trim() !== '')
    .slice(0, 5)
  const score = (sign: string): number => Math.min(...lines.map((line) => line.split(sign).length))
  return [';', '\t', ','].reduce((best, sign) => (score(sign) > score(best) ? sign : best), ';')
}
