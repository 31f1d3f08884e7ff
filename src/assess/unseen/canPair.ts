/** The CAN pair of a build: its two nets, what ends it, how far each unit hangs off it, and the ohms across it. */
import { type NetworkElement, solveNetwork } from '../../engineering/electrical/network/network.ts'
import { Refusal } from '../../units/problem.ts'
import { spread } from '../circuit.ts'
import type { Context } from '../context.ts'
import { deviceIdOf, endpointOf, own } from '../make.ts'
import { twoPins } from '../pins.ts'
import { conductorFacts, wireLength } from '../wireData.ts'

const HIGH = /\bCAN[ _-]?H(igh)?\b/i
const LOW = /\bCAN[ _-]?L(ow)?\b/i

export interface CanPair {
  /** Devices with a pin on the high line. */
  readonly units: readonly string[]
  readonly high: ReadonlySet<string>
  readonly low: ReadonlySet<string>
  /** Resistances from the high to the low line: resistors and units with one inside. */
  readonly ends: readonly { readonly device: string; readonly at: string; readonly to: string; readonly ohm: number }[]
}

const passive = ({ kind }: { readonly kind: string }) => kind === 'wire' || kind === 'inside'

/** Pairs, each told by pins that are called CAN-H and CAN-L. */
export const canPairs = ({ build, circuit }: Context): CanPair[] => {
  const { devices } = build.collections
  const named = (pattern: RegExp) =>
    Object.values(devices).flatMap(({ id, pins, restricted }) =>
      restricted
        ? []
        : Object.entries(pins).flatMap(([pin, { name }]) =>
            pattern.test(name ?? '') || pattern.test(pin) ? [endpointOf(id, pin)] : [],
          ),
    )
  const lows = named(LOW)
  const pairs: CanPair[] = []
  const done = new Set<string>()
  for (const start of named(HIGH)) {
    if (done.has(start) || (circuit.wiresAt.get(start) ?? []).length === 0) continue
    const high = spread(circuit, [start], passive)
    for (const node of high) done.add(node)
    const units = [...new Set([...high].map(deviceIdOf))].filter((id) => lows.some((end) => deviceIdOf(end) === id))
    const low = spread(
      circuit,
      lows.filter((end) => units.includes(deviceIdOf(end))),
      passive,
    )
    const ends = Object.values(devices).flatMap(({ id, spec, loads, ...device }) => {
      const two = spec.kind === 'resistor' ? twoPins({ id, spec, loads, ...device }) : undefined
      const pieces = [
        ...(two && spec.kind === 'resistor' && spec.resistance ? [[...two, spec.resistance.value] as const] : []),
        ...(loads ?? []).flatMap(({ from, to, law }) =>
          law?.type === 'resistance' ? [[from, to, law.resistance.value] as const] : [],
        ),
      ]
      return pieces.flatMap(([a, b, ohm]) => {
        const [x, y] = [endpointOf(id, a), endpointOf(id, b)]
        if (high.has(x) && low.has(y)) return [{ device: id, at: x, to: y, ohm }]
        return high.has(y) && low.has(x) ? [{ device: id, at: y, to: x, ohm }] : []
      })
    })
    pairs.push({ units, high, low, ends })
  }
  return pairs
}

const METER_OHM = 1e-3

/** Ω between the two lines at a unit, unpowered, as a meter reads it: solved over wires and terminations. Undefined: open. */
export const acrossPair = ({ build, circuit }: Context, { high, low, ends, units }: CanPair): number | undefined => {
  const at = (set: ReadonlySet<string>) => [...set].find((node) => deviceIdOf(node) === units[0])
  const [plus, minus] = [at(high), at(low)]
  if (plus === undefined || minus === undefined) return undefined
  const node = (endpoint: string) => {
    const id = deviceIdOf(endpoint)
    return own(build.collections.devices, id)?.spec.kind === 'splice' ? id : endpoint
  }
  const elements: NetworkElement[] = [
    { id: 'meter', type: 'battery', a: node(plus), b: node(minus), emf: 1, internalResistance: METER_OHM },
    ...ends.map(({ at: a, to: b, ohm }, index) => ({
      id: `end-${index}`,
      type: 'resistor' as const,
      a: node(a),
      b: node(b),
      ohm,
    })),
  ]
  const taken = new Set<string>()
  for (const set of [high, low])
    for (const endpoint of set)
      for (const id of circuit.wiresAt.get(endpoint) ?? []) {
        const wire = own(build.collections.wires, id)
        if (!wire || taken.has(id)) continue
        taken.add(id)
        const [a, b] = [node(wire.from), node(wire.to)]
        // A wire without figures counts for its joints: milliohms in sixty ohms.
        const ohm = (conductorFacts(wire)?.resistance ?? 0) * (wireLength(build, wire) ?? 0) + 2e-3
        if (a !== b) elements.push({ id: `wire:${id}`, type: 'resistor', a, b, ohm })
      }
  try {
    const current = -(solveNetwork({ reference: node(minus), elements }).currents.get('meter') ?? 0)
    return current < 1e-9 ? undefined : 1 / current - METER_OHM
  } catch (error) {
    if (error instanceof Refusal) return undefined
    throw error
  }
}

/** m from each unit to the line between the two ends; undefined length: a wire on the way has none. */
export const stubs = ({ build, circuit }: Context, { high, units, ends }: CanPair) => {
  const length = (id: string) => {
    const wire = own(build.collections.wires, id)
    return wire && wireLength(build, wire)
  }
  const walk = (starts: readonly string[]) => {
    const far = new Map<string, { length: number; known: boolean; back?: string }>(
      starts.map((node) => [node, { length: 0, known: true }]),
    )
    const open = [...starts]
    while (open.length > 0) {
      open.sort((a, b) => far.get(b)!.length - far.get(a)!.length)
      const here = open.pop()!
      for (const link of circuit.linksAt.get(here) ?? []) {
        if (!passive(link)) continue
        const to = link.a === here ? link.b : link.a
        if (!high.has(to)) continue
        const piece = link.kind === 'wire' ? length(link.id) : 0
        const next = far.get(here)!.length + (piece ?? 0)
        const known = far.get(here)!.known && piece !== undefined
        if (next >= (far.get(to)?.length ?? Number.POSITIVE_INFINITY)) continue
        far.set(to, { length: next, known, back: here })
        open.push(to)
      }
    }
    return far
  }
  const [one, other] = ends.map(({ at }) => at)
  if (one === undefined || other === undefined) return []
  const far = walk([one])
  const line = [other]
  for (let here: string | undefined = other; here !== undefined; here = far.get(here)?.back) line.push(here)
  const off = walk(line)
  return units.flatMap((unit) => {
    const at = [...high].find((node) => deviceIdOf(node) === unit)
    const reached = at === undefined ? undefined : off.get(at)
    return reached ? [{ unit, length: reached.length, known: reached.known }] : []
  })
}
