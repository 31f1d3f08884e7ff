/** The units this person last typed, by kind of quantity; kept in the browser and used wherever a figure is shown. */
import {
  formatPreferred,
  type Kind,
  mergePreferences,
  parseQuantity,
  readPreferences,
  type UnitPreferences,
} from '../../units/index.ts'
import { Refusal } from '../../units/problem.ts'

const KEY = 'swapwright-units'

const load = (): UnitPreferences => {
  try {
    return readPreferences(JSON.parse(localStorage.getItem(KEY) ?? '{}'))
  } catch {
    // Storage switched off, or kept by another version: the usual units serve.
    return {}
  }
}
let kept = load()

export const rememberUnit = (kind: Kind, unit: string): void => {
  if (unit === '' || kept[kind] === unit) return
  try {
    kept = mergePreferences(kept, readPreferences({ [kind]: unit }))
    localStorage.setItem(KEY, JSON.stringify(kept))
  } catch {
    // A unit that is read but not offered (a compound such as 5 ft 6 in), or no storage: remembered for nobody.
  }
}

/** Remembers the unit of a text as soon as the text can be read. */
export const rememberTyped = (kind: Kind, text: string): void => {
  try {
    rememberUnit(kind, parseQuantity(kind, text).unit)
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
  }
}

/** In the unit this person typed last for the kind, else in the one that suits the place. */
export const showPreferredOr = (kind: Kind, unit: string, si: number, plusMinus?: number): string =>
  formatPreferred(kept[kind] === undefined ? { ...kept, [kind]: unit } : kept, kind, si, plusMinus ? { plusMinus } : {})

export const showPreferred = (kind: Kind, si: number, plusMinus?: number): string =>
  formatPreferred(kept, kind, si, plusMinus ? { plusMinus } : {})
