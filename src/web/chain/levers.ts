/** What can be tried, each at its station, and what it does to the build. Nothing here is stored. */
import { thinnestWiresOf } from '../../assess/chain/deviceVolts.ts'
import { list } from '../../assess/make.ts'
import type { Build, Change, SheetName } from '../../model/build.ts'
import type { Measure } from '../../model/measure.ts'
import { applyChanges } from '../../model/read.ts'
import type { Kind } from '../../units/kinds.ts'
import { type Problem, Refusal, refuse } from '../../units/problem.ts'
import { readMeasure } from '../parts/quantityText.ts'

interface Common {
  readonly id: string
  readonly station: string
  readonly label: string
}
/** A measure somewhere in a sheet: `path` leads to it; a number in it is a place in a list. */
interface SheetLever extends Common {
  readonly kind: Kind
  readonly sheet: SheetName
  readonly path: readonly (string | number)[]
}
/** The cross-section of wires in a row: what a device gets of the volts hangs on the thinnest. */
interface WireLever extends Common {
  readonly kind: 'area'
  readonly wires: readonly string[]
}
/** A word, a yes or no, or a count somewhere in a sheet: what is chosen, by its words. */
interface ChoiceLever extends Common {
  readonly options: Readonly<Record<string, string | number | boolean>>
  readonly sheet: SheetName
  readonly path: readonly (string | number)[]
}
/** A bare number somewhere in a sheet, or a row of them, such as the ratios of a gearbox. */
interface NumberLever extends Common {
  readonly numbers: 'one' | 'row'
  readonly sheet: SheetName
  readonly path: readonly (string | number)[]
}
export type Lever = SheetLever | WireLever | ChoiceLever | NumberLever

/** None where the device has no wires of its own in the full-load case. */
export const wireLever = (build: Build, device: string | undefined, station: string): readonly Lever[] => {
  const wires = thinnestWiresOf(build, device)
  return wires.length === 0
    ? []
    : [{ id: `wires-${device}`, station, label: `Cross-section of ${list(wires)}`, kind: 'area', wires }]
}
/** Typed text by lever. */
export type Typed = Readonly<Record<string, string>>
export interface Trial {
  readonly build: Build
  /** What storing would do. */
  readonly changes: readonly Change[]
  readonly problems: Readonly<Record<string, readonly Problem[]>>
}

const at = (value: unknown, key: string | number): unknown =>
  typeof value === 'object' && value !== null ? (value as Record<string | number, unknown>)[key] : undefined

/** The words of what is stored; empty where nothing is. */
export const chosenAt = (build: Build, { options, sheet, path }: ChoiceLever): string => {
  const stored = path.reduce<unknown>(at, build.sheets[sheet])
  return Object.keys(options).find((words) => options[words] === stored) ?? ''
}

export const storedAt = (build: Build, lever: SheetLever | WireLever): Measure | undefined =>
  'wires' in lever
    ? (build.collections.wires[lever.wires[0] ?? '']?.area as Measure | undefined)
    : (lever.path.reduce<unknown>(at, build.sheets[lever.sheet]) as Measure | undefined)

/** As it is typed: `3.65 1.97 1.37`; empty where nothing is stored. */
export const numbersAt = (build: Build, { sheet, path }: NumberLever): string => {
  const stored = path.reduce<unknown>(at, build.sheets[sheet])
  return Array.isArray(stored) ? stored.join(' ') : stored === undefined ? '' : String(stored)
}
/** Undefined for an empty text. A comma between digits is a decimal one, as everywhere. */
const readNumbers = ({ numbers, label }: NumberLever, text: string): number | number[] | undefined => {
  const words = text
    .replace(/(\d),(\d)/g, '$1.$2')
    .split(/[\s,;]+/)
    .filter((word) => word !== '')
  const values = words.map(Number)
  const wrong = words.find((_word, index) => !(values[index]! > 0 && Number.isFinite(values[index])))
  if (wrong !== undefined || (numbers === 'one' && values.length > 1))
    throw refuse(
      'no-number',
      `“${wrong ?? text}” is no ${numbers === 'one' ? 'number above 0' : 'row of numbers above 0'}.`,
      `Write ${label.toLowerCase()} as ${numbers === 'one' ? '3.9' : '3.65 1.97 1.37'}.`,
    )
  return values.length === 0 ? undefined : numbers === 'one' ? values[0] : values
}

const put = (value: unknown, [key, ...rest]: readonly (string | number)[], last: unknown): unknown => {
  if (key === undefined) return last
  const inside = put(at(value, key), rest, last)
  if (typeof key === 'number')
    return (value as readonly unknown[]).map((each, index) => (index === key ? inside : each))
  const next = { ...(value as Record<string, unknown> | undefined), [key]: inside }
  if (inside === undefined) delete next[key]
  return next
}

/** The build as tried: every lever that can be read, and without the readings set aside. */
export const trialOf = (build: Build, levers: readonly Lever[], typed: Typed, aside: readonly string[]): Trial => {
  const problems: Record<string, readonly Problem[]> = {}
  let tried = build
  const touched = new Set<SheetName>()
  const thicker: Change[] = []
  for (const lever of levers) {
    const text = typed[lever.id]
    if (text === undefined) continue
    try {
      if ('options' in lever) {
        if (text === chosenAt(build, lever)) continue
        tried = applyChanges(tried, [
          { sheet: lever.sheet, value: put(tried.sheets[lever.sheet], lever.path, lever.options[text]) },
        ])
        touched.add(lever.sheet)
        continue
      }
      if ('numbers' in lever) {
        if (text === numbersAt(build, lever)) continue
        tried = applyChanges(tried, [
          { sheet: lever.sheet, value: put(tried.sheets[lever.sheet], lever.path, readNumbers(lever, text)) },
        ])
        touched.add(lever.sheet)
        continue
      }
      const before = storedAt(build, lever)
      const value = readMeasure(lever.kind, text, before)
      if (JSON.stringify(value) === JSON.stringify(before)) continue
      if ('wires' in lever) {
        const changes = lever.wires.map((id): Change => {
          const { area: _before, ...rest } = build.collections.wires[id]!
          const area = value as Measure<'area'> | undefined
          return { collection: 'wires', id, value: area === undefined ? rest : { ...rest, area } }
        })
        tried = applyChanges(tried, changes)
        thicker.push(...changes)
        continue
      }
      tried = applyChanges(tried, [{ sheet: lever.sheet, value: put(tried.sheets[lever.sheet], lever.path, value) }])
      touched.add(lever.sheet)
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      problems[lever.id] = error.problems
    }
  }
  const changes = [...[...touched].map((sheet) => ({ sheet, value: tried.sheets[sheet] })), ...thicker]
  return {
    changes,
    problems,
    build:
      aside.length === 0
        ? tried
        : applyChanges(
            tried,
            aside.map((id) => ({ collection: 'readings', id, value: null })),
          ),
  }
}
