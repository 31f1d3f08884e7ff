/**
 * One cell of a delimited line, as bytes, to a number, a blank or a text. Written for the plain case (digits, a
 * decimal sign, an exponent) and exact in it: up to 15 digits and a power of ten up to 22 divide without a second
 * rounding. Everything odd goes through `oddCell`.
 */
import { looksLikeUnit } from './unitSymbols.ts'

export const BLANK = 0
export const NUMBER = 1
export const TEXT = 2
/** A word that stands for "no value", such as NaN or N/A. */
export const NOTHING = 3

export interface CellResult {
  kind: number
  value: number
  /** Unit symbol that followed the number in the cell, when there was one. */
  suffix: string
}

const POWERS = Float64Array.from({ length: 23 }, (_, power) => 10 ** power)

/** Reads buf[start, end) into `out`. `decimal` is the byte of the decimal sign; `letters` how odd cells are written. */
export function readCell(
  buf: Buffer,
  start: number,
  end: number,
  decimal: number,
  out: CellResult,
  letters: 'utf8' | 'latin1' = 'utf8',
): void {
  let i = start
  let stop = end
  while (i < stop && (buf[i] === 32 || buf[i] === 9)) i++
  while (stop > i && (buf[stop - 1] === 32 || buf[stop - 1] === 9)) stop--
  out.suffix = ''
  if (i === stop) {
    out.kind = BLANK
    out.value = Number.NaN
    return
  }
  const from = i
  let negative = false
  if (buf[i] === 45) {
    negative = true
    i++
  } else if (buf[i] === 43) i++
  let mantissa = 0
  let digits = 0
  let scale = 0
  let byte = 0
  while (i < stop) {
    byte = buf[i]! - 48
    if (byte < 0 || byte > 9) break
    mantissa = mantissa * 10 + byte
    digits++
    i++
  }
  if (i < stop && buf[i] === decimal) {
    i++
    const before = digits
    while (i < stop) {
      byte = buf[i]! - 48
      if (byte < 0 || byte > 9) break
      mantissa = mantissa * 10 + byte
      digits++
      i++
    }
    scale = before - digits
  }
  if (i < stop && digits > 0 && (buf[i] === 101 || buf[i] === 69)) {
    let at = i + 1
    let sign = 1
    if (buf[at] === 45) {
      sign = -1
      at++
    } else if (buf[at] === 43) at++
    let exponent = 0
    const first = at
    while (at < stop && at - first < 4) {
      byte = buf[at]! - 48
      if (byte < 0 || byte > 9) break
      exponent = exponent * 10 + byte
      at++
    }
    if (at > first) {
      scale += sign * exponent
      i = at
    }
  }
  if (i === stop && digits > 0) {
    out.kind = NUMBER
    if (digits <= 15 && scale >= -22 && scale <= 22) {
      const value = scale < 0 ? mantissa / POWERS[-scale]! : mantissa * POWERS[scale]!
      out.value = negative ? -value : value
    } else {
      const text = buf.toString('latin1', from, stop)
      out.value = Number(decimal === 44 ? text.replace(',', '.') : text)
      if (!Number.isFinite(out.value)) out.kind = NOTHING
    }
    return
  }
  oddCell(buf.toString(letters, from, stop), decimal === 44 ? ',' : '.', out)
}

const NO_VALUE =
  /^(nan|[-+]?inf(inity)?|null|n\/?a|#n\/a|#value!|#div\/0!|#num!|[-–—?*.]+|[-+]?1\.#(ind|inf|qnan)\w*)$/i
const HEX = /^[-+]?0x[0-9a-f]{1,13}$/i
/** Figures and letters A to F without any mark, as some loggers write words of bits. */
export const isHexadecimal = (text: string): boolean => /^[0-9a-f]{1,8}$/i.test(text)
/** Groups of exactly three behind a separator that is not the decimal sign. */
const GROUPED = {
  '.': /^[-+]?\d{1,3}(?:([,'’ \u00a0\u202f])\d{3})(?:\1\d{3})*(?:\.\d*)?$/,
  ',': /^[-+]?\d{1,3}(?:([.'’ \u00a0\u202f])\d{3})(?:\1\d{3})*(?:,\d*)?$/,
}
/** What may stand behind a number as its unit: short, without digits but a power, so that rubbish is turned away cheaply. */
const UNIT_SHAPE = String.raw`([^\d\s.,;|"'][^\d.,;|"']{0,15}[23]?|1/min)$`
const WITH_UNIT = {
  '.': new RegExp(String.raw`^([-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)\s*${UNIT_SHAPE}`, 'i'),
  ',': new RegExp(String.raw`^([-+]?(?:\d+,?\d*|,\d+)(?:e[-+]?\d+)?)\s*${UNIT_SHAPE}`, 'i'),
}

/** Thousands separators, hexadecimal, a unit behind the number, words for "no value"; else it is text. */
export function oddCell(raw: string, decimal: '.' | ',', out: CellResult): void {
  const text = raw.replace(/^[\s\u00a0]+|[\s\u00a0]+$/g, '')
  out.suffix = ''
  out.value = Number.NaN
  out.kind = TEXT
  if (text === '') out.kind = BLANK
  else if (NO_VALUE.test(text)) out.kind = NOTHING
  else if (HEX.test(text)) {
    out.kind = NUMBER
    out.value = text.startsWith('-') ? -Number(text.slice(1)) : Number(text.replace('+', ''))
  } else if (GROUPED[decimal].test(text)) {
    out.kind = NUMBER
    const plain = text.replace(decimal === '.' ? /[,'’ \u00a0\u202f]/g : /[.'’ \u00a0\u202f]/g, '')
    out.value = Number(plain.replace(',', '.'))
  } else {
    const parts = WITH_UNIT[decimal].exec(text)
    const suffix = parts?.[2]?.trim() ?? ''
    if (parts && suffix !== '' && looksLikeUnit(suffix)) {
      out.kind = NUMBER
      out.value = Number(parts[1]!.replace(',', '.'))
      out.suffix = suffix
    }
  }
}

/** The cells of a line as text, for the few lines that are read by eye: names, units, preamble. */
export function splitLine(line: string, delimiter: string): string[] {
  if (delimiter === '') return [line.trim()]
  if (delimiter === ' ') return line.trim().split(/[ \t]+/)
  const cells: string[] = []
  let at = 0
  while (at <= line.length) {
    const quoted = line[at] === '"' ? /^"((?:[^"]|"")*)" */.exec(line.slice(at)) : null
    if (quoted && (at + quoted[0].length === line.length || line[at + quoted[0].length] === delimiter)) {
      cells.push(quoted[1]!.replaceAll('""', '"').trim())
      at += quoted[0].length + 1
      continue
    }
    const next = line.indexOf(delimiter, at)
    cells.push(line.slice(at, next === -1 ? line.length : next).trim())
    if (next === -1) break
    at = next + 1
  }
  return cells
}
