/** Rules on the controller's pins and sensor returns: wired and not configured, configured and not wired, earthed wrongly. */
import type { Link } from './circuit.ts'
import type { Context } from './context.ts'
import { sensorErrorsOf } from './earths/sensorError.ts'
import type { Finding } from './finding.ts'
import {
  BATTERY_CAUTION,
  deviceIdOf,
  deviceName,
  deviceZone,
  endpointOf,
  finding,
  list,
  own,
  pinName,
  restrictedDevice,
  volts,
  wireName,
} from './make.ts'
import { controllerPins } from './pins.ts'

export const signalPinFindings = ({ build, circuit }: Context): Finding[] => {
  const { inputs, outputs } = build.collections
  const each = (kind: 'input' | 'output') =>
    Object.values(kind === 'input' ? inputs : outputs).flatMap((signal): Finding[] => {
      const other = 'source' in signal ? signal.source : 'drives' in signal ? signal.drives : undefined
      if (restrictedDevice(build, signal.device) || (other !== undefined && restrictedDevice(build, other))) return []
      const pin = endpointOf(signal.device, signal.pin)
      const wired = (circuit.wiresAt.get(pin)?.length ?? 0) > 0
      if (wired === signal.configured) return []
      const partner = other === undefined ? 'its device' : deviceName(build, other)
      return [
        finding({
          rule: `${kind}-${wired ? 'unconfigured' : 'unwired'}`,
          verdict: wired ? 'marginal' : 'no-go',
          system: 'signals',
          subject: `${kind}s/${signal.id}`,
          about: signal.name,
          zone: deviceZone(build, other ?? signal.device),
          says: wired
            ? `${signal.name} is wired at ${pinName(build, pin)} and not configured, so the controller ${kind === 'input' ? 'does not read it' : 'does not drive it'}.`
            : `${signal.name} is configured at ${pinName(build, pin)} and no wire is there, so the controller ${kind === 'input' ? 'reads an open circuit' : 'drives nothing'}.`,
          todo: wired
            ? `Configure ${signal.name} in the controller, or remove its wire.`
            : kind === 'input'
              ? `Wire ${partner} to ${pinName(build, pin)}, or switch the input off in the controller.`
              : `Wire ${pinName(build, pin)} to ${partner}, or switch the output off in the controller.`,
          working: [
            `Wires on ${pinName(build, pin)}: ${wired ? circuit.wiresAt.get(pin)!.join(', ') : 'none'}. Configured: ${signal.configured ? 'yes' : 'no'}.`,
          ],
          cautions: [BATTERY_CAUTION],
        }),
      ]
    })
  return [...each('input'), ...each('output')]
}

/** Signals whose reading shifts with every millivolt of their return. */
const ANALOGUE = new Set(['voltage', 'resistance', 'lambda cell'])
const passive = (link: Link) => link.kind === 'wire' || link.kind === 'inside'

/** A return that ends at a stud, and everything that reads through it. */
interface Landing {
  readonly wire: string
  readonly stud: string
  readonly controller: string
  readonly start: string
  readonly sensors: string[]
}

/** Sensor devices that an analogue input reads, each with that controller and the pins it returns by. */
const analogueSensors = ({ build }: Context): { id: string; controller: string; returns: string[] }[] => {
  const { inputs, devices } = build.collections
  const found = new Map<string, { id: string; controller: string; returns: string[] }>()
  for (const input of Object.values(inputs)) {
    const source = input.source === undefined ? undefined : own(devices, input.source)
    const controller = own(devices, input.device)
    if (!source || source.restricted || !controller || !ANALOGUE.has(input.signal) || found.has(source.id)) continue
    const stated = Object.values(build.collections.sensors).find(({ device }) => device === source.id)?.returnPin
    const pins = Object.entries(source.pins)
      .filter(
        ([pin, { name }]) => pin === stated || pin === '-' || pin === '31' || /return|sensor earth/i.test(name ?? ''),
      )
      .map(([pin]) => endpointOf(source.id, pin))
    found.set(source.id, { id: source.id, controller: controller.id, returns: pins })
  }
  return [...found.values()]
}

/** Walks wires and splices outward; the way ends at the controller, whose own earths lie beyond its pins, and at studs. */
const walkReturn = (
  { build, circuit }: Context,
  start: string,
  controller: string,
): { readonly landing?: { wire: string; stud: string }; readonly power: { wire: string; device: string }[] } => {
  const { devices } = build.collections
  const stops = new Set(Object.keys(own(devices, controller)?.pins ?? {}).map((pin) => endpointOf(controller, pin)))
  const done = new Set([start])
  const queue = [start]
  const power: { wire: string; device: string }[] = []
  for (let here = queue.shift(); here !== undefined; here = queue.shift())
    for (const link of circuit.linksAt.get(here) ?? []) {
      const to = link.a === here ? link.b : link.a
      if (!passive(link) || done.has(to) || stops.has(to)) continue
      done.add(to)
      const device = own(devices, deviceIdOf(to))
      if (device?.spec.kind === 'earth-stud') {
        if (link.kind === 'wire' && device.spec.on !== 'isolated')
          return { landing: { wire: link.id, stud: device.id }, power }
        continue
      }
      const draws = device?.loads?.some(({ from, to: end }) =>
        [from, end].some((pin) => endpointOf(device.id, pin) === to),
      )
      // A sensor's own draw is milliamperes and is meant to return here.
      if (device && draws && device.spec.kind !== 'sensor' && link.kind === 'wire')
        power.push({ wire: link.id, device: device.id })
      queue.push(to)
    }
  return { power }
}

