/** Allowable current of gauge sizes by insulation temperature, kept as printed; the test holds the checksum. */
import type { Source } from '../calculation.ts'

export const boatRatings: Source = {
  title: '33 CFR 183.425, table 5, insulated stranded copper, air at 30 °C',
  where: 'federal.elaws.us',
  how: 'read',
}
/** °C of the insulation. */
export const BOAT_COLUMNS = [60, 75, 80, 90, 105, 125, 200] as const
/** AWG; A in each column. */
export const PRINTED_BOAT_RATINGS = `18 10 10 15 20 20 25 25
16 15 15 20 25 25 30 35
14 20 20 25 30 35 40 45
12 25 25 35 40 45 50 55
10 40 40 50 55 60 70 70
8 55 65 70 70 80 90 100
6 80 95 100 100 120 125 135
4 105 125 130 135 160 170 180
3 120 145 150 155 180 195 210
2 140 170 175 180 210 225 240
1 165 195 210 210 245 265 280
0 195 230 245 245 285 305 325
00 225 265 285 285 330 355 370
000 260 310 330 330 385 410 430
0000 300 360 385 385 445 475 510`
export const CHECKSUM_BOAT_RATINGS = 'ef81087807d959a61b100b82638c52ed578be2e7e9ff4821cafd49577ee1f58b'

const rows: ReadonlyMap<string, readonly number[]> = new Map(
  PRINTED_BOAT_RATINGS.split('\n').map((line) => {
    const [gauge, ...amperes] = line.split(' ')
    return [`AWG ${gauge}`, amperes.map(Number)] as const
  }),
)

/** Sizes of the table, `AWG 18` … `AWG 0000`. */
export const BOAT_SIZES: readonly string[] = [...rows.keys()]
/** The row's figure in the hottest column that `insulation` (K) reaches, with that column in K; none below 60 °C. */
export const boatRating = (
  size: string,
  insulation: number,
): { readonly current: number; readonly column: number } | undefined => {
  const row = rows.get(size)
  const index = BOAT_COLUMNS.findLastIndex((column) => column + 273.15 <= insulation + 1e-6)
  return row && index >= 0 ? { current: row[index]!, column: BOAT_COLUMNS[index]! + 273.15 } : undefined
}
