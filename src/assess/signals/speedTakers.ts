/** Who is told the road speed: dials, and inputs of a controller that count it. Airbag and anti-lock parts never. */
import type { Build, Entity } from '../../model/build.ts'
import { restrictedDevice } from '../make.ts'

/** A speedometer, or an input of the controller that counts a road speed. */
export type SpeedTaker =
  | { readonly kind: 'gauges'; readonly entity: Entity<'gauges'> }
  | { readonly kind: 'inputs'; readonly entity: Entity<'inputs'> }

const isFree = (build: Build, ...devices: readonly (string | undefined)[]): boolean =>
  devices.every((device) => device === undefined || !restrictedDevice(build, device))

export const speedTakers = (build: Build): SpeedTaker[] => [
  ...Object.values(build.collections.gauges).flatMap((entity): SpeedTaker[] =>
    entity.shows === 'speed' && isFree(build, entity.device) ? [{ kind: 'gauges', entity }] : [],
  ),
  ...Object.values(build.collections.inputs).flatMap((entity): SpeedTaker[] =>
    (entity.counted !== undefined || entity.pulses !== undefined) && isFree(build, entity.device, entity.source)
      ? [{ kind: 'inputs', entity }]
      : [],
  ),
]

/** Inputs that count pulses of something and are not told yet that it is the road speed. */
export const couldCountSpeed = (build: Build): Entity<'inputs'>[] =>
  Object.values(build.collections.inputs).filter(
    ({ signal, counted, pulses, device, source }) =>
      signal === 'frequency' && counted === undefined && pulses === undefined && isFree(build, device, source),
  )
