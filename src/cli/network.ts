import { readFileSync } from 'node:fs'
import type { Command } from 'commander'
import { readBareNetwork } from '../engineering/electrical/network/bareNetworkFile.ts'
import { solveBareNetwork } from '../engineering/electrical/network/bareSolution.ts'
import { refuse } from '../units/problem.ts'
import type { Out } from './print.ts'

export const addNetwork = (program: Command, out: Out): void => {
  program
    .command('network')
    .description('bare direct-current networks')
    .command('solve <file>')
    .description('solve a bare network file (car-dc-network/1)')
    .option('--variant <id>', 'a variant of the file', 'base')
    .option('--json', 'print JSON')
    .action((file: string, options: { variant: string; json?: boolean }) => {
      let text: string
      try {
        text = readFileSync(file, 'utf8')
      } catch {
        throw refuse('no-file', `${file} cannot be read.`, 'Check its name and place.')
      }
      const solution = solveBareNetwork(readBareNetwork(text), options.variant)
      if (options.json) out.write(`${JSON.stringify(solution, null, 2)}\n`)
      else {
        for (const [node, volts] of Object.entries(solution.voltages))
          out.write(`${node.padEnd(24)} ${volts === null ? 'floating' : `${volts.toPrecision(6)} V`}\n`)
        for (const [element, amps] of Object.entries(solution.currents))
          out.write(`${element.padEnd(24)} ${amps === null ? '–' : `${amps.toPrecision(6)} A`}\n`)
        for (const note of solution.notes) out.write(`${note}\n`)
      }
    })
}
