/**
 * Looks at the first 256 kB and the end of a file and says how to read it. What is not a log is refused with a
 * sentence that says what it is. Every guess names the override that reverses it.
 */
import { refuse } from '../units/problem.ts'
import { isHexadecimal, splitLine } from './cells.ts'
import { decode, type FileSample, refuseOtherKinds, textForm } from './fileKind.ts'
import { findTime } from './findTime.ts'
import { chooseLayout, valueShare } from './layout.ts'
import { delimiterName, type Guess, type Overrides, type ReadingPlan, type TimeRule } from './plan.ts'
import { looksLikeUnit, plainlyUnit } from './unitSymbols.ts'

/** Unit in square or round brackets behind a name, or a known symbol behind a blank. */
export function nameAndUnit(printed: string): { name: string; unit: string } {
  const bracketed = /^(.*?)\s*[[({<]\s*([^\][(){}<>]*)\s*[\])}>]\s*$/.exec(printed)
  if (bracketed && bracketed[1] !== '' && (printed.trim().endsWith(']') || looksLikeUnit(bracketed[2]!)))
    return { name: bracketed[1]!, unit: bracketed[2]!.trim() }
  const spaced = /^(.+?)[\s_,/]+([^\s_,]+)$/.exec(printed)
  if (spaced && plainlyUnit(spaced[2]!)) return { name: spaced[1]!.trim(), unit: spaced[2]! }
  return { name: printed.trim(), unit: '' }
}

/** Blank names get their column number, repeated ones a count: no channel hides another. */
export function distinctNames(names: readonly string[]): string[] {
  const used = new Set<string>()
  return names.map((name, column) => {
    const base = name === '' ? `Column ${column + 1}` : name
    let unique = base
    for (let copy = 2; used.has(unique); copy++) unique = `${base} (${copy})`
    used.add(unique)
    return unique
  })
}

