/** What a wire is made of, how long it is and how hot its surroundings get, as far as the build says. */
import { aluminiumMaximum, iec60228 } from '../engineering/electrical/aluminiumTable.ts'
import { CONDUCTORS, type Conductor, conductorOfArea } from '../engineering/electrical/conductorTable.ts'
import { METALS, type Metal, warmer } from '../engineering/electrical/sources.ts'
import type { Build, Wire } from '../model/build.ts'
import { deviceIdOf, deviceZone, own, squareMillimetres } from './make.ts'

/** Two tails of 0.15 m from the loom to the device, common practice, no published source. */
export const TAILS = 0.3

/** m; the length entered, else the runs of the path and two tails; undefined when neither is whole. */
export const wireLength = (build: Build, wire: Wire): number | undefined => {
  if (wire.length) return wire.length.value
  if (!wire.path || wire.path.length === 0) return undefined
  const tail = build.sheets.loom?.tail?.value
  let sum = tail === undefined ? TAILS : 2 * tail
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
  readonly metal: Metal
  /** Name of the listed copper size; undefined: of no table, or another metal. */
  readonly size: string | undefined
  /** Ω/m at 20 °C, the largest that the standard allows. */
  readonly resistance: number
  readonly from: string
  /** m. */
  readonly conductorDiameter: number
  readonly outerDiameter: number
  readonly diametersFrom: string
}

/**
 * mm²; conductor Ø mm; outer Ø mm. ISO 6722: conductor Ø from memory, thin-wall outer Ø of 0.5, 0.75, 2 and 3 mm² read in a
 * supplier's sheet (MK Global Trading, “Automotive Cables”), whose strands packed closest are 0.92, 1.13, 1.80 and 2.2 mm
 * across: each conductor Ø here lies above that, as a largest one must. 0.35 and 1.25 mm² from memory throughout.
 */
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

const known = new Map<string, ConductorFacts>()

/** Undefined when cross-section or metal is not entered. The same object for the same wire: figures are remembered by it. */
export const conductorFacts = (wire: Pick<Wire, 'area' | 'material'>): ConductorFacts | undefined => {
  if (!wire.area || !wire.material) return undefined
  const key = `${wire.material} ${wire.area.value}`
  const before = known.get(key)
  if (before) return before
  const facts = factsOf(wire.area.value, wire.material)
  // A server judges many builds in its life.
  if (known.size > 1000) known.clear()
  known.set(key, facts)
  return facts
}

const factsOf = (area: number, material: NonNullable<Wire['material']>): ConductorFacts => {
  const row = conductorOfArea(area)
  if (material === 'copper' || material === 'tinned copper')
    return {
      metal: 'copper',
      size: row?.size,
      resistance: row?.maximumResistance ?? METALS.copper.rho / area,
      from: row ? `largest allowed for ${row.size}, ${row.source.title}` : 'ρ/A, IEC 60028, size in no table',
      ...diameters(area, row),
    }
  if (material === 'aluminium') {
    const listed = aluminiumMaximum(area)
    return {
      metal: 'aluminium',
      size: undefined,
      resistance: listed ?? METALS.aluminium.rho / area,
      from: listed === undefined ? 'ρ/A of aluminium, size in no table' : `largest allowed, ${iec60228.title}`,
      ...diameters(area, row),
    }
  }
  return {
    metal: 'copper-clad aluminium',
    size: undefined,
    resistance: METALS['copper-clad aluminium'].rho / area,
    from: 'ρ/A of copper-clad aluminium, ASTM B566 class 15A [from memory]',
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
const GAUGES: readonly Conductor[] = CONDUCTORS.filter(({ family }) => family !== 'ISO 6722').sort(
  (a, b) => a.area - b.area,
)
/** The series that a wire of that section (m²) belongs to: who bought gauge sizes goes on in gauge sizes. */
export const sizesLike = (area: number): readonly Conductor[] =>
  conductorOfArea(area)?.family === GAUGES[0]!.family ? GAUGES : SIZES
/** As a builder says it: `AWG 18` where the section (m²) is a gauge size, else mm². */
export const sizeName = (area: number): string => {
  const row = conductorOfArea(area)
  return row && row.family === GAUGES[0]!.family ? row.size : squareMillimetres(area)
}
