/** A list as a spreadsheet takes it: CSV that runs nothing, or the rows of an XLSX sheet. */
import { csvCell } from '../../units/csvCell.ts'
import { type Cell, cellText, type List } from './list.ts'

interface Sheet {
  readonly headings: readonly string[]
  readonly rows: readonly { readonly text: string; readonly number: number | undefined }[][]
}

/** Tables with the same columns become one, with their titles in a column of their own; others follow one another. */
const sheets = (list: List): Sheet[] => {
  const found = new Map<string, { headings: string[]; rows: Sheet['rows'][number][] }>()
  const titled = list.tables.some(({ title }) => title !== undefined)
  for (const { title, columns, rows } of list.tables) {
    const headings = [...(titled ? ['Part'] : []), ...columns.map(({ name }) => name.trim())]
    const key = headings.join('\t')
    const sheet = found.get(key) ?? { headings, rows: [] }
    found.set(key, sheet)
    for (const row of rows)
      sheet.rows.push([
        ...(titled ? [{ text: title ?? '', number: undefined }] : []),
        ...row.map((cell: Cell, index) => ({
          text: cellText(cell, columns[index]!),
          number: typeof cell === 'number' ? Number(cell.toFixed(columns[index]!.digits ?? 0)) : undefined,
        })),
      ])
  }
  return [...found.values()]
}

export const listAsCsv = (list: List): string =>
  sheets(list)
    .map(({ headings, rows }) =>
      [
        headings.map(csvCell),
        ...rows.map((row) => row.map(({ text, number }) => (number === undefined ? csvCell(text) : text))),
      ]
        .map((row) => row.join(','))
        .join('\r\n'),
    )
    .join('\r\n\r\n')
    .concat('\r\n')

/** Cells as `write-excel-file` takes them; text is text there, whatever it begins with. */
export const listAsRows = (list: List) =>
  sheets(list).flatMap(({ headings, rows }, index) => [
    ...(index === 0 ? [] : [[]]),
    headings.map((value) => ({ value, fontWeight: 'bold' as const })),
    ...rows.map((row) =>
      row.map(({ text, number }) =>
        number === undefined ? { value: text, type: String } : { value: number, type: Number },
      ),
    ),
  ])
