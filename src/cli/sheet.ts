/** The test sheet of a circuit, or of first power: what a meter should show; and readings kept on it. */
import type { Command } from 'commander'
import { answerText } from '../assess/testSheets/answers.ts'
import { expectedOf } from '../assess/testSheets/figures.ts'
import { meterReading } from '../assess/testSheets/meterText.ts'
import {
  FIRST_POWER,
  type LineStanding,
  sheetStanding,
  type TestSheet,
  takeReading,
  testSheet,
  tickLine,
} from '../assess/testSheets/testSheet.ts'
import type { Build } from '../model/build.ts'
import type { Store } from '../store/store.ts'
import { refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { inert, type Out, wrap } from './print.ts'

interface Options {
  readonly build?: string
  readonly case?: string
  readonly take: readonly string[]
  readonly by?: string
  readonly instrument?: string
  readonly leads?: string
  readonly working?: boolean
  readonly json?: boolean
}
const WIDTH = 100

const lineText = (standing: LineStanding, number: number, working: boolean): string => {
  const { line } = standing
  const head = `${String(number).padStart(3)}  `
  if (line.kind === 'do')
    return `${head}${wrap(`[${standing.reading ? 'x' : ' '}] ${line.says}`, WIDTH - 5, '     ').trimStart()}`
  const answer = answerText(standing)
  return [
    `${head}${wrap(line.says, WIDTH - 5, '     ').trimStart()}`,
    `       expected ${inert(expectedOf(line))}`,
    ...(line.limit ? [wrap(line.limit, WIDTH - 7, '       ')] : []),
    ...(answer === '' ? [] : [wrap(`read ${answer}`, WIDTH - 7, '       ')]),
    ...(working ? (line.expect?.working ?? []).map((each) => wrap(`· ${each}`, WIDTH - 9, '         ')) : []),
    ...(working && line.low ? [wrap(`too low: ${line.low}`, WIDTH - 9, '         ')] : []),
    ...(working && line.high ? [wrap(`too high: ${line.high}`, WIDTH - 9, '         ')] : []),
  ].join('\n')
}

const sheetText = (build: Build, sheet: TestSheet, working: boolean): string => {
  const standing = sheetStanding(build, sheet)
  const kase = sheet.case === undefined ? undefined : build.collections.cases[sheet.case]
  let number = 0
  const sections = sheet.sections.map((section) => {
    const lines = section.lines.map((line) => {
      number += 1
      return lineText(standing.lines.get(line.id)!, number, working)
    })
    return [
      `\n${inert(section.title)}`,
      wrap(`State: ${section.state}.`, WIDTH),
      ...section.cautions.map((caution) => wrap(`! ${caution}`, WIDTH)),
      ...lines,
    ].join('\n')
  })
  const again = standing.confirmations.flatMap(({ search, lines, passed, confirmed }) => [
    confirmed
      ? `The repair of ${search.found!.name} (search ${search.id}) is confirmed: close it in the workbench.`
      : `To confirm the repair of ${search.found!.name} (search ${search.id}), read again: ${lines
          .filter((line) => !passed.some((each) => each.line.id === line.id))
          .map(({ says }) => says)
          .join('; ')}.`,
  ])
  return `${inert(sheet.title)}${kase ? `: ${inert(kase.name)}` : ''}\n${[...sheet.notes.map((note) => wrap(note, WIDTH)), ...sections, ...again.map((each) => `\n${wrap(each, WIDTH)}`)].join('\n')}\n\n${standing.done} of ${standing.lines.size} lines done, ${standing.out.length} out of tolerance.\n`
}

const take = (store: Store, sheet: TestSheet, given: string, { by, instrument, leads }: Options, say: Out): void => {
  const cut = given.lastIndexOf('=')
  const [name, text] = [given.slice(0, cut).trim(), given.slice(cut + 1).trim()]
  const lines = sheet.sections.flatMap((section) => section.lines)
  const line = /^\d+$/.test(name) ? lines[Number(name) - 1] : lines.find(({ id }) => id === name)
  if (cut < 0 || !line)
    throw refuse(
      'no-line',
      `“${given}” is no answer to a line of this sheet.`,
      'Write the number of the line, =, and what the meter shows: --take 4=12.9; or --take 1=done.',
    )
  const how = { when: new Date().toISOString(), ...(by === undefined ? {} : { by }) }
  if (/^(done|ok)$/i.test(text)) {
    store.edit(tickLine(store.read(), sheet, line, how))
    return
  }
  if (line.kind === 'do') throw refuse('no-number', `Line ${name} is a step, not a reading.`, `Write ${name}=done.`)
  const { value, ...typed } = meterReading(line.quantity, text)
  const meter = {
    ...how,
    ...typed,
    ...(instrument === undefined ? {} : { instrument }),
    // Of both leads, touched together: taken off when ohms are judged, kept beside the reading.
    ...(leads === undefined || line.quantity !== 'ohms'
      ? {}
      : { leadResistance: { value: meterReading('ohms', leads).value as never } }),
  }
  const { edit, search } = takeReading(store.read(), sheet, line, value, meter)
  store.edit(edit)
  if (search !== undefined)
    say.error(`Out of tolerance: fault search ${search}. Go on with: swapwright fault --search ${search}\n`)
}

export const addSheet = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  program
    .command('sheet')
    .description('test sheet of a circuit or of first power: what a meter should show at each point')
    .argument('<circuit>', `a circuit, or ${FIRST_POWER}`)
    .option('-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo')
    .option('--case <case>', 'state of the car; else the one in which most of the circuit is on')
    .option(
      '--take <line=value>',
      'keep a reading: 4=12.9, 3=OL for no continuity, or 1=done; may be given often',
      (text: string, before: readonly string[]) => [...before, text],
      [] as readonly string[],
    )
    .option('--by <name>', 'who reads')
    .option('--instrument <name>', 'with what, kept with the reading')
    .option('--leads <ohms>', 'of both leads touched together: taken off ohms')
    .option('--working', 'what each tolerance is made of, and what a wrong reading means')
    .option('--json', 'print JSON')
    .addHelpText('after', '\nExit status: 1 where a reading that is kept is out of tolerance.')
    .action(async (circuit: string, options: Options) => {
      const store = await openNamed(options.build, options.take.length === 0)
      try {
        const sheet = testSheet(store.read(), circuit, options.case)
        for (const given of options.take) take(store, sheet, given, options, out)
        const build = store.read()
        const standing = sheetStanding(build, sheet)
        setStatus(standing.out.length > 0 ? 1 : 0)
        if (options.json) {
          const answers = Object.fromEntries(
            [...standing.lines].flatMap(([id, { reading, verdict }]) =>
              reading
                ? [
                    [
                      id,
                      {
                        reading: reading.id,
                        value: reading.value,
                        unit: reading.unit,
                        verdict: verdict ?? { kind: 'done' },
                      },
                    ],
                  ]
                : [],
            ),
          )
          out.write(`${JSON.stringify({ ...sheet, answers }, null, 2)}\n`)
        } else out.write(sheetText(build, sheet, options.working === true))
      } finally {
        store.close()
      }
    })
}
