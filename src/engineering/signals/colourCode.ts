/**
 * Colour bands of a resistor by IEC 60062: two or three digits, a power of ten, a tolerance. With 2 % or less it carries
 * three digits, with 5 % or more two.
 *
 * Source: IEC 60062:2016 as tabled at resistorcolorcodes.org/chart and kodekata.net/resistorcolorcode [read; they agree in
 *   every row that is here; kodekata gives violet 0.5 %, which elektropage.com and the chart give as 0.1 %]; two or three
 *   digits by tolerance: instrumentationtools.com, “IEC labelling” [read].
 */

const DIGITS = ['black', 'brown', 'red', 'orange', 'yellow', 'green', 'blue', 'violet', 'grey', 'white'] as const
export type BandColour = (typeof DIGITS)[number] | 'gold' | 'silver' | 'pink'

const TOLERANCES: readonly (readonly [number, BandColour])[] = [
  [0.1, 'silver'],
  [0.05, 'gold'],
  [0.02, 'red'],
  [0.01, 'brown'],
  [0.005, 'green'],
  [0.0025, 'blue'],
  [0.001, 'violet'],
  [0.0005, 'orange'],
  [0.0002, 'yellow'],
]
const LOW_POWERS: Readonly<Record<number, BandColour>> = { '-1': 'gold', '-2': 'silver', '-3': 'pink' }

const near = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-9 * Math.abs(b)

/** Bands from the first digit on; 20 % has no band of its own. `undefined` where the code has no way to write it. */
export const colourBands = (resistance: number, tolerance: number): readonly BandColour[] | undefined => {
  const last = near(tolerance, 0.2)
    ? []
    : TOLERANCES.filter(([share]) => near(share, tolerance)).map(([, band]) => band)
  if (!(resistance > 0) || !Number.isFinite(resistance) || (last.length === 0 && !near(tolerance, 0.2)))
    return undefined
  for (const count of tolerance > 0.021 ? [2, 3] : [3]) {
    let power = Math.floor(Math.log10(resistance)) - count + 1
    let figure = resistance / 10 ** power
    // log10 of 1000 may fall a hair short of 3, and 999.96 rounds up a decade.
    if (Math.round(figure) >= 10 ** count) {
      power += 1
      figure /= 10
    }
    if (!near(Math.round(figure), figure)) continue
    const multiplier = power >= 0 ? DIGITS[power] : LOW_POWERS[power]
    if (multiplier === undefined) continue
    return [
      ...String(Math.round(figure))
        .split('')
        .map((digit) => DIGITS[Number(digit)]!),
      multiplier,
      ...last,
    ]
  }
  return undefined
}
