/** Batteries whose two posts are joined with no load between: `dead-short` says so, and no sum of currents means anything. */
import type { Device } from '../../model/build.ts'
import type { Circuit } from '../circuit.ts'
import type { Context } from '../context.ts'
import { endpointOf } from '../make.ts'
import { batteryPins } from '../pins.ts'

export interface JoinedPosts {
  readonly battery: Device
  /** Ids of the wires and fuses of the shortest way, from post to post. */
  readonly way: readonly string[]
}

export const joinedPosts = ({ build, circuit }: Pick<Context, 'build' | 'circuit'>): JoinedPosts[] =>
  Object.values(build.collections.devices).flatMap((battery): JoinedPosts[] => {
    if (battery.spec.kind !== 'battery') return []
    const { positive, negative } = batteryPins(battery)
    if (positive === undefined || negative === undefined) return []
    const way = joined(circuit, endpointOf(battery.id, positive), endpointOf(battery.id, negative))
    return way ? [{ battery, way }] : []
  })

/** Wires and fuses of the shortest way between two points that nothing can part but a fuse. */
const joined = (circuit: Circuit, from: string, to: string): string[] | undefined => {
  const came = new Map<string, { readonly node: string; readonly id?: string }>([[from, { node: from }]])
  const queue = [from]
  for (let index = 0; index < queue.length; index += 1) {
    const node = queue[index]!
    if (node === to) {
      const way: string[] = []
      for (let at = to; at !== from; at = came.get(at)!.node) {
        const { id } = came.get(at)!
        if (id !== undefined) way.unshift(id)
      }
      return way
    }
    for (const link of circuit.linksAt.get(node) ?? []) {
      if (link.kind === 'contact' || link.kind === 'output') continue
      const next = link.a === node ? link.b : link.a
      if (came.has(next)) continue
      came.set(next, link.kind === 'wire' || link.kind === 'fuse' ? { node, id: link.id } : { node })
      queue.push(next)
    }
  }
  return undefined
}
