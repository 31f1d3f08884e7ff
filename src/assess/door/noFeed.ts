/**
 * Rule `no-feed`: a load, a relay's coil or a starter that nothing can ever feed, every switch and relay thought closed and
 * every output on. Without a wire at its pin the wire is asked for; with wires that lead to no source they are named.
 */
import { type Circuit, deviceAt, type Link, spread } from '../circuit.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import { deviceIdOf, deviceZone, endpointOf, finding, list, own, pinName, restrictedDevice } from '../make.ts'
import { controllerPins, relayPins, starterPins } from '../pins.ts'

interface Unit {
  readonly device: string
  readonly part: string
  /** Any one of them fed is enough: a coil works either way round. */
  readonly feeds: readonly string[]
}

export const noFeedFindings = (context: Context): Finding[] => {
  const { build, circuit } = context
  if (circuit.positive.length === 0) return []
  const units = unitsOf(context)
  const fed = fedNodes(context)
  return units.flatMap(({ device: id, part, feeds }): Finding[] => {
    const device = own(build.collections.devices, id)
    if (!device || restrictedDevice(build, id) || feeds.some((feed) => fed.has(feed))) return []
    const wires = feeds.flatMap((feed) => circuit.wiresAt.get(feed) ?? [])
    // A device that is entered and not wired at all is one gap, however many loads it has.
    const bare = Object.keys(device.pins).every((pin) => (circuit.wiresAt.get(endpointOf(id, pin)) ?? []).length === 0)
    if (bare && units.find((unit) => unit.device === id)?.part !== part) return []
    const base = {
      rule: 'no-feed',
      system: 'electrical',
      subject: `devices/${id}`,
      part,
      about: device.name,
      zone: deviceZone(build, id),
      working: [
        'Every switch and relay contact thought closed, every output on; followed from battery and alternator.',
      ],
    } as const
    // Of a coil's two ends the one that hangs in the air is what is missing.
    const open = feeds.filter((feed) => (circuit.wiresAt.get(feed) ?? []).length === 0)
    const at = (open.length > 0 ? open : feeds).map((feed) => pinName(build, feed)).join(' or ')
    if (open.length > 0)
      return [
        finding({
          ...base,
          verdict: 'unknown',
          says: `Nothing can feed ${device.name}: no wire is entered at ${at}, so its currents and voltages stay unknown.`,
          todo: `Enter the wire that feeds ${at}, or run one there from a fuse.`,
          missing: `wire that feeds ${at}`,
        }),
      ]
    const ends = deadEnds(context, feeds)
    return [
      finding({
        ...base,
        verdict: 'marginal',
        says: `Nothing can feed ${device.name}: ${list(wires)} at ${at} ${wires.length === 1 ? 'leads' : 'lead'} to no battery${ends.length > 0 ? `; the way ends at ${list(ends.slice(0, 3))}` : ''}.`,
        todo: `Join ${ends[0] ?? at} to a fuse, or look at which pin ${wires[0]} was entered on.`,
      }),
    ]
  })
}

const unitsOf = ({ build }: Context): Unit[] =>
  Object.values(build.collections.devices).flatMap((device): Unit[] => {
    const { id, spec } = device
    const at = (pin: string) => endpointOf(id, pin)
    if (spec.kind === 'relay') {
      const feeds = relayPins(device).coil.flatMap((pin) => (pin === undefined ? [] : [at(pin)]))
      return feeds.length === 0 ? [] : [{ device: id, part: 'coil', feeds }]
    }
    if (spec.kind === 'starter') {
      const { supply, solenoid } = starterPins(device)
      return [
        ...(supply === undefined ? [] : [{ device: id, part: 'supply', feeds: [at(supply)] }]),
        ...(solenoid === undefined ? [] : [{ device: id, part: 'solenoid', feeds: [at(solenoid)] }]),
      ]
    }
    // An alternator feeds its own field.
    if (spec.kind === 'alternator') return []
    return (device.loads ?? []).map((load) => ({ device: id, part: load.id, feeds: [at(load.from)] }))
  })

/** What a source can reach, over loads in series as well, and what modules and controllers may feed by their own will. */
const fedNodes = ({ build, circuit }: Context): ReadonlySet<string> => {
  const { devices } = build.collections
  const earthed = spread(
    circuit,
    circuit.negative,
    ({ kind }) => kind === 'wire' || kind === 'inside' || kind === 'earth',
  )
  const open = (link: Link) =>
    link.kind !== 'earth' && (link.kind !== 'output' || (!earthed.has(link.a) && !earthed.has(link.b)))
  let fed: ReadonlySet<string> = new Set([...circuit.positive, ...circuit.alternators, ...ownWill(build, circuit)])
  for (let size = -1; size !== fed.size; ) {
    size = fed.size
    const more = spread(circuit, [...fed], open)
    for (const device of Object.values(devices)) {
      for (const { from, to } of device.loads ?? [])
        if (more.has(endpointOf(device.id, from))) more.add(endpointOf(device.id, to))
      if (device.spec.kind !== 'relay') continue
      const ends = relayPins(device).coil.flatMap((pin) => (pin === undefined ? [] : [endpointOf(device.id, pin)]))
      if (ends.some((end) => more.has(end))) for (const end of ends) more.add(end)
    }
    fed = more
  }
  return fed
}

/** Pins by which a module, a controller, a gauge, a sensor or an alternator may feed others: all but its own feeds and returns. */
const ownWill = (build: Context['build'], { negative }: Circuit): string[] =>
  Object.values(build.collections.devices).flatMap((device) => {
    if (!['module', 'controller', 'gauge', 'sensor', 'alternator'].includes(device.spec.kind)) return []
    const taken = new Set([
      ...(device.loads ?? []).flatMap(({ from, to }) => [from, to]),
      ...(device.spec.kind === 'controller'
        ? [controllerPins(device).supply, ...controllerPins(device).earths, ...controllerPins(device).sensorEarth]
        : []),
      // A high or low side switches what its supply or its earth brings; it makes nothing of its own.
      ...Object.values(build.collections.outputs)
        .filter((output) => output.device === device.id && output.driver !== 'logic')
        .map(({ pin }) => pin),
    ])
    return Object.keys(device.pins)
      .filter((pin) => !taken.has(pin))
      .map((pin) => endpointOf(device.id, pin))
      .filter((endpoint) => !negative.includes(endpoint))
  })

/** Names of fuses, switches, relays and plugs where the way up from a load comes to its end. */
const deadEnds = ({ build, circuit }: Context, feeds: readonly string[]): string[] => {
  const nodes = [...spread(circuit, feeds, ({ kind }) => kind !== 'earth' && kind !== 'output')]
  const own = new Set(feeds.map(deviceIdOf))
  return [
    ...new Set(
      nodes.flatMap((node) => {
        const device = deviceAt(build, node)
        if (!device || own.has(device.id) || (circuit.wiresAt.get(node) ?? []).length > 0) return []
        return ['fuse', 'switch', 'relay', 'connector'].includes(device.spec.kind) ? [pinName(build, node)] : []
      }),
    ),
  ]
}
