/** Runs a declaration: every input looked at first, every fault told at once, nothing clamped, nothing filled in. */
import type { Kind } from '../../units/kinds.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import type { Calculation, Inputs, Outputs, QuantityInput, Results, Values } from './declare.ts'
import { plain, type Show, showSi, withUnit } from './figure.ts'

export interface Answer<O extends Outputs> {
  readonly outputs: Results<O>
  /** Inputs that are allowed but unusual. */
  readonly warnings: readonly Problem[]
}

const rangeOf = (input: QuantityInput, low: number, high: number): string =>
  withUnit(input.kind, `${plain(low)} … ${plain(high)}`)

function faultOf(name: string, input: Inputs[string], given: unknown, show: Show): Problem | undefined {
  if (given === undefined) {
    return {
      code: 'missing-input',
      path: name,
      says: `${name} (${input.about}) is not given.`,
      todo:
        input.type === 'choice'
          ? `Choose one of ${input.options.join(', ')}.`
          : `Enter it, between ${rangeOf(input, input.min, input.max)}.`,
    }
  }
  if (input.type === 'choice') {
    if (typeof given === 'string' && input.options.includes(given)) return undefined
    return {
      code: 'unknown-choice',
      path: name,
      says: `${name} “${String(given)}” is not a choice.`,
      todo: `Choose one of ${input.options.join(', ')}.`,
    }
  }
  if (typeof given !== 'number' || !Number.isFinite(given)) {
    return {
      code: 'not-a-number',
      path: name,
      says: `${name} “${String(given)}” is not a number.`,
      todo: `Enter ${input.about} as a number.`,
    }
  }
  if (given < input.min || given > input.max) {
    return {
      code: 'out-of-range',
      path: name,
      says: `${name} ${show(input.kind, given)} is outside ${rangeOf(input, input.min, input.max)}.`,
      todo: `Enter ${input.about} within that range; beyond it this calculation does not hold.`,
    }
  }
  if (input.whole && !Number.isInteger(given)) {
    return {
      code: 'not-whole',
      path: name,
      says: `${name} ${plain(given)} is not a whole number.`,
      todo: `Count ${input.about}.`,
    }
  }
  return undefined
}

/** Every fault of the inputs, in the order declared. Conditions between inputs are looked at once each stands alone. */
export function faults<I extends Inputs, O extends Outputs>(
  calc: Calculation<I, O>,
  given: Readonly<Record<string, unknown>>,
  show: Show = showSi,
): Problem[] {
  const found = Object.entries(calc.inputs).flatMap(([name, input]) => faultOf(name, input, given[name], show) ?? [])
  for (const name of Object.keys(given)) {
    if (!Object.hasOwn(calc.inputs, name))
      found.push({
        code: 'unknown-input',
        path: name,
        says: `${calc.title} has no input “${name}”.`,
        todo: `Its inputs are ${Object.keys(calc.inputs).join(', ')}.`,
      })
  }
  if (found.length > 0) return found
  return (calc.conditions ?? [])
    .filter((condition) => !condition.holds(given as Values<I>))
    .map(({ at, says, todo }) => ({ code: 'inconsistent-inputs', path: at, says, todo }))
}

export function unusual<I extends Inputs, O extends Outputs>(
  calc: Calculation<I, O>,
  given: Values<I>,
  show: Show = showSi,
): Problem[] {
  return Object.entries(calc.inputs).flatMap(([name, input]) => {
    if (input.type !== 'quantity' || !input.plausible) return []
    const [low, high] = input.plausible
    const value = given[name as keyof I] as number
    if (value >= low && value <= high) return []
    return [
      {
        code: 'unusual',
        path: name,
        says: `${name} ${show(input.kind, value)} is unusual; ${rangeOf(input, low, high)} is to be expected.`,
        todo: `Check ${input.about} and its unit.`,
      },
    ]
  })
}

/** Kinds that end at 0: absolute zero, and an empty vessel. */
const BELOW_NOTHING: Readonly<Partial<Record<Kind, string>>> = {
  temperature: 'below absolute zero',
  pressureAbsolute: 'below a vacuum',
}

/** Outputs that are no figure, or one that nothing can have. */
export function unanswered<I extends Inputs, O extends Outputs>(
  calc: Calculation<I, O>,
  outputs: Results<O>,
): Problem[] {
  return Object.entries(calc.outputs).flatMap(([name, { about, kind }]) => {
    const value = outputs[name] as number
    if (!Number.isFinite(value))
      return [
        {
          code: 'no-answer',
          path: name,
          says: `${calc.title} gives no figure for ${about} from these inputs.`,
          todo: 'Look at its limits and its inputs.',
        },
      ]
    const below = BELOW_NOTHING[kind]
    if (below === undefined || value >= 0) return []
    return [
      {
        code: 'no-answer',
        path: name,
        says: `${calc.title} puts ${about} ${below}: these inputs cannot all be right.`,
        todo: 'Look at each input and its unit, gauge or absolute pressure among them.',
      },
    ]
  })
}

/**
 * The outputs, SI. Throws `Refusal` with every problem: `missing-input`, `unknown-input`, `unknown-choice`,
 * `not-a-number`, `not-whole`, `out-of-range`, `inconsistent-inputs`; `no-answer` when inputs in range give no figure, or
 * one that nothing can have.
 */
export function run<I extends Inputs, O extends Outputs>(
  calc: Calculation<I, O>,
  given: Values<I>,
  show: Show = showSi,
): Answer<O> {
  const found = faults(calc, given, show)
  if (found.length > 0) throw new Refusal(found)
  const outputs = calc.compute(given)
  const lost = unanswered(calc, outputs)
  if (lost.length > 0) throw new Refusal(lost)
  return { outputs, warnings: unusual(calc, given, show) }
}
