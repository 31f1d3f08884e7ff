/** A test sheet as a page to take to the car: the point, what is expected there, what was read, a line to write on. */
import { answerText } from '../assess/testSheets/answers.ts'
import { expectedOf } from '../assess/testSheets/figures.ts'
import { sheetStanding, type TestSheet } from '../assess/testSheets/testSheet.ts'
import type { Build } from '../model/build.ts'
import { escapeHtml, htmlPage } from './page.ts'
import { RECORD_STYLE } from './records/style.ts'

/** `printed`: the day that stands on it. */
export const testSheetPage = (build: Build, sheet: TestSheet, printed: string): string => {
  const standing = sheetStanding(build, sheet)
  const row = (line: TestSheet['sections'][number]['lines'][number]): string => {
    const stands = standing.lines.get(line.id)!
    const box = stands.done ? '☒' : '☐'
    if (line.kind === 'do') return `<tr><td>${box}</td><td colspan="3">${escapeHtml(line.says)}</td></tr>`
    const hints = [line.limit, line.low && `Too low: ${line.low}`, line.high && `Too high: ${line.high}`].filter(
      Boolean,
    )
    return `<tr><td>${box}</td><td>${escapeHtml(line.says)}</td><td>${escapeHtml(expectedOf(line))}${
      hints.length === 0 ? '' : `<br><span class="small">${escapeHtml(hints.join(' '))}</span>`
    }</td><td>${escapeHtml(answerText(stands)) || '________'}</td></tr>`
  }
  return htmlPage(
    `${build.name}: ${sheet.title}`,
    RECORD_STYLE,
    `<h1>${escapeHtml(sheet.title)}</h1><p>${escapeHtml(build.name)}, printed ${escapeHtml(printed)}. ${sheet.notes.map(escapeHtml).join(' ')}</p>
${sheet.sections
  .map(
    ({ title, state, cautions, lines }) =>
      `<section><h2>${escapeHtml(title)}</h2><p>State: ${escapeHtml(state)}.</p><ul class="cautions">${cautions.map((each) => `<li>${escapeHtml(each)}</li>`).join('')}</ul><table><colgroup><col style="width: 1.5rem"><col style="width: 32%"><col><col style="width: 22%"></colgroup><thead><tr><th></th><th>Where</th><th>Expected</th><th>Read</th></tr></thead><tbody>${lines.map(row).join('\n')}</tbody></table></section>`,
  )
  .join('\n')}`,
  )
}
