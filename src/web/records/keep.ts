/** An edit made from what a person said; what keeps it from being made comes back in words. */
import type { Edit } from '../../model/build.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { bench } from '../workbench/bench.ts'

export const keep = (make: () => Edit): readonly Problem[] => {
  try {
    bench.edit(make())
    return []
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return error.problems
  }
}
