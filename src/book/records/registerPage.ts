/** The register of torques and clearances as one page: what each is to have, what it had, how it is marked, when again. */
import { preloadOf } from '../../assess/register/preload.ts'
import { askedText, figureText, fixingStanding, type SeenTo } from '../../assess/register/standing.ts'
import type { Build, Entity } from '../../model/build.ts'
import { escapeHtml, htmlPage } from '../page.ts'
import { RECORD_STYLE } from './style.ts'

const seenText = (fixing: Entity<'fixings'>, { says, method, marked, by, when, ...figure }: SeenTo): string =>
  [
    figure.value === undefined ? '' : figureText(fixing, figure.value, figure),
    method,
    marked === undefined ? 'not marked' : `marked: ${marked}`,
    says,
    [by ?? 'no name', when?.slice(0, 10) ?? 'no day'].join(', '),
  ]
    .filter(Boolean)
    .join('; ')

/** What keeps the register from being whole: line by line. */
export const registerLacks = (build: Build, printed: string): string[] =>
  Object.values(build.collections.fixings).flatMap((fixing) => {
    const { value, due } = fixingStanding(build, fixing, printed)
    const missing = [value.missing, due?.missing].filter((each) => each !== undefined)
    return missing.length === 0 ? [] : [`${fixing.name}: ${missing.join('; ')}`]
  })

/** `printed`: the day that stands on it. */
export const registerPage = (build: Build, printed: string): string => {
  const fixings = Object.values(build.collections.fixings)
  const row = (fixing: Entity<'fixings'>): string => {
    const { value, due, newest } = fixingStanding(build, fixing, printed)
    const clamps = preloadOf(fixing, newest)?.says
    const word = value.verdict === 'sound' ? 'as asked' : value.verdict
    return `<tr><td>☐</td><td>${escapeHtml(fixing.name)}${fixing.asked?.source ? `<br><span class="small">${escapeHtml(fixing.asked.source)}</span>` : ''}</td><td>${escapeHtml(askedText(fixing) ?? 'not entered')}</td><td>${
      newest === undefined ? 'nobody yet' : escapeHtml(seenText(fixing, newest))
    }</td><td><strong>${escapeHtml(word)}</strong>${due ? `<br>${escapeHtml(due.says)}` : ''}${due?.missing ? ` <em>Missing: ${escapeHtml(due.missing)}.</em>` : ''}${clamps ? `<br><span class="small">${escapeHtml(clamps)}</span>` : ''}</td></tr>`
  }
  return htmlPage(
    `${build.name}: torques and clearances`,
    RECORD_STYLE,
    `<h1>${escapeHtml(build.name)}: torques and clearances</h1>
<p>Printed ${escapeHtml(printed)}. The vehicle maker’s figure comes first. Of brakes, fuel, steering, wheels and structure it says at best that the arithmetic holds; a qualified person must inspect them.</p>
${
  fixings.length === 0
    ? '<p>No torque or clearance is entered yet.</p>'
    : `<table><thead><tr><th></th><th>Joint or clearance</th><th>Asked</th><th>Last seen to</th><th>Stands</th></tr></thead><tbody>${fixings.map(row).join('\n')}</tbody></table>`
}`,
  )
}
