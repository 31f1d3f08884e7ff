/** What a calculation is: one declaration, from which command, form, working, ±, reference page and test all come. */
import type { Kind } from '../../units/kinds.ts'

/** Where a formula, constant or figure comes from, and how we know it. */
export interface Source {
  readonly title: string
  /** Page, table, clause or address. */
  readonly where?: string
  /** `read`: seen in the source. `memory`: recalled, not seen. `computed`: arithmetic of ours. `common practice`: no published source. */
  readonly how: 'read' | 'memory' | 'computed' | 'common practice'
}

export interface QuantityInput {
  readonly type: 'quantity'
  readonly kind: Kind
  readonly symbol: string
  /** SI, both ends allowed. Outside it the formula does not hold and the calculation refuses. */
  readonly min: number
  readonly max: number
  /** SI. Outside it the calculation answers, and warns that the figure is unusual. */
  readonly plausible?: readonly [number, number]
  /** A count of things: injectors, strands. Fractions are refused and it has no ±. */
  readonly whole?: boolean
  readonly about: string
}
export interface ChoiceInput<Option extends string = string> {
  readonly type: 'choice'
  readonly options: readonly Option[]
  readonly symbol: string
  readonly about: string
}
export type Input = QuantityInput | ChoiceInput
export type Inputs = Readonly<Record<string, Input>>

export interface Output {
  readonly kind: Kind
  readonly symbol: string
  readonly about: string
}
export type Outputs = Readonly<Record<string, Output>>

export interface Constant {
  readonly symbol: string
  readonly value: number
  /** Of `value`, as written in the formula: `Ω·m`, `1/K`. */
  readonly unit: string
  readonly source: Source
}

type ValueOf<In extends Input> = In extends ChoiceInput<infer Option> ? Option : number
export type Values<I extends Inputs> = { [Name in keyof I]: ValueOf<I[Name]> }
export type Results<O extends Outputs> = { [Name in keyof O]: number }

/** A condition that several inputs must meet together. All that fail are reported. */
export interface Condition<I extends Inputs> {
  /** Input at fault; a string, since `keyof I` would forbid one list of calculations of any inputs. */
  readonly at: string
  holds(inputs: Values<I>): boolean
  readonly says: string
  readonly todo: string
}

export type Evidence = 'published' | 'library' | 'law' | 'common practice'
export interface Check<I extends Inputs> {
  readonly inputs: Values<I>
  readonly output: string
  /** SI. */
  readonly expected: number
  readonly tolerance: { readonly rel: number } | { readonly abs: number }
  /** Why this tolerance, in a few words: digits printed, chart reading. */
  readonly because: string
  readonly source: Source
  readonly evidence: Evidence
}

export interface Calculation<I extends Inputs = Inputs, O extends Outputs = Outputs> {
  readonly id: string
  readonly title: string
  readonly inputs: I
  readonly outputs: O
  readonly constants?: Readonly<Record<string, Constant>>
  /** One line a step; `{name}` stands for an input, an output or a constant. */
  readonly formula: string
  readonly sources: readonly Source[]
  readonly cautions: readonly string[]
  readonly limits: readonly string[]
  readonly conditions?: readonly Condition<I>[]
  readonly checks: readonly Check<I>[]
  /** SI in, SI out. Pure; sees only values within range. A method, so that calculations of any inputs stand in one list. */
  compute(inputs: Values<I>): Results<O>
}

export const quantity = (kind: Kind, rest: Omit<QuantityInput, 'type' | 'kind'>): QuantityInput => ({
  type: 'quantity',
  kind,
  ...rest,
})

export const choice = <const Option extends string>(
  options: readonly Option[],
  rest: { readonly symbol: string; readonly about: string },
): ChoiceInput<Option> => ({ type: 'choice', options, ...rest })

export const result = (kind: Kind, rest: Omit<Output, 'kind'>): Output => ({ kind, ...rest })

const PLACE = /\{(\w+)\}/g

/**
 * Declares a calculation. Throws plain Error for a declaration that contradicts itself: that is our mistake, never the
 * builder's, and no build of the program with such a declaration passes its tests.
 */
export function calculation<const I extends Inputs, const O extends Outputs>(
  declared: Calculation<I, O>,
): Calculation<I, O> {
  const names = [
    ...Object.keys(declared.inputs),
    ...Object.keys(declared.outputs),
    ...Object.keys(declared.constants ?? {}),
  ]
  if (new Set(names).size !== names.length)
    throw new Error(`${declared.id}: a name is used twice among inputs, outputs and constants`)
  for (const [, name] of declared.formula.matchAll(PLACE)) {
    if (!names.includes(name!))
      throw new Error(`${declared.id}: formula names {${name}}, which is no input, output or constant`)
  }
  for (const [name, input] of Object.entries(declared.inputs)) {
    if (input.type === 'quantity' && !(input.min < input.max))
      throw new Error(`${declared.id}: range of ${name} is empty`)
  }
  return declared
}

/** The formula with every `{name}` replaced; what `raised` returns stands before a power, so that its unit is raised too. */
export const fillFormula = (
  formula: string,
  put: (name: string) => string,
  raised: (text: string) => string = (text) => text,
): string =>
  formula.replace(/\{(\w+)\}([²³⁴^]?)/g, (_whole, name: string, power: string) =>
    power === '' ? put(name) : `${raised(put(name))}${power}`,
  )
