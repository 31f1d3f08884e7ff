import { type Problem, Refusal, refuse } from '../../../units/problem.ts'
import { parseBareNetwork } from '../network/bareNetworkFile.ts'
import { type BareHypothesis, bareProblem } from './bareFaults.ts'
import { believe, type Evidence, hypothesisProbabilities, prepareSearch, type Search, suspects } from './belief.ts'
import { nextTest } from './nextTest.ts'

/** A line of the fault-search protocol; its fields are checked when it is taken. */
export interface FaultLine {
  readonly type?: unknown
  readonly [field: string]: unknown
}

interface Answer {
  readonly posterior: Record<string, number>
  readonly next: string | null
}

const numberAbove0 = (line: FaultLine, field: string, otherwise: number): number => {
  const value = line[field]
  if (value === undefined) return otherwise
  if (typeof value === 'number' && value > 0 && Number.isFinite(value)) return value
  throw refuse(
    'out-of-range',
    `${field} is ${String(value)}; it must be a number above 0.`,
    `Give ${field}, or leave it out.`,
  )
}

const hypothesesOf = (line: FaultLine): BareHypothesis[] => {
  const problems: Problem[] = []
  const list = Array.isArray(line.hypotheses) ? (line.hypotheses as unknown[]) : []
  const ids = new Set<string>()
  list.forEach((value, i) => {
    const entry = (typeof value === 'object' && value !== null ? value : {}) as Record<string, unknown>
    const { id, element, mode, weight } = entry
    const sound =
      typeof id === 'string' &&
      typeof element === 'string' &&
      (mode === 'open' || mode === 'short' || (typeof mode === 'number' && mode > 0 && Number.isFinite(mode))) &&
      typeof weight === 'number' &&
      weight > 0 &&
      Number.isFinite(weight)
    if (!sound)
      problems.push({
        code: 'bad-hypothesis',
        path: `hypotheses/${i}`,
        says: `Hypothesis ${i + 1} is not { "id", "element", "mode": "open", "short" or ohms, "weight" above 0 }.`,
        todo: 'Mend it.',
      })
    else if (ids.has(id))
      problems.push({
        code: 'duplicate-id',
        path: `hypotheses/${i}`,
        says: `Two hypotheses are called ${id}.`,
        todo: 'Give each its own id.',
      })
    else ids.add(id)
  })
  if (list.length === 0)
    problems.push({
      code: 'missing-list',
      path: 'hypotheses',
      says: 'There are no hypotheses.',
      todo: 'Give at least one.',
    })
  if (problems.length > 0) throw new Refusal(problems)
  return list as BareHypothesis[]
}

/**
 * One search after another, line by line. Returns the answer to a line, or nothing where the protocol has none.
 * Throws `Refusal` on a line that cannot be understood; the search then stands where it stood.
 */
export const faultSession = (): ((line: FaultLine) => Answer | undefined) => {
  let search: Search | undefined
  let evidence: readonly Evidence[] = []
  const answer = (): Answer => {
    const belief = believe(search!, evidence)
    const [top] = suspects(belief)
    const found = top !== undefined && top.probability > belief.problem.sure
    return {
      posterior: Object.fromEntries(hypothesisProbabilities(belief)),
      next: found ? null : (nextTest(belief)?.testPoint ?? null),
    }
  }
  return (line) => {
    if (line.type === 'start') {
      const file = parseBareNetwork(line.network)
      const points = Array.isArray(line.test_points) ? (line.test_points as unknown[]) : file.testPoints
      const unknown = points.filter((node) => typeof node !== 'string' || !file.nodes.includes(node))
      if (unknown.length > 0)
        throw refuse(
          'unknown-node',
          `Test point ${String(unknown[0])} is not a node of the network.`,
          'Name its nodes.',
        )
      const problem = bareProblem(file, hypothesesOf(line), {
        testPoints: points as string[],
        shortOhm: numberAbove0(line, 'short_ohm', 0.01),
        fuseBlowsAt: numberAbove0(line, 'fuse_blows_at', 1.35),
      })
      search = prepareSearch(problem)
      evidence = []
      return answer()
    }
    if (line.type === 'reading') {
      if (!search) throw refuse('no-search', 'A reading came before any start.', 'Send a start first.')
      const { test_point: testPoint, volts } = line
      if (typeof testPoint !== 'string' || typeof volts !== 'number' || !Number.isFinite(volts))
        throw refuse('bad-reading', 'A reading needs "test_point" and "volts" as a number.', 'Mend it.')
      if (!search.problem.testPoints.some(({ node }) => node === testPoint))
        throw refuse('unknown-node', `${testPoint} is not one of the test points.`, 'Name one of them.')
      evidence = [...evidence, { kind: 'reading', testPoint, volts }]
      return answer()
    }
    if (line.type === 'stop') {
      search = undefined
      evidence = []
      return undefined
    }
    throw refuse(
      'unknown-type',
      `A line of type ${String(line.type)} is not known.`,
      'Send start, reading, stop or end.',
    )
  }
}
