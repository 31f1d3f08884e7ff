/** A list with what there is to show, by place on the car, to print and take along. */
import { byPlace, listStanding } from '../../assess/lists/rows.ts'
import type { Build, Entity } from '../../model/build.ts'
import { escapeHtml, htmlPage } from '../page.ts'
import { RECORD_STYLE } from './style.ts'

/** `printed`: the day that stands on it. */
export const listPage = (build: Build, record: Entity<'records'>, printed: string): string => {
  const standing = listStanding(build, record, printed)
  const { country, category, day } = record.inspection ?? {}
  const about = [country, category, day].filter(Boolean).join(', ')
  return htmlPage(
    `${build.name}: ${record.title}`,
    RECORD_STYLE,
    `<h1>${escapeHtml(build.name)}: ${escapeHtml(record.title)}</h1>
<p>${escapeHtml(about === '' ? '' : `${about}. `)}Printed ${escapeHtml(printed)}. The rows are the builder’s own; what the law asks is the authority’s to say. Of brakes, fuel, steering and structure: a qualified person must inspect them.</p>
${byPlace(build, standing)
  .map(
    ({ title, rows }) =>
      `<section><h2>${escapeHtml(title)}</h2><table><tbody>${rows
        .map(
          ({ check, word, says, missing }) =>
            `<tr><td>☐</td><td>${escapeHtml(check.title)}${check.origin === 'common practice' ? ' <span class="small">(common practice)</span>' : ''}</td><td><strong>${escapeHtml(word)}</strong> ${escapeHtml(says)}${
              missing !== undefined && says !== '' ? ` <em>Missing: ${escapeHtml(missing)}.</em>` : ''
            }</td></tr>`,
        )
        .join('')}</tbody></table></section>`,
  )
  .join('\n')}`,
  )
}
