/** The loom: its runs, the lists to make it by, and the layout board, on the terminal or as a file. */
import { writeFileSync } from 'node:fs'
import { extname } from 'node:path'
import type { Command } from 'commander'
import writeXlsx from 'write-excel-file/node'
import { layoutBoard } from '../book/loom/board.ts'
import { boardPage, listPage } from '../book/loom/htmlPage.ts'
import { cellText, LISTS, type List, type ListId } from '../book/loom/list.ts'
import { loomList } from '../book/loom/lists.ts'
import { listAsCsv, listAsRows } from '../book/loom/spreadsheet.ts'
import { PAPERS, type Paper } from '../engineering/electrical/loom/tiles.ts'
import type { Build } from '../model/build.ts'
import { refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { inert, type Out, wrap } from './print.ts'

interface Options {
  readonly build?: string
  readonly out?: string
  readonly paper: string
  readonly zone?: string
  readonly json?: boolean
}
const WIDTH = 100
const BOARD = 'board'

const listText = (list: List): string => {
  const lines: string[] = [list.title, wrap(list.says, WIDTH)]
  if (list.empty !== undefined) return `${[...lines, list.empty].join('\n')}\n`
  for (const { title, columns, rows } of list.tables) {
    const cells = [
      columns.map(({ name }) => name.trim()),
      ...rows.map((row) => row.map((cell, at) => inert(cellText(cell, columns[at]!)))),
    ]
    const wide = columns.map((_, at) => Math.max(...cells.map((row) => row[at]!.length)))
    lines.push('', ...(title === undefined ? [] : [inert(title)]))
    for (const row of cells)
      lines.push(
        row
          .map((cell, at) => (columns[at]!.digits === undefined ? cell.padEnd(wide[at]!) : cell.padStart(wide[at]!)))
          .join('  ')
          .trimEnd(),
      )
  }
  lines.push('', ...list.notes.map((note) => wrap(note, WIDTH)))
  if (list.missing.length > 0) lines.push('', 'Not known:', ...list.missing.map((each) => wrap(each, WIDTH - 2, '  ')))
  return `${lines.join('\n')}\n`
}

const writeList = async (build: Build, list: List, file: string): Promise<void> => {
  switch (extname(file).toLowerCase()) {
    case '.csv':
      return writeFileSync(file, listAsCsv(list))
    case '.xlsx':
      return writeXlsx([...listAsRows(list)]).toFile(file)
    case '.html':
      return writeFileSync(file, listPage(build, list, new Date().toISOString().slice(0, 10)))
    default:
      throw refuse(
        'no-format',
        `${file} is of no kind that a list can be written as.`,
        'End it in .csv, .xlsx or .html.',
      )
  }
}

export const addLoom = (program: Command, out: Out): void => {
  program
    .command('loom')
    .description(
      'the loom: runs and bundles, cut list, pin tables, splices, fuses, labels, shopping list, layout board',
    )
    .argument('[list]', `${LISTS.join(', ')} or ${BOARD}`, 'runs')
    .option('-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo')
    .option('-o, --out <file>', 'write it: a list as .csv, .xlsx or .html, the board as .html')
    .option('--paper <size>', 'sheets of the board: A4 or A3', 'A4')
    .option('--zone <zone>', 'of the board only what lies in that zone')
    .option('--json', 'print JSON')
    .addHelpText('after', '\nswapwright loom cut --out cut.xlsx\nswapwright loom board --paper A3 --out board.html')
    .action(async (name: string, options: Options) => {
      const store = await openNamed(options.build, true)
      try {
        const build = store.read()
        if (name === BOARD) {
          board(build, options, out)
          return
        }
        if (!LISTS.some((id) => id === name))
          throw refuse('no-list', `The loom has no list “${name}”.`, `Choose from: ${LISTS.join(', ')}, ${BOARD}.`)
        const list = loomList(build, name as ListId)
        if (options.out !== undefined) await writeList(build, list, options.out)
        if (options.json) out.write(`${JSON.stringify(list, null, 2)}\n`)
        else if (options.out === undefined) out.write(listText(list))
        else out.write(`${list.title} is in ${inert(options.out)}.\n`)
      } finally {
        store.close()
      }
    })
}

const board = (build: Build, { paper, zone, out: file, json }: Options, out: Out): void => {
  if (!Object.hasOwn(PAPERS, paper))
    throw refuse('no-paper', `The board is not made for ${paper}.`, `Choose ${Object.keys(PAPERS).join(' or ')}.`)
  if (zone !== undefined && !Object.hasOwn(build.collections.zones, zone))
    throw refuse(
      'no-zone',
      `The build has no zone “${zone}”.`,
      `It has: ${Object.keys(build.collections.zones).join(', ')}.`,
    )
  const made = layoutBoard(build, paper as Paper, zone)
  if (file !== undefined) {
    if (extname(file).toLowerCase() !== '.html')
      throw refuse('no-format', `${file} is of no kind that the board can be written as.`, 'End it in .html.')
    writeFileSync(file, boardPage(build, made))
  }
  if (json) {
    out.write(`${JSON.stringify({ ...made.tiling, notes: made.notes, empty: made.empty }, null, 2)}\n`)
    return
  }
  if (made.empty !== undefined) out.write(`${made.empty}\n`)
  for (const note of made.notes) out.write(`${wrap(note, WIDTH)}\n`)
  if (file !== undefined) out.write(`The sheets are in ${inert(file)}; open it in a browser and print it at 100 %.\n`)
}
