/** Reading the number at the front of a typed quantity. */
import { refuse } from './problem.ts'

export interface NumberRead {
  readonly value: number
  /** The number as it was written, for the compound forms that care about its digits. */
  readonly written: string
  readonly rest: string
}

const FRACTION = /^([+-]?)\s*(?:(\d+)[ -])?(\d+)\/(\d+)(?![\d./,])/
const NUMBER = /^[+-]?\s*(?:\d{1,3}(?: \d{3})+(?!\d)(?:[.,]\d+)?|\d[\d.,]*|[.,]\d+)(?:[eE][+-]?\d+(?![\d.]))?/
const POWER_OF_TEN = /^\s*[×x*·]\s*10\s*(?:\^\s*([+-]?\d+)|([+-]\d+))(?![\d.])/

const ambiguous = (written: string) =>
  refuse(
    'ambiguous-number',
    `"${written}" can mean ${written.replace(',', '.')} or ${written.replace(',', '')}.`,
    `Write ${written.replace(',', '.')} or ${written.replace(',', ' ')}.`,
  )

/** Digits with the decimal sign made a point and the thousands signs taken out; undefined when they contradict. */
const decimal = (written: string): string | undefined => {
  const digits = written.replace(/ /g, '')
  const commas = digits.split(',').length - 1
  const points = digits.split('.').length - 1
  if (commas === 0 && points <= 1) return digits
  if (commas === 1 && points === 0) {
    // A comma before exactly three digits is a decimal sign in one country and a thousands sign in another.
    if (/^[1-9]\d{0,2},\d{3}$/.test(written)) throw ambiguous(written)
    return digits.replace(',', '.')
  }
  if (/^\d{1,3}(,\d{3})+(\.\d+)?$/.test(digits)) return digits.replaceAll(',', '')
  if (/^\d{1,3}(\.\d{3})+(,\d+)?$/.test(digits)) return digits.replaceAll('.', '').replace(',', '.')
  return undefined
}

/**
 * The number at the front of `text` (already plain): 2.5 · 2,5 · 1 234.5 · 1,234.5 · -3e-3 · 1.2 × 10^-3 · 1/2 · 1 1/2.
 * Undefined when there is none. Refuses what can be read two ways.
 */
export const readNumber = (text: string): NumberRead | undefined => {
  const fraction = FRACTION.exec(text)
  if (fraction !== null) {
    const [written, sign, whole = '0', above, below] = fraction
    if (Number(below) === 0)
      throw refuse('unreadable-number', `"${written}" divides by zero.`, 'Write the number again.')
    const size = Number(whole) + Number(above) / Number(below)
    return { value: sign === '-' ? -size : size, written, rest: text.slice(written.length).trim() }
  }
  const match = NUMBER.exec(text)
  if (match === null) return undefined
  const written = match[0].trim()
  const [, sign = '', digits = '', exponent = ''] = /^([+-]?)\s*([\d., ]+)(.*)$/.exec(written) ?? []
  const plain = decimal(digits)
  if (plain === undefined || !/\d/.test(plain))
    throw refuse('unreadable-number', `"${written}" is not a number.`, 'Write it like 1234.5, with one decimal sign.')
  const after = text.slice(match[0].length)
  const power = exponent === '' ? POWER_OF_TEN.exec(after) : null
  // Built as one literal so that the value is the double nearest to what was written.
  const value = Number(`${sign}${plain}${power === null ? exponent : `e${power[1] ?? power[2]}`}`)
  if (!Number.isFinite(value))
    throw refuse('unreadable-number', `"${written}" is too large to work with.`, 'Check its exponent.')
  return { value, written: digits, rest: after.slice(power === null ? 0 : power[0].length).trim() }
}
