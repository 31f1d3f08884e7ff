import type { Command } from 'commander'
import type { Calculation } from '../engineering/calculation.ts'
import { describe, propagate, readInputs, type Show, working, workingLines } from '../engineering/calculation.ts'
import { calculationOf, calculations } from '../engineering/registry.ts'
import { formatQuantity } from '../units/format.ts'
import { KINDS } from '../units/kinds.ts'
import { refuse } from '../units/problem.ts'
import type { Out } from './print.ts'

const show: Show = (kind, si, plusMinus) => formatQuantity(kind, si, plusMinus === undefined ? {} : { plusMinus })

const help = (calc: Calculation): string =>
  [
    `${calc.id}: ${calc.title}`,
    ...Object.entries(calc.inputs).map(([name, input]) =>
      input.type === 'choice'
        ? `  ${name}  ${input.about}: ${input.options.join(' | ')}`
        : `  ${name}  ${input.about} (${KINDS[input.kind].title}, ${show(input.kind, input.min)} … ${show(input.kind, input.max)})`,
    ),
  ].join('\n')

export const addCalc = (program: Command, out: Out): void => {
  program
    .command('calc [id]')
    .description('run a calculation and show its working')
    .option('-i, --input <name=value...>', 'an input as you would write it: length="2 m 30", area="2.5 mm² ± 0.1 mm²"')
    .option('-l, --list', 'list the calculations')
    .option('--json', 'print JSON')
    .helpOption(false)
    .option('-h, --help', 'this help; after an id, the inputs of that calculation')
    .addHelpText(
      'after',
      '\nswapwright calc --list\nswapwright calc voltage-drop            names its inputs\nswapwright calc injector-demand --input power="150 kW" --input …',
    )
    .action(
      (
        id: string | undefined,
        options: { input?: string[]; list?: boolean; json?: boolean; help?: boolean },
        command: Command,
      ) => {
        if (options.help && id === undefined) {
          command.outputHelp()
          return
        }
        if (options.list || id === undefined) {
          if (options.json) out.write(`${JSON.stringify(calculations.map(describe), null, 2)}\n`)
          else for (const calc of calculations) out.write(`${calc.id.padEnd(30)} ${calc.title}\n`)
          return
        }
        const calc = calculationOf(id)
        if (!calc)
          throw refuse('no-calculation', `There is no calculation “${id}”.`, 'List them with "swapwright calc --list".')
        if (!options.input || options.help) {
          out.write(options.json ? `${JSON.stringify(describe(calc), null, 2)}\n` : `${help(calc)}\n`)
          return
        }
        const typed: Record<string, string> = {}
        for (const entry of options.input) {
          const at = entry.indexOf('=')
          if (at < 1) throw refuse('no-value', `The input “${entry}” has no value.`, 'Write --input name=value.')
          typed[entry.slice(0, at).trim()] = entry.slice(at + 1)
        }
        // What was read is checked against the declaration by propagate and working, which refuse anything amiss.
        const given = readInputs(calc, typed) as never
        const answer = propagate(calc, given, show)
        if (options.json)
          out.write(`${JSON.stringify({ id: calc.id, ...answer, working: working(calc, given, show) }, null, 2)}\n`)
        else
          out.write(
            `${calc.title}\n${workingLines(working(calc, given, show))
              .map((line) => `  ${line}`)
              .join('\n')}\n`,
          )
      },
    )
}
