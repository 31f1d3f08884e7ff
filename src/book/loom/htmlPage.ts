/** A list or the layout board as one page that a browser prints; nothing in it is fetched from anywhere. */
import type { Build } from '../../model/build.ts'
import { escapeHtml, htmlPage } from '../page.ts'
import type { Board } from './board.ts'
import { cellText, type List, type Table } from './list.ts'
import { shapeAsText } from './shape.ts'

const LIST_STYLE = `
body { font: 10pt/1.4 sans-serif; color: #000; margin: 1.5rem; font-variant-numeric: tabular-nums; }
h1, h2 { font-family: serif; line-height: 1.2; } h2 { break-after: avoid; margin: 1.2rem 0 0.3rem; font-size: 1.1rem; }
table { border-collapse: collapse; width: 100%; } thead { display: table-header-group; } tr { break-inside: avoid; }
th, td { text-align: left; vertical-align: top; border-bottom: 0.2mm solid #999; padding: 0.6mm 2mm 0.6mm 0; }
thead th { border-bottom-color: #000; } .figure { text-align: right; } .note { font-size: 9pt; color: #333; }
@page { size: A4 landscape; margin: 12mm; }`

const tableHtml = ({ title, columns, rows }: Table): string =>
  `${title === undefined ? '' : `<h2>${escapeHtml(title)}</h2>`}<table><thead><tr>${columns
    .map(({ name }) => `<th>${escapeHtml(name)}</th>`)
    .join('')}</tr></thead><tbody>${rows
    .map(
      (row) =>
        `<tr>${row
          .map(
            (cell, index) =>
              `<td${typeof cell === 'number' ? ' class="figure"' : ''}>${escapeHtml(cellText(cell, columns[index]!))}</td>`,
          )
          .join('')}</tr>`,
    )
    .join('\n')}</tbody></table>`

/** `printed`: the day that stands on it. */
export const listPage = (build: Build, list: List, printed: string): string =>
  htmlPage(
    `${build.name}: ${list.title}`,
    LIST_STYLE,
    [
      `<h1>${escapeHtml(list.title)}</h1>`,
      `<p>${escapeHtml(build.name)}, printed ${escapeHtml(printed)}. ${escapeHtml(list.says)}</p>`,
      list.empty === undefined ? '' : `<p>${escapeHtml(list.empty)}</p>`,
      ...list.tables.map(tableHtml),
      ...list.notes.map((note) => `<p class="note">${escapeHtml(note)}</p>`),
      list.missing.length === 0
        ? ''
        : `<h2>Not known</h2><ul>${list.missing.map((each) => `<li>${escapeHtml(each)}</li>`).join('')}</ul>`,
    ].join('\n'),
  )

export const boardPage = (build: Build, board: Board): string => {
  const [w, h] = board.tiling.sheet.map((side) => side * 1e3) as [number, number]
  return htmlPage(
    `${build.name}: layout board`,
    `@page { size: ${w}mm ${h}mm; margin: 0; } body { margin: 0; font: 10pt/1.4 sans-serif; color: #000; }
section { break-after: page; } section > svg { display: block; } .first { padding: 12mm; }`,
    `<section class="first"><h1>${escapeHtml(build.name)}: layout board</h1>
${board.empty === undefined ? '' : `<p>${escapeHtml(board.empty)}</p>`}
${board.notes.map((note) => `<p>${escapeHtml(note)}</p>`).join('\n')}
${board.empty === undefined ? shapeAsText(board.map) : ''}</section>
${board.sheets.map(({ drawing }) => `<section>${shapeAsText(drawing)}</section>`).join('\n')}`,
  )
}
