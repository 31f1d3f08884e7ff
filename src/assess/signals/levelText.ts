/** Tank, sender and fill test as a person writes them in one line, read into the model and written back. */
import type { Measure } from '../../model/measure.ts'
import { formatQuantity, type Kind, parseQuantity } from '../../units/index.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import type { LevelRecord } from './levels.ts'

type TankRecord = NonNullable<LevelRecord['tank']>

const SHAPES = 'box 60 cm × 40 cm × 25 cm; cylinder 40 cm × 90 cm; loft 25 cm: 0 cm=0.1 m², 25 cm=0.24 m²'

const gather = () => {
  const problems: Problem[] = []
  return {
    problems,
    read: (kind: Kind, text: string | undefined, of: string): number => {
      if (text === undefined || text.trim() === '') {
        problems.push({
          code: 'missing-input',
          path: of,
          says: `A figure of the ${of} is missing.`,
          todo: 'Write all of it.',
        })
        return Number.NaN
      }
      try {
        return parseQuantity(kind, text.trim()).value
      } catch (error) {
        if (!(error instanceof Refusal)) throw error
        problems.push(...error.problems.map((each) => ({ ...each, path: of, says: `${of}: ${each.says}` })))
        return Number.NaN
      }
    },
    end: (): void => {
      if (problems.length > 0) throw new Refusal(problems)
    },
  }
}
const measured = <K extends Kind>(value: number): Measure<K> => ({ value }) as Measure<K>

/** `0 cm=172 Ω; 10 cm=131 Ω`; pairs of the two kinds. */
const pairsOf = (text: string, first: Kind, second: Kind, of: string): [number, number][] => {
  const { read, end } = gather()
  const pairs = text
    .split(/[;\n]/)
    .map((entry) => entry.trim())
    .filter(Boolean)
    .map((entry): [number, number] => {
      const [a, b] = entry.split('=')
      return [read(first, a, of), read(second, b, of)]
    })
  end()
  return pairs
}

/** `10 l=131 Ω; …`: poured since the reading before, and what the sender then shows. */
export const fillFrom = (text: string): [number, number][] => pairsOf(text, 'volume', 'resistance', 'fill test')
/** `0 cm=172 Ω; …`: height of the liquid, and what the sender then shows. */
export const senderFrom = (text: string): [number, number][] => pairsOf(text, 'length', 'resistance', 'sender')

export const tankFrom = (text: string): TankRecord => {
  const [, shape = '', rest = ''] = /^\s*(lying cylinder|cylinder|box|loft)\s+(.*)$/is.exec(text) ?? []
  const { read, end, problems } = gather()
  const sizes = rest.split(/[×x*]/)
  let tank: TankRecord | undefined
  if (/^box$/i.test(shape) && sizes.length === 3) {
    const [length, width, height] = sizes.map((size) => read('length', size, 'tank')) as [number, number, number]
    tank = { shape: 'box', length: measured(length), width: measured(width), height: measured(height) }
  } else if (/cylinder$/i.test(shape) && sizes.length === 2) {
    const [diameter, length] = sizes.map((size) => read('length', size, 'tank')) as [number, number]
    tank = { shape: 'lying cylinder', diameter: measured(diameter), length: measured(length) }
  } else if (/^loft$/i.test(shape) && rest.includes(':')) {
    const at = rest.indexOf(':')
    const sections = rest
      .slice(at + 1)
      .split(/[,;]/)
      .filter((entry) => entry.trim() !== '')
      .map((entry) => {
        const [height, area] = entry.split('=')
        return {
          height: measured<'length'>(read('length', height, 'tank')),
          area: measured<'area'>(read('area', area, 'tank')),
        }
      })
    tank = { shape: 'loft', height: measured(read('length', rest.slice(0, at), 'tank')), sections }
  } else
    problems.push({
      code: 'not-a-tank',
      path: 'tank',
      says: `“${text.trim()}” is no tank.`,
      todo: `Write its inside as one of: ${SHAPES}. A fill test needs no shape.`,
    })
  end()
  return tank!
}

const cm = (value: number): string => formatQuantity('length', value, { unit: 'cm' })
export const ohmText = (value: number): string => formatQuantity('resistance', value, { unit: 'Ω' })

export const tankText = (tank: TankRecord | undefined): string =>
  tank === undefined
    ? ''
    : tank.shape === 'box'
      ? `box ${[tank.length, tank.width, tank.height].map(({ value }) => cm(value)).join(' × ')}`
      : tank.shape === 'lying cylinder'
        ? `cylinder ${cm(tank.diameter.value)} × ${cm(tank.length.value)}`
        : `loft ${cm(tank.height.value)}: ${tank.sections.map(({ height, area }) => `${cm(height.value)}=${formatQuantity('area', area.value, { unit: 'm²' })}`).join(', ')}`
export const senderText = (curve: LevelRecord['curve']): string =>
  (curve ?? []).map(([height, resistance]) => `${cm(height)}=${ohmText(resistance)}`).join('; ')
export const fillText = (readings: NonNullable<LevelRecord['fillTest']>['readings'] | undefined): string =>
  (readings ?? [])
    .map(([added, resistance]) => `${formatQuantity('volume', added, { unit: 'l' })}=${ohmText(resistance)}`)
    .join('; ')
