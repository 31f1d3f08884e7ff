/** The order of jobs: published instances to their known optima; 200 jobs and 30 accesses with the gap that is proven. */
import { largeBuild } from '../src/plan/large.testing.ts'
import { planTo } from '../src/plan/plan.ts'
import { orderBySetUpCosts } from '../src/plan/setUpCosts.ts'
import { planSitting } from '../src/plan/sitting.ts'
import { loadSolver } from '../src/plan/solver.ts'
import { INSTANCES } from '../src/plan/sop.testing.ts'
import type { Row } from './rows.ts'

const TODAY = '2025-06-01'
const hours = (seconds: number): string => `${(seconds / 3600).toFixed(2)} h`

export const benchPlan = async (): Promise<Row[]> => {
  const rows: Row[] = []
  for (const { name, matrix, optimum } of INSTANCES) {
    const began = performance.now()
    const { cost, proven, states } = await orderBySetUpCosts(matrix, { within: 30 })
    const took = (performance.now() - began) / 1000
    rows.push({
      name: `TSPLIB ${name}`,
      value: `${cost}${proven ? ', proven' : ''}, ${states} states, ${took.toFixed(2)} s`,
      reach: `${optimum}`,
      reached: cost === optimum && proven,
    })
  }
  // Five builds by rule: few needs between the jobs, and many.
  for (const [seed, chain] of [
    [1, 0.6],
    [2, 0.6],
    [3, 0.4],
    [4, 0.2],
    [5, 0],
  ] as const) {
    const build = largeBuild(200, seed, chain)
    const plan = await planTo(build, { today: TODAY })
    const accesses = Object.keys(build.collections.accesses).length
    rows.push({
      name: `200 jobs, ${accesses} accesses, build ${seed}`,
      value: `${hours(plan.openings)}, no order under ${hours(plan.bound)}: gap ${(plan.gap * 100).toFixed(2)} %, ${plan.took.toFixed(1)} s (as listed ${hours(plan.asListed)})`,
      reach: 'gap ≤ 3 % where provable, < 10 s',
      reached: plan.gap <= 0.03 && plan.took < 10,
    })
  }
  const solve = await loadSolver()
  let slowest = 0
  let unproven = 0
  let count = 0
  for (const seed of [1, 2, 3, 4])
    for (const time of [1, 2.5, 5, 8])
      for (const end of ['apart', 'closed'] as const) {
        const began = performance.now()
        const sitting = planSitting(largeBuild(200, seed, 0.4), { time: time * 3600, today: TODAY, end }, solve)
        slowest = Math.max(slowest, (performance.now() - began) / 1000)
        count++
        if (!sitting.proven) unproven++
      }
  rows.push({
    name: `sitting, ${count} questions of 200 jobs`,
    value: `slowest ${slowest.toFixed(2)} s, ${count - unproven} proven best`,
    reach: '< 1 s',
    reached: slowest < 1,
  })
  return rows
}