export function sniff(sample: FileSample, overrides: Overrides = {}): ReadingPlan {
  refuseOtherKinds(sample)
  const form = overrides.encoding ? { encoding: overrides.encoding, mark: textForm(sample).mark } : textForm(sample)
  const whole = sample.head.length === sample.size
  const text = decode(sample.head.subarray(form.mark), form.encoding)
  if (text.replaceAll('\u0000', '').trim() === '')
    throw refuse(
      'not-a-log',
      `${sample.name} is empty but for blank lines.`,
      'Check that the logger had finished writing it.',
    )
  const lines = text.split(/\r\n|\r|\n/)
  if (lines.length === 1 && !whole)
    throw refuse('not-a-log', `${sample.name} is one endless line, not a log.`, 'Export it with one row a line.')
  if (!whole) lines.pop()
  if (whole && lines.at(-1) === '') lines.pop()
  const guesses: Guess[] = []
  const understood: string[] = []

  const layout = chooseLayout(lines, overrides)
  if (layout === undefined) {
    if (lines.length === 1 && text.length > 2000)
      throw refuse('not-a-log', `${sample.name} is one endless line, not a log.`, 'Export it with one row a line.')
    if (
      whole &&
      lines.filter((line) => line.trim() !== '').length <= 3 &&
      /[,;\t|]/.test(text) &&
      !/[.!?]\s/.test(text)
    )
      throw refuse(
        'not-a-log',
        `${sample.name} holds names but no row of values: it is an empty log.`,
        'Check that the logger had recorded something.',
      )
    throw refuse(
      'not-a-log',
      `${sample.name} is ${/[a-z]{3,} [a-z]{2,} [a-z]{2,}/i.test(text) ? 'prose' : 'text without columns of figures'}, not a log.`,
      'Choose a file with rows of values, or say how its columns are divided.',
    )
  }
  const { delimiter, decimal } = layout
  const dataIndex = Math.max(
    overrides.dataLine === undefined ? layout.dataIndex : overrides.dataLine - 1,
    overrides.nameLine ?? 0,
    overrides.unitLine ?? 0,
  )
  const width =
    dataIndex === layout.dataIndex ? layout.width : rowWidth(splitLine(lines[dataIndex] ?? '', delimiter), layout.width)
  if (layout.rivals.length > 0)
    guesses.push({
      says: `Columns are divided by ${delimiterName(delimiter)}; ${layout.rivals.map(delimiterName).join(' or ')} would fit nearly as well.`,
      override: 'delimiter',
    })
  else understood.push(`Columns are divided by ${delimiterName(delimiter)}.`)
  if (decimal === ',') understood.push('The decimal sign is a comma.')
  if (layout.decimalUnsure)
    guesses.push({ says: `The decimal sign is taken as "${decimal}"; the figures do not say.`, override: 'decimal' })

  const cells = (index: number): string[] => splitLine(lines[index] ?? '', delimiter)
  refuseCommaPairs(sample.name, cells(dataIndex), lines.slice(0, dataIndex), delimiter, overrides)
  const isHeading = (index: number): boolean => {
    const row = trimEnd(cells(index), width)
    const filled = row.filter((cell) => cell !== '')
    return (
      row.length <= width &&
      row.length >= Math.max(1, width - 1) &&
      filled.length > width / 2 &&
      // "Remark: second run" is as many words as there are columns, but no row of names.
      !(delimiter === ' ' && filled.some((cell) => cell.endsWith(':'))) &&
      valueShare(filled, decimal) < 0.5
    )
  }
  let nameIndex = -1
  let unitIndex = -1
  const above: number[] = []
  for (let index = dataIndex - 1; index >= 0 && above.length < 2; index--) {
    if ((lines[index] ?? '').trim() === '') continue
    if (isTypeRow(cells(index))) continue
    const likeUnits = trimEnd(cells(index), width).length <= width + 1 && unitShare(cells(index)) >= 0.6
    if (!isHeading(index) && !(above.length === 0 && likeUnits && width > 1)) break
    above.push(index)
  }
  if (above.length > 0) {
    const [near, far] = above
    if (far !== undefined && unitShare(cells(near!)) >= 0.6 && unitShare(cells(near!)) > unitShare(cells(far)))
      [unitIndex, nameIndex] = [near!, far]
    else if (far !== undefined && unitShare(cells(far)) >= 0.6 && unitShare(cells(near!)) < 0.4)
      [unitIndex, nameIndex] = [far, near!]
    else nameIndex = near!
  }
  if (overrides.nameLine !== undefined) nameIndex = overrides.nameLine - 1
  if (overrides.unitLine !== undefined) unitIndex = overrides.unitLine - 1

  const printedNames = nameIndex >= 0 ? pad(cells(nameIndex), width) : Array.from({ length: width }, () => '')
  if (nameIndex < 0) guesses.push({ says: 'There is no row of names; columns are numbered.', override: 'nameLine' })
  else understood.push(`Names stand in line ${nameIndex + 1}.`)
  const split = printedNames.map(nameAndUnit)
  const names = distinctNames(split.map(({ name }) => name))
  const unitRow =
    unitIndex >= 0 ? cells(unitIndex).map((cell) => cell.replace(/^[[(<{]\s*|\s*[\])>}]$/g, '').trim()) : []
  if (unitIndex >= 0) understood.push(`Units stand in line ${unitIndex + 1}.`)
  const units = split
    .map(({ unit }, column) => (unitRow[column] ? unitRow[column]! : unit))
    .map((unit) => (/^[-–—]+$/.test(unit) ? '' : unit))

  const preamble = lines
    .slice(0, Math.max(0, nameIndex >= 0 ? nameIndex : dataIndex))
    .filter((line) => line.trim() !== '')
  if (preamble.length > 0)
    understood.push(
      `${preamble.length} line${preamble.length === 1 ? '' : 's'} before the names ${preamble.length === 1 ? 'is' : 'are'} not data.`,
    )
  const rows: string[][] = []
  for (let index = dataIndex; index < lines.length && rows.length < 400; index++) {
    const row = cells(index)
    if (row.length >= width - 1 && valueShare(row, decimal) > 0.3) rows.push(row)
  }
  const time = findTime(names, units, rows, decimal, preamble, overrides)
  const hexadecimal = overrides.hexadecimal === false ? [] : hexadecimalColumns(rows, width)
  for (const column of hexadecimal)
    guesses.push({ says: `Column "${names[column]}" is read as hexadecimal figures.`, override: 'hexadecimal' })
  const spread = overrides.spread === false ? undefined : oneValueARow(rows, width, time.rule, decimal)
  if (spread)
    guesses.push({
      says: `Each row holds one value: column "${names[spread.name]}" names its channel. Rows of one time are one sample.`,
      override: 'spread',
    })
  return {
    encoding: form.encoding,
    mark: form.mark,
    delimiter,
    decimal,
    lineEnd: lineEnds(text),
    nameLine: nameIndex + 1,
    unitLine: unitIndex + 1,
    dataLine: dataIndex + 1,
    names,
    units,
    printedNames,
    preamble,
    time: time.rule,
    sentinels: overrides.sentinels ?? true,
    hexadecimal,
    ...(spread ? { spread } : {}),
    understood: [...understood, ...time.understood],
    guesses: [...guesses, ...time.guesses],
  }
}

