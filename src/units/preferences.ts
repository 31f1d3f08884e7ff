/** Which unit a person wants to see for a kind. Plain data, so that it can be kept as JSON. */
import { unitsOf } from './find.ts'
import { type FormatOptions, formatQuantity } from './format.ts'
import { KINDS, type Kind, type Of } from './kinds.ts'
import { type Problem, Refusal } from './problem.ts'

/** Kind → unit symbol. A kind that is absent is printed in a unit that suits its size. */
export type UnitPreferences = Readonly<Partial<Record<Kind, string>>>

const problemWith = (kind: string, unit: unknown): Problem | undefined => {
  if (!Object.hasOwn(KINDS, kind))
    return { code: 'unknown-kind', path: kind, says: `"${kind}" is not a kind of quantity.`, todo: 'Take it out.' }
  const { title } = KINDS[kind as Kind]
  const units = unitsOf(kind as Kind)
  if (typeof unit === 'string' && units.includes(unit)) return undefined
  return {
    code: 'unknown-unit',
    path: kind,
    says: `${JSON.stringify(unit)} is not a unit of ${title}.`,
    todo: `Choose one of ${units.filter((symbol) => symbol !== '').join(', ')}.`,
  }
}

/** Preferences from data of unknown origin. Refuses the whole with every unknown kind and unit named. */
export const readPreferences = (data: unknown): UnitPreferences => {
  if (typeof data !== 'object' || data === null || Array.isArray(data))
    throw new Refusal([
      {
        code: 'not-preferences',
        says: 'The unit preferences are not a list of kinds.',
        todo: 'Give an object of kind and unit.',
      },
    ])
  const entries = Object.entries(data)
  const problems = entries.flatMap(([kind, unit]) => problemWith(kind, unit) ?? [])
  if (problems.length > 0) throw new Refusal(problems)
  return Object.fromEntries(entries) as UnitPreferences
}

/** The first with what the second says otherwise. */
export const mergePreferences = (base: UnitPreferences, over: UnitPreferences): UnitPreferences => ({
  ...base,
  ...over,
})

/** A quantity in the unit it was asked in, else in the preferred one, else in one that suits its size. */
export const formatPreferred = <K extends Kind>(
  preferences: UnitPreferences,
  kind: K,
  si: Of<K>,
  options: FormatOptions = {},
): string => formatQuantity(kind, si, { ...options, unit: options.unit ?? preferences[kind] })
