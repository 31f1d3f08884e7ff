/** The front door to calculations as declarations. A new one starts with `calculation({ … })` and a line in registry.ts. */
export { hold, isOutside } from './calculation/check.ts'
export {
  type Calculation,
  type Check,
  type Constant,
  calculation,
  choice,
  type Evidence,
  type Input,
  type Inputs,
  type Outputs,
  quantity,
  type Results,
  result,
  type Source,
  type Values,
} from './calculation/declare.ts'
export { describe } from './calculation/describe.ts'
export type { Show } from './calculation/figure.ts'
export { type Propagated, propagate, type Uncertain, type UncertainValues } from './calculation/propagate.ts'
export { type ReadQuantity, readInputs } from './calculation/read.ts'
export { type Answer, run } from './calculation/run.ts'
export { citation, type Working, working, workingLines } from './calculation/working.ts'
