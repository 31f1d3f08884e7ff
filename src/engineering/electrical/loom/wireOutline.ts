/**
 * Largest outer diameter of a single wire by cross-section, as published tables give it, kept as printed. A size that no
 * table lists has no diameter here: it is never taken from a neighbour. Checksums are held by the test.
 */
import type { Source } from '../../calculation.ts'
import { conductorOfArea } from '../conductorTable.ts'

export const thinWall: Source = {
  title: 'ISO 6722 thin wall, PVC, a supplier’s component sheet, “Automotive Cables”: greatest outside diameter',
  where: 'MK Global Trading, data sheet',
  how: 'read',
}
const thinWallMemory: Source = { title: 'ISO 6722-1, thin wall, greatest outside diameter', how: 'memory' }

/** mm²; greatest outside diameter, mm. At 0.5 mm² the standard is remembered as 1.6: the larger, read, stands. */
export const PRINTED_THIN_WALL = `0.5 1.7
0.75 1.9
1 2.1
1.5 2.4
2 2.8
2.5 3.0
3 3.4
4 3.7
4.5 4.1
6 4.3
8.5 5.6
10 6.0`
export const CHECKSUM_THIN_WALL = '53634fab0b4dba91a9b67978c27d96d0aca27c5e5c68c80886a7cbae1507ee1d'
export const PRINTED_THIN_WALL_MEMORY = `0.35 1.4
1.25 2.3`
export const CHECKSUM_THIN_WALL_MEMORY = '8c6306e2e55ed6abb0b0d3fe19e810228867c4400393be760ddfe76b21c8af3c'

interface Row {
  /** m². */
  readonly area: number
  /** m. */
  readonly diameter: number
  readonly source: Source
}
const rows = (printed: string, source: Source): Row[] =>
  printed.split('\n').map((line) => {
    const [area, diameter] = line.split(' ').map(Number) as [number, number]
    return { area: area * 1e-6, diameter: diameter * 1e-3, source }
  })
const THIN = [...rows(PRINTED_THIN_WALL, thinWall), ...rows(PRINTED_THIN_WALL_MEMORY, thinWallMemory)]

export interface Outline {
  /** m, the greatest that the table allows. */
  readonly diameter: number
  readonly source: Source
  readonly wall: 'thin' | 'thick'
}

/**
 * Of a single core of that cross-section (m², to 0.1 %). Thin wall: where its table ends, at 10 mm², the thick wall goes
 * on, for larger cables are not made thinner. Undefined: no table lists it, or none of that wall.
 */
export const outlineOf = (area: number, wall: 'thin' | 'thick'): Outline | undefined => {
  if (wall === 'thin') {
    const row = THIN.find((each) => Math.abs(each.area / area - 1) < 1e-3)
    if (row) return { diameter: row.diameter, source: row.source, wall }
    if (area <= 10e-6) return undefined
  }
  const listed = conductorOfArea(area)
  return listed?.outerDiameter === undefined
    ? undefined
    : { diameter: listed.outerDiameter, source: listed.source, wall: 'thick' }
}
