/** Which conductors stand behind which fuse, and which end of each is the far one. */
import { type Link, spread } from '../circuit.ts'
import type { Context } from '../context.ts'
import { endpointOf } from '../make.ts'
import { twoPins } from '../pins.ts'

/** Fault current passes wires, splices and contacts; a fuse ends the stretch, and so do loads, which no link crosses. */
export const live = (link: Link): boolean => link.kind === 'wire' || link.kind === 'inside' || link.kind === 'contact'
/** What joins for good: no switch or relay can part it. */
export const lasting = (link: Link): boolean => link.kind === 'wire' || link.kind === 'inside'

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
export const reachOf = ({ build, circuit }: Context): readonly Reach[] => {
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
        const below: Protected[] = []
        if (!reached.has(load)) {
          const area = spread(
            circuit,
            [load],
            (link) => live(link) && !reached.has(link.a) && !reached.has(link.b),
            (link, from) => {
              if (link.kind === 'wire') below.push({ wire: link.id, far: link.a === from ? link.b : link.a })
            },
          )
          for (const node of area) next.add(node)
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
