/** Which delimiter and decimal sign make the lines into rows of values, and where the values begin. */
import { type CellResult, NOTHING, NUMBER, oddCell, splitLine } from './cells.ts'
import type { Overrides } from './plan.ts'
import { clockSeconds, dateSeconds, dateTimeSeconds } from './timeText.ts'
import { looksLikeUnit } from './unitSymbols.ts'

export interface Layout {
  readonly delimiter: string
  readonly decimal: '.' | ','
  readonly width: number
  /** Index of the first line of values. */
  readonly dataIndex: number
  /** Delimiters that fit nearly as well. */
  readonly rivals: readonly string[]
  readonly decimalUnsure: boolean
}

const STATE = /^(on|off|true|false|yes|no|open|closed|high|low|active|inactive|ein|aus|n|p|r|d)$/i
const PLAIN = { '.': /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i, ',': /^[-+]?(\d+,?\d*|,\d+)(e[-+]?\d+)?$/i }
const scratch: CellResult = { kind: 0, value: 0, suffix: '' }

/** Whether a cell is a value: a number, a clock, a date, a usual switch word. A blank is neither. */
function isValue(cell: string, decimal: '.' | ','): boolean {
  const text = cell.trim()
  if (PLAIN[decimal].test(text) || STATE.test(text)) return true
  oddCell(text, decimal, scratch)
  if (scratch.kind === NUMBER || scratch.kind === NOTHING) return true
  return (
    clockSeconds(text) !== undefined ||
    dateTimeSeconds(text, true) !== undefined ||
    dateTimeSeconds(text, false) !== undefined ||
    (/\D/.test(text) && (dateSeconds(text, true) ?? dateSeconds(text, false)) !== undefined)
  )
}

/** Share of the filled cells that are values. */
export function valueShare(cells: readonly string[], decimal: '.' | ','): number {
  const filled = cells.filter((cell) => /\S/.test(cell))
  return filled.length === 0 ? 0 : filled.filter((cell) => isValue(cell, decimal)).length / filled.length
}

interface Fit {
  readonly delimiter: string
  readonly decimal: '.' | ','
  readonly width: number
  readonly score: number
  readonly dataIndex: number
}

function layoutWith(lines: readonly string[], delimiter: string, decimal: '.' | ','): Fit | undefined {
  const sample = lines.length <= 300 ? lines : [...lines.slice(0, 100), ...lines.slice(-200)]
  const filled = sample.filter((line) => line.replaceAll('\u0000', '').trim() !== '')
  const counts = new Map<number, number>()
  const rows = filled.map((line) => splitLine(line, delimiter))
  const shares = rows.map((row) => valueShare(row, decimal))
  rows.forEach((row, i) => {
    if (shares[i]! >= 0.4) counts.set(row.length, (counts.get(row.length) ?? 0) + 1)
  })
  let width = 0
  let most = 0
  for (const [count, lineCount] of counts) {
    if (lineCount > most || (lineCount === most && count > width)) {
      width = count
      most = lineCount
    }
  }
  if (width === 0 || (delimiter !== '' && width < 2)) return undefined
  // A trailing delimiter makes every row one blank cell longer than its names.
  const fitting = rows
    .map((row, i) => ({ row, share: shares[i]! }))
    .filter(({ row, share }) => row.length === width && share >= 0.4)
  const trailing =
    fitting.every(({ row }) => row.at(-1) === '') &&
    fitting.length > 0 &&
    rows.some(
      (row) =>
        row.length === width - 1 ||
        (row.length === width && row.at(-1) === '' && row.slice(0, -1).every((cell) => cell !== '')),
    )
  const columns = trailing && width > 2 ? width - 1 : width
  const value = fitting.reduce((sum, { share }) => sum + share, 0) / fitting.length
  const dataIndex = lines.findIndex((line, index) => startsData(lines, index, delimiter, decimal, width, line))
  if (dataIndex < 0) return undefined
  return { delimiter, decimal, width: columns, dataIndex, score: (most / filled.length) * value ** 2 }
}

function startsData(
  lines: readonly string[],
  index: number,
  delimiter: string,
  decimal: '.' | ',',
  width: number,
  line: string,
): boolean {
  const good = (text: string): boolean => {
    const row = splitLine(text, delimiter)
    return Math.abs(row.length - width) <= 0 && valueShare(row, decimal) >= 0.4
  }
  if (!good(line) || isUnitRow(splitLine(line, delimiter), decimal)) return false
  const following = lines.slice(index + 1, index + 6).filter((text) => text.trim() !== '')
  return following.length === 0 || following.filter(good).length >= following.length / 2
}

