/** Which conductors stand behind which fuse. Two rules ask: what a fuse suits, and what no fuse rule has looked at. */
import { type Link, spread } from './circuit.ts'
import type { Context } from './context.ts'
import { endpointOf } from './make.ts'
import { twoPins } from './pins.ts'

/** Fault current passes wires, splices and contacts; a fuse ends the stretch, and so do loads, which no link crosses. */
export const live = (link: Link): boolean => link.kind === 'wire' || link.kind === 'inside' || link.kind === 'contact'

/** The wires that each fuse protects: from its load side to the next fuse, and where its source is, none above it. */
export const protectedBy = ({ build, circuit }: Context): Map<string, string[]> => {
  const upstream = spread(circuit, [...circuit.positive, ...circuit.alternators], live)
  // A fuse's source side is the one that lies nearer to the battery: found fuse by fuse, outward.
  const result = new Map<string, string[]>()
  let reached = upstream
  const open = Object.values(build.collections.devices).filter(({ spec }) => spec.kind === 'fuse')
  const done = new Set<string>()
  for (let found = true; found; ) {
    found = false
    const next = new Set(reached)
    for (const fuse of open) {
      if (done.has(fuse.id)) continue
      const two = twoPins(fuse)
      if (!two) continue
      const [a, b] = two.map((pin) => endpointOf(fuse.id, pin)) as [string, string]
      if (!reached.has(a) && !reached.has(b)) continue
      done.add(fuse.id)
      found = true
      const load = reached.has(a) ? b : a
      const below: string[] = []
      if (!reached.has(load)) {
        const area = spread(
          circuit,
          [load],
          (link) => live(link) && !reached.has(link.a) && !reached.has(link.b),
          (link) => {
            if (link.kind === 'wire') below.push(link.id)
          },
        )
        for (const node of area) next.add(node)
      }
      result.set(fuse.id, below)
    }
    reached = next
  }
  return result
}
