/**
 * Linear and mixed-integer programs by HiGHS (Huangfu and Hall, Math. Prog. Comp. 10 (2018) 119–142), compiled for the
 * browser and Node alike. It computes on the thread that asks: a page asks from a worker.
 */
import type { Highs } from 'highs'
import packaged from 'highs'

export interface Solved {
  readonly optimal: boolean
  readonly objective: number
  readonly values: ReadonlyMap<string, number>
}
/** Solves a program in the LP format that CPLEX made common. Names: letters, digits and underscores. */
export type Solve = (program: string, seconds: number) => Solved

/** A little choice that needs branching, so that all of the solver has run once. */
const WARMING = `Maximize
 o: 9 a + 7 b + 6 c + 5 d + 4 e + 3 f
Subject To
 r: 5 a + 4 b + 3.5 c + 3 d + 2.5 e + 2 f <= 9.3
 s: a - f <= 0
 t: c - d <= 0
Binaries
 a
 b
 c
 d
 e
 f
End`

/** Optimal to this much of the objective: in a sitting, counted in hours, a third of a second. */
const ABSOLUTE_GAP = 1e-4

/** The package's types stand for its older form, whose loader is inside a `default`; what is imported is the loader. */
const load = packaged as unknown as (options: { readonly locateFile?: () => string }) => Promise<Highs>

/** `place`: where a page finds highs.wasm. */
export const loadSolver = async (place?: string): Promise<Solve> => {
  const highs = await load(place === undefined ? {} : { locateFile: () => place })
  // The first program is slow while its machine code is still being made; that is no part of anybody's time limit.
  highs.solve(WARMING)
  return (program, seconds) => {
    const found = highs.solve(program, { time_limit: seconds, mip_rel_gap: 0, mip_abs_gap: ABSOLUTE_GAP })
    if (found.Status !== 'Optimal' && found.Status !== 'Time limit reached')
      throw new Error(`The solver ended with “${found.Status}”.`)
    return {
      optimal: found.Status === 'Optimal',
      objective: found.ObjectiveValue,
      values: new Map(
        Object.entries(found.Columns).map(([name, column]) => [name, 'Primal' in column ? column.Primal : Number.NaN]),
      ),
    }
  }
}
