/** A chain of stations from source to sink, and the arithmetic on figures that may be lacking. */
import {
  type Calculation,
  type Inputs,
  type Outputs,
  propagate,
  type UncertainValues,
  working,
  workingLines,
} from '../../engineering/calculation.ts'
import type { Kind } from '../../units/kinds.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import type { Verdict } from '../finding.ts'

/** SI, with the half width of its 95 % interval. */
export interface Known {
  readonly value: number
  readonly plusMinus: number
  /** How it came about, one line each. */
  readonly working: readonly string[]
}
export interface Lacking {
  /** The data to enter or measure. */
  readonly missing: readonly string[]
  /** What a calculation refused, with the likely cause. */
  readonly problems: readonly Problem[]
}
export type Datum = Known | Lacking

export const isKnown = (datum: Datum): datum is Known => 'value' in datum
export const known = (value: number, plusMinus = 0, ...lines: readonly string[]): Known => ({
  value,
  plusMinus,
  working: lines,
})
export const lacking = (...missing: readonly string[]): Lacking => ({ missing, problems: [] })
/** What a sheet holds, or the name of what it lacks. */
export const entered = (
  measure: { readonly value: number; readonly plusMinus?: number | undefined } | undefined,
  name: string,
): Datum =>
  measure === undefined ? lacking(name) : known(measure.value, measure.plusMinus ?? 0, `${name}, as entered`)

export const lackOf = (data: readonly Datum[]): Lacking | undefined => {
  const without = data.filter((datum) => !isKnown(datum)) as readonly Lacking[]
  if (without.length === 0) return undefined
  return {
    missing: [...new Set(without.flatMap(({ missing }) => missing))],
    problems: without
      .flatMap(({ problems }) => problems)
      .filter((problem, index, all) => all.findIndex(({ says }) => says === problem.says) === index),
  }
}

type Given<I extends Inputs> = {
  readonly [Name in keyof I]: Datum | (I[Name] extends { readonly type: 'choice' } ? string : number)
}

/** Runs a calculation on data; every output is lacking where an input is, or where the inputs are refused. */
export const step = <I extends Inputs, O extends Outputs>(
  calc: Calculation<I, O>,
  given: Given<I>,
): { readonly [Name in keyof O]: Datum } => {
  const names = Object.keys(calc.outputs) as (keyof O)[]
  const all = (datum: Datum) => Object.fromEntries(names.map((name) => [name, datum])) as { [Name in keyof O]: Datum }
  const data = Object.values(given).filter((each): each is Datum => typeof each === 'object')
  const lack = lackOf(data)
  if (lack) return all(lack)
  const inputs = Object.fromEntries(
    Object.entries(given).map(([name, each]) => [
      name,
      typeof each === 'object' ? { value: (each as Known).value, plusMinus: (each as Known).plusMinus } : each,
    ]),
  ) as UncertainValues<I>
  try {
    const { outputs } = propagate(calc, inputs)
    // Only what is opened is written out: a chain is reckoned anew on every keystroke.
    let lines: readonly string[] | undefined
    const write = (): readonly string[] => {
      lines ??= [calc.title, ...workingLines(working(calc, inputs))]
      return lines
    }
    return Object.fromEntries(
      names.map((name) => {
        const { value, plusMinus } = outputs[name]
        return [
          name,
          Object.defineProperty({ value, plusMinus }, 'working', { get: write, enumerable: true }) as unknown as Known,
        ]
      }),
    ) as { [Name in keyof O]: Datum }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return all({ missing: [], problems: error.problems })
  }
}

/** First order, inputs independent; `line` says the sum in words and figures. Only for sums too small to declare. */
export const combine = (data: readonly Datum[], sum: (...values: readonly number[]) => number, line: string): Datum => {
  const lack = lackOf(data)
  if (lack) return lack
  const terms = data as readonly Known[]
  const values = terms.map(({ value }) => value)
  const value = sum(...values)
  const parts = terms.map((term, index) =>
    term.plusMinus === 0
      ? 0
      : sum(...values.map((each, at) => (at === index ? each + term.plusMinus * 1e-3 : each))) * 1e3 - value * 1e3,
  )
  return known(value, Math.hypot(...parts), line)
}

export type Origin = 'computed' | 'measured' | 'entered'
export interface Figure {
  readonly id: string
  readonly name: string
  readonly symbol: string
  readonly kind: Kind
  readonly datum: Datum
  readonly origin: Origin
  /** Where a reading stands in its place: what had been reckoned. */
  readonly superseded?: Datum
  /** Id of that reading. */
  readonly reading?: string
  /** What the trade writes it in, where that is not the usual unit of its kind. */
  readonly unit?: string
}
export interface Station {
  readonly id: string
  readonly name: string
  /** What is there, in a few words. */
  readonly about: string
  readonly figures: readonly Figure[]
  /** Worst of the findings about this station; absent: nothing is judged here. */
  readonly verdict?: Verdict
  readonly says?: string
  /** What this station supports in the chain’s one currency: engine power (W), on the driveline engine torque (N·m). */
  readonly capacity?: Datum
  /** Where a sensor goes to log it. */
  readonly sensor?: string
  /** Of the work that its figures ask for. */
  readonly cautions?: readonly string[]
}
export interface Chain {
  readonly id: 'fuel' | 'air' | 'cooling' | 'brakes' | 'driveline' | 'services'
  readonly title: string
  readonly stations: readonly Station[]
}

export const figure = (
  id: string,
  name: string,
  symbol: string,
  kind: Kind,
  datum: Datum,
  origin: Origin = 'computed',
): Figure => ({ id, name, symbol, kind, datum, origin })
