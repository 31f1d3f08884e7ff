/** Volts at the terminals of what feeds the car in this case: the alternator while it delivers, else the battery. */
import type { NetworkElement } from '../engineering/electrical/network/network.ts'
import type { Solved } from './solveCases.ts'

/** A. Less is no delivery. */
const DELIVERS = 0.1

const known = new WeakMap<readonly NetworkElement[], readonly NetworkElement[]>()
/** Among hundreds of elements two or three; asked once for every load and what-if. */
const sourcesIn = (elements: readonly NetworkElement[]): readonly NetworkElement[] => {
  const before = known.get(elements)
  if (before) return before
  const sources = elements.filter(({ type }) => type === 'alternator' || type === 'battery')
  known.set(elements, sources)
  return sources
}

export const sourceVolts = ({
  bound,
  elements,
  nodes,
}: Pick<Solved, 'bound' | 'elements' | 'nodes'>): number | undefined => {
  const sources = sourcesIn(bound.network.elements)
  const across = (type: 'alternator' | 'battery'): number[] =>
    sources.flatMap((element) => {
      if (element.type !== type || -(elements.get(element.id) ?? 0) <= DELIVERS) return []
      const [a, b] = [nodes.get(element.a), nodes.get(element.b)]
      return a != null && b != null ? [a - b] : []
    })
  const alternator = across('alternator')
  const feeding = alternator.length > 0 ? alternator : across('battery')
  return feeding.length === 0 ? undefined : Math.max(...feeding)
}
