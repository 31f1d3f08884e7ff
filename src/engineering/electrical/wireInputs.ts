/** Inputs that both heat-balance calculations take, and published points they are held to. */
import { choice, quantity, type Source } from '../calculation.ts'
import { awgDiameter, conductorOf } from './conductorTable.ts'
import { METAL_NAMES } from './sources.ts'

export const wireInputs = {
  metal: choice(METAL_NAMES, { symbol: 'M', about: 'metal of the conductor' }),
  resistance: quantity('resistancePerLength', {
    symbol: "R'20",
    min: 1e-5,
    max: 1,
    plausible: [1e-4, 0.1],
    about: 'resistance per length at 20 °C',
  }),
  conductorDiameter: quantity('length', {
    symbol: 'd',
    min: 1e-4,
    max: 0.03,
    plausible: [4e-4, 0.018],
    about: 'diameter over the strands',
  }),
  outerDiameter: quantity('length', {
    symbol: 'D',
    min: 1e-4,
    max: 0.04,
    plausible: [1e-3, 0.022],
    about: 'diameter over the insulation',
  }),
  ambient: quantity('temperature', {
    symbol: 'Ta',
    min: 220,
    max: 600,
    plausible: [253, 393],
    about: 'temperature of the still air around',
  }),
} as const

export const wallIsThere = {
  at: 'outerDiameter',
  holds: (given: { readonly conductorDiameter: number; readonly outerDiameter: number }): boolean =>
    given.outerDiameter >= given.conductorDiameter,
  says: 'The diameter over the insulation is less than that of the conductor.',
  todo: 'Enter both diameters, not the wall.',
} as const

export const WIRE_CAUTIONS = [
  'One wire alone in still air. In a bundle, in tape or in a closed duct it carries much less, and its class’s published rating decides where that is lower.',
]
export const WIRE_LIMITS = [
  'Horizontal, single, still air at sea level, steady; emissivity 0.9, insulation 0.19 W/(m·K). Within 5 % of aerospace free-air current, within 20 % of safety tables.',
]

/** Row of the thick-wall table as inputs; the row must be one with diameters. */
export function thickWall(size: string, ambient: number) {
  const { maximumResistance, conductorDiameter, outerDiameter } = conductorOf(size)!
  return {
    metal: 'copper' as const,
    resistance: maximumResistance,
    conductorDiameter: conductorDiameter!,
    outerDiameter: outerDiameter!,
    ambient,
  }
}
/** AWG 14 and 12 as aerospace wire: resistance from FAA table 11-9, strands 1.14 × the solid wire, thin fluoropolymer wall [diameters from memory]. */
export const aerospace = (gauge: 12 | 14, ambient: number) => ({
  metal: 'copper' as const,
  resistance: conductorOf(`AWG ${gauge}`)!.maximumResistance,
  conductorDiameter: 1.14 * awgDiameter(gauge),
  outerDiameter: gauge === 14 ? 2.25e-3 : 2.75e-3,
  ambient,
})
export const freeAir: Source = {
  title: 'FAA AC 43.13-1B, figure 11-4a, example 2: AWG 14 at 47 A, 200 °C in 50 °C air',
  where: 'page 11-27',
  how: 'read',
}
export const freeAirMemory: Source = {
  title: 'FAA AC 43.13-1B, paragraph 11-69, example 2: AWG 12 at 68 A, 200 °C in 25 °C air',
  how: 'memory',
}
