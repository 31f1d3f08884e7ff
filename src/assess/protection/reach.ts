/** Which conductors stand behind which fuse, and which end of each is the far one. */
import type { Build } from '../../model/build.ts'
import { type Circuit, type Link, spread } from '../circuit.ts'
import type { Context } from '../context.ts'
import { endpointOf, own, restrictedWire } from '../make.ts'
import { twoPins } from '../pins.ts'

/** Fault current passes wires, splices and contacts; a fuse ends the stretch, and so do loads, which no link crosses. */
export const live = (link: Link): boolean => link.kind === 'wire' || link.kind === 'inside' || link.kind === 'contact'
/** What joins for good: no switch or relay can part it. */
export const lasting = (link: Link): boolean => link.kind === 'wire' || link.kind === 'inside'

/** Contacts of one device that are never closed together: the two throws of a changeover, the positions of a switch. */
const apart = (build: Build, first: Link, second: Link): boolean => {
  if (first.kind !== 'contact' || second.kind !== 'contact' || first.id !== second.id || first === second) return false
  const spec = own(build.collections.devices, first.id)?.spec
  if (spec?.kind === 'relay') return true
  if (spec?.kind !== 'switch') return false
  const joins = ({ a, b }: Link) => {
    const ends = [a, b].sort().join(' ')
    return (pair: readonly [string, string]) =>
      pair
        .map((pin) => endpointOf(first.id, pin))
        .sort()
        .join(' ') === ends
  }
  return !Object.values(spec.positions).some((pairs) => pairs.some(joins(first)) && pairs.some(joins(second)))
}

/**
 * What a fuse feeds: over wires, splices and contacts, but never in by one throw of a changeover and out by the other, for
 * what stands on the other throw is another feed's. Wires are told once, with the end that lies farther from the start.
 */
const fedBy = (
  build: Build,
  circuit: Circuit,
  start: string,
  open: (link: Link) => boolean,
): { readonly nodes: ReadonlySet<string>; readonly wires: readonly Protected[] } => {
  const nodes = new Set([start])
  const wires = new Map<string, Protected>()
  // A way on hangs on the link by which a node was reached: never straight back, never from throw to throw.
  const arrivals = new Map<string, Set<Link>>()
  const queue: (readonly [node: string, by: Link | undefined])[] = [[start, undefined]]
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    const [node, by] = at
    for (const link of circuit.linksAt.get(node) ?? []) {
      if (link === by || !open(link) || (by !== undefined && apart(build, by, link))) continue
      const next = link.a === node ? link.b : link.a
      if (link.kind === 'wire' && !wires.has(link.id)) wires.set(link.id, { wire: link.id, far: next })
      const here = arrivals.get(next) ?? new Set<Link>()
      arrivals.set(next, here)
      // From two wires everything at a node is open, the two themselves included: a third adds nothing.
      if (here.has(link) || (link.kind !== 'contact' && [...here].filter(({ kind }) => kind !== 'contact').length >= 2))
        continue
      here.add(link)
      nodes.add(next)
      queue.push([next, link])
    }
  }
  return { nodes, wires: [...wires.values()] }
}

export interface Protected {
  readonly wire: string
  /** Endpoint farthest from the fuse. */
  readonly far: string
}
export interface Reach {
  readonly fuse: string
  /** Endpoints of its two sides. */
  readonly source: string
  readonly load: string
  readonly below: readonly Protected[]
}

const known = new WeakMap<Context['circuit'], readonly Reach[]>()

/** Every fuse that a source reaches, with the wires from its load side to the next fuse that no source reaches otherwise. */
export const reachOf = ({ build, circuit }: Pick<Context, 'build' | 'circuit'>): readonly Reach[] => {
  const before = known.get(circuit)
  if (before) return before
  // A fuse's source side is the one that lies nearer to a battery: found fuse by fuse, outward. An alternator comes after
  // the batteries, so that its cable stands behind the fuse at its battery end.
  let reached = spread(circuit, circuit.positive, live)
  const result: Reach[] = []
  const fuses = Object.values(build.collections.devices).filter(({ spec }) => spec.kind === 'fuse')
  const done = new Set<string>()
  const outward = () => {
    for (let found = true; found; ) {
      found = false
      const next = new Set(reached)
      for (const fuse of fuses) {
        if (done.has(fuse.id)) continue
        const two = twoPins(fuse)
        if (!two) continue
        const [a, b] = two.map((pin) => endpointOf(fuse.id, pin)) as [string, string]
        if (!reached.has(a) && !reached.has(b)) continue
        done.add(fuse.id)
        found = true
        const [source, load] = reached.has(a) ? [a, b] : [b, a]
        let below: readonly Protected[] = []
        if (!reached.has(load)) {
          const before = reached
          const area = fedBy(build, circuit, load, (link) => live(link) && !before.has(link.a) && !before.has(link.b))
          below = area.wires
          for (const node of area.nodes) next.add(node)
        }
        result.push({ fuse: fuse.id, source, load, below })
      }
      reached = next
    }
  }
  outward()
  const alone = circuit.alternators.filter((node) => !reached.has(node))
  if (alone.length > 0) {
    reached = new Set([...reached, ...spread(circuit, alone, live)])
    outward()
  }
  known.set(circuit, result)
  return result
}

/** The wires that each fuse protects: from its load side to the next fuse, and where its source is, none above it. */
export const protectedBy = (context: Context): Map<string, string[]> =>
  new Map(reachOf(context).map(({ fuse, below }) => [fuse, below.map(({ wire }) => wire)]))

/** Whether a fuse feeds an airbag or anti-lock circuit as well: it is then left as it is, whatever else hangs on it. */
export const feedsRestricted = (context: Context, fuse: string): boolean =>
  reachOf(context)
    .find((reach) => reach.fuse === fuse)
    ?.below.some(({ wire }) => restrictedWire(context.build, wire)) ?? false
