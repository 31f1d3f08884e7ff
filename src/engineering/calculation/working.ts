/** Shows the working: the formula, the same with numbers put in, the results, and what they rest on. */
import type { Calculation, Constant, Inputs, Outputs, Source } from './declare.ts'
import { fillFormula } from './declare.ts'
import { plain, type Show, showSi } from './figure.ts'
import { propagate, type UncertainValues } from './propagate.ts'

export interface Working {
  readonly formula: string
  readonly withNumbers: string
  /** `symbol = figure unit`, with ± where an input has one. */
  readonly results: readonly string[]
  readonly sources: readonly string[]
  readonly limits: readonly string[]
  readonly warnings: readonly string[]
  readonly cautions: readonly string[]
}

export const citation = (source: Source): string => {
  const how = {
    read: '',
    memory: ' [from memory]',
    computed: ' [computed here]',
    'common practice': ' [common practice, no published source]',
  }[source.how]
  return `${source.title}${source.where ? `, ${source.where}` : ''}${how}`
}

/** The formula in the source's symbols. */
export function symbolic<I extends Inputs, O extends Outputs>(calc: Calculation<I, O>): string {
  const symbols: Record<string, { readonly symbol: string }> = { ...calc.inputs, ...calc.outputs, ...calc.constants }
  return fillFormula(calc.formula, (name) => symbols[name]!.symbol)
}

const showConstant = ({ value, unit }: Constant): string => (unit === '1' ? plain(value) : `${plain(value)} ${unit}`)

/** Throws what `propagate` throws. */
export function working<I extends Inputs, O extends Outputs>(
  calc: Calculation<I, O>,
  given: UncertainValues<I>,
  show: Show = showSi,
): Working {
  const { outputs, warnings } = propagate(calc, given, show)
  const put = (name: string): string => {
    const input = calc.inputs[name]
    if (input) {
      const raw: unknown = given[name]
      if (input.type === 'choice') return String(raw)
      const value = typeof raw === 'object' && raw !== null ? (raw as { value: number }).value : (raw as number)
      // A formula multiplies absolute temperatures: “25 °C × …” misleads whoever reckons it again.
      return input.kind === 'temperature' ? showSi(input.kind, value) : show(input.kind, value)
    }
    const output = calc.outputs[name]
    // A result stands by its symbol on the left of its own line; its figure is in `results`.
    return output ? output.symbol : showConstant(calc.constants![name]!)
  }
  return {
    formula: symbolic(calc),
    withNumbers: fillFormula(calc.formula, put, (text) => (/\s/.test(text) ? `(${text})` : text)),
    results: Object.entries(calc.outputs).map(([name, output]) => {
      const { value, plusMinus } = outputs[name]!
      return `${output.symbol} = ${show(output.kind, value, plusMinus === 0 ? undefined : plusMinus)}  (${output.about})`
    }),
    sources: [...calc.sources, ...Object.values(calc.constants ?? {}).map((constant) => constant.source)]
      .map(citation)
      .filter((line, index, all) => all.indexOf(line) === index),
    limits: calc.limits,
    warnings: warnings.map((warning) => `${warning.says} ${warning.todo}`),
    cautions: calc.cautions,
  }
}

/** The working as plain lines, in the order a person reads them. */
export const workingLines = (shown: Working): readonly string[] => [
  ...shown.formula.split('\n'),
  ...shown.withNumbers.split('\n').map((line) => `with numbers: ${line}`),
  ...shown.results,
  ...shown.warnings.map((line) => `Look again: ${line}`),
  ...shown.cautions.map((line) => `Caution: ${line}`),
  ...shown.limits.map((line) => `Holds for: ${line}`),
  ...shown.sources.map((line) => `Source: ${line}`),
]
