/** A declaration as JSON, for `--list --json`, the web form and the reference page. */
import { KINDS } from '../../units/kinds.ts'
import type { Calculation, Inputs, Outputs } from './declare.ts'
import { symbolic } from './working.ts'

export function describe<I extends Inputs, O extends Outputs>(calc: Calculation<I, O>) {
  return {
    id: calc.id,
    title: calc.title,
    formula: symbolic(calc),
    inputs: Object.entries(calc.inputs).map(([name, input]) =>
      input.type === 'choice'
        ? { name, type: input.type, symbol: input.symbol, about: input.about, options: input.options }
        : {
            name,
            type: input.type,
            symbol: input.symbol,
            about: input.about,
            kind: input.kind,
            unit: KINDS[input.kind].si,
            min: input.min,
            max: input.max,
            ...(input.plausible ? { plausible: input.plausible } : {}),
            ...(input.whole ? { whole: true } : {}),
          },
    ),
    outputs: Object.entries(calc.outputs).map(([name, output]) => ({ name, ...output, unit: KINDS[output.kind].si })),
    constants: Object.entries(calc.constants ?? {}).map(([name, constant]) => ({ name, ...constant })),
    sources: calc.sources,
    limits: calc.limits,
    cautions: calc.cautions,
    checks: calc.checks.map((check) => ({ ...check, unit: KINDS[calc.outputs[check.output]!.kind].si })),
  }
}
