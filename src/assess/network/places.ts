/** The places a wire passes: each run of its path, and the zones of the devices at its ends. */
import type { Build, Wire } from '../../model/build.ts'
import { deviceIdOf, deviceZone, own } from '../make.ts'

export interface Place {
  /** Zone id and name. */
  readonly zone: string
  readonly name: string
  /** K, the highest that the zone states; undefined: not entered. */
  readonly ambient: number | undefined
  /** Run of the loom, where other wires lie beside it; none at the ends. */
  readonly run?: string
}

export const placesOf = (build: Build, wire: Wire): Place[] => {
  const { runs, zones } = build.collections
  const places: Place[] = []
  const add = (zoneId: string | undefined, run?: string): void => {
    const zone = zoneId === undefined ? undefined : own(zones, zoneId)
    if (!zone) return
    places.push({
      zone: zone.id,
      name: zone.name,
      ambient: zone.ambient?.value,
      ...(run === undefined ? {} : { run }),
    })
  }
  for (const id of wire.path ?? []) add(own(runs, id)?.zone, id)
  for (const end of [wire.from, wire.to]) add(deviceZone(build, deviceIdOf(end)))
  return places
}
