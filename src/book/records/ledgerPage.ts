/** The calibration ledger as one page, newest first. */
import { ledgerOf } from '../../assess/ledger/ledger.ts'
import type { Build } from '../../model/build.ts'
import { escapeHtml, htmlPage } from '../page.ts'
import { RECORD_STYLE } from './style.ts'

export const ledgerLacks = (build: Build): string[] =>
  ledgerOf(build).flatMap(({ change, lacks }) => (lacks.length === 0 ? [] : [`${change.title}: ${lacks.join('; ')}`]))

/** `printed`: the day that stands on it. */
export const ledgerPage = (build: Build, printed: string): string =>
  htmlPage(
    `${build.name}: calibration ledger`,
    RECORD_STYLE,
    `<h1>${escapeHtml(build.name)}: calibration ledger</h1><p>Printed ${escapeHtml(printed)}.</p>
${ledgerOf(build)
  .map(
    ({ change, current, differs, belongs, back, lacks }) =>
      `<article><h3>${escapeHtml(change.title)}${current ? ' (in the controller)' : ''}</h3><p>${escapeHtml(
        [
          change.file.name,
          change.when?.slice(0, 10) ?? 'no day',
          change.by ?? 'no name',
          `SHA-256 ${change.file.sha256.slice(0, 16)}…`,
        ].join(', '),
      )}. ${escapeHtml(differs)}${belongs.length === 0 ? '' : ` Belongs to: ${escapeHtml(belongs.map(({ name }) => name).join('; '))}.`}${back ? ` The way back: ${escapeHtml(back.title)}.` : ''}</p>${lacks.length === 0 ? '' : `<p><em>Not known: ${escapeHtml(lacks.join('; '))}.</em></p>`}</article>`,
  )
  .join('\n')}`,
  )
