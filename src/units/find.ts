/** Finding a unit by what somebody typed. */
import { KINDS, type Kind } from './kinds.ts'
import { plainText, symbolKey } from './symbols.ts'
import { keysOf, UNITS, type Unit } from './table.ts'

/** What a pressure was measured from, when its unit says so. */
export type PressureReference = 'absolute' | 'gauge' | 'vacuum' | 'difference'

export interface FoundUnit {
  readonly unit: Unit
  readonly reference?: PressureReference
}

const allKinds = Object.keys(KINDS) as Kind[]

const EXACT = new Map(allKinds.map((kind) => [kind, new Map(UNITS[kind].flatMap((u) => keysOf(u).map((k) => [k, u])))]))

/** Lengths, areas and volumes have no mega unit here, so a drawing's "MM" can only be mm. */
const CAPITALS_ARE_SAFE: ReadonlySet<Kind> = new Set(['length', 'area', 'volume'])

/** "MV" is not mV and "mw" of a kilowatt field is not MW: a wrong guess between them would be a factor of 10⁹. */
const swapsMilliForMega = (kind: Kind, typed: string, key: string): boolean =>
  !CAPITALS_ARE_SAFE.has(kind) &&
  typed.charAt(0).toLowerCase() === 'm' &&
  typed.charAt(0) !== key.charAt(0) &&
  (EXACT.get(kind)?.has(key.slice(1)) ?? false)

const byKey = (kind: Kind, key: string): Unit | undefined => {
  const known = EXACT.get(kind) as Map<string, Unit>
  const exact = known.get(key)
  if (exact !== undefined || key === '') return exact
  const folded = [...known].filter(
    ([other]) => other.toLowerCase() === key.toLowerCase() && !swapsMilliForMega(kind, key, other),
  )
  const found = new Set(folded.map(([, unit]) => unit))
  return found.size === 1 ? [...found][0] : undefined
}

const REFERENCE_WORDS: readonly (readonly [RegExp, PressureReference])[] = [
  [/(absolute|abs|a)$/i, 'absolute'],
  [/(gauge|gage|ga|g)$/i, 'gauge'],
  [/(vacuum|vac)$/i, 'vacuum'],
  [/(difference|diff|d)$/i, 'difference'],
]

const isPressure = (kind: Kind): boolean =>
  kind === 'pressureAbsolute' || kind === 'pressureGauge' || kind === 'pressureDifference'

/** The unit of this kind that a symbol stands for; for pressures also what it says about its zero. */
export const findUnit = (kind: Kind, symbol: string): FoundUnit | undefined => {
  const key = symbolKey(symbol)
  const plain = byKey(kind, key)
  if (plain !== undefined) return { unit: plain }
  if (!isPressure(kind)) return undefined
  for (const [word, reference] of REFERENCE_WORDS) {
    const unit = word.test(key) ? byKey(kind, key.replace(word, '')) : undefined
    if (unit !== undefined && unit.symbol !== '') return { unit, reference }
  }
  return undefined
}

const REFERENCE_KIND: Readonly<Record<PressureReference, Kind>> = {
  absolute: 'pressureAbsolute',
  gauge: 'pressureGauge',
  vacuum: 'pressureGauge',
  difference: 'pressureDifference',
}

/** Every kind that a symbol can measure: what the sentence about a wrong unit names. */
export const kindsOfSymbol = (symbol: string): readonly Kind[] => {
  if (/^#?\s*awg\b/i.test(plainText(symbol))) return ['area']
  const exact = allKinds.filter((kind) => EXACT.get(kind)?.has(symbolKey(symbol)))
  if (exact.length > 0) return exact
  const found = allKinds.flatMap((kind) => {
    const unit = findUnit(kind, symbol)
    if (unit === undefined) return []
    return [unit.reference === undefined ? kind : REFERENCE_KIND[unit.reference]]
  })
  return [...new Set(found)]
}

/** Units of a kind in menu order. Area also has AWG, which is a formula and not a factor. */
export const unitsOf = (kind: Kind): readonly string[] => [
  ...UNITS[kind].map((unit) => unit.symbol),
  ...(kind === 'area' ? ['AWG'] : []),
]
