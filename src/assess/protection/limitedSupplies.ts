/**
 * Rule `supply-against-conductor`: sources that limit themselves. A controller's sensor supplies and high-side outputs and
 * a charger in its socket need no fuse where every conductor as far as the next fuse or load carries their limit for good.
 */
import { carriedAt } from '../../engineering/electrical/protection/wireClauses.ts'
import type { Build } from '../../model/build.ts'
import { spread } from '../circuit.ts'
import type { Context } from '../context.ts'
import type { Finding } from '../finding.ts'
import {
  amps,
  BATTERY_CAUTION,
  deviceName,
  endpointOf,
  finding,
  list,
  own,
  pinName,
  restrictedDevice,
  restrictedWire,
} from '../make.ts'
import { judgedWire } from './facts.ts'
import { live } from './reach.ts'

interface LimitedSource {
  readonly subject: string
  readonly part?: string
  readonly name: string
  readonly device: string
  readonly at: string
  readonly limit: number | undefined
}

/** Pins that are supplies by their name; the entered list tells the rest, and the limit. */
const NAMED = /\b5 ?V\b|(sensor|reference) supply/i

const sourcesOf = (build: Build): LimitedSource[] => {
  const { devices, outputs } = build.collections
  const found = new Map<string, LimitedSource>()
  for (const device of Object.values(devices)) {
    if (restrictedDevice(build, device.id)) continue
    for (const { pin, kind, limit } of device.supplies ?? [])
      found.set(endpointOf(device.id, pin), {
        subject: `devices/${device.id}`,
        part: pin,
        name: `${kind === 'charging socket' ? 'charger in' : 'supply at'} pin ${pin} of ${device.name}`,
        device: device.id,
        at: endpointOf(device.id, pin),
        limit: limit?.value,
      })
    if (device.spec.kind !== 'controller') continue
    for (const [pin, { name }] of Object.entries(device.pins)) {
      const at = endpointOf(device.id, pin)
      if (name === undefined || !NAMED.test(name) || found.has(at)) continue
      found.set(at, {
        subject: `devices/${device.id}`,
        part: pin,
        name: `supply at pin ${pin} (${name}) of ${device.name}`,
        device: device.id,
        at,
        limit: undefined,
      })
    }
  }
  for (const output of Object.values(outputs)) {
    if (output.driver !== 'high side' && output.driver !== 'half bridge') continue
    if (restrictedDevice(build, output.device)) continue
    const at = endpointOf(output.device, output.pin)
    if (!found.has(at))
      found.set(at, {
        subject: `outputs/${output.id}`,
        name: `${output.name} of ${deviceName(build, output.device)}`,
        device: output.device,
        at,
        limit: output.limit?.value,
      })
  }
  return [...found.values()]
}

export const supplyFindings = (context: Context): Finding[] => {
  const { build, circuit } = context
  return sourcesOf(build).flatMap((source): Finding[] => {
    const beyond: string[] = []
    spread(circuit, [source.at], live, (link) => {
      if (link.kind === 'wire' && !restrictedWire(build, link.id)) beyond.push(link.id)
    })
    if (beyond.length === 0) return []
    const base = {
      rule: 'supply-against-conductor',
      system: 'electrical',
      subject: source.subject,
      ...(source.part === undefined ? {} : { part: source.part }),
      about: deviceName(build, source.device),
    } as const
    if (source.limit === undefined) {
      const missing = `current limit of the ${source.name}`
      return [
        finding({
          ...base,
          verdict: 'unknown',
          says: `The ${source.name} is a source with no fuse of its own: whether ${list(beyond)} ${beyond.length === 1 ? 'stands' : 'stand'} a short there is not known without its current limit.`,
          todo: `Enter the ${missing}, from the controller’s or charger’s sheet.`,
          missing,
        }),
      ]
    }
    const gaps: string[] = []
    let weakest: { readonly wire: string; readonly carries: number } | undefined
    for (const id of beyond) {
      const judged = judgedWire(context, own(build.collections.wires, id)!)
      gaps.push(...judged.gaps)
      if (!judged.wire) continue
      const carries = carriedAt(judged.wire, judged.wire.limit) ?? 0
      if (!weakest || carries < weakest.carries) weakest = { wire: id, carries }
    }
    if (weakest && weakest.carries < source.limit)
      return [
        finding({
          ...base,
          verdict: 'no-go',
          says: `The ${source.name} gives ${amps(source.limit)} into a short; ${weakest.wire} carries ${amps(weakest.carries)} there and has no fuse above it.`,
          todo: `Put a fuse into ${weakest.wire} at ${pinName(build, source.at)}, or fit a thicker wire that carries ${amps(source.limit)}.`,
          working: [`From ${pinName(build, source.at)} over wires, splices and contacts: ${list(beyond)}.`],
          cautions: [BATTERY_CAUTION],
        }),
      ]
    if (gaps.length > 0 || !weakest)
      return [
        finding({
          ...base,
          verdict: 'unknown',
          says: `Whether the conductors at the ${source.name} carry its ${amps(source.limit)} is not known without the ${list(gaps)}.`,
          todo: `Enter the ${list(gaps)}.`,
          missing: list(gaps),
        }),
      ]
    return [
      finding({
        ...base,
        verdict: 'sound',
        says: `The ${source.name} limits itself to ${amps(source.limit)}; the weakest conductor there, ${weakest.wire}, carries ${amps(weakest.carries)}.`,
        todo: 'Nothing.',
        working: [`From ${pinName(build, source.at)} over wires, splices and contacts: ${list(beyond)}.`],
      }),
    ]
  })
}
