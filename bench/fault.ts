/** The fault search against half-split probing and against hindsight, over invented faulty cars. */
import { bareProblem } from '../src/engineering/electrical/faults/bareFaults.ts'
import {
  type Belief,
  believe,
  type Evidence,
  prepareSearch,
  type Search,
  suspects,
} from '../src/engineering/electrical/faults/belief.ts'
import { expectedBits, nextTest } from '../src/engineering/electrical/faults/nextTest.ts'
import { inventScenario, type Scenario } from './faultCars.ts'
import { benchFaultDemo } from './faultDemo.ts'
import { calibration, milliseconds, share } from './faultRuns.ts'
import type { Row } from './rows.ts'

const SURE = 0.9
const MOST_TESTS = 25

type Chooser = (search: Search, belief: Belief, scenario: Scenario) => string | null

interface Run {
  readonly tests: number
  readonly outcome: 'right' | 'innocent' | 'alike'
  /** Every posterior of a part along the way, with whether it was the one. */
  readonly stated: readonly [number, boolean][]
  readonly slowest: number
}

const run = (search: Search, scenario: Scenario, choose: Chooser): Run => {
  const evidence: Evidence[] = []
  const stated: [number, boolean][] = []
  let slowest = 0
  for (;;) {
    const belief = believe(search, evidence)
    const list = suspects(belief)
    for (const { part, probability } of list)
      if (probability > 0.01) stated.push([probability, part === scenario.truth.element])
    const top = list[0]!
    if (top.probability > SURE)
      return {
        tests: evidence.length,
        outcome: top.part === scenario.truth.element ? 'right' : 'innocent',
        stated,
        slowest,
      }
    const from = process.cpuUsage()
    const testPoint = evidence.length < MOST_TESTS ? choose(search, belief, scenario) : null
    slowest = Math.max(slowest, milliseconds(from))
    if (testPoint === null) return { tests: evidence.length, outcome: 'alike', stated, slowest }
    evidence.push({ kind: 'reading', testPoint, volts: scenario.meter(testPoint) })
  }
}

const byInformation: Chooser = (_, belief) => nextTest(belief)?.testPoint ?? null

/** The most informative reading: one step of information search. */
const oneStep: Chooser = (_, belief) => {
  const read = new Set(belief.evidence.map((entry) => (entry.kind === 'reading' ? entry.testPoint : '')))
  const bits = expectedBits(belief).map((gain, t) => (read.has(belief.problem.testPoints[t]!.node) ? 0 : gain))
  const best = bits.indexOf(Math.max(...bits))
  return bits[best]! < 0.01 ? null : belief.problem.testPoints[best]!.node
}

/**
 * Half-split probing as a workshop does it: where the suspects that would read low (below 93 % of healthy, or off by
 * more than 1 V) and those that would not weigh most nearly the same; a point is not probed twice, and in the end all are.
 */
const halfSplit: Chooser = (search, belief) => {
  const done = new Set(belief.evidence.map((entry) => (entry.kind === 'reading' ? entry.testPoint : '')))
  let best: string | null = null
  let nearest = Number.POSITIVE_INFINITY
  belief.problem.testPoints.forEach(({ node }, t) => {
    if (done.has(node)) return
    const sound = search.healthy.mean[t]!
    let low = 0
    for (const { probability, mean } of belief.branches)
      if (mean[t]! < 0.93 * sound - 0.05 || Math.abs(mean[t]! - sound) > 1) low += probability
    if (Math.abs(low - 0.5) < nearest) {
      nearest = Math.abs(low - 0.5)
      best = node
    }
  })
  return best
}

/** Who knows the fault and wants to prove it: the reading that lifts the guilty part most. */
const hindsight: Chooser = (search, belief, scenario) => {
  let best: string | null = null
  let most = 0
  for (const { node } of belief.problem.testPoints) {
    const volts = scenario.meter(node)
    const after = believe(search, [...belief.evidence, { kind: 'reading', testPoint: node, volts }])
    const guilty = suspects(after).find(({ part }) => part === scenario.truth.element)?.probability ?? 0
    if (guilty > most) {
      most = guilty
      best = node
    }
  }
  return best
}

