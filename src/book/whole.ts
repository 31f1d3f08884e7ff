/** The whole Book as one page: contents, then every document that has its paper, each on a new sheet. */
import type { Build } from '../model/build.ts'
import { CHAPTERS, type Document } from './documents.ts'
import { escapeHtml, htmlPage } from './page.ts'

/** One look for pages that have their own style when they are printed by themselves. */
const style = (header: string): string => `
body { font: 10.5pt/1.4 serif; color: #1a1c1e; max-width: 50rem; margin: 2rem auto; padding: 0 1rem; overflow-wrap: anywhere; }
h1, h2, h3 { line-height: 1.2; break-after: avoid; } h2 { border-bottom: 1px solid; margin-top: 1.4rem; font-size: 1.15rem; } h3 { font-size: 1rem; margin: 0.6rem 0 0; }
.document { break-before: page; } .contents { break-before: page; } .contents ol { list-style: none; padding: 0; } .contents li { margin: 0.2rem 0; }
.document h1 { font-size: 1.4rem; } article { break-inside: avoid; margin: 0.7rem 0; } p { margin: 0.15rem 0; }
table { border-collapse: collapse; width: 100%; font-size: 9.5pt; } thead { display: table-header-group; } tr { break-inside: avoid; }
th, td { text-align: left; vertical-align: top; padding: 0.2rem 0.5rem 0.2rem 0; border-bottom: 1px solid #999; }
ul { margin: 0.2rem 0; padding-left: 1.2rem; } .cautions { list-style: none; border-left: 3px double; padding-left: 0.7rem; }
.figure { text-align: right; } .small, .note { font-size: 9pt; } .lacks { font-style: italic; }
.working { font-size: 9pt; white-space: pre-wrap; margin: 0.2rem 0; }
@page { margin: 18mm 16mm; @top-left { content: "${header}"; font: 9pt serif; } @bottom-right { content: counter(page); font: 9pt serif; } }`

/** Between the marks of a page's body: what it shows, without its own style. */
const bodyOf = (page: string): string =>
  page.slice(page.indexOf('<body>') + '<body>'.length, page.lastIndexOf('</body>')).trim()
const cssText = (text: string): string => text.replace(/[\\"\n<]/g, ' ')

/** Documents that go into it, in its order; what has its own paper or nothing in it stays out. */
export const boundIn = (documents: readonly Document[]): readonly (Document & { readonly page: () => string })[] =>
  documents.flatMap((each) =>
    each.page === undefined || each.alone || each.empty !== undefined ? [] : [{ ...each, page: each.page }],
  )

/** `pages`: each bound document with its page, made beforehand so that a screen can say how far it is. */
export const wholeBook = (
  build: Build,
  documents: readonly Document[],
  pages: ReadonlyMap<string, string>,
  printed: string,
): string => {
  const inside = CHAPTERS.flatMap((chapter) => {
    const here = documents.filter(({ id, chapter: of }) => of === chapter && pages.has(id))
    return here.length === 0
      ? []
      : [
          `<li><strong>${escapeHtml(chapter)}</strong><ol>${here
            .map(
              ({ id, title, missing }) =>
                `<li><a href="#${escapeHtml(id)}">${escapeHtml(title)}</a>${missing.length === 0 ? '' : ` <span class="small">(${missing.length} missing)</span>`}</li>`,
            )
            .join('')}</ol></li>`,
        ]
  })
  const out = documents.filter(({ id }) => !pages.has(id))
  return htmlPage(
    `${build.name}: the Book`,
    style(`${cssText(build.name)}, printed ${cssText(printed)}`),
    `<header><h1>${escapeHtml(build.name)}: the Book</h1>
<p>Printed ${escapeHtml(printed)}. For whoever tunes, inspects, mends or owns this car next. Of brakes, fuel and structure it says at best that the arithmetic holds; a qualified person must inspect them. What the law asks is the authority’s to say.</p></header>
<nav class="contents"><h2>Contents</h2><ol>${inside.join('\n')}</ol>
${out.length === 0 ? '' : `<h2>Not bound in</h2><ul>${out.map(({ title, empty, alone }) => `<li>${escapeHtml(title)}: ${escapeHtml(empty ?? (alone ? 'printed by itself, on its own paper.' : 'printed from its bench.'))}</li>`).join('')}</ul>`}</nav>
${documents
  .filter(({ id }) => pages.has(id))
  .map(({ id }) => `<section class="document" id="${escapeHtml(id)}">${bodyOf(pages.get(id)!)}</section>`)
  .join('\n')}`,
  )
}
