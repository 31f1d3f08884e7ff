/** Conductors to choose from, and the families of fuse, as the model names them. */

import type { FuseType } from '../../engineering/electrical/fuseGates.ts'
import type { Candidate } from '../../engineering/electrical/sizing/chooseConductor.ts'
import { STANDARD_FUSES } from '../../engineering/electrical/sizing/standardFuses.ts'
import type { Device } from '../../model/build.ts'
import { conductorFacts, SIZES } from '../wireData.ts'

/** m². Thinner wire breaks in a hand-made loom. Common practice, no published source. */
export const THINNEST = 0.5e-6

export const COPPER_SIZES: readonly Candidate[] = SIZES.filter(({ area }) => area >= THINNEST).map(({ size, area }) => {
  const { metal, resistance, conductorDiameter, outerDiameter } = conductorFacts({
    area: { value: area },
    material: 'copper',
  })!
  return { size, area, metal, resistance, conductorDiameter, outerDiameter }
})

export type FusePattern = NonNullable<Extract<Device['spec'], { kind: 'fuse' }>['pattern']>
/** Family whose published gates a fuse of the model has; glass has none here. */
export const FUSE_FAMILY: Readonly<Record<FusePattern, FuseType | undefined>> = {
  blade: 'blade',
  'mini blade': 'blade',
  'high-current blade': 'maxi',
  'bolt-down': 'bolt-down',
  glass: undefined,
}
/** Smallest family that is made for so much: blades to 30 A, since a 35 or 40 A blade is hard to find. */
export const familyFor = (rating: number): FuseType | undefined =>
  rating <= 30
    ? 'blade'
    : rating <= STANDARD_FUSES.maxi.at(-1)!
      ? 'maxi'
      : rating <= STANDARD_FUSES['bolt-down'].at(-1)!
        ? 'bolt-down'
        : undefined
