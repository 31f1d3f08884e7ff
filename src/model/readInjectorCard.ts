/** Injector cards in and out. A file of its own, since the schema of a build holds a card and the reader knows the build. */
import { deadTimeFaults } from '../engineering/fuel/deadTime.ts'
import { type Problem, Refusal, refuse } from '../units/problem.ts'
import { INJECTOR_CARD_FORMAT, type InjectorCard, injectorCard } from './injectorCard.ts'
import { schemaProblems } from './schemaProblems.ts'

const faultsOf = (card: InjectorCard): readonly Problem[] => [
  ...deadTimeFaults(card.deadTime.map(([volts, seconds]) => [volts.value, seconds.value])),
  // A density or flow in the wrong unit is the usual slip; both ranges as in the calculations of engineering/fuel.
  ...(card.fluid.density.value < 600 || card.fluid.density.value > 900
    ? [
        {
          code: 'unfit-value',
          path: 'fluid/density',
          says: `The density of ${card.fluid.name} is ${card.fluid.density.value} kg/m³.`,
          todo: 'Fuels and test fluids have 600 to 900 kg/m³: a figure near 0.7 is kg/l.',
        },
      ]
    : []),
  ...(card.slope.value < 1e-4 || card.slope.value > 0.1
    ? [
        {
          code: 'unfit-value',
          path: 'slope',
          says: `The slope is ${card.slope.value} kg/s.`,
          todo: 'Injectors give 0.0001 to 0.1 kg/s: 200 g/min is 0.00333 kg/s.',
        },
      ]
    : []),
  ...(card.pressure.value < 2e4 || card.pressure.value > 2e6
    ? [
        {
          code: 'unfit-value',
          path: 'pressure',
          says: `The pressure across the injector is ${card.pressure.value} Pa.`,
          todo: 'It must be 20 000 to 2 000 000 Pa: 3 bar is 300 000 Pa.',
        },
      ]
    : []),
]

/** Reads the text of a card. Throws `Refusal` with every problem in words: no JSON, another format, bad fields, bad tables. */
export const readInjectorCard = (file: string): InjectorCard => {
  let json: unknown
  try {
    json = JSON.parse(file.replace(/^\uFEFF/, ''))
  } catch {
    throw refuse('no-json', 'The file is not JSON.', `Choose a file of format ${INJECTOR_CARD_FORMAT}.`)
  }
  const format = typeof json === 'object' && json !== null && 'format' in json ? json.format : undefined
  if (format !== INJECTOR_CARD_FORMAT)
    throw refuse(
      'other-format',
      `The file is ${typeof format === 'string' ? `of format “${format.slice(0, 60)}”` : 'of no stated format'}, not an injector card.`,
      `Choose a file whose "format" is "${INJECTOR_CARD_FORMAT}".`,
    )
  const read = injectorCard.safeParse(json)
  if (!read.success)
    throw new Refusal(
      schemaProblems(read.error.issues, json).map((problem) => ({
        ...problem,
        says: problem.says.replace(/^The build/, 'The injector card'),
      })),
    )
  const faults = faultsOf(read.data)
  if (faults.length > 0) throw new Refusal(faults)
  return read.data
}

export const writeInjectorCard = (card: InjectorCard): string => `${JSON.stringify(card, null, 2)}\n`
