/**
 * Convoluted tubing (corrugated conduit): size in 1/32 in; inner diameter, mm; kept as printed, the test holds the
 * checksum. Source, read: a conduit maker's selection guide, tables I and II (bundle factors, tubing sizes, bundle
 * diameter at 70 % fill): Glenair series 72, dtsheet.com document 1247662.
 */
export const PRINTED_TUBING = `06 4.7
09 7.1
10 7.9
12 9.5
14 11.1
16 12.7
20 15.9
24 19.1
28 22.2
32 25.4
40 31.8`
export const CHECKSUM_TUBING = '2df3c6a3cae8e75d1cd2e24430f38e749c0c2173345cb438ef594a8c97ca6aae'
/** Number of equal wires; diameter of a bundle laid by hand over that of a wire. */
export const PRINTED_BUNDLE_DIAMETERS = `1 1.0
2 2.0
3 2.2
4 2.4
5 2.7
6 2.9
7 3.0
8 3.3
9 3.8
10 4.0
12 4.3
14 4.6
16 5.0
18 5.3
20 5.6
24 6.0
28 6.5
32 6.9
36 7.4
40 7.7
50 8.5
60 9.3`
export const CHECKSUM_BUNDLE_DIAMETERS = '4170cf7969da89d2f184e6e4c31d24454678b417529c2e6643e568c0be7d492d'

/**
 * Greatest diameter of a bundle over the inner diameter of its tubing. The guide recommends 70 % fill and prints a
 * bundle of 0.305 in for 0.375 in and of 0.607 in for 0.750 in: 0.813 and 0.809 of the bore.
 */
export const TUBING_FILL = 0.81

export interface Tubing {
  readonly size: string
  /** m. */
  readonly bore: number
}
const TUBINGS: readonly Tubing[] = PRINTED_TUBING.split('\n').map((line) => {
  const [size, bore] = line.split(' ')
  return { size: size!, bore: Number(bore) * 1e-3 }
})

/** The smallest that the bundle (m) fills to the recommended 70 % at most; undefined: thicker than the table goes. */
export const tubingFor = (bundle: number): Tubing | undefined =>
  TUBINGS.find(({ bore }) => bundle <= TUBING_FILL * bore)
