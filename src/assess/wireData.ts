/** What a wire is made of, how long it is and how hot its surroundings get, as far as the build says. */
import { CONDUCTORS, type Conductor, conductorOfArea } from '../engineering/electrical/conductorTable.ts'
import { METALS, warmer } from '../engineering/electrical/sources.ts'
import type { Build, Wire } from '../model/build.ts'
import { deviceIdOf, deviceZone, own } from './make.ts'

/** Two tails of 0.15 m from the loom to the device, common practice, no published source. */
export const TAILS = 0.3
const COPPER_CLAD_SHARE = 0.15

/** m; the length entered, else the runs of the path and two tails; undefined when neither is whole. */
export const wireLength = (build: Build, wire: Wire): number | undefined => {
  if (wire.length) return wire.length.value
  if (!wire.path || wire.path.length === 0) return undefined
  let sum = TAILS
  for (const id of wire.path) {
    const length = own(build.collections.runs, id)?.length?.value
    if (length === undefined) return undefined
    sum += length
  }
  return sum
}

/** Zones that the wire passes or ends in. */
export const wireZones = (build: Build, wire: Wire): string[] => [
  ...new Set(
    [
      ...(wire.path ?? []).map((id) => own(build.collections.runs, id)?.zone),
      deviceZone(build, deviceIdOf(wire.from)),
      deviceZone(build, deviceIdOf(wire.to)),
    ].filter((zone): zone is string => zone !== undefined),
  ),
]

/** Hottest zone on the way, with its ambient temperature in K; undefined when no zone states one. */
export const hottestZone = (
  build: Build,
  wire: Wire,
): { readonly zone: string; readonly name: string; readonly ambient: number } | undefined => {
  let hottest: { zone: string; name: string; ambient: number } | undefined
  for (const id of wireZones(build, wire)) {
    const zone = own(build.collections.zones, id)
    if (zone?.ambient && (hottest === undefined || zone.ambient.value > hottest.ambient))
      hottest = { zone: id, name: zone.name, ambient: zone.ambient.value }
  }
  return hottest
}

/** Names of the zones on the way whose ambient temperature is not entered: any of them may be the hottest. */
export const zonesOfUnknownHeat = (build: Build, wire: Wire): string[] =>
  wireZones(build, wire).flatMap((id) => {
    const zone = own(build.collections.zones, id)
    return zone && !zone.ambient ? [zone.name] : []
  })

export interface ConductorFacts {
  readonly metal: 'copper' | 'aluminium'
  /** Ω/m at 20 °C, the largest that the standard allows. */
  readonly resistance: number
  readonly from: string
  /** m. */
  readonly conductorDiameter: number
  readonly outerDiameter: number
  readonly diametersFrom: string
}

/** mm²; conductor Ø mm; outer Ø mm. ISO 6722: conductor Ø from memory, thin-wall outer Ø read in a supplier's sheet. */
const SMALL: readonly (readonly [number, number, number])[] = [
  [0.35, 0.9, 1.4],
  [0.5, 1.1, 1.7],
  [0.75, 1.3, 1.9],
  [1.25, 1.7, 2.3],
  [2, 2, 2.8],
  [3, 2.4, 3.4],
]

const diameters = (area: number, row: Conductor | undefined) => {
  if (row?.conductorDiameter !== undefined && row.outerDiameter !== undefined)
    return {
      conductorDiameter: row.conductorDiameter,
      outerDiameter: row.outerDiameter,
      diametersFrom: `${row.source.title}, thick wall`,
    }
  const small = SMALL.find(([size]) => Math.abs((size * 1e-6) / area - 1) < 1e-3)
  if (small)
    return {
      conductorDiameter: small[1] * 1e-3,
      outerDiameter: small[2] * 1e-3,
      diametersFrom: 'ISO 6722, thin wall [from memory]',
    }
  // Strands fill about 0.57 of the circle round them in every row of the table, and the wall is 0.6 mm or more.
  const conductorDiameter = Math.sqrt(area / 1e-6) * 1.5e-3
  return {
    conductorDiameter,
    outerDiameter: conductorDiameter + 1.2e-3,
    diametersFrom: 'd = 1.5 mm·√(A/mm²), wall 0.6 mm: after the rows of ISO 6722 [computed here]',
  }
}

/** Undefined when cross-section or metal is not entered. */
export const conductorFacts = (wire: Pick<Wire, 'area' | 'material'>): ConductorFacts | undefined => {
  if (!wire.area || !wire.material) return undefined
  const area = wire.area.value
  const row = conductorOfArea(area)
  if (wire.material === 'copper' || wire.material === 'tinned copper')
    return {
      metal: 'copper',
      resistance: row?.maximumResistance ?? METALS.copper.rho / area,
      from: row ? `largest allowed for ${row.size}, ${row.source.title}` : 'ρ/A, IEC 60028, size in no table',
      ...diameters(area, row),
    }
  if (wire.material === 'aluminium')
    return {
      metal: 'aluminium',
      resistance: METALS.aluminium.rho / area,
      from: 'ρ/A of aluminium, handbook table 30.1',
      ...diameters(area, row),
    }
  // Copper and aluminium side by side, each with its share of the section.
  const conductivity = COPPER_CLAD_SHARE / METALS.copper.rho + (1 - COPPER_CLAD_SHARE) / METALS.aluminium.rho
  return {
    metal: 'aluminium',
    resistance: 1 / (conductivity * area),
    from: 'copper-clad aluminium, 15 % copper by volume (ASTM B566 class 15A [from memory])',
    ...diameters(area, row),
  }
}

export const warmed = (facts: ConductorFacts, temperature: number): number =>
  facts.resistance * warmer(facts.metal, temperature)

/** Ω of a joint when none is entered. Common practice, no published source. */
export const JOINT: Readonly<Record<'crimped' | 'soldered' | 'solder sleeve' | 'screw' | 'ring', number>> = {
  crimped: 1e-3,
  soldered: 0.5e-3,
  'solder sleeve': 1e-3,
  screw: 2e-3,
  ring: 0.3e-3,
}
export const jointResistance = (end: { method: keyof typeof JOINT; resistance?: { value: number } | undefined }) =>
  end.resistance?.value ?? JOINT[end.method]

/** Insulation classes of ISO 6722: K for 3 000 h (read in a cable specification) and for 6 h of overload, 50 K above [from memory]. */
export const CLASS_TEMPERATURE: Readonly<Record<NonNullable<Wire['insulation']>, number>> = {
  A: 358.15,
  B: 373.15,
  C: 398.15,
  D: 423.15,
  E: 448.15,
  F: 473.15,
  G: 498.15,
  H: 523.15,
}
export const OVERLOAD_RISE = 50
export const CLASS_SOURCE = 'ISO 6722-1 temperature classes; overload 50 K above the class for 6 h [from memory]'

/** Metric copper sizes from small to large. */
export const SIZES: readonly Conductor[] = CONDUCTORS.filter(({ family }) => family === 'ISO 6722')
