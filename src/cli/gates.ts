/** First power and first start as gates: what each asks, what is there to show, what comes next; answers kept. */
import { writeFileSync } from 'node:fs'
import type { Command } from 'commander'
import { assess } from '../assess/assess.ts'
import { closeGate, judgeGates, sayOf, takeFigure } from '../assess/commissioning/commissioning.ts'
import type { AskStanding, GateStanding } from '../assess/commissioning/types.ts'
import { verdictWord } from '../assess/finding.ts'
import { FIRST_POWER, testSheet } from '../assess/testSheets/testSheet.ts'
import { gatesPage } from '../book/records/gatesPage.ts'
import type { Build, Edit } from '../model/build.ts'
import type { Kind, Of } from '../units/kinds.ts'
import { parseQuantity } from '../units/parse.ts'
import { refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { inert, type Out, wrap } from './print.ts'

interface Options {
  readonly build?: string
  readonly say: readonly string[]
  readonly close?: boolean
  readonly by?: string
  readonly out?: string
  readonly json?: boolean
}
const WIDTH = 100

const askText = ({ ask, verdict, says, missing, evidence }: AskStanding): string =>
  [
    wrap(`${verdictWord({ verdict, system: ask.system ?? 'electrical' })}  ${ask.id}: ${ask.says}`, WIDTH - 2, '    '),
    wrap(says, WIDTH - 6, '      '),
    ...(missing === undefined ? [] : [wrap(`missing: ${missing}`, WIDTH - 6, '      ')]),
    ...(ask.kind === 'figures'
      ? [
          wrap(
            `figures: ${ask.fields.map(({ id, unit }) => `${ask.id}/${id} in ${unit}`).join(', ')}`,
            WIDTH - 6,
            '      ',
          ),
        ]
      : []),
    ...evidence
      .slice(-4)
      .map(({ says: words, figure, when, by }) =>
        wrap(
          `- ${figure === undefined ? '' : `${figure}: `}${words} (${[by, when?.slice(0, 10)].filter(Boolean).join(', ')})`,
          WIDTH - 6,
          '      ',
        ),
      ),
  ].join('\n')

const gateText = ({ gate, asks, verdict, stand, next }: GateStanding): string =>
  [
    `${inert(gate.title)} (${gate.id}): ${verdict}, ${stand}`,
    wrap(`State: ${gate.state}.`, WIDTH),
    ...gate.cautions.map((caution) => wrap(`! ${caution}`, WIDTH)),
    ...asks.map((each) => `\n${askText(each)}`),
    ...(next ? [`\n${wrap(`Next: ${next.says}`, WIDTH)}`] : []),
  ].join('\n')

/** `ask=ok`, `ask=not: why`, `ask=none: why`, `ask=note: words`, `ask/field=2.1 bar`. */
const answer = (build: Build, gate: GateStanding, given: string, by: string): Edit => {
  const cut = given.indexOf('=')
  const [name, text] = [given.slice(0, cut).trim(), given.slice(cut + 1).trim()]
  const [id, fieldId] = name.split('/')
  const one = gate.asks.find(({ ask }) => ask.id === id)
  const said = { by, when: new Date().toISOString() }
  if (cut < 0 || !one)
    throw refuse(
      'no-ask',
      `“${given}” answers nothing that this gate asks.`,
      `Write one of ${gate.asks.map(({ ask }) => ask.id).join(', ')}, =, and ok, not: why, none: why, or a figure.`,
    )
  if (fieldId !== undefined) {
    const field = one.ask.kind === 'figures' ? one.ask.fields.find((each) => each.id === fieldId) : undefined
    if (!field) throw refuse('no-field', `${id} asks for no figure ${fieldId}.`, 'Show the gate to see its figures.')
    const { value, plusMinus } = parseQuantity(field.kind as Kind, text, { unit: field.unit })
    return takeFigure(build, gate, one.ask, field, value as Of<Kind>, plusMinus, said)
  }
  const [, word = '', says] = /^(ok|not|none|note)\b:?\s*(.*)$/is.exec(text) ?? []
  const shows = { ok: 'as it should', not: 'not as it should', none: 'does not apply', note: 'a remark' } as const
  const meant = shows[word.toLowerCase() as keyof typeof shows]
  if (!meant)
    throw refuse('no-word', `“${text}” is no answer.`, 'Write ok, not: why, none: why, or note: what was seen.')
  return sayOf(build, gate, one.ask, meant, said, says === '' ? undefined : says)
}

export const addGates = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  program
    .command('gates')
    .description('first power and first start as gates, each with its evidence; a no-go locks the next')
    .argument('[gate]', 'one gate, with what it asks')
    .option('-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo')
    .option(
      '--say <ask=answer>',
      'answer what the gate asks: extinguisher=ok, limits=none: why, oil-cranking/pressure=2.1 bar; may be given often',
      (text: string, before: readonly string[]) => [...before, text],
      [] as readonly string[],
    )
    .option('--by <name>', 'who looked and measured')
    .option('--close', 'close the gate, where its evidence is whole')
    .option('-o, --out <file>', 'write all gates with their evidence as one HTML page to print')
    .option('--json', 'print JSON')
    .addHelpText('after', '\nExit status: 1 where a gate has a no-go.')
    .action(async (id: string | undefined, options: Options) => {
      const writes = options.say.length > 0 || options.close === true
      const store = await openNamed(options.build, !writes)
      try {
        const judged = (): readonly GateStanding[] => {
          const build = store.read()
          return judgeGates(build, assess(build).findings, testSheet(build, FIRST_POWER))
        }
        const chosen = (gates: readonly GateStanding[]): GateStanding => {
          const found = gates.find(({ gate }) => gate.id === id)
          if (!found)
            throw refuse(
              'no-gate',
              id === undefined ? 'No gate was named.' : `There is no gate ${id}.`,
              `Name one of ${gates.map(({ gate }) => gate.id).join(', ')}.`,
            )
          return found
        }
        let gates = judged()
        for (const given of options.say) {
          store.edit(answer(store.read(), chosen(gates), given, options.by ?? ''))
          gates = judged()
        }
        if (options.close) {
          store.edit(closeGate(store.read(), chosen(gates), { by: options.by ?? '', when: new Date().toISOString() }))
          gates = judged()
        }
        const shown = id === undefined ? gates : [chosen(gates)]
        setStatus(shown.some(({ verdict }) => verdict === 'no-go') ? 1 : 0)
        if (options.out !== undefined) {
          const build = store.read()
          writeFileSync(
            options.out,
            gatesPage(
              build,
              assess(build).findings,
              testSheet(build, FIRST_POWER),
              new Date().toISOString().slice(0, 10),
            ),
          )
        }
        if (options.json) {
          const plain = shown.map(({ gate, asks, ...rest }) => ({
            gate: gate.id,
            title: gate.title,
            sequence: gate.sequence,
            ...rest,
            behind: rest.behind?.id,
            asks: asks.map(({ ask, ...standing }) => ({ ask: ask.id, asks: ask.says, ...standing })),
          }))
          out.write(`${JSON.stringify(plain, null, 2)}\n`)
          return
        }
        if (id !== undefined) out.write(`${gateText(shown[0]!)}\n`)
        else {
          for (const { gate, verdict, stand, behind } of gates)
            out.write(
              `${gate.id.padEnd(22)} ${verdict.padEnd(9)} ${inert(gate.title)}, ${stand}${stand === 'locked' ? ` by ${behind!.id}` : ''}\n`,
            )
          const here = gates.find(({ stand }) => stand === 'in turn' || stand === 'asks again')
          if (here?.next) out.write(`\n${wrap(`Next, at ${here.gate.id}: ${here.next.says}`, WIDTH)}\n`)
        }
        if (options.out !== undefined)
          out.write(`The page is in ${inert(options.out)}; open it in a browser and print it.\n`)
      } finally {
        store.close()
      }
    })
}
