import { expect, it } from 'vitest'
import { orderBySetUpCosts } from './setUpCosts.ts'
import { INSTANCES } from './sop.testing.ts'

// Optima: see sop.testing.ts.
it.each(INSTANCES)('proves the published optimum of $name, $optimum', async ({ matrix, optimum }) => {
  const found = await orderBySetUpCosts(matrix, { within: 30 })
  expect(found.cost).toBe(optimum)
  expect(found.bound).toBe(optimum)
  expect(found.proven).toBe(true)
  // The order itself keeps precedence and costs what is said: task t is node t + 1.
  const nodes = [0, ...found.order.map((task) => task + 1)]
  expect([...nodes].sort((a, b) => a - b)).toEqual(matrix.map((_, node) => node))
  nodes.forEach((node, at) => {
    for (const later of nodes.slice(at + 1)) expect(matrix[node]![later]).not.toBe(-1)
  })
  expect(nodes.slice(1).reduce((sum, node, at) => sum + matrix[nodes[at]!]![node]!, 0)).toBe(optimum)
})
