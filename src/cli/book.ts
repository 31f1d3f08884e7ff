/** The Book: everything that can be printed with what it lacks; written as one page, or page by page into a folder. */
import { mkdirSync, writeFileSync } from 'node:fs'
import { extname, join } from 'node:path'
import type { Command } from 'commander'
import { assess } from '../assess/assess.ts'
import { CHAPTERS, documentsOf } from '../book/documents.ts'
import { boundIn, wholeBook } from '../book/whole.ts'
import { openNamed } from './context.ts'
import { inert, type Out, wrap } from './print.ts'

interface Options {
  readonly build?: string
  readonly out?: string
  readonly json?: boolean
  readonly all?: boolean
}
const WIDTH = 100
/** Of what is missing so much is told in a row. */
const TOLD = 3

export const addBook = (program: Command, out: Out): void => {
  program
    .command('book')
    .description('everything that can be printed, with what is still missing from it; written with --out')
    .option('-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo')
    .option('-o, --out <file>', 'book.html: one page with contents; a folder: each document as a page of its own')
    .option('--all', 'all that is missing, not only the first of it')
    .option('--json', 'print JSON')
    .addHelpText('after', '\nswapwright book --out book.html     one page; a browser prints it, as PDF too')
    .action(async ({ build: folder, out: to, json, all }: Options) => {
      const store = await openNamed(folder, true)
      try {
        const build = store.read()
        const printed = new Date().toISOString().slice(0, 10)
        const documents = documentsOf(build, assess(build).findings, printed)
        if (to !== undefined && extname(to).toLowerCase() === '.html') {
          const pages = new Map(boundIn(documents).map(({ id, page }) => [id, page()]))
          writeFileSync(to, wholeBook(build, documents, pages, printed))
        } else if (to !== undefined) {
          mkdirSync(to, { recursive: true })
          for (const { id, page, empty } of documents)
            if (page && empty === undefined) writeFileSync(join(to, `${id}.html`), page())
        }
        if (json) {
          out.write(
            `${JSON.stringify(documents, ['id', 'chapter', 'title', 'says', 'missing', 'empty', 'alone'], 2)}\n`,
          )
          return
        }
        for (const chapter of CHAPTERS) {
          out.write(`${chapter}\n`)
          for (const { title, says, missing, empty, page } of documents.filter((each) => each.chapter === chapter)) {
            out.write(
              `  ${inert(title)}: ${empty ?? (page === undefined ? 'printed from its bench' : missing.length === 0 ? 'nothing known to be missing' : `${missing.length} missing`)}\n`,
            )
            if (empty !== undefined) continue
            out.write(`${wrap(says, WIDTH - 6, '      ')}\n`)
            for (const each of all ? missing : missing.slice(0, TOLD))
              out.write(`${wrap(`Missing: ${each}`, WIDTH - 6, '      ')}\n`)
            if (!all && missing.length > TOLD) out.write(`      and ${missing.length - TOLD} more: --all\n`)
          }
          out.write('\n')
        }
        if (to !== undefined)
          out.write(
            extname(to).toLowerCase() === '.html'
              ? `The Book is in ${inert(to)}; open it in a browser and print it.\n`
              : `The pages are in ${inert(to)}; open them in a browser and print them.\n`,
          )
      } finally {
        store.close()
      }
    })
}
