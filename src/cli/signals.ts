/** Every controller pin: what it reads or drives, how it is wired, its table and its error today. */
import type { Command } from 'commander'
import { assess } from '../assess/assess.ts'
import { type LedgerRow, ledgerOf, USES } from '../assess/signals/ledger.ts'
import { refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { inert, type Out, wrap } from './print.ts'

interface Options {
  readonly build?: string
  readonly only?: string
  readonly json?: boolean
}

const rowText = (row: LedgerRow): string => {
  const way =
    row.partner === undefined || row.partner.name === row.name
      ? ''
      : ` ${row.use === 'output' ? '→' : '←'} ${row.partner.name}`
  const lines = [
    `${row.pin.slice(row.pin.lastIndexOf('.') + 1).padEnd(9)} ${row.use.padEnd(18)} ${row.name}${way}`,
    [
      row.use === 'free' ? '' : row.wires.length > 0 ? row.wires.join(', ') : 'no wire',
      row.configured === false ? 'not configured' : '',
      row.circuit,
      row.boot === undefined ? '' : row.boot === 'unknown' ? 'at boot not known' : `${row.boot} at boot`,
    ]
      .filter(Boolean)
      .join('; '),
    row.table === undefined ? '' : `table “${row.table}”, error today ${row.error ?? 'not known'}`,
    row.checked === undefined ? '' : `measured on the car ${row.checked}`,
    ...row.findings
      .filter(({ verdict }) => verdict !== 'sound')
      .map(({ verdict, says, todo }) => `${verdict}: ${says} → ${todo}`),
  ].filter((line) => line !== '')
  return lines.map((line, i) => (i === 0 ? inert(line) : wrap(line, 86, ' '.repeat(10)))).join('\n')
}

export const addSignals = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  program
    .command('signals')
    .description('every controller pin: used or free, what it reads or drives, its circuit, table and error today')
    .option('-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo')
    .option('--only <use>', USES.join(', '))
    .option('--json', 'print JSON')
    .action(async ({ build: folder, only, json }: Options) => {
      if (only !== undefined && !(USES as readonly string[]).includes(only))
        throw refuse('no-option', `“${only}” is no use of a pin.`, `Choose ${USES.join(', ')}.`)
      const store = await openNamed(folder, true)
      try {
        const build = store.read()
        const rows = ledgerOf(build, assess(build)).filter(({ use }) => only === undefined || use === only)
        setStatus(rows.some(({ verdict }) => verdict === 'no-go') ? 1 : 0)
        if (json) {
          out.write(`${JSON.stringify(rows, null, 2)}\n`)
          return
        }
        if (rows.length === 0) {
          out.write('No pin of a controller is entered. Add the controller and its inputs and outputs.\n')
          return
        }
        rows.forEach((row, i) => {
          if (row.controller !== rows[i - 1]?.controller) out.write(`${inert(row.controller)}\n`)
          out.write(`${rowText(row)}\n`)
        })
        const count = (use: string): number => rows.filter((row) => row.use === use).length
        out.write(
          `\n${count('input')} inputs, ${count('output')} outputs, ${count('free')} free pins, ${count('wired, no function')} wired without a function.\n`,
        )
      } finally {
        store.close()
      }
    })
}
