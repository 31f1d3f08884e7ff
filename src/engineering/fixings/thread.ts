/**
 * Metric threads and property classes that the calculations of bolts share: coarse pitches, proof stresses.
 * Source: ISO 261 coarse pitches [from memory]; ISO 898-1 proof stress as tabled [read].
 */
import { choice, quantity } from '../calculation.ts'

const CLASSES = ['4.6', '5.6', '5.8', '6.8', '8.8', '9.8', '10.9', '12.9'] as const
type PropertyClass = (typeof CLASSES)[number]

/** MPa; of class 8.8 up to 16 mm, above it 600. */
const PROOF: Readonly<Record<PropertyClass, number>> = {
  '4.6': 225,
  '5.6': 280,
  '5.8': 380,
  '6.8': 440,
  '8.8': 580,
  '9.8': 650,
  '10.9': 830,
  '12.9': 970,
}
/** Pa. */
export const proofStress = (grade: PropertyClass, diameter: number): number =>
  1e6 * (grade === '8.8' && diameter > 0.016 ? 600 : PROOF[grade])

export const gradeInput = choice(CLASSES, { symbol: 'c', about: 'property class, as marked on the head' })
export const diameterInput = quantity('length', {
  symbol: 'd',
  min: 0.003,
  max: 0.039,
  plausible: [0.004, 0.02],
  about: 'nominal diameter of the thread: 8 mm for M8',
})
export const pitchInput = quantity('length', {
  symbol: 'P',
  min: 0.0003,
  max: 0.005,
  plausible: [0.0005, 0.003],
  about: 'pitch of the thread: 1.25 mm for coarse M8',
})
export const nutFactorInput = quantity('ratio', {
  symbol: 'K',
  min: 0.05,
  max: 0.6,
  plausible: [0.1, 0.3],
  about: 'nut factor, with its range: 0.20 ± 0.05 of dry plain steel, less where it is oiled or waxed',
})
export const threadHolds = {
  at: 'pitch',
  holds: ({ diameter, pitch }: { readonly diameter: number; readonly pitch: number }) => pitch <= 0.3 * diameter,
  says: 'A pitch of more than three tenths of the diameter is no metric thread.',
  todo: 'Measure the pitch over ten threads, or look at the marking: M8 × 1.25.',
}
export const BOLT_CAUTION =
  'The vehicle maker’s figure comes first. On brakes, steering, suspension and seat belts a qualified person must inspect the joint; stretch bolts are never used twice.'
