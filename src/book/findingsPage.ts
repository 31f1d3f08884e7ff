/** What was judged, as a page: findings worst first, and with their working for whoever wants to reckon again. */
import { type Finding, type System, tallyOf, VERDICTS, verdictWord } from '../assess/finding.ts'
import type { Build } from '../model/build.ts'
import { escapeHtml, htmlPage } from './page.ts'
import { RECORD_STYLE } from './records/style.ts'

const STYLE = `${RECORD_STYLE}
.working { font-size: 9pt; white-space: pre-wrap; overflow-wrap: anywhere; margin: 0.2rem 0; }`

const article = (finding: Finding, hasWorking: boolean): string =>
  `<article><h3>${escapeHtml(finding.about)}</h3><p><strong>${escapeHtml(verdictWord(finding))}</strong>. ${escapeHtml(finding.says)}${
    finding.missing === undefined ? '' : ` <em>Missing: ${escapeHtml(finding.missing)}.</em>`
  }</p>${finding.verdict === 'sound' ? '' : `<p class="small">${escapeHtml(finding.todo)}</p>`}${
    hasWorking && finding.working.length > 0
      ? `<p class="working">${finding.working.map(escapeHtml).join('<br>')}</p>`
      : ''
  }</article>`

const LAW =
  'Of brakes, fuel, driveline and structure the best that is said is that the arithmetic holds; a qualified person must inspect them.'

/** What is not sound, worst first. `printed`: the day that stands on it. */
export const findingsPage = (build: Build, findings: readonly Finding[], printed: string): string => {
  const open = findings.filter(({ verdict }) => verdict !== 'sound')
  const tally = tallyOf(findings)
    .map(({ word, count }) => `${count} ${word}`)
    .join(', ')
  return htmlPage(
    `${build.name}: findings`,
    STYLE,
    `<h1>${escapeHtml(build.name)}: findings</h1><p>Printed ${escapeHtml(printed)}: ${escapeHtml(tally)}. ${LAW}</p>
${VERDICTS.filter((verdict) => open.some((each) => each.verdict === verdict))
  .map(
    (verdict) =>
      `<section><h2>${verdict === 'unknown' ? 'Not known' : verdict === 'no-go' ? 'No-go' : 'Marginal'}</h2>${open
        .filter((each) => each.verdict === verdict)
        .map((each) => article(each, false))
        .join('\n')}</section>`,
  )
  .join('\n')}${open.length === 0 ? '<p>Nothing is found wrong or missing.</p>' : ''}`,
  )
}

/** All that was reckoned for one system, with the working of each figure. */
export const figuresPage = (
  build: Build,
  findings: readonly Finding[],
  { title, systems }: { readonly title: string; readonly systems: readonly System[] },
  printed: string,
): string => {
  const here = findings.filter(({ system }) => systems.includes(system))
  return htmlPage(
    `${build.name}: ${title}`,
    STYLE,
    `<h1>${escapeHtml(build.name)}: ${escapeHtml(title.charAt(0).toLowerCase() + title.slice(1))}</h1><p>What was reckoned and how, printed ${escapeHtml(printed)}. ${LAW}</p>
${here.length === 0 ? '<p>Nothing is entered that could be judged.</p>' : here.map((each) => article(each, true)).join('\n')}`,
  )
}
