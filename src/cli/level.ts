/** Litres against a level sender's resistance, from a fill test in the build or given here. */
import type { Command } from 'commander'
import { knownOf } from '../assess/signals/known.ts'
import { type LevelRecord, levelSheet } from '../assess/signals/levels.ts'
import { fillFrom, senderFrom, tankFrom } from '../assess/signals/levelText.ts'
import { FILL_CAUTION } from '../engineering/signals/level/fillTest.ts'
import { emptyBuild } from '../model/build.ts'
import { formatQuantity } from '../units/format.ts'
import { Refusal, refuse } from '../units/problem.ts'
import { openNamed } from './context.ts'
import { inert, type Out, wrap } from './print.ts'
import { optionReader } from './readOptions.ts'

interface Options {
  readonly build?: string
  readonly readings?: string
  readonly tank?: string
  readonly sender?: string
  readonly each: string
  readonly scale: string
  readonly reserve?: string
  readonly at?: string
  readonly json?: boolean
}

const litres = (volume: number, plusMinus?: number) =>
  formatQuantity('volume', volume, { unit: 'l', digits: 3, ...(plusMinus === undefined ? {} : { plusMinus }) })
const ohms = (value: number) => formatQuantity('resistance', value, { digits: 3 })

const ofOptions = (options: Options): LevelRecord => {
  const reader = optionReader()
  const each = reader.needed('volume', 'each', options.each, '"0.1 l"')
  const scale = reader.needed('ratio', 'scale', options.scale, '1%')
  const reserve = reader.maybe('volume', 'reserve', options.reserve)
  if ((options.tank === undefined) !== (options.sender === undefined))
    reader.add({
      code: 'no-option',
      says: 'Tank and sender go together.',
      todo: 'Give --tank "box 60 cm × 40 cm × 25 cm" and --sender "0 cm=180 Ω; 25 cm=10 Ω".',
    })
  reader.end()
  return {
    id: 'level',
    name: options.readings === undefined ? 'Tank and sender' : 'Fill test',
    device: 'level',
    ...(options.readings === undefined
      ? {}
      : { fillTest: { readings: fillFrom(options.readings), scale, each: { value: each as never } } }),
    ...(options.tank === undefined ? {} : { tank: tankFrom(options.tank) }),
    ...(options.sender === undefined ? {} : { curve: senderFrom(options.sender) }),
    ...(reserve === undefined ? {} : { reserve: { value: reserve as never } }),
  }
}

export const addLevel = (program: Command, out: Out, setStatus: (status: number) => void): void => {
  program
    .command('level [id]')
    .description('litres against a level sender’s resistance, by a fill test or by tank and float')
    .option('-b, --build <folder>', 'the build that [id] is in; else SWAPWRIGHT_BUILD, else the demo')
    .option(
      '--readings <list>',
      'poured since the reading before, and what the sender then shows: "0 l=172 Ω; 10 l=131 Ω"',
    )
    .option(
      '--tank <shape>',
      'its inside: "box 60 cm × 40 cm × 25 cm", "cylinder 40 cm × 90 cm", "loft 25 cm: 0 cm=0.1 m², 25 cm=0.24 m²"',
    )
    .option('--sender <list>', 'height of the liquid, and what the sender then shows: "0 cm=180 Ω; 25 cm=10 Ω"')
    .option('--each <volume>', '± of filling the can to its mark', '0.1 l')
    .option('--scale <share>', '± of the can’s mark', '1%')
    .option('--reserve <volume>', 'at which the lamp is to light')
    .option('--at <resistance>', 'tell the litres at this resistance')
    .option('--json', 'print JSON')
    .action(async (id: string | undefined, options: Options) => {
      const given = options.readings !== undefined || options.tank !== undefined || options.sender !== undefined
      if ((id !== undefined) === given)
        throw refuse(
          'no-option',
          'No sender is named, or both a sender and figures.',
          'Name a level sender of the build, or give --readings, or --tank with --sender.',
        )
      let record: LevelRecord | undefined
      if (id !== undefined) {
        const store = await openNamed(options.build, true)
        try {
          const { levelSenders } = store.read().collections
          record = Object.hasOwn(levelSenders, id) ? levelSenders[id] : undefined
          if (!record)
            throw refuse(
              'no-sender',
              `There is no level sender “${id}” in the build.`,
              `There are: ${Object.keys(levelSenders).join(', ') || 'none'}.`,
            )
        } finally {
          store.close()
        }
      } else record = ofOptions(options)
      const sheet = levelSheet(knownOf(emptyBuild('level'), { cases: {} }), record)
      if (sheet.problems.length > 0) throw new Refusal(sheet.problems)
      if (sheet.capacity === undefined)
        throw refuse(
          'missing-input',
          `Without the ${sheet.missing.join(', ')} no litres can be told.`,
          'Enter it; a fill test is the surest.',
        )
      const reader = optionReader()
      const at = reader.maybe('resistance', 'at', options.at)
      reader.end()
      const volume = at === undefined ? undefined : sheet.volumeAt?.(at)
      setStatus(0)
      if (options.json) {
        const { from, points, readings, capacity, unseenBelow, unseenAbove, reserveResistance } = sheet
        out.write(
          `${JSON.stringify({ from, points, readings, capacity, unseenBelow, unseenAbove, reserveResistance, ...(at === undefined ? {} : { at, volume: volume ?? null }) }, null, 2)}\n`,
        )
        return
      }
      out.write(`${inert(record.name)}, by ${sheet.from}\n`)
      if (sheet.readings.length > 0)
        for (const { resistance, volume: held, plusMinus } of sheet.readings)
          out.write(`  ${ohms(resistance).padEnd(12)} ${litres(held, plusMinus)}\n`)
      else
        for (const { x, y } of sheet.points.filter(
          (_, i, all) => i % Math.ceil(all.length / 12) === 0 || i === all.length - 1,
        ))
          out.write(`  ${ohms(x).padEnd(12)} ${litres(y)}\n`)
      if ((sheet.unseenBelow ?? 0) > 0) out.write(`  The last ${litres(sheet.unseenBelow!)} do not show.\n`)
      if (record.reserve)
        out.write(
          sheet.reserveResistance === undefined
            ? `  A reserve of ${litres(record.reserve.value)} cannot be shown.\n`
            : `  Reserve of ${litres(record.reserve.value)} begins at ${ohms(sheet.reserveResistance)}.\n`,
        )
      if (at !== undefined)
        out.write(
          volume === undefined ? `  ${ohms(at)} is beyond the readings.\n` : `  ${ohms(at)}: ${litres(volume)}.\n`,
        )
      out.write(`${wrap(`Caution: ${FILL_CAUTION}`, 98)}\n`)
    })
}
