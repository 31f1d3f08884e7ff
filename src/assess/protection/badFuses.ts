/** Fuses that protect nothing as entered: bypassed by a wire, two in parallel. A rating of 0 A is told at the door. */
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { amps, BATTERY_CAUTION, endpointOf, finding, list } from '../make.ts'
import { twoPins } from '../pins.ts'
import { type FuseDevice, fuseOf, ratingOf } from './facts.ts'
import { lasting } from './reach.ts'

interface Sides {
  readonly fuse: FuseDevice
  readonly a: string
  readonly b: string
}

export const badFuseFindings = (context: Context): Finding[] => {
  const { build } = context
  const sides = Object.keys(build.collections.devices).flatMap((id): Sides[] => {
    const fuse = fuseOf(build, id)
    const two = fuse && twoPins(fuse)
    return fuse && two && !fuse.restricted ? [{ fuse, a: endpointOf(id, two[0]), b: endpointOf(id, two[1]) }] : []
  })
  const bypassed = new Set<string>()
  return [
    ...sides.flatMap((each) => {
      const way = wayRound(context, each.a, each.b)
      if (!way) return []
      bypassed.add(each.fuse.id)
      return [bypass(each, way)]
    }),
    ...parallel(
      context,
      sides.filter(({ fuse }) => !bypassed.has(fuse.id)),
    ),
  ]
}

const about = (fuse: FuseDevice) =>
  ({
    system: 'electrical',
    subject: `devices/${fuse.id}`,
    about: fuse.name,
    zone: fuse.zone,
    cautions: [BATTERY_CAUTION],
  }) as const

const bypass = ({ fuse, a, b }: Sides, way: readonly string[]): Finding =>
  finding({
    ...about(fuse),
    rule: 'fuse-bypassed',
    verdict: 'no-go',
    says: `${fuse.name} is bypassed: ${way.length === 0 ? `${a} and ${b} are one piece` : `${list(way)} ${way.length === 1 ? 'joins' : 'join'} ${a} to ${b}`} without it, so it can open and nothing changes.`,
    todo:
      way.length === 0
        ? `Wire ${fuse.name} between two points that nothing else joins.`
        : `Take ${way[0]} off, or end it at another point.`,
    working: ['Followed over wires and splices only; a way through a switch or a relay does not count.'],
  })

const parallel = (context: Context, sides: readonly Sides[]): Finding[] => {
  const groups = new Map<string, Sides[]>()
  const pieceOf = pieces(context)
  for (const each of sides) {
    const key = [pieceOf(each.a), pieceOf(each.b)].sort().join(' | ')
    const group = groups.get(key)
    if (group) group.push(each)
    else groups.set(key, [each])
  }
  return [...groups.values()].flatMap((group) => {
    if (group.length < 2) return []
    const names = group.map(({ fuse }) => fuse.name)
    const ratings = group.map(({ fuse }) => ratingOf(fuse))
    const sum = ratings.every((rating) => rating !== undefined)
      ? `Together they pass up to ${amps(ratings.reduce((all, rating) => all + (rating ?? 0), 0))}`
      : 'Together they pass the sum of their ratings'
    return [
      finding({
        ...about(group[0]!.fuse),
        rule: 'fuses-in-parallel',
        verdict: 'no-go',
        says: `${list(names)} lie in parallel between the same two points. ${sum}, unevenly shared: neither protects what lies beyond.`,
        todo: `Fit one fuse of the right rating, or split what lies beyond between ${list(names)}.`,
      }),
    ]
  })
}

/** Wires of the shortest lasting way from one side of a fuse to the other. */
const wayRound = ({ circuit }: Context, a: string, b: string): string[] | undefined => {
  const from = new Map<string, { readonly node: string; readonly wire?: string }>([[a, { node: a }]])
  const queue = [a]
  for (let node = queue.shift(); node !== undefined; node = queue.shift()) {
    if (node === b) {
      const wires: string[] = []
      for (let at = b; at !== a; at = from.get(at)!.node) {
        const { wire } = from.get(at)!
        if (wire !== undefined) wires.unshift(wire)
      }
      return wires
    }
    for (const link of circuit.linksAt.get(node) ?? []) {
      if (!lasting(link)) continue
      const next = link.a === node ? link.b : link.a
      if (from.has(next)) continue
      from.set(next, link.kind === 'wire' ? { node, wire: link.id } : { node })
      queue.push(next)
    }
  }
  return undefined
}

/** Name of the piece of wires and splices that an endpoint belongs to. */
const pieces = ({ circuit }: Context): ((endpoint: string) => string) => {
  const known = new Map<string, string>()
  return (endpoint) => {
    const before = known.get(endpoint)
    if (before !== undefined) return before
    const queue = [endpoint]
    known.set(endpoint, endpoint)
    for (let node = queue.pop(); node !== undefined; node = queue.pop())
      for (const link of circuit.linksAt.get(node) ?? []) {
        const next = link.a === node ? link.b : link.a
        if (!lasting(link) || known.has(next)) continue
        known.set(next, endpoint)
        queue.push(next)
      }
    return endpoint
  }
}
