/** The rows that a controller should have: of a sensor of the build, or of a file of points. */
import { readFileSync, writeFileSync } from 'node:fs'
import type { Command } from 'commander'
import { assess } from '../assess/assess.ts'
import { controllerTableOf } from '../assess/signals/controllerTableOf.ts'
import { AROUND_WORDS } from '../assess/signals/inputCircuit.ts'
import { knownOf } from '../assess/signals/known.ts'
import { type curveOf, curveOf as drawCurve, type Sensor, sensorSheet } from '../assess/signals/sensors.ts'
import { within } from '../engineering/signals/interval.ts'
import {
  type ControllerTable,
  writeControllerTableCsv,
  writeControllerTableJson,
} from '../engineering/signals/table/format.ts'
import { SENSED } from '../model/signals.ts'
import { fromUnit, unitsOf } from '../units/index.ts'
import { type Problem, Refusal, refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { type Out, wrap } from './print.ts'
import { optionReader } from './readOptions.ts'

interface Options {
  readonly build?: string
  readonly points?: string
  readonly of: string
  readonly kind?: string
  readonly unit?: string
  readonly pullUp?: string
  readonly tolerance?: string
  readonly reference: string
  readonly bits: string
  readonly leakage?: string
  readonly offset?: string
  readonly contact?: string
  readonly rows: string
  readonly round?: string
  readonly voltageStep?: string
  readonly out?: string
  readonly json?: boolean
}

/** Two numbers a line, comma, semicolon or tab between; a first line without numbers is a heading. */
const readPoints = (path: string): [number, number][] => {
  let text: string
  try {
    text = readFileSync(path, 'utf8')
  } catch {
    throw refuse('no-file', `${path} cannot be read.`, 'Name a file of two numbers a line.')
  }
  const problems: Problem[] = []
  const points: [number, number][] = []
  text.split(/\r?\n/).forEach((line, i) => {
    if (line.trim() === '' || line.startsWith('#')) return
    const [x, y, ...more] = line.split(/[;,\t]/).map((cell) => Number(cell.trim() === '' ? Number.NaN : cell.trim()))
    if (more.length === 0 && x !== undefined && y !== undefined && Number.isFinite(x) && Number.isFinite(y))
      points.push([x, y])
    else if (i > 0)
      problems.push({
        code: 'not-a-number',
        path: `line ${i + 1}`,
        says: `Line ${i + 1} of ${path}, “${line.slice(0, 40)}”, is not two numbers.`,
        todo: 'Write the electrical figure, a comma and what the sensor shows; decimals with a point.',
      })
  })
  if (problems.length > 0) throw new Refusal(problems)
  return points
}

const ofFile = (path: string, options: Options): Parameters<typeof controllerTableOf>[0] => {
  const reader = optionReader()
  const { kind, unit } = options
  const sensed = SENSED.find((each) => each === kind)
  if (sensed === undefined)
    reader.add({
      code: 'no-option',
      says: kind === undefined ? '--kind is not given.' : `“${kind}” is nothing that a sensor reads.`,
      todo: `Give --kind, one of ${SENSED.join(', ')}.`,
    })
  else if (unit === undefined || !unitsOf(sensed).includes(unit))
    reader.add({
      code: 'no-option',
      says: unit === undefined ? '--unit is not given.' : `“${unit}” is no unit of it.`,
      todo: `Give --unit, one of ${unitsOf(sensed).join(', ')}.`,
    })
  const form = { volts: 'voltage', share: 'ratio of supply', ohms: 'resistance' }[options.of] as
    | Sensor['form']
    | undefined
  if (form === undefined)
    reader.add({
      code: 'no-option',
      says: `“${options.of}” is no first column.`,
      todo: 'Give --of volts, share or ohms.',
    })
  const reference = reader.needed('voltage', 'reference', options.reference, '"5 V"')
  const behind = form === 'resistance'
  const pullUp = behind ? reader.needed('resistance', 'pull-up', options.pullUp, '"2.49 kΩ"') : 1
  const tolerance = behind ? reader.needed('ratio', 'tolerance', options.tolerance, '1% of the pull-up') : 0
  const leakage = behind ? reader.needed('current', 'leakage', options.leakage, '"1 µA"') : 0
  const offset = behind ? reader.needed('voltage', 'offset', options.offset, '"10 mV"') : 0
  const contact = behind ? reader.needed('resistance', 'contact', options.contact, '"1 Ω" of plugs and wires') : 0
  const bits = reader.whole('bits', options.bits, 4, 24)
  reader.end()
  const sensor: Sensor = {
    id: 'file',
    name: path.replace(/^.*[/\\]/, '').replace(/\.[^.]*$/, ''),
    device: 'file',
    quantity: sensed!,
    unit: unit!,
    form: form!,
    curve: readPoints(path).map(([x, y]): [number, number] => [x, fromUnit(sensed!, unit!, y)]),
    contact: { value: contact as never },
    source: `Points of ${path.replace(/^.*[/\\]/, '')}`,
  }
  if (sensor.curve!.length < 2)
    throw refuse('missing-input', `${path} has fewer than two points.`, 'Give two or more, one a line.')
  const curve: ReturnType<typeof curveOf> = drawCurve(sensor)
  return {
    sensor,
    input: {
      id: 'file',
      name: 'the input',
      device: 'file',
      pin: '1',
      signal: behind ? 'resistance' : 'voltage',
      configured: true,
      reference: { value: reference as never },
      ...(behind ? { pullUp: { value: pullUp as never } } : {}),
    },
    curve,
    covers: curve.span,
    bound: {
      circuit: {
        pullUp: within(pullUp, tolerance),
        supply: within(reference, 0),
        reference: 'supply',
        leakage: { low: -leakage, high: leakage },
        bits,
        linearity: 1,
      },
      offset: { interval: { low: -Math.abs(offset), high: Math.abs(offset) }, worstCase: '' },
      missing: [],
      assumed: [],
    },
    missing: [],
    assumed: [],
    problems: [],
  }
}

const notes = (table: ControllerTable): string =>
  [
    table.largestError === 0
      ? `${table.rows.length} rows follow the curve without error.`
      : `${table.rows.length} rows; straight between them they are ${Number((table.largestError ?? Number.NaN).toPrecision(3))} ${table.y.unit === '°C' ? 'K' : table.y.unit} off at most, and no other choice of rows is less.`,
    table.shortBelow === undefined
      ? ''
      : `Shorted below ${table.shortBelow.toFixed(3)} V, open above ${table.openAbove?.toFixed(3)} V. ${AROUND_WORDS}`,
  ]
    .filter(Boolean)
    .map((line) => wrap(line, 98))
    .join('\n')

export const addTable = (program: Command, out: Out): void => {
  program
    .command('table [sensor]')
    .description('the rows for a controller that follow a sensor’s curve least wrong (controller-table/1)')
    .option('-b, --build <folder>', 'the build that [sensor] is in; else SWAPWRIGHT_BUILD, else the demo')
    .option('--points <file>', 'a file of two numbers a line instead')
    .option('--of <figure>', 'its first numbers: volts, share (of the supply) or ohms', 'volts')
    .option('--kind <kind>', 'what its second numbers are, such as temperature')
    .option('--unit <unit>', 'and in which unit; of a sensor: the unit of the table')
    .option('--pull-up <resistance>', 'of ohms')
    .option('--tolerance <share>', 'of the pull-up, such as 1%')
    .option('--reference <voltage>', 'of converter and pull-up', '5 V')
    .option('--bits <number>', 'of the converter', '12')
    .option('--leakage <current>', '± into the input')
    .option('--offset <voltage>', '± of the sensor’s return')
    .option('--contact <resistance>', 'most that plugs and wires add')
    .option('--rows <number>', 'most rows that the controller takes', '16')
    .option('--round <step>', 'values in whole multiples of this, such as 1')
    .option('--voltage-step <voltage>', 'volts in whole multiples of this', '0.01 V')
    .option('-o, --out <file>', 'write it there: .json or .csv')
    .option('--json', 'print it as JSON; else CSV')
    .addHelpText(
      'after',
      '\nswapwright table coolant-temperature --rows 12 --round 1 --out coolant.csv\nswapwright table --points boost.csv --kind pressureAbsolute --unit kPa --rows 8',
    )
    .action(async (id: string | undefined, options: Options) => {
      const reader = optionReader()
      const rows = reader.whole('rows', options.rows, 2, 64)
      const voltageStep = reader.maybe('voltage', 'voltage-step', options.voltageStep)
      const valueStep = options.round === undefined ? undefined : Number(options.round)
      if (valueStep !== undefined && !(valueStep > 0))
        reader.add({ code: 'no-option', says: `--round ${options.round} is no step.`, todo: 'Give a number above 0.' })
      if ((id === undefined) === (options.points === undefined))
        reader.add({
          code: 'no-option',
          says: 'No sensor is named, or both a sensor and a file.',
          todo: 'Name a sensor of the build, or --points.',
        })
      reader.end()
      const wish = { rows, valueStep, voltageStep, unit: options.unit }
      let table: ControllerTable
      if (options.points !== undefined) table = controllerTableOf(ofFile(options.points, options), wish)
      else {
        const store = await openNamed(options.build, true)
        try {
          const build = store.read()
          const { sensors } = build.collections
          const sensor = Object.hasOwn(sensors, id!) ? sensors[id!] : undefined
          if (!sensor)
            throw refuse(
              'no-sensor',
              `There is no sensor “${id}” in the build.`,
              `There are: ${Object.keys(sensors).join(', ') || 'none'}.`,
            )
          if (options.unit !== undefined && !unitsOf(sensor.quantity).includes(options.unit))
            throw refuse(
              'no-option',
              `“${options.unit}” is no unit of it.`,
              `Give one of ${unitsOf(sensor.quantity).join(', ')}.`,
            )
          table = controllerTableOf(sensorSheet(knownOf(build, assess(build)), sensor), wish)
        } finally {
          store.close()
        }
      }
      const json = options.json ?? options.out?.endsWith('.json') ?? false
      const text = json ? writeControllerTableJson(table) : writeControllerTableCsv(table)
      if (options.out === undefined) {
        out.write(text)
        if (!options.json) out.error(`${notes(table)}\n`)
        return
      }
      writeFileSync(options.out, text)
      out.write(`${options.out} written.\n${notes(table)}\n`)
    })
}
