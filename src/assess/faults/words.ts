/** How points, wires and parts are called in sentences. */
import type { Build, Entity, Wire } from '../../model/build.ts'
import { deviceIdOf, deviceName, own, pinName } from '../make.ts'

export const pointEndpoint = (point: string): string => point.split('/')[0]!
export const pointWire = (point: string): string | undefined => point.split('/')[1]

export const wireSays = ({ id, colour, tracer }: Pick<Wire, 'id' | 'colour' | 'tracer'>): string =>
  `wire ${id}${colour ? ` (${colour}${tracer ? `/${tracer}` : ''})` : ''}`

export const pointSays = (build: Build, point: string): string => {
  const id = pointWire(point)
  const at = pinName(build, pointEndpoint(point))
  if (id === undefined) return at
  const wire = own(build.collections.wires, id)
  return `${at}, on the terminal of ${wire ? wireSays(wire) : `wire ${id}`}`
}

export const wireRuns = (build: Build, wire: Wire): string =>
  `${wireSays(wire)} from ${deviceName(build, deviceIdOf(wire.from))} to ${deviceName(build, deviceIdOf(wire.to))}`

type Complaint = Entity<'faultSearches'>['complaint']

/** What is complained of: the device, or the point of one. */
export const complained = (build: Build, { device, at }: Complaint): string =>
  at === undefined ? deviceName(build, device) : pinName(build, at)

export const complaintSays = (build: Build, complaint: Complaint): string =>
  `${complained(build, complaint)}: ${complaint.kind}`

/** Where the two leads go. `against` undefined: `reference`, as battery negative. */
export const leadsSay = (build: Build, at: string, against: string | undefined, reference: string): string =>
  against === undefined
    ? `${pointSays(build, at)}, to ${reference}`
    : `${pointSays(build, at)}, to ${pointSays(build, against)}`
