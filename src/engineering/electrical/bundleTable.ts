/**
 * What share of its free-air current each wire of a bundle may carry, by number of wires and loading: the printed curves
 * as somebody read them off (± 0.01 at best), and the factors of the boat rules. Checksums are held by the test.
 */
import type { Source } from '../calculation.ts'

export const as50881: Source = {
  title: 'MIL-W-5088L (now SAE AS50881), figure 4, bundle derating, digitised by a third party',
  where: 'gist.github.com/depwl9992',
  how: 'read',
}
export const boatBundle: Source = {
  title: 'ABYC E-11 and note 2 of 33 CFR 183.425, table 5: conductors bundled together',
  where: 'reprint at delzer.com, page 212',
  how: 'read',
}
/** N; factor at 20, 40, 60, 80 and 100 % loading. */
export const PRINTED_BUNDLE = `1 1 1 1 1 1
2 0.9675 0.92 0.91 0.87 0.825
3 0.935 0.855 0.815 0.77 0.725
4 0.9075 0.805 0.75 0.705 0.66
5 0.875 0.76 0.695 0.65 0.61
6 0.85 0.725 0.655 0.605 0.5725
7 0.82 0.695 0.625 0.57 0.54
8 0.795 0.6675 0.595 0.5425 0.5125
9 0.775 0.645 0.575 0.52 0.485
10 0.755 0.6225 0.55 0.50 0.465
12 0.715 0.585 0.515 0.465 0.43
15 0.67 0.54 0.465 0.42 0.385
19 0.625 0.495 0.4225 0.38 0.3425`
export const CHECKSUM_BUNDLE = 'adfcc5fff5ddda56d50df9e770e0131d1e6d2328f30ac181b7305f04e4f65a4f'
/** Fewest conductors together; factor. */
export const PRINTED_BOAT_BUNDLE = `1 1
3 0.70
4 0.60
7 0.50
25 0.40`
export const CHECKSUM_BOAT_BUNDLE = 'b8ad8a215e3a06424e57b707d51203bf89b5801e4a3ee55b35b3a72bde84e454'

const numbers = (printed: string): number[][] => printed.split('\n').map((line) => line.split(' ').map(Number))
export const BUNDLE_ROWS = numbers(PRINTED_BUNDLE)
export const BUNDLE_LOADINGS = [0.2, 0.4, 0.6, 0.8, 1] as const
const boatRows = numbers(PRINTED_BOAT_BUNDLE)

/** Of `wires` current-carrying conductors together, 1 or more. */
export const boatFactor = (wires: number): number => boatRows.filter(([least]) => wires >= least!).at(-1)![1]!
