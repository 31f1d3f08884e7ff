import type { Network, NetworkElement, Overrides } from '../network/network.ts'

/**
 * What a fault does to a network, as data. Ohms as the fault leaves them.
 *   open     the element is not there            ohm     it has taken another resistance, up to `within` times off
 *   chafed   a wire touches `to` half way along  bridge  so many ohms between two nodes, up to `within` times off
 */
export type Effect =
  | { readonly kind: 'open'; readonly element: string }
  | { readonly kind: 'ohm'; readonly element: string; readonly ohm: number; readonly within?: number }
  | { readonly kind: 'chafed'; readonly element: string; readonly to: string; readonly ohm: number }
  | { readonly kind: 'bridge'; readonly a: string; readonly b: string; readonly ohm: number; readonly within?: number }

const bridgeId = (a: string, b: string): string => `bridge:${[a, b].sort().join('~')}`

/** Pairs of nodes that an effect ties and the healthy network does not. */
const ties = (effect: Effect, byId: ReadonlyMap<string, NetworkElement>): [string, string][] => {
  if (effect.kind === 'bridge') return effect.a === effect.b ? [] : [[effect.a, effect.b]]
  if (effect.kind !== 'chafed') return []
  const wire = byId.get(effect.element)
  // One that touches the node it ends at stays a wire, only shorter.
  if (!wire || wire.a === effect.to || wire.b === effect.to) return []
  return [wire.a, wire.b].map((end) => [end, effect.to])
}

/** The network with an open switch wherever some effect may tie two nodes, so that one factorisation serves them all. */
export const withTies = (network: Network, effects: readonly Effect[]): Network => {
  const byId = new Map(network.elements.map((element) => [element.id, element]))
  const added = new Map<string, NetworkElement>()
  for (const effect of effects)
    for (const [a, b] of ties(effect, byId)) {
      const id = bridgeId(a, b)
      if (!byId.has(id)) added.set(id, { type: 'switch', id, a, b, closed: false, ohm: 1 })
    }
  return { ...network, elements: [...network.elements, ...added.values()] }
}

/**
 * The overrides that put effects into a network made by `withTies`. A wire chafed half way is a star of two half wires
 * and the short, given as its delta (Kennelly 1899, from memory), so that it needs no node of its own.
 */
export const overridesOf = (effects: readonly Effect[], byId: ReadonlyMap<string, NetworkElement>): Overrides => {
  const set: Record<string, Record<string, number | boolean>> = {}
  const remove: string[] = []
  const tie = (a: string, b: string, ohm: number): void => {
    const id = bridgeId(a, b)
    const there = set[id]?.ohm
    // Two effects at one place conduct side by side.
    set[id] = { closed: true, ohm: typeof there === 'number' ? 1 / (1 / there + 1 / ohm) : ohm }
  }
  for (const effect of effects) {
    if (effect.kind === 'open') remove.push(effect.element)
    else if (effect.kind === 'ohm') set[effect.element] = { ohm: effect.ohm }
    else if (effect.kind === 'bridge') tie(effect.a, effect.b, effect.ohm)
    else {
      const wire = byId.get(effect.element)
      if (wire?.type !== 'resistor') continue
      const half = 2 / wire.ohm
      const short = 1 / effect.ohm
      if (wire.a === effect.to || wire.b === effect.to) {
        set[wire.id] = { ohm: 1 / half + 1 / (half + short) }
        continue
      }
      const all = 2 * half + short
      set[wire.id] = { ohm: all / (half * half) }
      tie(wire.a, effect.to, all / (half * short))
      tie(wire.b, effect.to, all / (half * short))
    }
  }
  for (const id of remove) delete set[id]
  return { set, remove }
}

/**
 * For each fault the place of the first that does the same to the network: what is open and what comes and goes are one
 * network, and solved once. A fault with a range of ohms is like none but itself.
 */
export const firstAlike = (faults: readonly { readonly effects: readonly Effect[] }[]): readonly number[] => {
  const first = new Map<string, number>()
  return faults.map(({ effects }, h) => {
    if (effects.some((effect) => effect.kind === 'ohm' || 'within' in effect)) return h
    const key = JSON.stringify(effects)
    const place = first.get(key) ?? h
    first.set(key, place)
    return place
  })
}
