/** Rules on the controller's pins and sensor returns: wired and not configured, configured and not wired, earthed wrongly. */
import type { Link } from './circuit.ts'
import type { Context } from './context.ts'
import type { Finding } from './finding.ts'
import {
  BATTERY_CAUTION,
  deviceIdOf,
  deviceName,
  deviceZone,
  endpointOf,
  finding,
  own,
  restrictedDevice,
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
            ? `${signal.name} is wired at ${pin} and not configured, so the controller ${kind === 'input' ? 'does not read it' : 'does not drive it'}.`
            : `${signal.name} is configured at ${pin} and no wire is there, so the controller ${kind === 'input' ? 'reads an open circuit' : 'drives nothing'}.`,
          todo: wired
            ? `Configure ${signal.name} in the controller, or remove its wire.`
            : kind === 'input'
              ? `Wire ${partner} to ${pin}, or switch the input off in the controller.`
              : `Wire ${pin} to ${partner}, or switch the output off in the controller.`,
          working: [
            `Wires on ${pin}: ${wired ? circuit.wiresAt.get(pin)!.join(', ') : 'none'}. Configured: ${signal.configured ? 'yes' : 'no'}.`,
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

export const sensorReturnFindings = ({ build, circuit }: Context): Finding[] => {
  const { inputs, devices, wires } = build.collections
  const findings: Finding[] = []
  const seen = new Set<string>()
  /** First body or engine stud on the way; the way ends at the controller, whose own earths lie beyond its pins. */
  const landingOf = (start: string, stops: ReadonlySet<string>): { wire: string; stud: string } | undefined => {
    const done = new Set([start])
    const queue = [start]
    for (let here = queue.shift(); here !== undefined; here = queue.shift())
      for (const link of circuit.linksAt.get(here) ?? []) {
        const to = link.a === here ? link.b : link.a
        if (!passive(link) || done.has(to) || stops.has(to)) continue
        done.add(to)
        const stud = own(devices, deviceIdOf(to))
        if (stud?.spec.kind !== 'earth-stud') queue.push(to)
        else if (link.kind === 'wire' && stud.spec.on !== 'isolated') return { wire: link.id, stud: stud.id }
      }
    return undefined
  }
  for (const input of Object.values(inputs)) {
    const source = input.source === undefined ? undefined : own(devices, input.source)
    const controller = own(devices, input.device)
    if (!source || source.restricted || !controller || !ANALOGUE.has(input.signal) || seen.has(source.id)) continue
    seen.add(source.id)
    const returns = Object.entries(source.pins)
      .filter(([pin, { name }]) => pin === '-' || pin === '31' || /return|sensor earth/i.test(name ?? ''))
      .map(([pin]) => endpointOf(source.id, pin))
    const signals = new Set(Object.keys(controller.pins).map((pin) => endpointOf(controller.id, pin)))
    for (const start of returns) {
      const landing = landingOf(start, signals)
      if (!landing) continue
      const wire = own(wires, landing.wire)
      if (!wire) continue
      const pins = controllerPins(controller).sensorEarth
      const stud = deviceName(build, landing.stud)
      findings.push(
        finding({
          rule: 'sensor-return',
          verdict: 'no-go',
          system: 'signals',
          subject: `wires/${landing.wire}`,
          about: wireName(build, landing.wire),
          zone: deviceZone(build, source.id),
          says: `${source.name} returns over ${landing.wire} to ${stud}; every volt that other currents raise there is added to its reading.`,
          todo: `Take ${landing.wire} off ${stud} and to ${pins.length === 0 ? 'the controller’s sensor earth pin' : endpointOf(controller.id, pins[0]!)}.`,
          working: [
            `Followed from ${start} over wires and splices.`,
            'Sensor returns go to the controller’s sensor earth only. Common practice, no published source.',
          ],
          cautions: [BATTERY_CAUTION],
        }),
      )
    }
  }
  return findings
}
