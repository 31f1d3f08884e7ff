/** What can be tried, each at its station, and what it does to the build. Nothing here is stored. */
import type { Build, Change, SheetName } from '../../model/build.ts'
import type { Measure } from '../../model/measure.ts'
import { applyChanges } from '../../model/read.ts'
import type { Kind } from '../../units/kinds.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { readMeasure } from '../parts/quantityText.ts'

/** A measure somewhere in a sheet: `path` leads to it; a number in it is a place in a list. */
export interface Lever {
  readonly id: string
  readonly station: string
  readonly label: string
  readonly kind: Kind
  readonly sheet: SheetName
  readonly path: readonly (string | number)[]
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

export const storedAt = (build: Build, { sheet, path }: Lever): Measure | undefined =>
  path.reduce<unknown>(at, build.sheets[sheet]) as Measure | undefined

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
  for (const lever of levers) {
    const text = typed[lever.id]
    if (text === undefined) continue
    const before = storedAt(build, lever)
    try {
      const value = readMeasure(lever.kind, text, before)
      if (JSON.stringify(value) === JSON.stringify(before)) continue
      tried = applyChanges(tried, [{ sheet: lever.sheet, value: put(tried.sheets[lever.sheet], lever.path, value) }])
      touched.add(lever.sheet)
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      problems[lever.id] = error.problems
    }
  }
  const changes = [...touched].map((sheet) => ({ sheet, value: tried.sheets[sheet] }))
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
