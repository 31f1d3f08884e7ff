import { readFileSync, writeFileSync } from 'node:fs'
import type { Command } from 'commander'
import type { InjectorResult } from '../logs/injectors/result.ts'
import { withLooseLog } from '../logs/loose.ts'
import type { Build } from '../model/build.ts'
import { readInjectorCard, writeInjectorCard } from '../model/readInjectorCard.ts'
import {
  askBench,
  askComparison,
  askCompressor,
  askHeadroom,
  askInjectors,
  askSanity,
  fileComparison,
  fileCompressor,
  fileHeadroom,
  withAskedLog,
} from '../store/logQuestions.ts'
import type { Store } from '../store/store.ts'
import { watchLogs } from '../store/watchLogs.ts'
import { type Kind, parseQuantity } from '../units/index.ts'
import { Refusal, refuse } from '../units/problem.ts'
import { buildFolder, openNamed } from './context.ts'
import { inert, type Out, wrap } from './print.ts'

const BUILD = ['-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo'] as const
const BIND = ['--bind <channel=role...>', 'what a channel of a file means, where its name does not say so'] as const

interface Common {
  readonly build?: string
  readonly bind?: string[]
  readonly json?: boolean
}

/** Of a file no build is needed: the store is opened only for what it holds. */
const withStore = async <T>(build: string | undefined, use: (store: Store) => Promise<T>): Promise<T> => {
  const store = await openNamed(build, false)
  try {
    return await use(store)
  } finally {
    store.close()
  }
}

const quantity = (kind: Kind, text: string, option: string): number => {
  try {
    return parseQuantity(kind, text).value
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    throw new Refusal(error.problems.map((problem) => ({ ...problem, says: `${option}: ${problem.says}` })))
  }
}

