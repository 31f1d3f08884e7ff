/** Commissioning as one page: each gate with what it asked, what was shown for it, and who closed it when. */
import { judgeGates } from '../../assess/commissioning/commissioning.ts'
import type { AskStanding, EvidenceLine, GateStanding } from '../../assess/commissioning/types.ts'
import { type Finding, verdictWord } from '../../assess/finding.ts'
import type { TestSheet } from '../../assess/testSheets/types.ts'
import type { Build } from '../../model/build.ts'
import { escapeHtml, htmlPage } from '../page.ts'
import { RECORD_STYLE } from './style.ts'

const lineText = ({ says, figure, when, by, photo }: EvidenceLine): string =>
  [
    figure === undefined ? '' : `${figure}: `,
    photo === undefined ? says : `Photograph${says === 'Photograph' ? '' : `: ${says}`}`,
    ` (${[by, when?.slice(0, 10)].filter(Boolean).join(', ') || 'no name, no day'})`,
  ].join('')

const askHtml = ({ ask, verdict, says, missing, evidence }: AskStanding): string => {
  const word = verdictWord({ verdict, system: ask.system ?? 'electrical' })
  return `<article><h3>${escapeHtml(ask.says)}</h3><p><strong>${escapeHtml(word)}</strong>. ${escapeHtml(says)}${
    missing === undefined ? '' : ` <em>Missing: ${escapeHtml(missing)}.</em>`
  }</p>${
    evidence.length === 0 ? '' : `<ul>${evidence.map((line) => `<li>${escapeHtml(lineText(line))}</li>`).join('')}</ul>`
  }</article>`
}

const gateHtml = ({ gate, asks, stand, verdict, closedBy, behind }: GateStanding): string => {
  const standing =
    stand === 'closed'
      ? `Closed${closedBy?.when ? ` on ${closedBy.when.slice(0, 10)}` : ''}${closedBy?.by ? ` by ${closedBy.by}` : ''}.`
      : stand === 'locked'
        ? `Locked by “${behind!.title}”.`
        : stand === 'waits'
          ? `Waits for “${behind!.title}”.`
          : stand === 'asks again'
            ? 'Was closed, and asks again.'
            : `In turn: ${verdict}.`
  return `<section><h2>${escapeHtml(gate.title)}</h2><p>${escapeHtml(standing)} State of the car: ${escapeHtml(gate.state)}.</p>
<ul class="cautions">${gate.cautions.map((each) => `<li>${escapeHtml(each)}</li>`).join('')}</ul>
${asks.map(askHtml).join('\n')}</section>`
}

/** `printed`: the day that stands on it. */
export const gatesPage = (build: Build, findings: readonly Finding[], sheet: TestSheet, printed: string): string =>
  htmlPage(
    `${build.name}: commissioning`,
    RECORD_STYLE,
    `<h1>${escapeHtml(build.name)}: commissioning</h1>
<p>First power and first start, gate by gate, with the evidence of each, printed ${escapeHtml(printed)}. On fuel and brakes it says at best that the arithmetic holds; a qualified person must inspect them.</p>
${judgeGates(build, findings, sheet).map(gateHtml).join('\n')}`,
  )