/** Device ids of sensors whose error is told by the finding on their return. */
export const landedSensors = (context: Context): ReadonlySet<string> =>
  new Set(
    analogueSensors(context)
      .filter(({ controller, returns }) => returns.some((start) => walkReturn(context, start, controller).landing))
      .map(({ id }) => id),
  )

export const sensorReturnFindings = (context: Context): Finding[] => {
  const { build } = context
  const landings = new Map<string, Landing>()
  const shared = new Map<string, { device: string; sensors: string[]; controller: string }>()
  for (const { id, controller, returns } of analogueSensors(context))
    for (const start of returns) {
      const { landing, power } = walkReturn(context, start, controller)
      if (landing) {
        const at = landings.get(landing.wire)
        if (!at) landings.set(landing.wire, { ...landing, controller, start, sensors: [id] })
        else if (!at.sensors.includes(id)) at.sensors.push(id)
        continue
      }
      for (const { wire, device } of power) {
        const at = shared.get(wire)
        if (!at) shared.set(wire, { device, sensors: [id], controller })
        else if (!at.sensors.includes(id)) at.sensors.push(id)
      }
    }
  if (landings.size === 0 && shared.size === 0) return []
  const errors = sensorErrorsOf(context)
  const earthOf = (controller: string): string => {
    const device = own(build.collections.devices, controller)
    const pin = device && controllerPins(device).sensorEarth[0]
    return pin === undefined ? 'the controller’s sensor earth pin' : pinName(build, endpointOf(controller, pin))
  }
  /** Worst error of each sensor named, with the case it is worst in. */
  const told = (sensors: readonly string[]) =>
    sensors.flatMap((id) => {
      const row = errors.find(({ device, error }) => device === id && error !== null && error !== 0)
      return row ? [`${deviceName(build, id)} reads ${row.words} in “${row.caseName}”`] : []
    })
  const findings: Finding[] = []
  for (const { wire, stud, controller, start, sensors } of landings.values()) {
    const record = own(build.collections.wires, wire)
    if (!record) continue
    const studName = deviceName(build, stud)
    const names = list(sensors.map((id) => deviceName(build, id)))
    const worst = told(sensors)
    findings.push(
      finding({
        rule: 'sensor-return',
        verdict: 'no-go',
        system: 'signals',
        subject: `wires/${wire}`,
        about: wireName(build, wire),
        zone: deviceZone(build, sensors[0]!),
        says: `${names} ${sensors.length === 1 ? 'returns' : 'return'} over ${wire} to ${studName}; every volt that other currents raise there is added to ${sensors.length === 1 ? 'its reading' : 'their readings'}${worst.length === 0 ? '' : `: ${list(worst)}`}.`,
        todo: `Take ${wire} off ${studName} and to ${earthOf(controller)}.`,
        working: [
          `Followed from ${pinName(build, start)} over wires and splices.`,
          ...errors
            .filter(({ device, offset }) => sensors.includes(device) && offset !== null && offset !== 0)
            .slice(0, 4)
            .map((row) => `${row.caseName}: return ${volts(row.offset!)} above the sensor earth, error ${row.words}`),
          'Sensor returns go to the controller’s sensor earth only. Common practice, no published source.',
        ],
        cautions: [BATTERY_CAUTION],
      }),
    )
  }
  for (const [wire, { device, sensors, controller }] of shared) {
    const worst = told(sensors)
    findings.push(
      finding({
        rule: 'sensor-return',
        verdict: 'marginal',
        system: 'signals',
        subject: `wires/${wire}`,
        about: wireName(build, wire),
        zone: deviceZone(build, device),
        says: `${deviceName(build, device)} returns over ${wire} into the sensor earth that ${list(sensors.map((id) => deviceName(build, id)))} ${sensors.length === 1 ? 'uses' : 'use'}; its current moves their readings${worst.length === 0 ? '' : `: ${list(worst)}`}.`,
        todo: `Take ${wire} to an earth stud of its own; leave ${earthOf(controller)} to the sensors.`,
        working: [
          'Followed from the sensors over wires and splices as far as the controller.',
          'Sensor returns are kept apart from power earths and joined only at the controller. Common practice, no published source.',
        ],
        cautions: [BATTERY_CAUTION],
      }),
    )
  }
  return findings
}
