import type { Problem } from '../../../units/problem.ts'

interface Source {
  readonly id: string
  readonly a: string
  readonly b: string
}

/**
 * Sources without internal resistance that close a ring (side by side, or one after the other round a loop) share their
 * current in no definite way, and with unequal voltages there is no solution at all. One problem a ring, naming each
 * source of the group that hangs together.
 */
export const idealSourceLoops = (sources: readonly Source[]): Problem[] => {
  const parent = new Map<string, string>()
  const root = (node: string): string => {
    let at = node
    for (let next = parent.get(at); next !== undefined; next = parent.get(at)) at = next
    return at
  }
  const closing: string[] = []
  for (const { a, b } of sources) {
    const [from, to] = [root(a), root(b)]
    if (from === to) closing.push(to)
    else parent.set(from, to)
  }
  return [...new Set(closing.map(root))].map((ring) => {
    const ids = sources.filter(({ a }) => root(a) === ring).map(({ id }) => id)
    return {
      code: 'ideal-source-loop',
      path: `elements/${ids[0]}`,
      says: `${ids.join(' and ')} are sources without internal resistance that close a ring; how they share the current cannot be known.`,
      todo: 'Enter the internal resistance of each.',
    }
  })
}
