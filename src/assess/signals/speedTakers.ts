/** Who is told the road speed: dials, and inputs of a controller that count it. */
import type { Build, Entity } from '../../model/build.ts'

/** A speedometer, or an input of the controller that counts a road speed. */
export type SpeedTaker =
  | { readonly kind: 'gauges'; readonly entity: Entity<'gauges'> }
  | { readonly kind: 'inputs'; readonly entity: Entity<'inputs'> }

export const speedTakers = ({ collections }: Build): SpeedTaker[] => [
  ...Object.values(collections.gauges).flatMap((entity): SpeedTaker[] =>
    entity.shows === 'speed' ? [{ kind: 'gauges', entity }] : [],
  ),
  ...Object.values(collections.inputs).flatMap((entity): SpeedTaker[] =>
    entity.counted !== undefined || entity.pulses !== undefined ? [{ kind: 'inputs', entity }] : [],
  ),
]
