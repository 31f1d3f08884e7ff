/**
 * The ± of a result from the ± of its inputs: first order, central differences, root sum of squares. Every ± here is
 * the half width of a 95 % interval; inputs are taken as independent.
 * Source: JCGM 100:2008 (GUM) clause 5.1.2 [from memory]; held to Monte Carlo (JCGM 101) in the tests.
 */
import { type Problem, Refusal } from '../../units/problem.ts'
import type { Calculation, Inputs, Outputs, Values } from './declare.ts'
import { type Show, showSi } from './figure.ts'
import { faults, unanswered, unusual } from './run.ts'

export interface Uncertain {
  readonly value: number
  /** Half width of the 95 % interval, SI; 0 is exact. */
  readonly plusMinus: number
}
export type UncertainValues<I extends Inputs> = {
  [Name in keyof I]: Values<I>[Name] | (number extends Values<I>[Name] ? Uncertain : never)
}

export interface Propagated {
  readonly value: number
  readonly plusMinus: number
  /** Share of the variance by input, 0 … 1; empty when nothing is uncertain. */
  readonly shares: Readonly<Record<string, number>>
}

/** Small against the interval, large against rounding. */
const STEP = 1e-3
/** How far the ends of an interval may leave the tangent before the first-order ± is called rough. */
const CURVED = 0.1

const isUncertain = (given: unknown): given is Uncertain =>
  typeof given === 'object' && given !== null && 'plusMinus' in given

/** Throws `Refusal` as `run` does, and `bad-plus-minus` for a ± that is negative, not finite, or on a choice or a count. */
export function propagate<I extends Inputs, O extends Outputs>(
  calc: Calculation<I, O>,
  given: UncertainValues<I>,
  show: Show = showSi,
): { readonly outputs: { readonly [Name in keyof O]: Propagated }; readonly warnings: readonly Problem[] } {
  const middle: Record<string, unknown> = {}
  const spread: Record<string, number> = {}
  const problems: Problem[] = []
  for (const [name, value] of Object.entries(given)) {
    middle[name] = isUncertain(value) ? value.value : value
    if (!isUncertain(value)) continue
    const input = calc.inputs[name]
    if (!(value.plusMinus >= 0 && Number.isFinite(value.plusMinus)))
      problems.push({
        code: 'bad-plus-minus',
        path: name,
        says: `The ± of ${name} is ${value.plusMinus}.`,
        todo: 'Enter the half width of its 95 % interval, 0 or more.',
      })
    else if (value.plusMinus > 0 && (input?.type === 'choice' || (input?.type === 'quantity' && input.whole)))
      problems.push({
        code: 'bad-plus-minus',
        path: name,
        says: `${name} is a ${input.type === 'choice' ? 'choice' : 'count'} and has no ±.`,
        todo: 'Leave the ± away.',
      })
    else if (value.plusMinus > 0) spread[name] = value.plusMinus
  }
  problems.push(...faults(calc, middle, show))
  if (problems.length > 0) throw new Refusal(problems)

  const at = middle as Values<I>
  const centre = calc.compute(at)
  const lost = unanswered(calc, centre)
  if (lost.length > 0) throw new Refusal(lost)
  const warnings = unusual(calc, at, show)
  const parts = new Map<string, Record<string, number>>()
  const rough = new Set<string>()
  for (const [name, plusMinus] of Object.entries(spread)) {
    const value = middle[name] as number
    const allowed = (x: number): boolean => faults(calc, { ...middle, [name]: x }, show).length === 0
    const step = plusMinus * STEP
    const answerAt = (x: number) => {
      if (!allowed(x)) return undefined
      const there = calc.compute({ ...at, [name]: x })
      return Object.keys(calc.outputs).every((output) => Number.isFinite(there[output])) ? there : undefined
    }
    // At the very edge of its range, or of where there is an answer, an input can be stepped one way only.
    const [lower, higher] = [answerAt(value - step), answerAt(value + step)]
    const [low, high] = [lower ? value - step : value, higher ? value + step : value]
    if (high === low)
      throw new Refusal([
        {
          code: 'bad-plus-minus',
          path: name,
          says: `The ± of ${name} cannot be followed: the input stands at both ends of what is allowed.`,
          todo: 'Leave the ± away, or look at the inputs it depends on.',
        },
      ])
    const [below, above] = [lower ?? centre, higher ?? centre]
    const far = [value - plusMinus, value + plusMinus].map(answerAt)
    if (far.includes(undefined)) {
      warnings.push({
        code: 'interval-beyond-range',
        path: name,
        says: `${name} ± reaches beyond what this calculation allows.`,
        todo: 'Take the ± of the result as rough.',
      })
    }
    for (const output of Object.keys(calc.outputs)) {
      const slope = (above[output]! - below[output]!) / (high - low)
      const part = slope * plusMinus
      parts.set(output, { ...parts.get(output), [name]: part })
      far.forEach((end, index) => {
        const tangent = index === 0 ? -part : part
        if (
          end &&
          Math.abs(end[output]! - centre[output]! - tangent) >
            CURVED * Math.max(Math.abs(part), 1e-12 * Math.abs(centre[output]!))
        )
          rough.add(output)
      })
    }
  }
  for (const output of rough) {
    warnings.push({
      code: 'rough-plus-minus',
      path: output,
      says: `${calc.outputs[output]!.about} bends within the ± of its inputs, so its own ± is rough.`,
      todo: 'Run it at both ends of the inputs to see the spread.',
    })
  }
  const outputs = Object.fromEntries(
    Object.keys(calc.outputs).map((output) => {
      const own = parts.get(output) ?? {}
      const variance = Object.values(own).reduce((sum, part) => sum + part * part, 0)
      const shares = Object.fromEntries(
        Object.entries(own).map(([name, part]) => [name, variance === 0 ? 0 : (part * part) / variance]),
      )
      return [output, { value: centre[output]!, plusMinus: Math.sqrt(variance), shares }]
    }),
  )
  return { outputs: outputs as { [Name in keyof O]: Propagated }, warnings }
}
