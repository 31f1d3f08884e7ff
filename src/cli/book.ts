/** The book: the evidence of the build as one page to print. */
import { writeFileSync } from 'node:fs'
import type { Command } from 'commander'
import { chaptersOf } from '../book/evidence.ts'
import { bookPage } from '../book/page.ts'
import { openNamed } from './context.ts'
import { inert, type Out, wrap } from './print.ts'

interface Options {
  readonly build?: string
  readonly out?: string
  readonly json?: boolean
}

export const addBook = (program: Command, out: Out): void => {
  program
    .command('book')
    .description('what was measured and how, with what each figure still lacks; as a page to print with --out')
    .option('-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo')
    .option('-o, --out <file>', 'write one HTML page that a browser prints')
    .option('--json', 'print JSON')
    .action(async ({ build: folder, out: file, json }: Options) => {
      const store = await openNamed(folder, true)
      try {
        const build = store.read()
        const chapters = chaptersOf(build)
        if (file !== undefined) writeFileSync(file, bookPage(build, new Date().toISOString().slice(0, 10)))
        if (json) {
          out.write(`${JSON.stringify(chapters, null, 2)}\n`)
          return
        }
        for (const { title, entries, empty } of chapters) {
          out.write(`${title}\n`)
          if (empty !== undefined) out.write(`  ${empty}\n`)
          for (const { title: about, figure, from, lacks } of entries) {
            out.write(`  ${inert(about)}${figure === '' ? '' : `: ${inert(figure)}`}\n`)
            if (from.length > 0) out.write(`${wrap(from.join(' '), 86, '      ')}\n`)
            if (lacks.length > 0) out.write(`${wrap(`Not known: ${lacks.join('; ')}.`, 86, '      ')}\n`)
          }
          out.write('\n')
        }
        if (file !== undefined) out.write(`The page is in ${inert(file)}; open it in a browser and print it.\n`)
      } finally {
        store.close()
      }
    })
}
