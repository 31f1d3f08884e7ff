/**
 * Published current of a standard copper conductor, carried to another ambient and class.
 *   I = Itab·√((T − Ta)/(T0 − 303.15 K))·fb, T0 the conductor temperature of the table; T no more than T0 for gauge sizes
 *   S    size                                        one of the sizes with a published current
 *   T    temperature that the insulation stands      K    333.15 … 523.15
 *   Ta   temperature of the air around               K    220 … 600
 *   N    conductors together that carry current      1    1 … 200
 *   I    current                                     A
 * Errors: `out-of-range`, `unknown-choice`, `not-whole`, `inconsistent-inputs` (air as hot as the insulation stands).
 * Limits: copper. Metric sizes DIN VDE 0298-4 guide values at 70 °C; gauge sizes 33 CFR 183.425, hottest column reached.
 * Source: those two tables and the bundling factors of ABYC E-11; the root rule, computed, meets both tables to 1 %.
 */
import { calculation, choice, quantity, result, type Source } from '../calculation.ts'
import { boatBundle, boatFactor } from './bundleTable.ts'
import { CONDUCTORS, conductorOf, iso6722 } from './conductorTable.ts'
import { BOAT_SIZES, boatRating, boatRatings } from './ratingTable.ts'

const VDE_CONDUCTOR = 343.15
const TABLE_AIR = 303.15
const reprint: Source = {
  title: 'ABYC E-11 reprint, engine space 0.85 at 105 °C',
  where: 'delzer.com, page 70',
  how: 'read',
}

/** Sizes for which a current is published. */
export const RATED_SIZES: readonly string[] = [
  ...CONDUCTORS.filter(({ currentAt30 }) => currentAt30 !== undefined).map(({ size }) => size),
  ...BOAT_SIZES,
]

/** Without the checks of the declaration; undefined where no table lists the size, or air leaves nothing to carry. */
export const ratingOf = (size: string, temperature: number, ambient: number, wires: number): number | undefined => {
  const metric = conductorOf(size)?.currentAt30
  const gauge = metric === undefined ? boatRating(size, temperature) : undefined
  if (metric === undefined && !gauge) return undefined
  const [table, tabled, allowed] = gauge
    ? [gauge.current, gauge.column, gauge.column]
    : [metric!, VDE_CONDUCTOR, temperature]
  if (allowed <= ambient) return undefined
  return table * Math.sqrt((allowed - ambient) / (tabled - TABLE_AIR)) * boatFactor(wires)
}

export const publishedRating = calculation({
  id: 'published-rating',
  title: 'Published current of a conductor',
  inputs: {
    size: choice(RATED_SIZES, { symbol: 'S', about: 'size of the conductor as its table names it' }),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 333.15,
      max: 523.15,
      plausible: [353, 473],
      about: 'temperature that the insulation stands',
    }),
    ambient: quantity('temperature', {
      symbol: 'Ta',
      min: 220,
      max: 600,
      plausible: [253, 393],
      about: 'temperature of the air around',
    }),
    wires: quantity('ratio', {
      symbol: 'N',
      min: 1,
      max: 200,
      whole: true,
      about: 'conductors together that carry current',
    }),
  },
  outputs: { current: result('current', { symbol: 'I', about: 'current that the table allows' }) },
  formula:
    '{current} = Itab({size}) × √(({temperature} − {ambient}) / (T0 − 303.15 K)) × fb({wires}), T0 = 343.15 K for metric sizes; for gauge sizes T0 is the hottest column not above T, and stands in place of T',
  sources: [iso6722, boatRatings, boatBundle],
  cautions: [
    'A wire that carries less than 30 % of its grouped rating need not be counted (IEC 60364-5-52, clause 523.5 [from memory]).',
  ],
  limits: [
    'Copper in air. Guide values: they differ from a heat balance, and from each other, by up to 20 %. Bundling factors are those of the boat rules for metric sizes too.',
  ],
  conditions: [
    {
      at: 'temperature',
      holds: ({ size, temperature, ambient }) => ratingOf(size, temperature, ambient, 1) !== undefined,
      says: 'The air is as hot as the insulation, or the column of the table, stands.',
      todo: 'Choose an insulation of a higher class, or a cooler path.',
    },
  ],
  checks: [
    ...(
      [
        ['1.5 mm²', 17],
        ['10 mm²', 51.8],
        ['120 mm²', 244],
      ] as const
    ).map(([size, expected]) => ({
      inputs: { size, temperature: 343.15, ambient: 323.15, wires: 1 },
      output: 'current',
      expected,
      tolerance: { rel: 0.01 },
      because: 'the printed column at 50 °C, three digits; the rule starts from that at 30 °C',
      source: iso6722,
      evidence: 'published' as const,
    })),
    {
      inputs: { size: 'AWG 10', temperature: 378.15, ambient: 323.15, wires: 1 },
      output: 'current',
      expected: 0.85 * 60,
      tolerance: { rel: 0.01 },
      because: 'factor of two digits',
      source: reprint,
      evidence: 'published',
    },
    {
      inputs: { size: 'AWG 14', temperature: 398.15, ambient: 303.15, wires: 5 },
      output: 'current',
      expected: 24,
      tolerance: { rel: 1e-6 },
      because: 'printed 40 A and 0.60',
      source: boatRatings,
      evidence: 'published',
    },
  ],
  compute: ({ size, temperature, ambient, wires }) => ({ current: ratingOf(size, temperature, ambient, wires)! }),
})
