/** Rules `dangling-pin`, `doubled-pin` and the rest of the model's integrity, and `no-return`. */
import { checkIntegrity } from '../model/integrity.ts'
import { BODY, deviceAt, type Link, spread } from './circuit.ts'
import type { Context } from './context.ts'
import type { Finding } from './finding.ts'
import { BATTERY_CAUTION, deviceName, deviceZone, endpointOf, finding, own, pinName, wireName } from './make.ts'
import { relayPins } from './pins.ts'

const NO_GO = new Set(['dangling-pin', 'doubled-pin'])

export const integrityFindings = ({ build }: Context): Finding[] =>
  checkIntegrity(build).map(({ code, path = 'model', says, todo }) => {
    const [collection = 'model', id = '', ...rest] = path.split('/')
    return finding({
      rule: code,
      verdict: NO_GO.has(code) ? 'no-go' : 'marginal',
      system: collection === 'jobs' || collection === 'accesses' ? 'plan' : 'model',
      subject: `${collection}/${id}`,
      ...(rest.length > 0 ? { part: rest.join('.') } : {}),
      about:
        collection === 'wires'
          ? wireName(build, id)
          : collection === 'devices'
            ? deviceName(build, id)
            : `${collection} ${id}`,
      zone: collection === 'devices' ? deviceZone(build, id) : undefined,
      says,
      todo,
      cautions: collection === 'wires' || collection === 'devices' ? [BATTERY_CAUTION] : [],
    })
  })

/** A load, or a relay's coil, that can be fed and whose other side never comes back to battery negative. */
export const returnFindings = ({ build, circuit }: Context): Finding[] => {
  if (circuit.positive.length === 0 || circuit.negative.length === 0) return []
  const notEarth = (link: Link) => link.kind !== 'earth' && link.kind !== 'output'
  const fed = spread(circuit, [...circuit.positive, ...circuit.alternators], notEarth)
  // Back from battery negative; entering a load by its far side is entering it against its current.
  const entered = new Map<string, string[]>()
  const units: { device: string; load: string; name: string; from: string; to: string; either: boolean }[] = []
  for (const device of Object.values(build.collections.devices)) {
    if (device.restricted) continue
    for (const load of device.loads ?? [])
      units.push({
        device: device.id,
        load: load.id,
        name: load.name ?? load.id,
        from: endpointOf(device.id, load.from),
        to: endpointOf(device.id, load.to),
        either: false,
      })
    if (device.spec.kind !== 'relay') continue
    const [a, b] = relayPins(device).coil
    if (a !== undefined && b !== undefined)
      units.push({
        device: device.id,
        load: 'coil',
        name: 'coil',
        from: endpointOf(device.id, a),
        to: endpointOf(device.id, b),
        either: true,
      })
  }
  for (const unit of units) {
    entered.set(unit.to, [...(entered.get(unit.to) ?? []), unit.from])
    if (unit.either) entered.set(unit.from, [...(entered.get(unit.from) ?? []), unit.to])
  }
  const positives = new Set([...circuit.positive, ...circuit.alternators])
  let reached = new Set(circuit.negative)
  const around = (link: Link) => !positives.has(link.a) && !positives.has(link.b)
  for (let size = -1; size !== reached.size; ) {
    size = reached.size
    reached = spread(circuit, [...reached], around)
    // In series with another load is a way back; a charge lamp returns through the alternator's D+.
    for (const [to, from] of entered) if (reached.has(to)) for (const node of from) reached.add(node)
    for (const device of Object.values(build.collections.devices))
      if (device.spec.kind === 'alternator')
        for (const pin of ['D+', '61', 'L'])
          if (Object.hasOwn(device.pins, pin)) reached.add(endpointOf(device.id, pin))
  }
  const bodyTied = reached.has(BODY)
  return units.flatMap((unit) => {
    // A coil works either way round; any other load is fed at `from`.
    const ways = unit.either
      ? [[unit.from, unit.to] as const, [unit.to, unit.from] as const]
      : [[unit.from, unit.to] as const]
    const open = ways.find(([feed, back]) => fed.has(feed) && !reached.has(back))
    if (!open || (unit.either && reached.has(open[0]) && fed.has(open[1]))) return []
    const [feed, back] = open
    const wires = circuit.wiresAt.get(back) ?? []
    const device = own(build.collections.devices, unit.device)
    return [
      finding({
        rule: 'no-return',
        verdict: 'no-go',
        system: 'electrical',
        subject: `devices/${unit.device}`,
        part: unit.load,
        about: device?.name ?? unit.device,
        zone: deviceZone(build, unit.device),
        says: `${device?.name ?? unit.device} can be fed at ${pinName(build, feed)}, but ${pinName(build, back)} has no way back to battery negative${wires.length === 0 ? ': no wire is on it' : ''}.`,
        todo: `Run an earth wire from ${pinName(build, back)} to ${bodyTied ? 'the nearest earth stud' : 'battery negative'}.`,
        working: [
          'Every switch and relay contact thought closed, every controller output on.',
          `Fed: ${pinName(build, feed)}. Wires on ${pinName(build, back)}: ${wires.length === 0 ? 'none' : wires.join(', ')}.`,
        ],
        cautions: [BATTERY_CAUTION],
      }),
    ]
  })
}

export const restrictedFindings = ({ build }: Context): Finding[] => {
  const whose = {
    airbag: 'a specialist trained and equipped for airbags and pretensioners',
    'anti-lock': 'a brake specialist with the maker’s procedure',
  }
  const said = (kind: 'airbag' | 'anti-lock', subject: string, about: string, zone: string | undefined) =>
    finding({
      rule: 'restricted',
      verdict: 'unknown',
      system: 'electrical',
      subject,
      about,
      zone,
      says: `${about} belongs to the ${kind} system and is not judged here: it is the work of ${whose[kind]}.`,
      todo: `Leave it as it is; do not cut, load, extend or probe it, and give it to ${whose[kind]}.`,
      missing: `the judgement of ${whose[kind]}`,
      cautions: [
        kind === 'airbag'
          ? 'A meter or a test lamp can fire an airbag or pretensioner.'
          : 'A fault in anti-lock wiring shows itself under braking.',
      ],
    })
  return [
    ...Object.values(build.collections.devices).flatMap((device) =>
      device.restricted
        ? [said(device.restricted, `devices/${device.id}`, device.name, deviceZone(build, device.id))]
        : [],
    ),
    ...Object.values(build.collections.wires).flatMap((wire) =>
      wire.restricted && !deviceAt(build, wire.from)?.restricted && !deviceAt(build, wire.to)?.restricted
        ? [said(wire.restricted, `wires/${wire.id}`, wireName(build, wire.id), undefined)]
        : [],
    ),
  ]
}
