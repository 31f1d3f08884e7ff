/** Drops that are worth reading with both probes: across a joint, a contact, a fuse, the load itself. */
import type { NetworkElement } from '../../engineering/electrical/network/network.ts'
import type { Build, Wire } from '../../model/build.ts'
import { deviceIdOf, endpointOf, own } from '../make.ts'
import { batteryPins, relayPins, twoPins } from '../pins.ts'
import { ENDS, wireNode } from './carNetwork.ts'
import type { ReachedPoint } from './reach.ts'

export interface Drop {
  readonly at: string
  readonly against: string
}
export const testId = (at: string, against: string | undefined): string =>
  against === undefined ? at : `${at}~${against}`

/**
 * From battery positive to points that the healthy car feeds: what the feed loses on the way, whatever the battery gives.
 * The long lead is for these what it is for battery negative.
 */
export const feedDrops = (
  build: Build,
  points: ReadonlyMap<string, ReachedPoint>,
  isFed: (point: string) => boolean,
): Drop[] => {
  const battery = [...points.keys()].find((id) => isBatteryPositive(build, id))
  if (battery === undefined) return []
  return [...points.keys()]
    .filter((id) => deviceIdOf(id) !== deviceIdOf(battery) && isFed(id))
    .map((id) => ({ at: battery, against: id }))
}

export const isBatteryPositive = (build: Build, point: string): boolean => {
  const device = own(build.collections.devices, deviceIdOf(point))
  return device?.spec.kind === 'battery' && point === endpointOf(device.id, batteryPins(device)?.positive ?? '')
}

/** Where a person goes to take it: the battery is at hand with a long lead. */
export const placeOf = (build: Build, at: string, against: string | undefined): string =>
  against !== undefined && isBatteryPositive(build, at) ? against : at

export const dropsOf = (
  build: Build,
  wires: readonly Wire[],
  points: ReadonlyMap<string, ReachedPoint>,
  load: NetworkElement,
): Drop[] => {
  const found = new Map<string, Drop>()
  const add = (at: string | undefined, against: string | undefined): void => {
    if (at === undefined || against === undefined || at === against) return
    if (!points.has(at) || !points.has(against) || found.has(testId(against, at))) return
    found.set(testId(at, against), { at, against })
  }
  const ends = new Map<string, string[]>()
  const devices = new Set<string>()
  for (const wire of wires)
    for (const end of ENDS) {
      devices.add(deviceIdOf(wire[end]))
      add(wireNode(wire, end), wire[end])
      ends.set(wire[end], [...(ends.get(wire[end]) ?? []), wireNode(wire, end)])
    }
  for (const [endpoint, terminals] of ends)
    if (own(build.collections.devices, deviceIdOf(endpoint))?.spec.kind === 'connector') add(terminals[0], terminals[1])
  for (const id of devices) {
    const device = own(build.collections.devices, id)
    if (!device) continue
    const at = (pin: string): string => endpointOf(id, pin)
    // The device's own contact where a probe reaches it, else the terminal that goes there.
    const best = (endpoint: string): string | undefined => (points.has(endpoint) ? endpoint : ends.get(endpoint)?.[0])
    const { spec } = device
    if (spec.kind === 'fuse') {
      const two = twoPins(device)
      if (two) add(best(at(two[0])), best(at(two[1])))
    } else if (spec.kind === 'relay') {
      const { common, make } = relayPins(device)
      if (common !== undefined && make !== undefined) add(best(at(common)), best(at(make)))
    } else if (spec.kind === 'switch')
      for (const [a, b] of Object.values(spec.positions).flat()) add(best(at(a)), best(at(b)))
    if (device.loads?.some((each) => `${id}#${each.id}` === load.id)) {
      const each = device.loads.find((one) => `${id}#${one.id}` === load.id)!
      add(best(at(each.from)), best(at(each.to)))
    }
  }
  return [...found.values()]
}
