/** Turning a number into digits that say no more than is known. */

const NARROW_SPACE = '\u202F'
const MINUS = '\u2212'
const RAISED: Readonly<Record<string, string>> = {
  '-': '⁻',
  '0': '⁰',
  '1': '¹',
  '2': '²',
  '3': '³',
  '4': '⁴',
  '5': '⁵',
  '6': '⁶',
  '7': '⁷',
  '8': '⁸',
  '9': '⁹',
}

const exponentOf = (x: number, digits: number): number => Number(x.toExponential(digits - 1).split('e')[1])

/** Digits after the point that show x with this many significant ones; below zero means rounding to tens, hundreds… */
export const decimalsFor = (x: number, digits: number): number =>
  x === 0 ? digits - 1 : digits - 1 - exponentOf(Math.abs(x), digits)

const grouped = (whole: string): string => (whole.length < 5 ? whole : whole.replace(/\B(?=(\d{3})+$)/g, NARROW_SPACE))

/** x to a number of decimals: real minus, groups of three from five digits up, never a minus before nothing. */
export const fixed = (x: number, decimals: number, trim: boolean): string => {
  const shown = Math.min(Math.max(decimals, 0), 20)
  const step = 10 ** Math.max(-decimals, 0)
  const rounded = step === 1 ? Math.abs(x) : Math.round(Math.abs(x) / step) * step
  const [whole = '0', part = ''] = rounded.toFixed(shown).split('.')
  const kept = trim ? part.replace(/0+$/, '') : part
  const text = kept === '' ? grouped(whole) : `${grouped(whole)}.${kept}`
  return x < 0 && /[1-9]/.test(text) ? `${MINUS}${text}` : text
}

/** x with a power of ten, for sizes that no unit of its kind fits. */
export const scientific = (x: number, digits: number, trim: boolean): string => {
  const [mantissa = '', exponent = '0'] = x.toExponential(digits - 1).split('e')
  const kept = trim && mantissa.includes('.') ? mantissa.replace(/\.?0+$/, '') : mantissa
  const raised = [...exponent.replace('+', '')].map((sign) => RAISED[sign]).join('')
  return `${kept.replace('-', MINUS)} × 10${raised}`.replace(/ /g, NARROW_SPACE)
}
