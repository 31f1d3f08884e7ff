/**
 * How thick the wires of a run lie together.
 *   floor = diameter of the tightest packing found;  laid = floor × hand-laid factor;  over = laid + 2 × layers × tape
 */
import type { Source } from '../../calculation.ts'
import { packCircles, quickRadius } from './packCircles.ts'

/**
 * Hand-laid over tightest, where the build does not say: the bundle factors of a conduit maker's guide stand up to
 * 1.10 times above the best packing known, from 7 to 100 wires; one pair of hands in a garage is taken as the worst of them.
 */
export const HAND_LAID = 1.1
export const HAND_LAID_SOURCE: Source = {
  title: 'Bundle factors of a conduit maker’s guide over the best packing of as many circles',
  where: 'Glenair series 72, table I; Specht’s table of packings',
  how: 'computed',
}

export interface Bundle {
  /** m: the tightest packing found, valid. */
  readonly floor: number
  /** m: as laid by hand. */
  readonly laid: number
  /** Centres and radii, m, for a picture of the cross-section. */
  readonly circles: readonly { readonly x: number; readonly y: number; readonly radius: number }[]
}

/** `diameters`: m, of each wire or cable. `handLaid`: 1 or more. */
export const bundleOfWires = (diameters: readonly number[], handLaid: number): Bundle => {
  const radii = diameters.map((diameter) => diameter / 2)
  const { radius, centres } = packCircles(radii)
  return {
    floor: 2 * radius,
    // A single wire is as thick as it is, however it is laid.
    laid: 2 * radius * (diameters.length > 1 ? handLaid : 1),
    circles: radii.map((each, index) => ({ x: centres[index]![0], y: centres[index]![1], radius: each })),
  }
}

/** m. No bundle of these wires is thinner: the metal and insulation alone fill that circle. Law: areas add. */
export const leastBundle = (diameters: readonly number[]): number =>
  diameters.length === 2
    ? diameters[0]! + diameters[1]!
    : Math.sqrt(diameters.reduce((sum, diameter) => sum + diameter * diameter, 0))

/** m: a packing that is valid and found at once, not the tightest. No wire: 0. */
export const quickBundle = (diameters: readonly number[]): number =>
  diameters.length === 0 ? 0 : 2 * quickRadius(diameters.map((diameter) => diameter / 2))
