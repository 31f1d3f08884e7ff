/** Lists that are gone through, what is watched over the years, and the card for the glovebox, at the terminal. */
import { writeFileSync } from 'node:fs'
import type { Command } from 'commander'
import { evidenceEdit } from '../assess/commissioning/commissioning.ts'
import { byGroup, byPlace, filedUnderRow, listStanding } from '../assess/lists/rows.ts'
import { type ListKind, START, startList } from '../assess/lists/start.ts'
import { trendOf, WATCHED } from '../assess/trends/trends.ts'
import { breakdownCard, cardPage } from '../book/records/card.ts'
import { listPage } from '../book/records/listPage.ts'
import type { Build, Entity } from '../model/build.ts'
import type { Store } from '../store/store.ts'
import { refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { inert, type Out, wrap } from './print.ts'

const BUILD = ['-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo'] as const
const WIDTH = 100
interface At {
  readonly build?: string
}
const today = (): string => new Date().toISOString().slice(0, 10)

const withStore = async (at: At, readOnly: boolean, work: (store: Store) => void): Promise<void> => {
  const store = await openNamed(at.build, readOnly)
  try {
    work(store)
  } finally {
    store.close()
  }
}
const listsOf = (build: Build): Entity<'records'>[] => {
  const used = new Set(Object.values(build.collections.checks).map(({ list }) => list))
  return Object.values(build.collections.records).filter(({ id }) => used.has(id))
}
const listNamed = (build: Build, id: string): Entity<'records'> => {
  const found = listsOf(build).find((record) => record.id === id)
  if (!found)
    throw refuse(
      'no-list',
      `There is no list ${id}.`,
      `Name one of ${
        listsOf(build)
          .map((record) => record.id)
          .join(', ') || 'none yet'
      }, or begin one: swapwright list begin inspection.`,
    )
  return found
}

const addList = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  const list = program
    .command('list')
    .description('inspection, donor, shakedown, service: rows of your own with what there is to show; no law')
  list
    .command('show [list]', { isDefault: true })
    .description('all lists, or the rows of one')
    .option(...BUILD)
    .option('--walk', 'in the order of a walk round the car')
    .option('-o, --out <file>', 'write the list as an HTML page to print and take along')
    .option('--json', 'print JSON')
    .addHelpText('after', '\nExit status: 1 where a row is wrong.')
    .action(
      (
        id: string | undefined,
        options: At & { readonly walk?: boolean; readonly out?: string; readonly json?: boolean },
      ) =>
        withStore(options, true, (store) => {
          const build = store.read()
          const records = id === undefined ? listsOf(build) : [listNamed(build, id)]
          const standings = records.map((record) => listStanding(build, record, today()))
          setStatus(standings.some(({ wrong }) => wrong > 0) ? 1 : 0)
          if (options.json) {
            out.write(`${JSON.stringify(standings, null, 2)}\n`)
            return
          }
          if (records.length === 0) out.write('No list is begun yet: swapwright list begin inspection\n')
          for (const standing of standings) {
            const { record, rows, shown, wrong, lacks } = standing
            out.write(
              `${record.id}  ${inert(record.title)}: ${shown} of ${rows.length} rows have something to show${wrong > 0 ? `, ${wrong} wrong` : ''}${lacks.length > 0 ? `; not entered: ${lacks.join(', ')}` : ''}\n`,
            )
            if (id === undefined) continue
            for (const group of options.walk ? byPlace(build, standing) : byGroup(standing)) {
              out.write(`\n${inert(group.title)}\n`)
              for (const { check, word, says, missing } of group.rows)
                out.write(
                  `${wrap(`${check.id}: ${word}. ${check.title}${check.origin === 'common practice' ? ' (common practice)' : ''}${says ? `. ${says}` : ''}${missing !== undefined && says !== '' ? ` Missing: ${missing}.` : ''}`, WIDTH, '  ')}\n`,
                )
            }
          }
          if (options.out !== undefined) {
            if (!records[0] || id === undefined)
              throw refuse('no-list', 'No list was named.', 'Name the list that is to be printed.')
            writeFileSync(options.out, listPage(build, records[0], today()))
            out.write(`The page is in ${inert(options.out)}; open it in a browser and print it.\n`)
          }
        }),
    )
  list
    .command('begin <kind>')
    .description(`begin one of ${Object.keys(START).join(', ')} with a short starting list`)
    .option(...BUILD)
    .action((kind: string, options: At) => {
      if (!Object.hasOwn(START, kind))
        throw refuse('no-kind', `There is no starting list ${kind}.`, `Name one of ${Object.keys(START).join(', ')}.`)
      return withStore(options, false, (store) => {
        const edit = startList(store.read(), kind as ListKind)
        store.edit(edit)
        out.write(`${edit.label}: ${edit.changes.length - 1} rows, common practice and no law; yours to alter.\n`)
      })
    })
  list
    .command('say <row> <answer>')
    .description('what there is to show of a row: ok, “ok: where the paper is”, “not: why”, “none: why”, “note: words”')
    .option(...BUILD)
    .requiredOption('--by <name>', 'who looked')
    .action((row: string, answer: string, options: At & { readonly by: string }) =>
      withStore(options, false, (store) => {
        const build = store.read()
        const check = Object.hasOwn(build.collections.checks, row) ? build.collections.checks[row] : undefined
        const [, word = '', says] = /^(ok|not|none|note)\b:?\s*(.*)$/is.exec(answer) ?? []
        const shows = { ok: 'as it should', not: 'not as it should', none: 'does not apply', note: 'a remark' } as const
        const meant = shows[word.toLowerCase() as keyof typeof shows]
        if (!check) throw refuse('no-row', `There is no row ${row}.`, 'Show the list to see its rows.')
        if (!meant)
          throw refuse('no-word', `“${answer}” is no answer.`, 'Write ok, not: why, none: why, or note: what was seen.')
        store.edit(
          evidenceEdit(
            build,
            filedUnderRow(check),
            check.title,
            meant,
            { by: options.by, when: new Date().toISOString() },
            says ? { says } : {},
          ),
        )
        out.write(`Kept: ${inert(check.title)}\n`)
      }),
    )
}

export const addLists = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  addList(program, out, setStatus)
  program
    .command('trends')
    .description('crank volts, hot-idle oil pressure, trims over the months: a trend, or scatter')
    .option(...BUILD)
    .option('--json', 'print JSON')
    .action((options: At & { readonly json?: boolean }) =>
      withStore(options, true, (store) => {
        const trends = WATCHED.map((watched) => trendOf(store.read(), watched))
        if (options.json) out.write(`${JSON.stringify(trends, null, 2)}\n`)
        else
          for (const { watched, verdict, says, missing } of trends)
            out.write(
              `${watched.title}: ${verdict}\n${wrap(`${says}${missing === undefined ? '' : ` Missing: ${missing}.`}`, WIDTH, '    ')}\n`,
            )
      }),
    )
  program
    .command('card')
    .description('the breakdown card for the glovebox, as a page to print')
    .option(...BUILD)
    .requiredOption('-o, --out <file>', 'the HTML page')
    .action((options: At & { readonly out: string }) =>
      withStore(options, true, (store) => {
        const build = store.read()
        writeFileSync(options.out, cardPage(build, today()))
        const { lacks } = breakdownCard(build)
        out.write(`The card is in ${inert(options.out)}; open it in a browser and print it.\n`)
        if (lacks.length > 0) out.write(`${wrap(`Not entered, so not on it: ${lacks.join('; ')}.`, WIDTH)}\n`)
      }),
    )
}
