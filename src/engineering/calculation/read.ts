/** Typed text to inputs: `{ length: '2 m 30', metal: 'copper' }`. A door that knows more (ambient pressure, the unit beside a field) brings its own reader. */
import type { Kind } from '../../units/kinds.ts'
import { parseQuantity } from '../../units/parse.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import type { Calculation, Inputs, Outputs } from './declare.ts'
import type { Uncertain } from './propagate.ts'

/** Reads one quantity to SI; throws `Refusal` for text it cannot read. A ± in the text comes back with it. */
export type ReadQuantity = (kind: Kind, text: string) => number | Uncertain

const readPlain: ReadQuantity = (kind, text) => {
  const { value, plusMinus } = parseQuantity(kind, text)
  return plusMinus === undefined ? value : { value, plusMinus }
}

/** Every text that cannot be read is told at once. Names that the calculation lacks pass through, for `run` to refuse. */
export function readInputs<I extends Inputs, O extends Outputs>(
  calc: Calculation<I, O>,
  typed: Readonly<Record<string, string>>,
  readQuantity: ReadQuantity = readPlain,
): Record<string, string | number | Uncertain> {
  const problems: Problem[] = []
  const read: Record<string, string | number | Uncertain> = {}
  for (const [name, text] of Object.entries(typed)) {
    const input = Object.hasOwn(calc.inputs, name) ? calc.inputs[name] : undefined
    try {
      read[name] = input?.type === 'quantity' ? readQuantity(input.kind, text) : text.trim()
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      problems.push(...error.problems.map((problem) => ({ ...problem, path: name, says: `${name}: ${problem.says}` })))
    }
  }
  if (problems.length > 0) throw new Refusal(problems)
  return read
}
