/** A test sheet as a page to take to the car: the point, what is expected there, what was read, a line to write on. */
import { expectedText, readText } from '../assess/testSheets/figures.ts'
import { sheetStanding, type TestSheet } from '../assess/testSheets/testSheet.ts'
import type { Build } from '../model/build.ts'
import { escapeHtml, htmlPage } from './page.ts'
import { RECORD_STYLE } from './records/style.ts'

/** `printed`: the day that stands on it. */
export const testSheetPage = (build: Build, sheet: TestSheet, printed: string): string => {
  const standing = sheetStanding(build, sheet)
  const row = (line: TestSheet['sections'][number]['lines'][number]): string => {
    const reading = standing.lines.get(line.id)?.reading
    if (line.kind === 'do')
      return `<tr><td>${reading ? '☒' : '☐'}</td><td colspan="3">${escapeHtml(line.says)}</td></tr>`
    const expected = line.expect
      ? expectedText(line.expect, line.quantity)
      : `not known: ${line.missing ?? 'what to expect there'} is not entered`
    return `<tr><td>☐</td><td>${escapeHtml(line.says)}</td><td>${escapeHtml(expected)}</td><td>${
      reading ? escapeHtml(readText(reading, line.quantity)) : '________'
    }</td></tr>`
  }
  return htmlPage(
    `${build.name}: ${sheet.title}`,
    RECORD_STYLE,
    `<h1>${escapeHtml(sheet.title)}</h1><p>${escapeHtml(build.name)}, printed ${escapeHtml(printed)}. ${sheet.notes.map(escapeHtml).join(' ')}</p>
${sheet.sections
  .map(
    ({ title, state, cautions, lines }) =>
      `<section><h2>${escapeHtml(title)}</h2><p>State: ${escapeHtml(state)}.</p><ul class="cautions">${cautions.map((each) => `<li>${escapeHtml(each)}</li>`).join('')}</ul><table><thead><tr><th></th><th>Where</th><th>Expected</th><th>Read</th></tr></thead><tbody>${lines.map(row).join('\n')}</tbody></table></section>`,
  )
  .join('\n')}`,
  )
}
