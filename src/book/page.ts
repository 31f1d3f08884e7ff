/** The book as one page: plain HTML with its own style, nothing fetched, page breaks where a printer wants them. */
import type { Build } from '../model/build.ts'
import { type Chapter, chaptersOf, type Entry } from './evidence.ts'

const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}
export const escapeHtml = (text: string): string => text.replace(/[&<>"']/g, (sign) => ESCAPES[sign]!)

/** A page of our own style and nothing else; `body` is HTML, `title` text. */
export const htmlPage = (title: string, style: string, body: string): string => `<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><title>${escapeHtml(title)}</title><style>${style}</style></head>
<body>
${body}
</body>
</html>
`

const STYLE = `
body { font: 11pt/1.45 serif; color: #1a1c1e; max-width: 46rem; margin: 2rem auto; padding: 0 1rem; }
h1, h2 { line-height: 1.2; } h2 { border-bottom: 1px solid; margin-top: 2rem; break-after: avoid; }
article { break-inside: avoid; margin: 0.9rem 0; } h3 { font-size: 1rem; margin: 0; }
h3 span { font-weight: 400; font-variant-numeric: tabular-nums; } p { margin: 0.15rem 0; } .lacks { font-style: italic; }
@page { margin: 18mm; }`

const entryHtml = ({ title, figure, from, lacks }: Entry): string =>
  `<article><h3>${escapeHtml(title)}${figure === '' ? '' : ` <span>${escapeHtml(figure)}</span>`}</h3>${
    from.length === 0 ? '' : `<p>${escapeHtml(from.join(' '))}</p>`
  }${lacks.length === 0 ? '' : `<p class="lacks">Not known: ${escapeHtml(lacks.join('; '))}.</p>`}</article>`

const chapterHtml = ({ title, entries, empty }: Chapter): string =>
  `<section><h2>${escapeHtml(title)}</h2>${
    empty === undefined ? entries.map(entryHtml).join('\n') : `<p class="lacks">${escapeHtml(empty)}</p>`
  }</section>`

/** `printed`: the day that stands on it. */
export const bookPage = (build: Build, printed: string): string =>
  htmlPage(
    `${build.name}: evidence`,
    STYLE,
    `<h1>${escapeHtml(build.name)}</h1>
<p>What was measured and how, printed ${escapeHtml(printed)}. On brakes, fuel and structure a figure says at best that the arithmetic holds; a qualified person must inspect them.</p>
${chaptersOf(build).map(chapterHtml).join('\n')}`,
  )
