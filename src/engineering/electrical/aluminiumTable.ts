/** Largest resistance of aluminium conductors, kept as printed; the test holds the checksum. */
import type { Source } from '../calculation.ts'

export const iec60228: Source = {
  title: 'IEC 60228 / GOST 22483, aluminium, class 1',
  where: 'cablesnab.ru',
  how: 'read',
}
/** mm²; Ω/km at 20 °C. */
export const PRINTED_ALUMINIUM = `10 3.08
16 1.91
25 1.20
35 0.868
50 0.641
70 0.443
95 0.320
120 0.253`
export const CHECKSUM_ALUMINIUM = '217d4cd6f1894aa72c43d44fcf0757a037820d2088b9ab36d88adac34b5881fc'

const rows = PRINTED_ALUMINIUM.split('\n').map((line) => line.split(' ').map(Number) as [number, number])
/** Ω/m at 20 °C of the listed aluminium conductor of that section (m², to 0.1 %); undefined: not listed. */
export const aluminiumMaximum = (area: number): number | undefined => {
  const row = rows.find(([size]) => Math.abs((size * 1e-6) / area - 1) < 1e-3)
  return row && row[1] * 1e-3
}
