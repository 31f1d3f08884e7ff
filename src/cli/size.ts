import type { Command } from 'commander'
import { COPPER_SIZES, familyFor } from '../assess/sizing/candidates.ts'
import { type SizedWire, sizeWire, sizeWiresOf } from '../assess/sizing/wireInBuild.ts'
import { CLASS_TEMPERATURE } from '../assess/wireData.ts'
import { bundleShare } from '../engineering/electrical/bundleFactor.ts'
import { FUSE_TYPES, type FuseType } from '../engineering/electrical/fuseGates.ts'
import type { ConductorChoice } from '../engineering/electrical/sizing/chooseConductor.ts'
import type { Rejected } from '../engineering/electrical/sizing/chooseFuse.ts'
import { areaByDrop } from '../engineering/electrical/sizing/dropFormula.ts'
import { type CircuitTask, sizeCircuit } from '../engineering/electrical/sizing/sizeCircuit.ts'
import { formatQuantity } from '../units/format.ts'
import type { Kind } from '../units/kinds.ts'
import { parseQuantity } from '../units/parse.ts'
import { type Problem, Refusal, refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { inert, type Out, wrap } from './print.ts'

interface Options {
  readonly load?: string
  readonly stall?: string
  readonly inrush?: string
  readonly inrushTime?: string
  readonly length?: string
  readonly joints?: string
  readonly drop?: string
  readonly voltage: string
  readonly ambient?: string
  readonly class?: string
  readonly bundle?: string
  readonly fuse?: string
  readonly fuseType?: string
  readonly fuseAmbient?: string
  readonly wire?: string
  readonly device?: string
  readonly build?: string
  readonly json?: boolean
}

/** Reads quantities option by option and gathers what cannot be read. */
const reader = () => {
  const problems: Problem[] = []
  const read = <K extends Kind>(kind: K, option: string, text: string): number => {
    try {
      return parseQuantity(kind, text).value
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      problems.push(...error.problems.map((problem) => ({ ...problem, says: `--${option}: ${problem.says}` })))
      return Number.NaN
    }
  }
  const needed = <K extends Kind>(kind: K, option: string, text: string | undefined, such: string): number => {
    if (text !== undefined) return read(kind, option, text)
    problems.push({ code: 'no-option', says: `--${option} is not given.`, todo: `Give --${option}, such as ${such}.` })
    return Number.NaN
  }
  const maybe = <K extends Kind>(kind: K, option: string, text: string | undefined): number | undefined =>
    text === undefined ? undefined : read(kind, option, text)
  const end = () => {
    if (problems.length > 0) throw new Refusal(problems)
  }
  return { problems, needed, maybe, end }
}

/** V: `0.4 V`, or a share of the system’s voltage, `3 %`. */
const dropVolts = (text: string | undefined, voltage: string): number | undefined => {
  if (text === undefined) return undefined
  return text.includes('%')
    ? parseQuantity('ratio', text).value * parseQuantity('voltage', voltage).value
    : parseQuantity('voltage', text).value
}

const taskOf = (options: Options): CircuitTask => {
  const { problems, needed, maybe, end } = reader()
  const letter = (options.class ?? '').toUpperCase() as keyof typeof CLASS_TEMPERATURE
  if (!Object.hasOwn(CLASS_TEMPERATURE, letter))
    problems.push({
      code: 'no-option',
      says: options.class === undefined ? '--class is not given.' : `“${options.class}” is no insulation class.`,
      todo: 'Give --class, a letter of ISO 6722: A 85 °C, B 100, C 125, D 150, E 175, F 200.',
    })
  if (options.fuseType !== undefined && !(FUSE_TYPES as readonly string[]).includes(options.fuseType))
    problems.push({
      code: 'no-option',
      says: `“${options.fuseType}” is no fuse family.`,
      todo: `Choose ${FUSE_TYPES.join(', ')}.`,
    })
  if ((options.inrush === undefined) !== (options.inrushTime === undefined))
    problems.push({
      code: 'no-option',
      says: 'An inrush has a peak and a time.',
      todo: 'Give both --inrush and --inrush-time, or neither.',
    })
  const count = options.bundle === undefined ? 1 : Number(options.bundle)
  if (!Number.isInteger(count) || count < 1 || count > 60)
    problems.push({
      code: 'no-option',
      says: `--bundle ${options.bundle} is not a number of wires.`,
      todo: 'Give how many wires of the bundle carry current, this one counted: 1 to 60.',
    })
  const ambient = needed('temperature', 'ambient', options.ambient, '"60 °C"')
  const rating = maybe('current', 'fuse', options.fuse)
  const [peak, time] = [maybe('current', 'inrush', options.inrush), maybe('time', 'inrush-time', options.inrushTime)]
  const current = needed('current', 'load', options.load, '"12 A"')
  const length = needed('length', 'length', options.length, '"4.5 m", out and back')
  const joints = maybe('resistance', 'joints', options.joints) ?? 0
  const stall = maybe('current', 'stall', options.stall)
  const fuseAmbient = maybe('temperature', 'fuse-ambient', options.fuseAmbient) ?? ambient
  for (const [name, value] of [
    ['load', current],
    ['length', length],
  ] as const)
    if (value <= 0)
      problems.push({ code: 'out-of-range', says: `--${name} is not above zero.`, todo: `Give its real ${name}.` })
  end()
  const family = rating === undefined ? undefined : familyFor(rating)
  return {
    current,
    stall,
    length,
    joints,
    dropLimit: dropVolts(options.drop, options.voltage),
    ambient,
    limit: CLASS_TEMPERATURE[letter],
    bundleShare: count === 1 ? 1 : bundleShare(count, 1),
    families:
      options.fuseType !== undefined ? [options.fuseType as FuseType] : family === undefined ? FUSE_TYPES : [family],
    fuseAmbient,
    rating,
    ...(peak === undefined || time === undefined ? {} : { inrush: { current: peak, time } }),
  }
}

const amps = (value: number) => formatQuantity('current', value)
const reasons = (rejected: readonly Rejected[]): string =>
  rejected.map(({ what, because }) => `${wrap(`${what} ${because}.`, 92, '      ')}\n`).join('')

const chosenText = ({ chosen, rejected }: ConductorChoice): string =>
  (chosen === undefined
    ? '  No conductor will do.\n'
    : `  ${chosen.candidate.size} copper: loses ${formatQuantity('voltage', chosen.drop)}, warms to ${formatQuantity('temperature', chosen.temperature)}, may carry ${amps(chosen.carries)}.\n`) +
  (rejected.length === 0 ? '' : `    Why nothing smaller:\n${reasons(rejected)}`)

const wireText = ({
  wire,
  current,
  because,
  length,
  ambient,
  zone,
  bundleShare: share,
  fuse,
  choice,
}: SizedWire): string =>
  `${inert(`${wire.id}, ${wire.from} to ${wire.to}`)}${wire.area ? `, now ${formatQuantity('area', wire.area.value, { unit: 'mm²' })}` : ''}\n` +
  `  ${amps(current)} (${inert(because)}), ${formatQuantity('length', length)}, class ${wire.insulation}, ${inert(zone)} ${formatQuantity('temperature', ambient)}${share < 1 ? `, ${(share * 100).toFixed(0)} % in its bundle` : ''}${fuse === undefined ? ', no fuse above it' : `, behind ${inert(fuse.name)}`}\n` +
  chosenText(choice)

const LIMITS =
  'Copper, steady current, still air; ± 20 % in current between the heat balance and safety tables. Arcing, and shorts that draw less than 135 % of the fuse, are protected by no fuse.'

export const addSize = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  program
    .command('size')
    .description('the smallest conductor and fuse for a load, and why nothing smaller will do')
    .option('--load <current>', 'continuous current, such as "12 A"')
    .option('--length <length>', 'length of conductor, out and back, such as "4.5 m"')
    .option('--ambient <temperature>', 'hottest air on its way, such as "60 °C"')
    .option('--class <letter>', 'insulation class of ISO 6722: A … H')
    .option('--drop <drop>', 'voltage that may be lost: "3 %" or "0.4 V"; not asked when left out')
    .option('--voltage <voltage>', 'voltage that a drop in % is a share of', '12 V')
    .option('--joints <resistance>', 'joints, switches and fuse in the way, such as "10 mΩ"')
    .option('--stall <current>', 'stalled current of a motor')
    .option('--inrush <current>', 'peak at switching on')
    .option('--inrush-time <time>', 'and how long it lasts, such as "5 ms"')
    .option('--bundle <wires>', 'wires of the bundle that carry current, this one counted')
    .option('--fuse <rating>', 'keep this fuse')
    .option('--fuse-type <family>', FUSE_TYPES.join(', '))
    .option('--fuse-ambient <temperature>', 'air round the fuse; else as on the way')
    .option('--wire <id>', 'size this wire of the build instead')
    .option('--device <id>', 'size the wires of this device of the build instead')
    .option('-b, --build <folder>', 'the build; else SWAPWRIGHT_BUILD, else the demo')
    .option('--json', 'print JSON')
    .addHelpText(
      'after',
      '\nswapwright size --load "12 A" --length "4.5 m" --drop 3% --ambient "60 °C" --class B\nswapwright size --wire W-104 --drop "0.3 V"\nswapwright size --device fan',
    )
    .action(async (options: Options) => {
      if (options.wire !== undefined || options.device !== undefined) {
        if (options.load !== undefined || (options.wire !== undefined && options.device !== undefined))
          throw refuse('no-option', 'Two things were named to be sized.', 'Give one of --load, --wire and --device.')
        const store = await openNamed(options.build, true)
        try {
          const build = store.read()
          const wish = { dropLimit: dropVolts(options.drop, options.voltage) }
          const found =
            options.wire === undefined
              ? sizeWiresOf(build, options.device!, wish)
              : [sizeWire(build, options.wire, wish)]
          out.write(
            options.json
              ? `${JSON.stringify(found, null, 2)}\n`
              : `${found.map(wireText).join('\n')}\n${wrap(LIMITS, 100)}\n`,
          )
          setStatus(found.some(({ choice }) => choice.chosen === undefined) ? 1 : 0)
        } finally {
          store.close()
        }
        return
      }
      const task = taskOf(options)
      const { family, fuse, conductor } = sizeCircuit(task, COPPER_SIZES)
      setStatus(conductor.chosen === undefined ? 1 : 0)
      if (options.json) {
        out.write(`${JSON.stringify({ task, family, fuse, conductor }, null, 2)}\n`)
        return
      }
      out.write(
        fuse.rating === undefined
          ? '  No fuse will do.\n'
          : `  ${amps(fuse.rating)} ${family} fuse${fuse.carries === undefined ? '' : `: carries ${amps(fuse.carries)} for good where it sits`}.\n`,
      )
      if (fuse.rejected.length > 0) out.write(`    Why nothing smaller:\n${reasons(fuse.rejected)}`)
      if (fuse.rating !== undefined) out.write(chosenText(conductor))
      if (task.dropLimit !== undefined)
        out.write(
          `  By drop alone, S = L·I/(56·ΔV) with L out and back: ${formatQuantity('area', areaByDrop(task.length / 2, task.current, task.dropLimit), { unit: 'mm²' })}.\n`,
        )
      out.write(`${wrap(LIMITS, 100)}\n`)
    })
}