export const addLogQuestions = (log: Command, out: Out, setStatus: (status: number) => void): void => {
  const answer = (
    result: {
      readonly sentence: string
      readonly next?: string | readonly string[]
      readonly cautions?: readonly string[]
    },
    options: Common,
    more: object,
    lines: readonly string[] = [],
  ): void => {
    if (options.json) {
      out.write(`${JSON.stringify({ ...more, ...result }, null, 2)}\n`)
      return
    }
    out.write(`${wrap(inert(result.sentence), 96)}\n`)
    for (const line of [...lines, ...(result.cautions ?? []), ...[result.next ?? []].flat()])
      out.write(`${wrap(inert(line), 96, '  ')}\n`)
  }

  log
    .command('headroom [log]')
    .description(
      'is there injector left: duty at the target speed and pressure, with its interval; a log of the build or a file',
    )
    .option(...BUILD)
    .option(...BIND)
    .option('--speed <speed>', 'target speed, such as "6500 rpm"; else the build’s')
    .option('--pressure <pressure>', 'target manifold pressure, absolute, such as "180 kPa"; else the highest driven')
    .option('--limit <share>', 'duty that is allowed, such as "85 %"')
    .option('--pulses <count>', 'pulses of one injector in two turns of the engine: 1 sequential, 2 banked')
    .option('--json', 'print JSON')
    .action(
      (
        id: string | undefined,
        options: Common & { speed?: string; pressure?: string; limit?: string; pulses?: string },
      ) =>
        withStore(options.build, async (store) => {
          await withAskedLog(store, id, options.bind ?? [], async (asked) => {
            const build: Build = store.read()
            const result = await askHeadroom(asked, build, {
              ...(options.speed ? { targetSpeed: quantity('angularSpeed', options.speed, '--speed') } : {}),
              ...(options.pressure
                ? { targetPressure: quantity('pressureAbsolute', options.pressure, '--pressure') }
                : {}),
              ...(options.limit ? { limit: quantity('ratio', options.limit, '--limit') } : {}),
              ...(options.pulses ? { pulsesPerCycle: count(options.pulses) } : {}),
            })
            const filed = build.collections.logs[asked.name] ? fileHeadroom(store, asked.name, result) : undefined
            answer(result, options, { log: asked.name, reading: filed ?? null })
          })
        }),
    )
  log
    .command('compressor [log]')
    .description('efficiency of the compressor, with its interval; a log of the build or a file')
    .option(...BUILD)
    .option(...BIND)
    .option('--json', 'print JSON')
    .action((id: string | undefined, options: Common) =>
      withStore(options.build, (store) =>
        withAskedLog(store, id, options.bind ?? [], async (asked) => {
          const result = await askCompressor(asked)
          const filed = store.read().collections.logs[asked.name]
            ? fileCompressor(store, asked.name, result)
            : undefined
          answer(result, options, { log: asked.name, reading: filed ?? null })
        }),
      ),
    )
  log
    .command('compare <before> <after>')
    .description('did the charge cooler improve: effectiveness of two logs at equal air flow')
    .option(...BUILD)
    .option(...BIND)
    .option('--json', 'print JSON')
    .action((before: string, after: string, options: Common) =>
      withStore(options.build, (store) =>
        withAskedLog(store, before, options.bind ?? [], (first) =>
          withAskedLog(store, after, options.bind ?? [], async (second) => {
            const build = store.read()
            const result = await askComparison(first, second, build)
            const both = [first, second].every(({ name }) => build.collections.logs[name] !== undefined)
            const filed = both ? fileComparison(store, first.name, second.name, result) : undefined
            answer(result, options, { before: first.name, after: second.name, reading: filed ?? null })
          }),
        ),
      ),
    )
  log
    .command('sanity [log]')
    .description('which sensor lies: stuck, noisy, dropping out, moved by a load, disagreeing cold')
    .option(...BUILD)
    .option(...BIND)
    .option('--json', 'print JSON')
    .action((id: string | undefined, options: Common) =>
      withStore(options.build, (store) =>
        withAskedLog(store, id, options.bind ?? [], async (asked) => {
          const filed = store.read().collections.logs[asked.name] !== undefined
          const result = await askSanity(asked, filed ? store.read() : undefined)
          answer(result, options, { log: asked.name }, [
            ...result.remarks.map(({ sentence, todo }) => `${sentence} ${todo}`),
            ...result.unchecked,
          ])
        }),
      ),
    )
  log
    .command('injectors')
    .description('what an injector is: from a log with known injectors and one with unknown, or from a bench test')
    .option('--known <log>', 'log with the known set: a file, or a log of the build')
    .option('--known-card <card.json>', 'card of the known set (injector-card/1)')
    .option('--unknown <log>', 'log with the unknown set')
    .option('--bench <table>', 'weighings of a bench test, instead of two logs')
    .option('--name <name>', 'what to call the unknown set')
    .option('--fluid <name>', 'fluid of a bench test')
    .option('--density <density>', 'its density, such as "684 kg/m³"')
    .option('--pressure <pressure>', 'pressure across the injectors where the log or table does not hold it')
    .option('--pulses-known <count>', 'pulses of one injector in two turns: 1 sequential, 2 banked')
    .option('--pulses-unknown <count>', 'the same for the unknown set')
    .option('--trim-missing', 'the logged pulse lacks the closed-loop trim that is logged beside it')
    .option('--narrow-band', 'only a narrow-band sensor was fitted: stoichiometric stretches alone count')
    .option('--lambda-tolerance <share>', 'how differently lambda may read in the two logs, 95 %, such as "1 %"')
    .option('--changed <what...>', 'what of the engine’s breathing changed between the logs')
    .option('--card-out <file>', 'write the card of the unknown set there')
    .option(...BUILD)
    .option(...BIND)
    .option('--json', 'print JSON')
    .action(async (options: InjectorFlags) => {
      const result = await characterised(options)
      if (options.cardOut && result.answer === 'told') writeFileSync(options.cardOut, writeInjectorCard(result.card))
      answer(
        result,
        options,
        {},
        result.answer === 'told'
          ? [
              ...result.deadTime.map(
                ({ voltage, value, plusMinus, support }) =>
                  `dead time at ${voltage.toFixed(1)} V: ${(value * 1e3).toFixed(3)} ± ${(plusMinus * 1e3).toFixed(3)} ms${support === 'driven' ? '' : ', extrapolated: not driven'}`,
              ),
              ...result.notIdentified.map(({ what, why }) => `Not known: ${what}; ${why}.`),
              ...result.assumptions,
            ]
          : [],
      )
    })
  log
    .command('watch <folder>')
    .description('take in every file of a folder once it has stopped growing, until Ctrl-C')
    .option(...BUILD)
    .action(async (folder: string, options: Common) => {
      const stop = new AbortController()
      const end = (): void => stop.abort()
      process.once('SIGINT', end)
      process.once('SIGTERM', end)
      try {
        await withStore(options.build, async (store) => {
          out.write(`Watching ${inert(folder)} for ${inert(buildFolder(options.build))}; Ctrl-C ends it.\n`)
          await watchLogs(store, folder, {
            signal: stop.signal,
            onAdded: (file, id, samples) => out.write(`${inert(file)}: taken in as ${inert(id)}, ${samples} samples\n`),
            onRefused: (file, { problems }) => {
              setStatus(4)
              for (const { says, todo } of problems) out.error(`${inert(file)}: ${inert(says)} ${inert(todo ?? '')}\n`)
            },
          })
        })
      } finally {
        process.off('SIGINT', end)
        process.off('SIGTERM', end)
      }
    })
}

