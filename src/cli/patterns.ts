import type { Command } from 'commander'
import { type Asks, applyPattern, type Pattern, patterns } from '../assess/patterns/index.ts'
import type { Build, Change } from '../model/build.ts'
import { withClosings } from '../store/settle.ts'
import { KINDS } from '../units/kinds.ts'
import { refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { inert, type Out, problemText, wrap } from './print.ts'

const kindOf = (asks: Asks): string => {
  switch (asks.type) {
    case 'quantity':
      return KINDS[asks.kind].title
    case 'device':
      return `device: ${asks.of.join(', ')}`
    case 'terminal':
      return 'device or device.pin'
    case 'choice':
      return asks.options.join(' | ')
    case 'count':
      return `${asks.least} to ${asks.most}`
    case 'branch points':
      return `branch points, ${asks.least} to ${asks.most}`
    case 'controller pins':
      return asks.most === 1 ? 'controller pin' : `controller pins, ${asks.least} to ${asks.most}`
    default:
      return asks.type
  }
}

const patternOf = (id: string): Pattern => {
  const found = patterns.find((each) => each.id === id)
  if (!found)
    throw refuse('no-pattern', `There is no circuit pattern “${id}”.`, 'List them with "swapwright pattern list".')
  return found
}

const showText = ({ id, name, purpose, questions, cautions }: Pattern): string =>
  `${id}: ${name}\n${wrap(purpose, 98, '  ')}\n\n${questions
    .map((question) => {
      const may =
        question.otherwise === undefined
          ? question.optional
            ? '  may be left out'
            : ''
          : `  else ${question.otherwise}`
      return `  ${question.name.padEnd(18)} ${question.title} (${kindOf(question.asks)})${may}\n${wrap(question.hint, 76, ' '.repeat(21))}\n`
    })
    .join('')}\n${cautions.map((caution) => wrap(`Caution: ${caution}`, 98, '  ')).join('\n')}\n`

const answersOf = (entries: readonly string[]): Record<string, string> => {
  const answers: Record<string, string> = {}
  for (const entry of entries) {
    const at = entry.indexOf('=')
    if (at < 1) throw refuse('no-value', `“${entry}” has no value.`, 'Write --set name=value.')
    answers[entry.slice(0, at).trim()] = entry.slice(at + 1)
  }
  return answers
}

const added = (change: Change, before: Build): string => {
  if (!('collection' in change)) return ''
  const record = change.value as { readonly name?: string; readonly from?: string; readonly to?: string }
  const what = record.name ?? (record.from === undefined ? '' : `${record.from} to ${record.to}`)
  const verb = Object.hasOwn(before.collections[change.collection], change.id) ? 'changes' : 'adds'
  return `  ${verb} ${change.collection}/${change.id}  ${what}`
}

export const addPatterns = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  const pattern = program.command('pattern').description('ready circuits that size themselves for this car')
  pattern
    .command('list')
    .description('the circuits there are')
    .option('--json', 'print JSON')
    .action((options: { json?: boolean }) => {
      if (options.json)
        out.write(
          `${JSON.stringify(
            patterns.map(({ id, name, purpose, questions, cautions }) => ({ id, name, purpose, questions, cautions })),
            null,
            2,
          )}\n`,
        )
      else for (const { id, name } of patterns) out.write(`${id.padEnd(20)} ${name}\n`)
    })
  pattern
    .command('show <id>')
    .description('what a circuit is for, and what it asks')
    .action((id: string) => {
      out.write(showText(patternOf(id)))
    })
  pattern
    .command('add <id>')
    .description('draw the circuit into the build, sized for its runs and zones')
    .option('-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo')
    .option('-s, --set <name=value...>', 'an answer, such as at=tank-point or running="9 A"')
    .option('-y, --yes', 'store it; without it the circuit is only shown')
    .option('--json', 'print JSON')
    .addHelpText(
      'after',
      '\nswapwright pattern show fuel-pump\nswapwright pattern add horn --set horns=nose-mid switch=dash-right feed=bus-30 earth=stud-nose',
    )
    .action(async (id: string, options: { build?: string; set?: string[]; yes?: boolean; json?: boolean }) => {
      patternOf(id)
      const store = await openNamed(options.build, !options.yes)
      try {
        const before = store.read()
        const { edit, explains, cautions, problems } = applyPattern(before, id, answersOf(options.set ?? []))
        if (options.yes) store.edit(withClosings(before, edit))
        setStatus(problems.some(({ verdict }) => verdict === 'no-go') ? 1 : 0)
        if (options.json) {
          out.write(
            `${JSON.stringify({ stored: options.yes ?? false, edit, explains, cautions, problems }, null, 2)}\n`,
          )
          return
        }
        for (const change of edit.changes) out.write(`${inert(added(change, before))}\n`)
        out.write('\nWhy:\n')
        for (const line of explains) out.write(`${wrap(`· ${line}`, 96, '  ')}\n`)
        if (problems.length > 0) out.write('\nThe check says against it:\n')
        for (const problem of problems)
          out.write(`${wrap(`· ${problem.verdict}: ${problemText(problem)}`, 96, '  ')}\n`)
        out.write('\nBefore any of this work:\n')
        for (const caution of cautions) out.write(`${wrap(`· ${caution}`, 96, '  ')}\n`)
        out.write(
          options.yes
            ? '\nStored. "swapwright undo" takes it back.\n'
            : '\nNothing is stored yet. If it is right, say it again with --yes.\n',
        )
      } finally {
        store.close()
      }
    })
}
