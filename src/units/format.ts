/**
 * Printing a quantity:  2.5 mm² · 43.5 psi gauge · 21.0 ± 0.5 °C.
 *
 * A narrow no-break space stands before the unit (none before °), the minus is a real one, nothing is ever "−0".
 * Absolute and gauge pressures always say which they are; a difference has no word.
 * Errors: `unknown-unit` (unit, kind), `not-a-number` (value or ± that is not finite: what is unknown has no figure).
 */
import { areaAsAwg } from './awg.ts'
import { decimalsFor, fixed, scientific } from './digits.ts'
import { displayUnit } from './displayUnits.ts'
import { findUnit } from './find.ts'
import { KINDS, type Kind, type Of } from './kinds.ts'
import { refuse } from './problem.ts'
import { wrongUnit } from './refusals.ts'
import { siToSpan, siToUnit, type Unit, unitToSi } from './table.ts'

export interface FormatOptions {
  readonly unit?: string | undefined
  /** Significant digits, zeros kept. Without it: four, trailing zeros dropped. */
  readonly digits?: number | undefined
  /** Half-width, SI. Printed to two digits (GUM 7.2.6: at most two), and the value to the same place. */
  readonly plusMinus?: number | undefined
}

const NARROW_SPACE = '\u202F'
const DEFAULT_DIGITS = 4
const PRESSURE_WORDS: Readonly<Partial<Record<Kind, string>>> = { pressureAbsolute: 'abs', pressureGauge: 'gauge' }

const unitNamed = (kind: Kind, symbol: string): Unit => {
  const found = findUnit(kind, symbol)
  if (found === undefined || found.reference !== undefined) throw wrongUnit(kind, symbol)
  return found.unit
}

/** The number in `unit` of an SI value. Not for AWG, which is a formula: see awg.ts. */
export const toUnit = <K extends Kind>(kind: K, unit: string, si: Of<K>): number => siToUnit(unitNamed(kind, unit), si)

/** The SI value of a number in `unit`. */
export const fromUnit = <K extends Kind>(kind: K, unit: string, x: number): Of<K> =>
  unitToSi(unitNamed(kind, unit), x) as Of<K>

/** A size that reads badly without a power of ten. */
const outOfScale = (x: number): boolean => x !== 0 && (Math.abs(x) >= 1e7 || Math.abs(x) < 1e-4)

const numberText = (unit: Unit, x: number, span: number | undefined, digits: number | undefined): string => {
  // Near the zero of a scale with an offset the number is small but its size is not: 1e-13 °C is rounding, not a figure.
  if (unit.offset !== 0 && span === undefined && digits === undefined)
    return fixed(x, Math.min(decimalsFor(x, DEFAULT_DIGITS), 2), true)
  const significant = digits ?? DEFAULT_DIGITS
  if (span === undefined || span === 0) {
    const plain = outOfScale(x)
      ? scientific(x, significant, digits === undefined)
      : fixed(x, decimalsFor(x, significant), digits === undefined)
    return span === undefined ? plain : `${plain}${NARROW_SPACE}±${NARROW_SPACE}0`
  }
  if (outOfScale(Math.max(Math.abs(x), span)))
    return `${scientific(x, significant, false)}${NARROW_SPACE}±${NARROW_SPACE}${scientific(span, 2, false)}`
  const decimals = decimalsFor(span, 2)
  return `${fixed(x, decimals, false)}${NARROW_SPACE}±${NARROW_SPACE}${fixed(span, decimals, false)}`
}

const withUnit = (kind: Kind, number: string, symbol: string): string => {
  const words = [symbol, PRESSURE_WORDS[kind] ?? ''].filter((word) => word !== '').join(' ')
  if (words === '') return number
  return `${number}${symbol === '°' ? '' : NARROW_SPACE}${words.replace(/ /g, NARROW_SPACE)}`
}

const gaugeText = (area: number, options: FormatOptions): string => {
  const { label, between } = areaAsAwg(area)
  if (label !== undefined && options.plusMinus === undefined) return label.replace(' ', NARROW_SPACE)
  const metric = formatQuantity('area', area, { ...options, unit: 'mm²' })
  // Naming the nearest gauge instead would print another size than the wire has.
  const gauges = label ?? (between === undefined ? undefined : `between ${between[0]} and ${between[1]}`)
  return gauges === undefined ? metric : `${metric} (${gauges})`
}

/** The text of an SI value, in the unit asked for or in one that suits its size. */
export const formatQuantity = <K extends Kind>(kind: K, value: Of<K>, options: FormatOptions = {}): string => {
  const si: number = value
  const { plusMinus, digits } = options
  if (!Number.isFinite(si) || (plusMinus !== undefined && !(plusMinus >= 0 && Number.isFinite(plusMinus))))
    throw refuse(
      'not-a-number',
      `A ${KINDS[kind].title} of ${si} ± ${plusMinus ?? 0} has no figure.`,
      'Show it as unknown.',
    )
  if (kind === 'area' && options.unit === 'AWG') return gaugeText(si, options)
  const unit = unitNamed(kind, options.unit ?? displayUnit(kind, si))
  const span = plusMinus === undefined ? undefined : siToSpan(unit, plusMinus)
  const x = siToUnit(unit, si)
  const number = numberText(unit, x, span, digits)
  // Without brackets a % would seem to belong to the ± alone, as a share of the value.
  const bracketed = span !== undefined && unit.symbol === '%' ? `(${number})` : number
  return withUnit(kind, bracketed, unit.symbol)
}
