/**
 * Where a probe reaches, by kind of device, and how long a reading takes there: on the device's own contact, and on the
 * terminal at the end of the wire (from the back of an open plug; insulation is never pierced). Minutes are common
 * practice, no published source. Sealed plugs are not probed from the back: water follows the probe.
 */
import type { Build, Device, Wire } from '../../model/build.ts'
import { deviceIdOf, deviceZone, own, restrictedDevice, restrictedWire } from '../make.ts'
import { ENDS, wireNode } from './carNetwork.ts'
import type { Point } from './types.ts'
import { pointSays } from './words.ts'

type Kind = Device['spec']['kind']
interface Reach {
  readonly contact?: number
  readonly terminal?: number
}

const OPEN_PLUG: Reach = { terminal: 1.5 }
const REACH: Partial<Record<Kind, Reach>> = {
  battery: { contact: 0.5, terminal: 0.5 },
  alternator: { contact: 1.5, terminal: 1.5 },
  starter: { contact: 2, terminal: 2 },
  'earth-stud': { contact: 1, terminal: 1 },
  fuse: { contact: 0.5 },
  relay: { contact: 1, terminal: 1.5 },
  switch: { contact: 2, terminal: 2 },
  lamp: { contact: 1.5, terminal: 1.5 },
  resistor: { contact: 1, terminal: 1 },
  heater: { contact: 1, terminal: 1 },
  connector: OPEN_PLUG,
  splice: {},
}

/** Seconds to open what has to be open, from where the car stands; the quickest access of the zone. */
export interface AccessCost {
  readonly access?: string
  readonly time: number
}

/** An access that needs the battery off is of no use to a test of volts. */
const isBatteryOff = (name: string): boolean => /batter/i.test(name) && /disconnect|\boff\b/i.test(name)

export const accessTo = (build: Build, zone: string | undefined): AccessCost => {
  const { accesses } = build.collections
  const costOf = (id: string, seen: Set<string>): number => {
    const access = own(accesses, id)
    if (!access || seen.has(id)) return 0
    seen.add(id)
    if (isBatteryOff(access.name)) return Number.POSITIVE_INFINITY
    const needed = (access.requires ?? []).reduce((sum, other) => sum + costOf(other, seen), 0)
    return needed + (access.isOpen ? 0 : (access.open?.value ?? 0))
  }
  let best: AccessCost = { time: 0 }
  let least = Number.POSITIVE_INFINITY
  for (const access of Object.values(accesses)) {
    if (access.zone === undefined || access.zone !== zone) continue
    const time = costOf(access.id, new Set())
    if (time < least) {
      least = time
      best = { access: access.id, time }
    }
  }
  return best
}

export interface ReachedPoint extends Point {
  /** Seconds for the reading itself, both leads close by. */
  readonly time: number
  /** Seconds more for a long lead to battery negative. */
  readonly lead: number
}

/** A long lead is laid from another corner of the car. Common practice, no published source. */
const LONG_LEAD = 60

/** Points on these wires' ends that a probe reaches; airbag and anti-lock parts never. */
export const pointsOf = (build: Build, wires: readonly Wire[]): Map<string, ReachedPoint> => {
  const found = new Map<string, ReachedPoint>()
  const battery = Object.values(build.collections.devices).find(({ spec }) => spec.kind === 'battery')
  const batteryZone = battery && deviceZone(build, battery.id)
  const add = (id: string, endpoint: string, wire: Wire | undefined, minutes: number | undefined): void => {
    if (minutes === undefined || found.has(id)) return
    const device = deviceIdOf(endpoint)
    const zone = deviceZone(build, device)
    const { access, time } = accessTo(build, zone)
    found.set(id, {
      id,
      endpoint,
      ...(wire ? { wire: wire.id } : {}),
      says: pointSays(build, id),
      ...(zone === undefined ? {} : { zone }),
      ...(access === undefined ? {} : { access }),
      accessTime: time,
      time: minutes * 60,
      lead: zone === batteryZone ? 0 : LONG_LEAD,
    })
  }
  for (const wire of wires) {
    if (restrictedWire(build, wire.id)) continue
    for (const end of ENDS) {
      const endpoint = wire[end]
      const device = own(build.collections.devices, deviceIdOf(endpoint))
      if (!device || restrictedDevice(build, device.id) || device.spec.kind === 'splice') continue
      const { contact, terminal } = REACH[device.spec.kind] ?? OPEN_PLUG
      const sealed =
        wire.ends?.[end]?.sealed === true || (device.spec.kind === 'connector' && device.spec.sealed === true)
      add(endpoint, endpoint, undefined, contact)
      if (!sealed) add(wireNode(wire, end), endpoint, wire, terminal)
    }
  }
  return found
}
