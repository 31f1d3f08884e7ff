/** Which column is time and in what form, from the names, units and the first rows of values. */
import { type CellResult, NUMBER, oddCell } from './cells.ts'
import type { Guess, Overrides, TimeForm, TimeRule } from './plan.ts'
import { guessRoles } from './roles.ts'
import { clockSeconds, dateSeconds, dateTimeSeconds, dayOrder } from './timeText.ts'

export interface TimeFound {
  readonly rule: TimeRule
  readonly guesses: readonly Guess[]
  readonly understood: readonly string[]
}

const TIME_NAME =
  /^(t|time|timestamp|time ?stamp|elapsed( ?time)?|log ?time|logger ?time|rel(ative)? ?time|abs(olute)? ?time|session ?time|seconds?|secs?|millis(econds)?|zeit|uhrzeit|temps|tempo|tiempo|clock|offset|epoch|unix ?time|utc|date ?time|ms(ec)?|[uµ]s(ec)?)$/i
const SAMPLE_NAME =
  /^(#|n|no\.?|nr\.?|sample( ?(no|number|index|#))?\.?|record( ?(no|number))?|index|idx|row|frame|count(er)?|scan)$/i
const UNIT_FORM: Readonly<Record<string, TimeForm>> = {
  s: 'seconds',
  sec: 'seconds',
  secs: 'seconds',
  second: 'seconds',
  seconds: 'seconds',
  ms: 'milliseconds',
  msec: 'milliseconds',
  millis: 'milliseconds',
  milliseconds: 'milliseconds',
  us: 'microseconds',
  µs: 'microseconds',
  usec: 'microseconds',
  microseconds: 'microseconds',
  min: 'minutes',
  mins: 'minutes',
  minutes: 'minutes',
  h: 'hours',
  hours: 'hours',
}

/** "Sample rate: 50 Hz", "Interval 20 ms" in the lines before the names. */
export function statedRate(preamble: readonly string[]): number | undefined {
  for (const line of preamble) {
    const rate = /(?:rate|frequency)[^\d-]{0,24}(\d+(?:[.,]\d+)?)\s*(?:hz|\/s|sps|samples)/i.exec(line)
    if (rate) return Number(rate[1]!.replace(',', '.'))
    const behind = /(?:interval|period|step)[^\d-]{0,24}(\d+(?:[.,]\d+)?)\s*(ms|s)\b/i.exec(line)
    const bracketed = /(?:interval|period|step)\s*[[(](ms|s)[\])][^\d-]{0,24}(\d+(?:[.,]\d+)?)/i.exec(line)
    const [unit, figure] = behind ? [behind[2]!, behind[1]!] : bracketed ? [bracketed[1]!, bracketed[2]!] : ['', '']
    const length = Number(figure.replace(',', '.'))
    if (length > 0) return (unit.toLowerCase() === 'ms' ? 1000 : 1) / length
  }
  return undefined
}

const columnOf = (names: readonly string[], wanted: string | number): number =>
  typeof wanted === 'number' ? wanted - 1 : names.findIndex((name) => name.toLowerCase() === wanted.toLowerCase())

export function findTime(
  names: readonly string[],
  units: readonly string[],
  rows: readonly (readonly string[])[],
  decimal: '.' | ',',
  preamble: readonly string[],
  overrides: Overrides,
): TimeFound {
  const guesses: Guess[] = []
  const understood: string[] = []
  const rate = overrides.rate ?? statedRate(preamble)
  const texts = (column: number): string[] => rows.map((row) => row[column] ?? '').filter((cell) => cell.trim() !== '')
  const share = (column: number, test: (cell: string) => boolean): number => {
    const cells = texts(column)
    return cells.length === 0 ? 0 : cells.filter(test).length / cells.length
  }
  const numbers = (column: number): number[] => {
    const cell: CellResult = { kind: 0, value: 0, suffix: '' }
    const found: number[] = []
    for (const text of texts(column)) {
      oddCell(text, decimal, cell)
      const value = decimal === ',' ? Number(text.replace(',', '.')) : Number(text)
      if (Number.isFinite(value)) found.push(value)
      else if (cell.kind === NUMBER) found.push(cell.value)
    }
    return found
  }
  const finish = (rule: TimeRule): TimeFound => ({
    rule: { ...rule, ...(rate === undefined ? {} : { rate }) },
    guesses,
    understood,
  })
  const rowCount = (why: string): TimeFound => {
    if (rate === undefined)
      guesses.push({ says: `${why} Time is unknown until the samples per second are given.`, override: 'rate' })
    else understood.push(`${why} Time counts rows at ${rate} samples a second.`)
    return finish({ form: rate === undefined ? 'none' : 'sample-number', column: -1 })
  }

  const texted = (column: number): TimeRule | undefined => {
    const order = dayOrder(texts(column))
    const dayFirst = overrides.dayFirst ?? order ?? true
    const noteOrder = (): void => {
      if (
        order === undefined &&
        overrides.dayFirst === undefined &&
        texts(column).some((text) => /^\d{1,2}[-/]/.test(text))
      )
        guesses.push({ says: 'Dates like 03/04 are taken day first.', override: 'dayFirst' })
    }
    if (share(column, (cell) => dateTimeSeconds(cell, dayFirst) !== undefined) > 0.8) {
      noteOrder()
      return { form: 'date-time', column, dayFirst }
    }
    if (share(column, (cell) => clockSeconds(cell) !== undefined) > 0.8) {
      const date = names.findIndex(
        (_, other) =>
          other !== column &&
          share(
            other,
            (cell) =>
              (/\D/.test(cell) && dateSeconds(cell, true) !== undefined) ||
              (dateSeconds(cell, false) !== undefined && /\D/.test(cell)),
          ) > 0.8,
      )
      if (date < 0) return { form: 'clock', column }
      const dateOrder = dayOrder(texts(date))
      if (
        dateOrder === undefined &&
        overrides.dayFirst === undefined &&
        texts(date).some((text) => /^\d{1,2}[-/]/.test(text))
      )
        guesses.push({ says: 'Dates like 03/04 are taken day first.', override: 'dayFirst' })
      return { form: 'date-and-clock', column, dateColumn: date, dayFirst: overrides.dayFirst ?? dateOrder ?? true }
    }
    return undefined
  }

  const numeric = (column: number, named: boolean): TimeRule | undefined => {
    const values = numbers(column)
    if (values.length === 0 || values.length < 0.8 * texts(column).length) return undefined
    const steps = values
      .slice(1)
      .map((value, i) => value - values[i]!)
      .filter((step) => step > 0)
      .sort((a, b) => a - b)
    const step = steps[Math.floor(steps.length / 2)] ?? 0
    const unit = UNIT_FORM[(units[column] ?? '').toLowerCase()] ?? UNIT_FORM[names[column]!.toLowerCase()]
    const largest = Math.max(...values)
    if (unit === undefined || unit === 'seconds' || unit === 'milliseconds') {
      if (largest > 1e9 && largest < 5e9 && unit !== 'milliseconds') return { form: 'epoch', column }
      if (largest > 1e12 && largest < 5e12 && unit !== 'seconds') return { form: 'epoch-milliseconds', column }
    }
    if (unit) return { form: unit, column }
    if (!named) return undefined
    const whole = values.every(Number.isInteger)
    const form: TimeForm = whole && step >= 5 ? 'milliseconds' : 'seconds'
    guesses.push({
      says: `The time column "${names[column]}" names no unit; it is taken as ${form}${whole && step >= 5 ? ` (whole numbers ${step} apart)` : ''}.`,
      override: 'timeForm',
    })
    return { form, column }
  }

  if (overrides.timeColumn === null) return rowCount('There is no time column.')
  if (overrides.timeColumn !== undefined) {
    const column = columnOf(names, overrides.timeColumn)
    if (column >= 0 && column < names.length) {
      const rule = overrides.timeForm ? { form: overrides.timeForm, column } : (texted(column) ?? numeric(column, true))
      const dates =
        rule && !('dayFirst' in rule)
          ? { ...rule, dayFirst: overrides.dayFirst ?? dayOrder(texts(column)) ?? true }
          : rule
      if (dates) return finish(dates)
    }
    guesses.push({
      says: `No column is called "${overrides.timeColumn}"; the time was looked for elsewhere.`,
      override: 'timeColumn',
    })
  }

  const named = names
    .map((_, column) => column)
    .filter((column) => TIME_NAME.test(names[column]!.replace(/[_-]/g, ' ').trim()))
  for (const column of [...named, ...names.map((_, column) => column).filter((column) => !named.includes(column))]) {
    const rule = texted(column)
    if (rule) return finish(overrides.timeForm ? { ...rule, form: overrides.timeForm } : rule)
    if (column === named.at(-1)) break
  }
  for (const column of named) {
    const rule = overrides.timeForm ? { form: overrides.timeForm, column } : numeric(column, true)
    if (rule) return finish(rule)
  }
  const sample = names.findIndex((name) => SAMPLE_NAME.test(name.replace(/[_-]/g, ' ').trim()))
  if (sample >= 0 && numbers(sample).every(Number.isInteger) && nearlyRising(numbers(sample))) {
    if (rate === undefined)
      return { ...rowCount(`Column "${names[sample]}" counts samples.`), rule: { form: 'none', column: sample } }
    understood.push(`Column "${names[sample]}" counts samples at ${rate} a second.`)
    return finish({ form: 'sample-number', column: sample })
  }
  const counted = numbers(0)
  if (
    rate !== undefined &&
    names.length > 1 &&
    names[0] === 'Column 1' &&
    counted.every(Number.isInteger) &&
    isEven(counted) &&
    counted[1]! - counted[0]! === 1
  ) {
    guesses.push({ says: `The first column counts samples at ${rate} a second.`, override: 'timeColumn' })
    return finish({ form: 'sample-number', column: 0 })
  }
  const byUnit = names.findIndex(
    (_, column) =>
      column === 0 && UNIT_FORM[(units[column] ?? '').toLowerCase()] !== undefined && isRising(numbers(column)),
  )
  if (byUnit >= 0) {
    const rule = numeric(byUnit, true)
    if (rule) {
      guesses.push({
        says: `Column "${names[byUnit]}" rises steadily and is taken as the time.`,
        override: 'timeColumn',
      })
      return finish(rule)
    }
  }
  if (names.length > 1 && rate === undefined && isEven(numbers(0)) && rows.length >= 4 && !meansSomething(names[0]!)) {
    const rule = numeric(0, true)
    if (rule) {
      guesses.push({ says: `The first column rises evenly and is taken as the time.`, override: 'timeColumn' })
      return finish(rule)
    }
  }
  return rowCount('No time column was found.')
}

/** A channel whose name says what it is can rise evenly without being the time. */
const meansSomething = (name: string): boolean =>
  guessRoles([{ name, unit: '', min: null, mean: null, max: null }]).length > 0

const isRising = (values: readonly number[]): boolean =>
  values.length > 1 && values.every((value, i) => i === 0 || value > values[i - 1]!)

/** As a time does that restarts, rolls over or holds a stray stamp now and then. */
const nearlyRising = (values: readonly number[]): boolean =>
  values.length > 1 &&
  values.filter((value, i) => i > 0 && !(value > values[i - 1]!)).length <= Math.max(1, 0.02 * values.length)

function isEven(values: readonly number[]): boolean {
  if (!(values.length < 20 ? isRising(values) : nearlyRising(values))) return false
  const steps = values.slice(1).map((value, i) => value - values[i]!)
  const middle = [...steps].sort((a, b) => a - b)[Math.floor(steps.length / 2)]!
  return steps.filter((step) => Math.abs(step - middle) < 0.25 * middle).length >= 0.9 * steps.length
}