interface InjectorFlags extends Common {
  readonly known?: string
  readonly knownCard?: string
  readonly unknown?: string
  readonly bench?: string
  readonly name?: string
  readonly fluid?: string
  readonly density?: string
  readonly pressure?: string
  readonly pulsesKnown?: string
  readonly pulsesUnknown?: string
  readonly trimMissing?: boolean
  readonly narrowBand?: boolean
  readonly lambdaTolerance?: string
  readonly changed?: string[]
  readonly cardOut?: string
}

const count = (text: string): number => {
  const value = Number(text)
  if (Number.isInteger(value) && value >= 1 && value <= 8) return value
  throw refuse('bad-option', `“${text}” is no number of pulses.`, 'Give 1 for sequential or 2 for banked firing.')
}

const readText = (file: string): string => {
  try {
    return readFileSync(file, 'utf8')
  } catch {
    throw refuse('no-file', `The file ${file} cannot be read.`, 'Check its name and place.')
  }
}

const characterised = async (options: InjectorFlags): Promise<InjectorResult> => {
  const across =
    options.pressure === undefined ? undefined : quantity('pressureDifference', options.pressure, '--pressure')
  if (options.bench !== undefined) {
    if (across === undefined || options.fluid === undefined || options.density === undefined)
      throw refuse(
        'missing-option',
        'A bench test needs --fluid, --density and --pressure: without them its figures belong to nothing.',
        'Give for example --fluid n-heptane --density "684 kg/m³" --pressure "300 kPa".',
      )
    const fluid = { name: options.fluid, density: { value: quantity('density', options.density, '--density') } }
    const name = options.name ?? options.bench
    return withLooseLog(options.bench, options.bind ?? [], (table) =>
      askBench(table, { name, fluid, pressure: across }),
    )
  }
  const { known, knownCard, unknown } = options
  if (known === undefined || knownCard === undefined || unknown === undefined)
    throw refuse(
      'missing-option',
      'Two logs and a card are needed: --known, --known-card and --unknown; or --bench alone.',
      'The known set must have a card: from its maker’s sheet or a bench test.',
    )
  const card = readInjectorCard(readText(knownCard))
  const binds = options.bind ?? []
  const more = (pulses: string | undefined) => ({
    ...(pulses === undefined ? {} : { pulsesPerCycle: count(pulses) }),
    ...(across === undefined ? {} : { across }),
  })
  const run = (store: Store | undefined): Promise<InjectorResult> =>
    withAskedLog(store, known, binds, (first) =>
      withAskedLog(store, unknown, binds, (second) =>
        askInjectors({ ...first, ...more(options.pulsesKnown) }, { ...second, ...more(options.pulsesUnknown) }, card, {
          trimMissing: options.trimMissing ?? false,
          narrowBand: options.narrowBand ?? false,
          ...(options.changed ? { changed: options.changed } : {}),
          ...(options.lambdaTolerance === undefined
            ? {}
            : { lambdaTolerance: quantity('ratio', options.lambdaTolerance, '--lambda-tolerance') }),
          ...(options.name === undefined ? {} : { unknownName: options.name }),
        }),
      ),
    )
  return options.build === undefined && process.env.SWAPWRIGHT_BUILD === undefined
    ? run(undefined)
    : withStore(options.build, run)
}
