/**
 * Reading what a builder types:  43.5 psi · 550 cc/min · 2,5 mm² · 5 ft 6 in · AWG 18 · 4k7 · 4.7 kΩ ±5 %.
 *
 * Errors, all as `Refusal`: no-number, no-unit, unknown-unit, wrong-unit, ambiguous-unit, ambiguous-number,
 * unreadable-number, unreadable-quantity, wrong-pressure-reference, below-absolute-zero, unreadable-tolerance,
 * awg-out-of-range. Pressures: see pressure.ts.
 */
import { awgArea, readAwg } from './awg.ts'
import { readCompound } from './compound.ts'
import { findUnit, type PressureReference } from './find.ts'
import { KINDS, type Kind, type Of } from './kinds.ts'
import { type NumberRead, readNumber } from './number.ts'
import { referPressure } from './pressure.ts'
import { refuse } from './problem.ts'
import { noNumber, noUnit, unreadableRest, wrongUnit } from './refusals.ts'
import { plainText } from './symbols.ts'
import { spanToSi, type Unit, unitToSi } from './table.ts'

export interface ParseOptions {
  /** Ambient pressure, Pa absolute: lets a gauge reading fill an absolute field, and the other way round. */
  readonly ambient?: Of<'pressureAbsolute'>
  /** The unit that a number without one is in: what stands beside the field. */
  readonly unit?: string
}

export interface Quantity<K extends Kind> {
  /** SI. */
  readonly value: Of<K>
  /** Half-width, SI; a difference, so never with an offset. */
  readonly plusMinus?: number
  /** The unit as the table spells it, to be remembered and printed again; `AWG` for a gauge. */
  readonly unit: string
}

interface Main {
  readonly value: number
  /** Undefined for a wire gauge, which is a formula. */
  readonly unit: Unit | undefined
}

/** Letter in place of the decimal point (IEC 60062): 4k7, 4R7, R47, 1M0, 2n2. */
const CODES: Readonly<Partial<Record<Kind, Readonly<Record<string, string>>>>> = {
  resistance: { R: 'Ω', r: 'Ω', k: 'kΩ', K: 'kΩ', M: 'MΩ' },
  capacitance: { p: 'pF', n: 'nF', u: 'µF', μ: 'µF' },
}

const readLetterCode = (kind: Kind, text: string): Main | undefined => {
  const match = /^(\d*)([a-zA-Zμ])(\d+)\s*(?:Ω|F|ohms?)?$/.exec(text)
  const symbol = match?.[2] === undefined ? undefined : CODES[kind]?.[match[2]]
  const unit = symbol === undefined ? undefined : findUnit(kind, symbol)?.unit
  return unit === undefined ? undefined : { value: unitToSi(unit, Number(`${match?.[1]}.${match?.[3]}`)), unit }
}

const unitOf = (kind: Kind, text: string, rest: string): { unit: Unit; reference?: PressureReference } => {
  const found = findUnit(kind, rest)
  if (found !== undefined) return found
  if (rest === '') throw noUnit(kind, text)
  throw /\d/.test(rest) && /\s/.test(rest) ? unreadableRest(kind, text, rest) : wrongUnit(kind, rest)
}

const readMain = (kind: Kind, text: string, options: ParseOptions): Main => {
  const gauge =
    readAwg(text) ??
    (kind === 'area' && (options.unit === 'AWG' || /^[1-4]\/0$/.test(text)) ? readAwg(`AWG ${text}`) : undefined)
  if (gauge !== undefined) {
    if (kind !== 'area') throw wrongUnit(kind, 'AWG')
    return { value: awgArea(gauge), unit: undefined }
  }
  const special = readCompound(kind, text) ?? readLetterCode(kind, text)
  if (special !== undefined) return special
  const number = readNumber(text)
  if (number === undefined) throw noNumber(kind, text)
  const { unit, reference } = unitOf(kind, text, number.rest || (options.unit ?? ''))
  return { value: referPressure(kind, unitToSi(unit, number.value), reference, options.ambient, text), unit }
}

/** The kind that a ± of this kind is: a span has no zero of its own. */
const spanKind = (kind: Kind): Kind => {
  if (kind === 'temperature') return 'temperatureDifference'
  return kind === 'pressureAbsolute' || kind === 'pressureGauge' ? 'pressureDifference' : kind
}

const badTolerance = (text: string, todo: string) =>
  refuse('unreadable-tolerance', `The ± of "${text}" could not be read.`, todo)

/** SI half-width. A percentage is of the value; only where the value itself is in percent is it in points. */
const readTolerance = (kind: Kind, number: NumberRead, main: Main, text: string): number => {
  if (number.value < 0) throw badTolerance(text, 'Give it without a minus sign.')
  const percent = /^(%|percent|pct)$/i.test(number.rest)
  if (percent && main.unit?.symbol !== '%') {
    if (kind === 'temperature')
      throw badTolerance(text, 'A percentage of a temperature depends on where its zero is; write it such as ± 2 °C.')
    return (Math.abs(main.value) * number.value) / 100
  }
  if (number.rest !== '') return spanToSi(unitOf(spanKind(kind), text, number.rest).unit, number.value)
  if (main.unit === undefined) throw badTolerance(text, 'Give it with a unit or in %, such as ± 2 %.')
  return spanToSi(main.unit, number.value)
}

const NEVER_BELOW_ZERO: ReadonlySet<Kind> = new Set(['pressureAbsolute', 'temperature'])

/**
 * The quantity of this kind that the text states. Differences never get an offset; absolute and gauge pressure, and
 * mass and volume flow, are never taken for each other. Throws `Refusal` with a sentence for the person who typed.
 */
export const parseQuantity = <K extends Kind>(kind: K, typed: string, options: ParseOptions = {}): Quantity<K> => {
  const text = plainText(typed)
  const bracketed = /^\((.*)\)\s*(.*)$/.exec(text)
  const [left = '', right, ...more] = (bracketed === null ? text : `${bracketed[1]} ${bracketed[2]}`)
    .split('±')
    .map((part) => part.trim())
  if (more.length > 0) throw badTolerance(typed, 'Give it once.')
  const tolerance = right === undefined ? undefined : readNumber(right)
  if (right !== undefined && tolerance === undefined) throw badTolerance(typed, 'Write it such as ± 0.1 or ± 3 %.')

  // In "2.5 ± 0.1 mm" the unit stands once, at the end, and is that of both.
  const shared = tolerance !== undefined && !/^(|%|percent|pct)$/i.test(tolerance.rest) && readNumber(left)?.rest === ''
  if (kind === 'ratio' && bracketed === null && tolerance?.rest === '%' && readNumber(left)?.rest === '')
    throw badTolerance(typed, `Write ${left} % ± ${right}, or both numbers without %.`)
  const percentShared = kind === 'ratio' && bracketed !== null && tolerance?.rest === '%'
  const main = readMain(kind, shared || percentShared ? `${left} ${tolerance?.rest}` : left, options)
  if (NEVER_BELOW_ZERO.has(kind) && main.value < 0)
    throw refuse(
      'below-absolute-zero',
      `"${typed}" is below zero ${KINDS[kind].si} absolute.`,
      kind === 'temperature' ? 'Check the number and its unit.' : 'Say gauge if it was read against ambient pressure.',
    )
  const inMainUnit = shared ? { ...(tolerance as NumberRead), rest: '' } : tolerance
  return {
    value: main.value as Of<K>,
    ...(inMainUnit === undefined ? {} : { plusMinus: readTolerance(kind, inMainUnit, main, typed) }),
    unit: main.unit?.symbol ?? 'AWG',
  }
}