/** Cells of one length, two figures or more, of which some need the letters and some have none but figures. */
const hexadecimalColumns = (rows: readonly (readonly string[])[], width: number): number[] =>
  Array.from({ length: width }, (_, column) => column).filter((column) => {
    const cells = rows.map((row) => row[column] ?? '').filter((cell) => cell !== '')
    return (
      cells.length >= 4 &&
      cells.every((cell) => cell.length === cells[0]!.length && cell.length >= 2 && isHexadecimal(cell)) &&
      cells.some((cell) => /[a-f]/i.test(cell)) &&
      cells.some((cell) => /\d/.test(cell)) &&
      // A word such as "ADD" or "BEAD" comes again and again; figures with a letter are many.
      new Set(cells).size >= 4
    )
  })

/** Three or four columns: time, channel name, value and perhaps its unit. */
function oneValueARow(
  rows: readonly (readonly string[])[],
  width: number,
  time: TimeRule,
  decimal: '.' | ',',
): { name: number; value: number; unit: number } | undefined {
  if (width < 3 || width > 5 || time.column < 0 || rows.length < 6) return undefined
  const columns = Array.from({ length: width }, (_, column) => column).filter(
    (column) => column !== time.column && column !== time.dateColumn,
  )
  const cells = (column: number): string[] => rows.map((row) => row[column] ?? '')
  const texts = columns.filter((column) => cells(column).every((cell) => /\p{L}{2}|\p{L}.*\d/u.test(cell)))
  const values = columns.filter((column) => !texts.includes(column) && valueShare(cells(column), decimal) > 0.9)
  const name = texts.find((column) => {
    const different = new Set(cells(column)).size
    return (
      different >= 2 &&
      different <= rows.length / 3 &&
      !cells(column).some((cell) => /^(on|off|true|false|yes|no)$/i.test(cell))
    )
  })
  if (name === undefined || values.length !== 1) return undefined
  const unit = columns.find((column) => column !== name && column !== values[0])
  if (unit !== undefined && !cells(unit).every((cell) => cell === '' || looksLikeUnit(cell))) return undefined
  // Names that follow one another in turn, not a state that stays for many rows: else it is a channel like others.
  const names = cells(name)
  const changes = names.filter((cell, i) => i > 0 && cell !== names[i - 1]).length
  return changes > 0.5 * names.length ? { name, value: values[0]!, unit: unit ?? -1 } : undefined
}

/** A row that names how each column is stored (float, int, …) says nothing that is needed. */
const isTypeRow = (row: readonly string[]): boolean => {
  const filled = row.filter((cell) => cell !== '')
  return (
    filled.length > 0 &&
    filled.every((cell) =>
      /^(float|double|single|real|u?int|integer|[us](8|16|32)|u?int(8|16|32|64)|short|long|byte|word|number|numeric|string|bool(ean)?)(32|64)?$/i.test(
        cell,
      ),
    )
  )
}

const unitShare = (row: readonly string[]): number => {
  const filled = row.map((cell) => cell.replace(/^[[(<{]\s*|\s*[\])>}]$/g, '').trim()).filter((cell) => cell !== '')
  return filled.length === 0 ? 0 : filled.filter(looksLikeUnit).length / filled.length
}

const trimEnd = (row: string[], width: number): string[] => {
  const copy = [...row]
  while (copy.length > width && copy.at(-1) === '') copy.pop()
  return copy
}

/** Where the builder says that the values begin, that line's width counts, but for a trailing delimiter. */
const rowWidth = (row: readonly string[], usual: number): number =>
  row.length < 1 || (row.length === usual + 1 && row.at(-1) === '') ? usual : row.length

const pad = (row: string[], width: number): string[] => Array.from({ length: width }, (_, column) => row[column] ?? '')

function lineEnds(text: string): ReadingPlan['lineEnd'] {
  const pairs = text.split('\r\n').length - 1
  const returns = text.split('\r').length - 1 - pairs
  const feeds = text.split('\n').length - 1 - pairs
  const kinds = [pairs, returns, feeds].filter((count) => count > 0).length
  if (kinds > 1) return 'mixed'
  return pairs > 0 ? 'CRLF' : returns > 0 ? 'CR' : 'LF'
}

/** "0,1,800,5" under two names: the decimal comma is also the delimiter, and no reading of it is safe. */
function refuseCommaPairs(
  name: string,
  row: readonly string[],
  above: readonly string[],
  delimiter: string,
  overrides: Overrides,
): void {
  const heading = above.filter((line) => line.trim() !== '').at(-1)
  if (delimiter !== ',' || heading === undefined || overrides.nameLine !== undefined) return
  const names = splitLine(heading, ',')
  if (names.length < 2 || row.length !== 2 * names.length || !names.every((cell) => /\p{L}/u.test(cell))) return
  if (row.every((cell) => /^[-+]?\d+$/.test(cell)))
    throw refuse(
      'ambiguous-comma',
      `${name} is a log whose decimal comma and delimiter are the same sign (${names.length} names, ${row.length} figures a row), so its figures cannot be told apart.`,
      'Export it with semicolons, or with a decimal point.',
    )
}