/** Units with dashes where a channel has none: the dashes would pass for missing values, and the row for the first. */
const isUnitRow = (row: readonly string[], decimal: '.' | ','): boolean =>
  row.some((cell) => /[\p{L}%]/u.test(cell) && !STATE.test(cell) && looksLikeUnit(cell)) &&
  row.every((cell) => /^[-–—]*$/.test(cell) || !isValue(cell, decimal))

export function chooseLayout(lines: readonly string[], overrides: Overrides): Layout | undefined {
  const delimiters = overrides.delimiter === undefined ? ['\t', ';', ',', '|', ' ', ''] : [overrides.delimiter]
  const fits: Fit[] = []
  for (const delimiter of delimiters) {
    const signs: ('.' | ',')[] = overrides.decimal ? [overrides.decimal] : ['.', ',']
    const both = signs.map((decimal) => layoutWith(lines, delimiter, decimal)).filter((found) => found !== undefined)
    // Decimal comma only where it explains more of the cells: with equal scores the point stands.
    both.sort((a, b) => b.score - a.score || (a.decimal === '.' ? -1 : 1))
    if (both[0]) fits.push(commaByGroups(lines, both, overrides))
  }
  // Several columns beat one; blanks count as a delimiter only where no printed one serves.
  const rank = (found: Fit): number => found.score * (found.delimiter === '' ? 0.5 : found.delimiter === ' ' ? 0.9 : 1)
  fits.sort((a, b) => rank(b) - rank(a))
  const chosen = fits[0]
  if (chosen === undefined || (chosen.score < 0.12 && overrides.delimiter === undefined)) return undefined
  const best = { ...chosen, ...earlierSection(lines, chosen) }
  const rivals = fits
    .filter((other) => other !== chosen && other.delimiter !== '' && rank(other) > 0.9 * rank(best))
    .map((other) => other.delimiter)
  const text = lines.slice(best.dataIndex, best.dataIndex + 300).join('\n')
  const decimalUnsure =
    overrides.decimal === undefined &&
    best.delimiter !== ',' &&
    /\d,\d{3}(?!\d)/.test(text) &&
    !/\d,\d{1,2}(?!\d)|\d,\d{4}|\d\.\d/.test(text)
  return {
    delimiter: best.delimiter,
    decimal: best.decimal,
    width: best.width,
    dataIndex: best.dataIndex,
    rivals,
    decimalUnsure,
  }
}

/**
 * A file may change its columns on the way, behind a second row of names. The width most rows have is then not that of
 * the first section, and what stands before would pass for a preamble: values under names that come again later are
 * the first section.
 */
function earlierSection(lines: readonly string[], { delimiter, decimal, dataIndex, width }: Fit): Partial<Fit> {
  if (delimiter === '') return {}
  const names = (index: number): string[] =>
    splitLine(lines[index] ?? '', delimiter).filter((cell) => /\p{L}/u.test(cell))
  const later = new Set([dataIndex - 1, dataIndex - 2].flatMap(names))
  const fits = (index: number, cells: number): boolean => {
    const row = splitLine(lines[index] ?? '', delimiter)
    return row.length === cells && valueShare(row, decimal) >= 0.4
  }
  for (let index = 1; index + 2 < dataIndex; index++) {
    const cells = splitLine(lines[index]!, delimiter).length
    if (cells < 2 || cells === width || ![0, 1, 2].every((step) => fits(index + step, cells))) continue
    const above = [...names(index - 1), ...names(index - 2)]
    if (above.some((name) => later.has(name))) return { width: cells, dataIndex: index }
  }
  return {}
}

/** "0,125" reads as a number either way (decimal, or thousands): count which sign ever stands before other than three digits. */
function commaByGroups(lines: readonly string[], both: readonly Fit[], overrides: Overrides): Fit {
  const best = both[0]!
  const other = both.find(({ decimal }) => decimal !== best.decimal)
  if (other === undefined || overrides.decimal !== undefined || other.score < 0.8 * best.score) return best
  let comma = 0
  let point = 0
  for (const line of lines.slice(best.dataIndex, best.dataIndex + 400)) {
    for (const cell of splitLine(line, best.delimiter)) {
      if (/^[-+]?\d+,\d+(e[-+]?\d+)?$/i.test(cell) && !/^[-+]?[1-9]\d{0,2},\d{3}$/.test(cell)) comma++
      else if (/^[-+]?(\d{1,3}(\.\d{3})+,\d+)$/.test(cell)) comma++
      else if (/^[-+]?\d+\.\d+(e[-+]?\d+)?$/i.test(cell)) point++
      else if (/^[-+]?[1-9]\d{0,2},\d{3}$/.test(cell)) comma += 0.01
    }
  }
  return both.find(({ decimal }) => decimal === (comma > point ? ',' : '.')) ?? best
}
