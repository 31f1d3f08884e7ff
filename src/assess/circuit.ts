/**
 * The circuit as what touches what, with every switch and relay thought closed at once: enough to say what can ever be
 * fed, what can ever return, and which conductor has which fuse above it. No figures.
 */
import type { Build, Device } from '../model/build.ts'
import { deviceIdOf, endpointOf, own } from './make.ts'
import { alternatorPins, batteryPins, controllerPins, relayPins, starterPins, twoPins } from './pins.ts'

export type LinkKind = 'wire' | 'inside' | 'contact' | 'fuse' | 'earth' | 'output'
export interface Link {
  readonly a: string
  readonly b: string
  readonly kind: LinkKind
  /** Wire or device it is. */
  readonly id: string
}
export interface Circuit {
  readonly linksAt: ReadonlyMap<string, readonly Link[]>
  readonly wiresAt: ReadonlyMap<string, readonly string[]>
  readonly positive: readonly string[]
  readonly negative: readonly string[]
  readonly alternators: readonly string[]
}
export const BODY = '#body'
export const ENGINE = '#engine'

const inside = (build: Build, device: Device): Link[] => {
  const at = (pin: string) => endpointOf(device.id, pin)
  const link = (kind: LinkKind, a: string | undefined, b: string | undefined): Link[] =>
    a === undefined || b === undefined ? [] : [{ a: at(a), b: at(b), kind, id: device.id }]
  const { spec } = device
  const pins = Object.keys(device.pins)
  switch (spec.kind) {
    case 'splice':
      return pins.slice(1).flatMap((pin) => link('inside', pins[0], pin))
    case 'switch':
      return Object.values(spec.positions)
        .flat()
        .flatMap(([a, b]) => link('contact', a, b))
    case 'relay': {
      const { common, make, break: rest } = relayPins(device)
      return [...link('contact', common, make), ...link('contact', common, rest)]
    }
    case 'fuse':
    case 'diode':
    case 'resistor': {
      const two = twoPins(device)
      return two ? link(spec.kind === 'fuse' ? 'fuse' : 'contact', ...two) : []
    }
    case 'earth-stud':
      return spec.on === 'isolated'
        ? []
        : pins.map((pin) => ({
            a: at(pin),
            b: spec.on === 'body' ? BODY : ENGINE,
            kind: 'earth' as const,
            id: device.id,
          }))
    case 'alternator':
    case 'starter': {
      const { case: pin } = spec.kind === 'alternator' ? alternatorPins(device) : starterPins(device)
      return [{ a: pin === undefined ? at('#case') : at(pin), b: ENGINE, kind: 'earth', id: device.id }]
    }
    case 'controller': {
      const { supply, earths, sensorEarth } = controllerPins(device)
      const earth = earths[0]
      return [
        ...[...earths.slice(1), ...sensorEarth].flatMap((pin) => link('inside', earth, pin)),
        ...Object.values(build.collections.outputs)
          .filter((output) => output.device === device.id && output.driver !== 'logic')
          .flatMap((output) => [
            ...(output.driver === 'high side' ? [] : link('output', output.pin, earth)),
            ...(output.driver === 'low side' ? [] : link('output', output.pin, supply)),
          ]),
      ]
    }
    default:
      return []
  }
}

export const circuitOf = (build: Build): Circuit => {
  const linksAt = new Map<string, Link[]>()
  const wiresAt = new Map<string, string[]>()
  const push = <T>(map: Map<string, T[]>, key: string, value: T) => {
    const at = map.get(key)
    if (at) at.push(value)
    else map.set(key, [value])
  }
  const add = (link: Link) => {
    push(linksAt, link.a, link)
    if (link.b !== link.a) push(linksAt, link.b, link)
  }
  for (const wire of Object.values(build.collections.wires)) {
    add({ a: wire.from, b: wire.to, kind: 'wire', id: wire.id })
    push(wiresAt, wire.from, wire.id)
    if (wire.to !== wire.from) push(wiresAt, wire.to, wire.id)
  }
  const positive: string[] = []
  const negative: string[] = []
  const alternators: string[] = []
  for (const device of Object.values(build.collections.devices)) {
    for (const link of inside(build, device)) add(link)
    if (device.spec.kind === 'battery') {
      const pins = batteryPins(device)
      if (pins.positive) positive.push(endpointOf(device.id, pins.positive))
      if (pins.negative) negative.push(endpointOf(device.id, pins.negative))
    }
    if (device.spec.kind === 'alternator') {
      const { output } = alternatorPins(device)
      if (output) alternators.push(endpointOf(device.id, output))
    }
  }
  return { linksAt, wiresAt, positive, negative, alternators }
}

/** Everything that touches the starts over links that `open` lets through. Links crossed are told once. */
export const spread = (
  circuit: Circuit,
  starts: readonly string[],
  open: (link: Link) => boolean,
  onLink?: (link: Link, from: string) => void,
): Set<string> => {
  const seen = new Set(starts)
  const crossed = new Set<Link>()
  const queue = [...starts]
  for (let node = queue.pop(); node !== undefined; node = queue.pop())
    for (const link of circuit.linksAt.get(node) ?? []) {
      if (crossed.has(link) || !open(link)) continue
      crossed.add(link)
      onLink?.(link, node)
      const next = link.a === node ? link.b : link.a
      if (!seen.has(next)) {
        seen.add(next)
        queue.push(next)
      }
    }
  return seen
}

export const deviceAt = (build: Build, node: string): Device | undefined =>
  own(build.collections.devices, deviceIdOf(node))
