/**
 * The rest of the car seen from the circuit that is searched: its loads as resistances at their solved currents, its
 * nodes eliminated one by one. Exact for the healthy car; a search has some hundred nodes instead of some four hundred.
 *   g_ij ← g_ij + g_ik·g_jk / Σ_m g_km  for each pair of neighbours i, j of an eliminated node k
 * Source: star-mesh transformation (Campbell 1911, from memory).
 * Limits: what it eliminates neither switches nor changes its law under a fault; relays there stay as they are.
 */
import type { Network, NetworkElement } from '../../engineering/electrical/network/network.ts'

/** V and S below which nothing is worth an element. */
const NO_VOLTS = 1e-3
const NO_CONDUCTANCE = 1e-9

export const REST = 'rest:'

export const reduceNetwork = (
  network: Network,
  solution: {
    readonly voltages: ReadonlyMap<string, number | null>
    readonly currents: ReadonlyMap<string, number | null>
  },
  isKept: (element: NetworkElement) => boolean,
  keptNodes: ReadonlySet<string>,
): Network => {
  const kept = network.elements.filter(isKept)
  const nodes = new Set([network.reference, ...keptNodes, ...kept.flatMap(({ a, b }) => [a, b])])
  const links = new Map<string, Map<string, number>>()
  const at = (node: string): Map<string, number> => {
    const there = links.get(node) ?? new Map<string, number>()
    links.set(node, there)
    return there
  }
  const join = (a: string, b: string, conductance: number): void => {
    if (a === b) return
    at(a).set(b, (at(a).get(b) ?? 0) + conductance)
    at(b).set(a, (at(b).get(a) ?? 0) + conductance)
  }
  const chosen = new Set(kept)
  for (const element of network.elements) {
    if (chosen.has(element)) continue
    const conductance = conductanceOf(element, solution)
    if (conductance > NO_CONDUCTANCE) join(element.a, element.b, conductance)
  }
  // Fewest neighbours first: a loom is all but a tree, so hardly any pair is added.
  const waiting = new Set([...links.keys()].filter((node) => !nodes.has(node)))
  while (waiting.size > 0) {
    let next = ''
    let fewest = Number.POSITIVE_INFINITY
    for (const node of waiting) {
      const { size } = links.get(node)!
      if (size < fewest) {
        fewest = size
        next = node
      }
      if (fewest <= 1) break
    }
    waiting.delete(next)
    const around = [...links.get(next)!]
    const sum = around.reduce((all, [, conductance]) => all + conductance, 0)
    for (const [node] of around) links.get(node)!.delete(next)
    links.delete(next)
    around.forEach(([i, gi], k) => {
      for (const [j, gj] of around.slice(k + 1)) join(i, j, (gi * gj) / sum)
    })
  }
  const rest: NetworkElement[] = []
  for (const [a, around] of links)
    for (const [b, conductance] of around)
      if (a < b && conductance > NO_CONDUCTANCE)
        rest.push({ type: 'resistor', id: `${REST}${a}~${b}`, a, b, ohm: 1 / conductance })
  return { reference: network.reference, elements: [...kept, ...rest] }
}

const conductanceOf = (
  element: NetworkElement,
  {
    voltages: volts,
    currents,
  }: { voltages: ReadonlyMap<string, number | null>; currents: ReadonlyMap<string, number | null> },
): number => {
  if (element.type === 'resistor') return 1 / element.ohm
  if (element.type === 'switch') return element.closed ? 1 / element.ohm : 0
  const current = currents.get(element.id) ?? 0
  const across = (volts.get(element.a) ?? 0) - (volts.get(element.b) ?? 0)
  // A closed contact that carries nothing is closed all the same, but nothing is lost without it.
  if (element.type === 'relayContact') return current !== 0 ? 1 / element.ohm : 0
  return Math.abs(across) > NO_VOLTS ? Math.max(0, current / across) : 0
}
