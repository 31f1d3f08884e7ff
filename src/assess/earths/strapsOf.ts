/** Engine and body straps, found by what they join: battery negative, body and engine are three bodies of metal. */
import type { Wire } from '../../model/build.ts'
import { BODY, ENGINE } from '../circuit.ts'
import type { Context } from '../context.ts'
import { deviceIdOf, own, restrictedWire } from '../make.ts'
import { batteryPins } from '../pins.ts'

/** No case is asked: a screen can tell the straps without one. */
type Wired = Pick<Context, 'build' | 'circuit'>

export type Metal = 'battery negative' | 'body' | 'engine'
export interface Strap {
  readonly wire: Wire
  readonly joins: readonly [Metal, Metal]
}

/** What an endpoint is part of. */
export const metalOf = ({ build, circuit }: Wired, endpoint: string): Metal | undefined => {
  const device = own(build.collections.devices, deviceIdOf(endpoint))
  if (!device) return undefined
  if (device.spec.kind === 'battery')
    return batteryPins(device).negative === endpoint.slice(device.id.length + 1) ? 'battery negative' : undefined
  const earth = (circuit.linksAt.get(endpoint) ?? []).find(({ kind }) => kind === 'earth')
  return earth?.b === BODY ? 'body' : earth?.b === ENGINE ? 'engine' : undefined
}

/** Straps that carry current from one metal to the other, straight or by the third. */
export const between = (straps: readonly Strap[], a: Metal, b: Metal): Strap[] => {
  const joining = (x: Metal, y: Metal) => straps.filter(({ joins }) => joins.includes(x) && joins.includes(y))
  const third = (['battery negative', 'body', 'engine'] as const).find((metal) => metal !== a && metal !== b)!
  const round = [joining(a, third), joining(third, b)]
  return [...joining(a, b), ...(round.every(({ length }) => length > 0) ? round.flat() : [])]
}

/** Wires that join two of the three, straight or over splices and insulated studs. */
export const strapsOf = (context: Wired): Strap[] => {
  const { build, circuit } = context
  const { devices, wires } = build.collections
  const passes = (endpoint: string): boolean => {
    const spec = own(devices, deviceIdOf(endpoint))?.spec
    return spec?.kind === 'splice' || (spec?.kind === 'earth-stud' && spec.on === 'isolated')
  }
  /** Metals reached from one end of a wire without going back through it. */
  const reach = (wire: Wire, start: string): Set<Metal> => {
    const found = new Set<Metal>()
    const seen = new Set([start])
    const queue = [start]
    for (let here = queue.pop(); here !== undefined; here = queue.pop()) {
      const metal = metalOf(context, here)
      if (metal) {
        found.add(metal)
        continue
      }
      if (!passes(here)) continue
      for (const link of circuit.linksAt.get(here) ?? []) {
        if (link.id === wire.id || (link.kind !== 'wire' && link.kind !== 'inside')) continue
        if (link.kind === 'wire' && own(wires, link.id)?.notForCurrent) continue
        const next = link.a === here ? link.b : link.a
        if (seen.has(next)) continue
        seen.add(next)
        queue.push(next)
      }
    }
    return found
  }
  return Object.values(wires).flatMap((wire): Strap[] => {
    if (wire.notForCurrent || restrictedWire(build, wire.id)) return []
    const [from, to] = [reach(wire, wire.from), reach(wire, wire.to)]
    for (const a of from) for (const b of to) if (a !== b && !to.has(a)) return [{ wire, joins: [a, b] }]
    return []
  })
}
