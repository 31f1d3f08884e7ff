import type { Command } from 'commander'
import { assess } from '../assess/assess.ts'
import { withClosings } from '../store/settle.ts'
import { type ColumnMap, FIELDS, type Field } from '../store/wireList/columns.ts'
import { wiresAsCsv } from '../store/wireList/export.ts'
import { proposeWires } from '../store/wireList/import.ts'
import { readTable } from '../store/wireList/table.ts'
import { refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { inert, type Out, problemText, tally } from './print.ts'

const readMap = (entries: readonly string[], headers: readonly string[]): ColumnMap => {
  const map: ColumnMap = {}
  for (const entry of entries) {
    const at = entry.lastIndexOf('=')
    const header = entry.slice(0, at).trim()
    const field = entry.slice(at + 1).trim()
    const index = headers.findIndex((name) => name.trim().toLowerCase() === header.toLowerCase())
    if (at < 1 || index < 0)
      throw refuse('no-column', `The list has no column “${header}”.`, `It has: ${headers.join(', ')}.`)
    if (!Object.hasOwn(FIELDS, field))
      throw refuse(
        'no-field',
        `“${field}” is nothing a column can mean.`,
        `Choose from: ${Object.keys(FIELDS).join(', ')}.`,
      )
    map[field as Field] = index
  }
  return map
}

export const addWires = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  const wires = program.command('wires').description('wire lists in and out')
  wires
    .command('import <file>')
    .description('read a wire list kept in a spreadsheet (CSV or XLSX)')
    .option('-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo')
    .option('--map <column=meaning...>', `what a column means: ${Object.keys(FIELDS).join(', ')}`)
    .option('-y, --yes', 'take the columns as understood and store the wires; without it they are only shown')
    .option('--json', 'print JSON')
    .action(async (file: string, options: { build?: string; map?: string[]; yes?: boolean; json?: boolean }) => {
      const rows = await readTable(file)
      const store = await openNamed(options.build, !options.yes)
      try {
        const proposal = proposeWires(
          store.read(),
          rows,
          options.map ? readMap(options.map, rows[0]?.cells ?? []) : undefined,
        )
        if (options.yes) store.edit(withClosings(store.read(), proposal.edit))
        // What was understood is kept, yet a script must hear that something was not.
        if (proposal.aside.length > 0) setStatus(4)
        const columns = Object.entries(proposal.columns).map(
          ([field, index]) => `${FIELDS[field as Field].title} ← “${proposal.headers[index]}”`,
        )
        if (options.json) {
          out.write(
            `${JSON.stringify({ stored: options.yes ?? false, wires: proposal.wires, columns, newDevices: proposal.newDevices, aside: proposal.aside }, null, 2)}\n`,
          )
          return
        }
        for (const line of columns) out.write(`${inert(line)}\n`)
        out.write(
          `${proposal.wires} wires read, ${proposal.newDevices.length} devices that the build did not have, ${proposal.aside.length} rows set aside.\n`,
        )
        for (const problem of proposal.aside) out.write(`  ${problemText(problem)}\n`)
        out.write(
          options.yes
            ? `Stored. Check: ${tally(assess(store.read()).findings)}\n`
            : 'Nothing is stored yet. If the columns are right, say it again with --yes.\n',
        )
      } finally {
        store.close()
      }
    })
  wires
    .command('export')
    .description('write the wires as CSV to standard output')
    .option('-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo')
    .action(async (options: { build?: string }) => {
      const store = await openNamed(options.build, true)
      try {
        out.write(wiresAsCsv(store.read()))
      } finally {
        store.close()
      }
    })
}
