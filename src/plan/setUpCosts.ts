/**
 * Published sequencing instances through the same engine: a matrix of set-up costs, where −1 in row i, column j means
 * that j comes before i. Format: sequential ordering problems of TSPLIB 95, G. Reinelt, University of Heidelberg.
 * The first row is the start and the last the end.
 */
import { type Bits, has } from './bits.ts'
import { bestSequence, type Sequence, type SequenceOptions } from './sequence.ts'
import type { Sequencing } from './sequencing.ts'

export const orderBySetUpCosts = (
  matrix: readonly (readonly number[])[],
  options: SequenceOptions = {},
): Promise<Sequence> => {
  const size = matrix.length
  // Node 0 is where one stands at the beginning, so it is no task; task t is node t + 1.
  const before = matrix.slice(1).map((row) => row.flatMap((cost, node) => (cost === -1 && node > 0 ? [node - 1] : [])))
  const cost = (config: Bits, task: number): number => matrix[config[0]!]![task + 1]!
  /** Cheapest way into a node and out of it, over pairs that precedence lets follow each other. */
  const into = matrix.map((_, node) => least(matrix.map((row, other) => (other === node ? -1 : row[node]!))))
  const outOf = matrix.map((row, node) => least(row.filter((_, other) => other !== node)))
  const problem: Sequencing = {
    size: size - 1,
    before,
    start: Int32Array.of(0),
    cost,
    move: (_, task) => Int32Array.of(task + 1),
    covers: (first, second) => first[0] === second[0],
    atLeast: (config, ready, done) => {
      let entering = 0
      let leaving = Math.min(...ready.map((task) => cost(config, task)))
      for (let task = 0; task < size - 1; task++)
        if (!has(done, task)) {
          entering += into[task + 1]!
          if (task !== size - 2) leaving += outOf[task + 1]!
        }
      return Math.max(entering, leaving)
    },
  }
  return bestSequence(problem, options)
}

const least = (costs: readonly number[]): number => {
  const allowed = costs.filter((cost) => cost >= 0)
  return allowed.length === 0 ? 0 : Math.min(...allowed)
}