const campaign = (name: string, cars: number, spread: number): Row[] => {
  const choosers: [string, Chooser][] = [
    ['search', byInformation],
    ['half-split probing', halfSplit],
    ['hindsight', hindsight],
  ]
  const runs = new Map<string, Run[]>(choosers.map(([label]) => [label, []]))
  const perfect: (Run | undefined)[] = []
  let startTime = 0
  let count = 0
  for (let seed = 1; count < cars; seed++) {
    const scenario = inventScenario(seed, 3 + (seed % 6), spread)
    if (!scenario) continue
    count++
    const from = process.cpuUsage()
    const search = prepareSearch(
      bareProblem(scenario.file, scenario.hypotheses, {
        testPoints: scenario.file.testPoints,
        shortOhm: 0.01,
        fuseBlowsAt: 1.35,
      }),
    )
    startTime = Math.max(startTime, milliseconds(from))
    for (const [label, choose] of choosers) runs.get(label)!.push(run(search, scenario, choose))
    // The same car built exactly as its model, searched one step at a time by a search that knows it is.
    const exact = inventScenario(seed, 3 + (seed % 6), 0)!
    if (exact.truth.id === scenario.truth.id)
      perfect.push(run(prepareSearch({ ...search.problem, tolerances: [] }, 1), exact, oneStep))
    else perfect.push(undefined)
  }
  const rows: Row[] = []
  // Tests compared over the cars where each of the three comes to an end.
  const comparable = Array.from({ length: cars }, (_, i) => i).filter((i) =>
    choosers.every(([label]) => runs.get(label)![i]!.outcome !== 'alike'),
  )
  const mean = (label: string): number =>
    comparable.reduce((sum, i) => sum + runs.get(label)![i]!.tests, 0) / Math.max(1, comparable.length)
  for (const [label] of choosers) {
    const list = runs.get(label)!
    const found = list.filter(({ outcome }) => outcome === 'right')
    const innocent = list.filter(({ outcome }) => outcome === 'innocent').length
    rows.push({
      name: `${name}, ${label}: mean tests to ${SURE} (${comparable.length} of ${cars} cars, where all three end)`,
      value: `${mean(label).toFixed(2)}; found ${share(found.length, cars)}, cannot be told apart ${share(list.filter(({ outcome }) => outcome === 'alike').length, cars)}`,
    })
    if (label === 'search')
      rows.push({
        name: `${name}, ${label}: more than ${SURE} sure of an innocent part`,
        value: share(innocent, cars),
        reach: '≤ 2 %',
        reached: innocent <= 0.02 * cars,
      })
  }
  const list = runs.get('search')!
  const both = list.flatMap((own, i) => {
    const other = perfect[i]
    return own.outcome === 'alike' || other === undefined || other.outcome === 'alike' ? [] : [[own.tests, other.tests]]
  })
  const [tests, theirs] = [0, 1].map((k) => both.reduce((sum, pair) => sum + pair[k]!, 0) / Math.max(1, both.length))
  rows.push({
    name: `${name}: mean tests, against one step with a perfect model (${both.length} cars, where both end)`,
    value: `${tests!.toFixed(2)} against ${theirs!.toFixed(2)}`,
    reach: 'no more',
    reached: tests! <= theirs!,
  })
  const slowest = Math.max(...list.map(({ slowest: ms }) => ms))
  rows.push(
    {
      name: `${name}: slowest next test, processor time`,
      value: `${slowest.toFixed(0)} ms`,
      reach: '< 200 ms',
      reached: slowest < 200,
    },
    { name: `${name}: slowest start, processor time`, value: `${startTime.toFixed(0)} ms` },
  )
  rows.push(
    ...calibration(
      name,
      list.flatMap((entry) => entry.stated),
    ),
  )
  return rows
}

export const benchFault = (): Row[] => {
  const cars = Number(process.env.BENCH_CARS ?? 120)
  return [
    ...benchFaultDemo(),
    ...campaign('values off the model', cars, 1),
    ...campaign('values as the model', cars, 0),
    ...campaign('values twice as far off', cars, 2),
  ]
}
