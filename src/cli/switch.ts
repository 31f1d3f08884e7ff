/** Several buttons on one wire: read one that exists, or choose its resistors. */
import type { Command } from 'commander'
import { assess } from '../assess/assess.ts'
import { designFor, pullUpFor } from '../assess/signals/designOf.ts'
import { AROUND, AROUND_WORDS } from '../assess/signals/inputCircuit.ts'
import { knownOf } from '../assess/signals/known.ts'
import { partsFrom } from '../assess/signals/partsText.ts'
import { ageingWords, readAgain, type SwitchRecord, type SwitchSheet, switchSheet } from '../assess/signals/switches.ts'
import { within } from '../engineering/signals/interval.ts'
import type { Design, Part } from '../engineering/signals/resistanceSwitch/design.ts'
import { withClosings } from '../store/settle.ts'
import { formatQuantity } from '../units/format.ts'
import { type Problem, Refusal, refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { inert, type Out, wrap } from './print.ts'
import { optionReader } from './readOptions.ts'

interface Options {
  readonly build?: string
  readonly buttons?: string
  readonly resistors?: string
  readonly as: string
  readonly from?: string
  readonly tolerance?: string
  readonly pullUp?: string
  readonly pullUpFrom?: string
  readonly endOfLine?: boolean
  readonly supply: string
  readonly supplyTolerance?: string
  readonly ownReference?: string
  readonly bits: string
  readonly linearity: string
  readonly leakage?: string
  readonly contact?: string
  readonly offset?: string
  readonly yes?: boolean
  readonly json?: boolean
}

const ohms = (value: number) => formatQuantity('resistance', value, { digits: 3 })
const volts = (value: number) => `${value.toFixed(3)} V`
const millivolts = (value: number) => `${(value * 1e3).toFixed(0)} mV`
const partWords = ({ nominal, tolerance }: Part) => `${ohms(nominal)} ± ${Number((tolerance * 100).toPrecision(3))} %`

const readingText = ({
  record,
  rows,
  reading,
  offset,
  powers,
  missing,
  ageing,
  problems,
  provisional,
  around,
}: SwitchSheet): string => {
  if (problems.length > 0) throw new Refusal(problems)
  if (!reading)
    throw refuse('missing-input', `${record.name} cannot be read without the ${missing.join(', ')}.`, 'Enter it.')
  const lines = [
    `${record.name}`,
    ...rows.map((row, i) => {
      const band = reading.bands[i]!
      const gap = reading.thresholds[i]
      return `  ${row.state.padEnd(26)} ${volts(band.voltage.low)} … ${volts(band.voltage.high)}   enter ${volts(row.from)} … ${volts(row.below)}  codes ${row.fromCode} … ${row.toCode}${gap ? `   gap above ${millivolts(gap.gap)}` : ''}`
    }),
    '',
    `  Narrowest gap ${millivolts(reading.smallest.gap)}, between ${reading.smallest.below} and ${reading.smallest.above}${reading.smallest.gap <= 0 ? ': in the worst case they read alike' : ''}.`,
    offset
      ? `  Earth offset ${millivolts(offset.interval.low)} … ${millivolts(offset.interval.high)}${offset.worstCase === '' ? '' : `, most in “${offset.worstCase}”`}.`
      : '  Earth offset not known, taken as none: the real bands are wider.',
    ...(provisional ? [`  Missing: ${missing.join('; ')}.`] : []),
    ...reading.pairs
      .filter(({ names, readsAs }) => readsAs.some((state) => !(names as readonly string[]).includes(state)))
      .map(({ names, readsAs }) => `  ${names[0]} with ${names[1]} reads as ${readsAs.join(' or ')}.`),
    `  Most heat: ${powers.map(({ resistor, power }) => `${resistor} ${(power * 1e3).toFixed(1)} mW`).join(', ')}.`,
    ...(ageing ? [`  ${ageingWords(ageing, ohms)}`] : []),
    `  Old contacts up to ${ohms(around?.contact ?? 0)}. ${AROUND_WORDS}`,
  ]
  return `${lines.map(inert).join('\n')}\n`
}

const designText = (design: Design, record: SwitchRecord): string =>
  inert(
    [
      `Chosen, ${record.topology === 'chain' ? 'one string from the wire on' : 'a resistor a button'}: pull-up ${partWords(design.pullUp)}`,
      ...record.buttons.map(({ name }, i) => `${name} ${partWords(design.resistors[i]!)}`),
      ...(design.idle ? [`no button ${partWords(design.idle)}`] : []),
    ].join('; '),
  ) +
  `.\nProven: no choice of these parts keeps the states more than ${(design.proof.within * 1e6).toPrecision(2)} µV further apart; ${design.proof.nodes} choices looked at, ${design.proof.cut} branches cut off by the bound. Resistors of every value would reach ${millivolts(design.proof.unreachable)}.\n\n`

/** A switch from options alone, in a circuit from options alone. */
const sheetOf = (options: Options): SwitchSheet => {
  const reader = optionReader()
  const bits = reader.whole('bits', options.bits, 4, 24)
  const supply = reader.needed('voltage', 'supply', options.supply, '"5 V"')
  const pullUp = reader.maybe('resistance', 'pull-up', options.pullUp)
  const tolerance = reader.maybe('ratio', 'tolerance', options.tolerance)
  const supplyTolerance = reader.maybe('ratio', 'supply-tolerance', options.supplyTolerance) ?? 0
  const reference = reader.maybe('voltage', 'own-reference', options.ownReference)
  const leakage = reader.needed('current', 'leakage', options.leakage, '"1 µA"')
  const contact = reader.needed('resistance', 'contact', options.contact, '"20 Ω", what a worn closed contact shows')
  const offset = reader.needed('voltage', 'offset', options.offset, '"20 mV", most by which the switch’s earth moves')
  const linearity = Number(options.linearity)
  if (!(linearity >= 0))
    reader.add({
      code: 'no-option',
      says: `--linearity ${options.linearity} is no number of steps.`,
      todo: 'Give 0 or more.',
    })
  if (options.as !== 'branches' && options.as !== 'chain')
    reader.add({
      code: 'no-option',
      says: `“${options.as}” is no way to wire a switch.`,
      todo: 'Give --as branches or --as chain.',
    })
  if (pullUp === undefined && options.pullUpFrom === undefined)
    reader.add({
      code: 'no-option',
      says: 'No pull-up is given.',
      todo: 'Give --pull-up "1 kΩ", or --pull-up-from E12.',
    })
  if (pullUp !== undefined && tolerance === undefined)
    reader.add({ code: 'no-option', says: '--tolerance is not given.', todo: 'Give --tolerance 1%.' })
  if (pullUp !== undefined && !(pullUp > 0))
    reader.add({
      code: 'out-of-range',
      says: 'A pull-up of zero shows the supply whatever the switch does.',
      todo: 'Measure it with the controller unplugged, or read its sheet.',
    })
  const named = (options.resistors ?? options.buttons ?? '')
    .split(/[,;]/)
    .map((entry) => entry.trim())
    .filter(Boolean)
  if (named.length === 0)
    reader.add({
      code: 'no-option',
      says: 'No button is given.',
      todo: 'Give --buttons "Up, Down, Set" to design, or --resistors "Up=100 Ω, Down=270 Ω" to read.',
    })
  const buttons = named.map((entry) => {
    const at = entry.indexOf('=')
    if (options.resistors === undefined || at < 1) {
      if (options.resistors !== undefined)
        reader.add({ code: 'no-option', says: `“${entry}” has no resistance.`, todo: 'Write it as Up=100 Ω.' })
      return { name: entry, resistance: { value: 1 as never } }
    }
    const value = reader.needed('resistance', 'resistors', entry.slice(at + 1), 'Up=100 Ω')
    return { name: entry.slice(0, at).trim(), resistance: { value: value as never } }
  })
  reader.end()
  const share = tolerance ?? 0
  const record: SwitchRecord = {
    id: 'switch',
    name: 'Switch',
    device: 'switch',
    topology: options.as as 'branches' | 'chain',
    buttons: buttons.map((button) => ({ ...button, tolerance: share })),
  }
  return readAgain({
    record,
    input: undefined,
    offset: { interval: { low: -Math.abs(offset), high: Math.abs(offset) }, worstCase: '' },
    circuit: {
      // Replaced by every candidate where it is chosen.
      pullUp: within(pullUp ?? 1000, share),
      supply: within(supply, supplyTolerance),
      reference: reference === undefined ? 'supply' : { low: reference, high: reference },
      earthOffset: { low: -Math.abs(offset), high: Math.abs(offset) },
      leakage: { low: -leakage, high: leakage },
      bits,
      linearity,
    },
    made:
      options.resistors === undefined
        ? undefined
        : {
            topology: record.topology,
            buttons: record.buttons.map(({ name, resistance }) => ({
              name,
              resistor: within(resistance.value, share),
            })),
          },
    around: { ...AROUND, contact },
    provisional: false,
    missing: [],
    assumed: [AROUND_WORDS],
  })
}

const percentOf = (text: string | undefined): number | undefined => {
  if (text === undefined) return undefined
  const reader = optionReader()
  const found = reader.maybe('ratio', 'tolerance', text)
  reader.end()
  return found
}

export const addSwitch = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  program
    .command('switch [id]')
    .description(
      'several buttons on one wire: bands, thresholds and gaps, or the resistors that keep them furthest apart',
    )
    .option('-b, --build <folder>', 'the build that [id] is in; else SWAPWRIGHT_BUILD, else the demo')
    .option('--resistors <list>', 'read a switch: "Up=100 Ω, Down=270 Ω"')
    .option('--buttons <list>', 'design a switch: "Up, Down, Set"')
    .option('--as <wiring>', 'branches (a resistor a button) or chain (one string with taps)', 'branches')
    .option(
      '--from <parts>',
      'choose resistors from a series, "E24 47 Ω … 10 kΩ", or the drawer, "100 Ω 1 %, 220 Ω 1 % ×2"',
    )
    .option('--tolerance <share>', 'of every resistor that has none of its own, such as 1%')
    .option('--pull-up <resistance>', 'the pull-up that there is')
    .option('--pull-up-from <parts>', 'choose the pull-up as well')
    .option('--end-of-line', 'a resistor by which no button differs from a broken wire')
    .option('--supply <voltage>', 'that feeds the pull-up', '5 V')
    .option('--supply-tolerance <share>', 'such as 2%; cancels where pull-up and converter share the supply')
    .option('--own-reference <voltage>', 'of the converter, where it does not share the supply')
    .option('--bits <number>', 'of the converter', '12')
    .option('--linearity <steps>', '± steps of the converter', '2')
    .option('--leakage <current>', '± into the input, such as "1 µA"')
    .option('--contact <resistance>', 'most that a worn closed contact shows')
    .option('--offset <voltage>', '± of the switch’s earth against the controller’s')
    .option('-y, --yes', 'store the resistors chosen for [id]')
    .option('--json', 'print JSON')
    .addHelpText(
      'after',
      '\nswapwright switch wheel                                  reads the one in the build\nswapwright switch wheel --from "E24 47 Ω … 10 kΩ" --tolerance 1%   chooses its resistors\nswapwright switch --buttons "Up, Down, Set" --from E24 --tolerance 1% --pull-up "1 kΩ" --leakage "1 µA" --contact "20 Ω" --offset "20 mV"',
    )
    .action(async (id: string | undefined, options: Options, command: Command) => {
      const store = id === undefined ? undefined : await openNamed(options.build, !options.yes)
      try {
        const build = store?.read()
        let sheet: SwitchSheet
        if (build && id !== undefined) {
          const record = build.collections.resistanceSwitches[id]
          if (!record || !Object.hasOwn(build.collections.resistanceSwitches, id))
            throw refuse(
              'no-switch',
              `There is no switch “${id}” in the build.`,
              `There are: ${Object.keys(build.collections.resistanceSwitches).join(', ') || 'none'}.`,
            )
          sheet = switchSheet(knownOf(build, assess(build)), record)
        } else sheet = sheetOf(options)
        const tolerance = percentOf(options.tolerance)
        let design: Design | undefined
        if (options.from !== undefined) {
          const asked = command.getOptionValueSource('as') === 'default' ? sheet.record.topology : options.as
          if (asked !== 'branches' && asked !== 'chain')
            throw refuse('no-option', `“${asked}” is no way to wire a switch.`, 'Give --as branches or --as chain.')
          const made = designFor(sheet, {
            topology: asked,
            parts: partsFrom(options.from, tolerance),
            pullUps: options.pullUpFrom === undefined ? undefined : partsFrom(options.pullUpFrom, tolerance),
            endOfLine: options.endOfLine ?? sheet.record.idle !== undefined,
          })
          design = made.design
          sheet = readAgain(sheet, made)
          if (options.yes && store && build && id !== undefined)
            store.edit(
              withClosings(build, {
                label: `Resistors of ${made.record.name}`,
                changes: [{ collection: 'resistanceSwitches', id, value: made.record }],
              }),
            )
        } else if (options.pullUpFrom !== undefined) {
          const { pullUp, reading } = pullUpFor(sheet, partsFrom(options.pullUpFrom, tolerance))
          if (!options.json)
            out.write(`Best pull-up: ${partWords(pullUp)}, narrowest gap ${millivolts(reading.smallest.gap)}.\n`)
          sheet = readAgain({
            ...sheet,
            circuit: { ...sheet.circuit!, pullUp: within(pullUp.nominal, pullUp.tolerance) },
          })
        } else if (!sheet.made && id === undefined)
          throw refuse(
            'no-option',
            'Nothing says what the resistors may be.',
            'Give --from, such as --from "E24 47 Ω … 10 kΩ".',
          )
        const bad: readonly Problem[] = sheet.problems
        setStatus(bad.length > 0 || (sheet.reading?.smallest.gap ?? 0) <= 0 ? 1 : 0)
        if (options.json) {
          const { reading, rows, powers, ageing, missing, record } = sheet
          out.write(
            `${JSON.stringify({ record, design, reading, rows, powers, ageing, missing, problems: bad, stored: options.yes ?? false }, null, 2)}\n`,
          )
          return
        }
        if (design) out.write(`${wrap(designText(design, sheet.record), 100)}\n\n`)
        out.write(readingText(sheet))
        if (design && id !== undefined)
          out.write(
            options.yes
              ? '\nStored. "swapwright undo" takes it back.\n'
              : '\nNothing is stored yet; --yes stores these resistors.\n',
          )
      } finally {
        store?.close()
      }
    })
}
