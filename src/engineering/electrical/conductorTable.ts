/**
 * Published conductor tables, kept as printed, with their sources; and the American Wire Gauge by its formula.
 * A maximum from a table decides; ρL/A is for conductors that no table lists. One family's table never serves another.
 * The checksum (SHA-256 of the printed text) is held by the test, so that a figure cannot move unseen.
 */
import { awgArea } from '../../units/awg.ts'
import type { Source } from '../calculation.ts'

export const iso6722: Source = {
  title: 'DIN ISO 6722-3 (resistance, diameters) and DIN VDE 0298-4 (current, single core, PVC at 70 °C)',
  where: 't3-pedia.de, “Autoelektrik Grundlagen”',
  how: 'read',
}
export const iso6722Memory: Source = { title: 'ISO 6722-1 (2011) / ISO 19642-3, bare copper', how: 'memory' }
export const faaTable: Source = {
  title: 'FAA AC 43.13-1B, table 11-9, stranded tin-plated copper',
  where: 'page 11-23',
  how: 'read',
}

/** mm²; strands; R max mΩ/m at 20 °C; conductor Ø max mm; wall mm; outer Ø max mm; A at 30 °C; A at 50 °C. Thick wall. */
export const PRINTED_ISO6722 = `1 32 18.5 1.5 0.6 2.7 19 13.5
1.5 30 12.7 1.8 0.6 3.0 24 17
2.5 50 7.60 2.2 0.7 3.6 32 22.7
4 56 4.71 2.8 0.8 4.4 42 29.8
6 84 3.14 3.4 0.8 5.0 54 38.3
10 80 1.82 4.5 1.0 6.5 73 51.8
16 126 1.16 6.3 1.0 8.3 98 69.6
25 196 0.743 7.8 1.3 10.4 129 91.6
35 276 0.527 9.0 1.3 11.6 158 112
50 396 0.368 10.5 1.5 13.5 198 140
70 360 0.259 12.5 1.5 15.5 245 174
95 475 0.196 14.8 1.6 18.0 292 207
120 608 0.153 16.5 1.6 19.7 344 244`
export const CHECKSUM_ISO6722 = 'dd7178ae1c64b280f1af964ead25f8e8a2917be7cb76a13f1052cd99fa2986ea'

/**
 * mm²; R max mΩ/m at 20 °C. From memory: 0.13 and 5 mm² fall off the pattern of the rest and 0.22 mm² is remembered two ways,
 * so none of the three is here. Held in the test to what was read: R·S within that of the printed rows; below class 5 and
 * above the bare strands that a supplier lists (16/0.20, 24/0.20, 28/0.30, 44/0.30: MK Global Trading, “Automotive Cables”);
 * the British table's typical 9.4 and 6.0 mΩ/m of 2 and 3 mm² (rydertowing.co.uk).
 */
export const PRINTED_ISO6722_MEMORY = `0.35 54.4
0.5 37.1
0.75 24.7
1.25 14.9
2 9.42
3 6.15
8 2.38
12 1.52
20 0.955
30 0.647
40 0.473
60 0.315`
export const CHECKSUM_ISO6722_MEMORY = 'de3d441ace0f95584b0eaf6b6d5178ad832dce688663c4cc4ab7d982fcd47cab'

/** AWG; R max Ω/1000 ft at 20 °C. */
export const PRINTED_FAA = `24 28.40
22 16.20
20 9.88
18 6.23
16 4.81
14 3.06
12 2.02
10 1.26
8 0.70
6 0.44
4 0.28
2 0.18
1 0.15
0 0.12
00 0.09
000 0.07
0000 0.06`
export const CHECKSUM_FAA = '4cc969a795060fe9f96395f8a82fc4120cd8322adb53f3b5eec27e4e61a6190f'

export interface Conductor {
  /** As a builder says it: `1.5 mm²`, `AWG 18`. */
  readonly size: string
  readonly family: 'ISO 6722' | 'AWG stranded, aircraft'
  /** Nominal metal cross-section, m². */
  readonly area: number
  /** Largest resistance per length at 20 °C, Ω/m. */
  readonly maximumResistance: number
  /** m, thick wall; absent where the table gives none. */
  readonly conductorDiameter?: number
  readonly outerDiameter?: number
  /** A, guide values of the table for one PVC core with its conductor at 70 °C. */
  readonly currentAt30?: number
  readonly currentAt50?: number
  readonly source: Source
}

const rows = (printed: string): string[][] => printed.split('\n').map((line) => line.split(' '))
const MILLI = 1e-3
const SQUARE_MILLIMETRE = 1e-6
const THOUSAND_FEET = 304.8

/** Number that the gauge formula takes: 0, −1, −2, −3 for 0, 00, 000, 0000. */
export const awgNumber = (text: string): number => (/^0+$/.test(text) ? 1 - text.length : Number(text))

/** Diameter of a solid American Wire Gauge conductor, m; a whole `gauge`, −3 (0000) … 56. */
export const awgDiameter = (gauge: number): number => Math.sqrt((4 * awgArea(gauge)) / Math.PI)

const readRows: Conductor[] = rows(PRINTED_ISO6722).map(([size, , resistance, conductor, , outer, at30, at50]) => ({
  size: `${size} mm²`,
  family: 'ISO 6722',
  area: Number(size) * SQUARE_MILLIMETRE,
  maximumResistance: Number(resistance) * MILLI,
  conductorDiameter: Number(conductor) * MILLI,
  outerDiameter: Number(outer) * MILLI,
  currentAt30: Number(at30),
  currentAt50: Number(at50),
  source: iso6722,
}))
const rememberedRows: Conductor[] = rows(PRINTED_ISO6722_MEMORY).map(([size, resistance]) => ({
  size: `${size} mm²`,
  family: 'ISO 6722',
  area: Number(size) * SQUARE_MILLIMETRE,
  maximumResistance: Number(resistance) * MILLI,
  source: iso6722Memory,
}))
const gaugeRows: Conductor[] = rows(PRINTED_FAA).map(([gauge, resistance]) => ({
  size: `AWG ${gauge}`,
  family: 'AWG stranded, aircraft',
  area: awgArea(awgNumber(gauge!)),
  maximumResistance: Number(resistance) / THOUSAND_FEET,
  source: faaTable,
}))

/** Every listed conductor, metric sizes first, smallest first. */
export const CONDUCTORS: readonly Conductor[] = [
  ...[...readRows, ...rememberedRows].sort((a, b) => a.area - b.area),
  ...gaugeRows,
]

/** The listed conductor of that size, or nothing: a size that no table lists is never rounded to one that is. */
export const conductorOf = (size: string): Conductor | undefined =>
  CONDUCTORS.find((conductor) => conductor.size === size)
/** The listed conductor of that cross-section (m²), to 0.1 %, metric or gauge; no two rows come that close. */
export const conductorOfArea = (area: number): Conductor | undefined =>
  CONDUCTORS.find((conductor) => Math.abs(conductor.area / area - 1) < 1e-3)
