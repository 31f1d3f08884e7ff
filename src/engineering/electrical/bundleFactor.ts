/**
 * Share of its free-air current that a wire may carry in a bundle.   f = figure 4 of AS50881 at N and L
 *   N   wires that carry current in the bundle   1    1 … 60
 *   L   loading: their current over what they may carry together   1    0.2 … 1
 *   f   share of the free-air current            1
 * Errors: `out-of-range`, `not-whole`. Limits: sea level; between rows straight in the logarithms of N and f, between
 *   columns straight; beyond 19 wires the last two rows are carried on, which meets the two points published there, 33 and
 *   35 wires at 20 %. At full loading nothing is published beyond; the boat rules allow more there (0.40 from 25 wires on).
 * Source: MIL-W-5088L / SAE AS50881 figure 4, a third party's reading of the curves.
 */
import { calculation, quantity, result } from '../calculation.ts'
import { as50881, BUNDLE_LOADINGS, BUNDLE_ROWS } from './bundleTable.ts'

const example = (where: string, how: 'read' | 'memory') =>
  ({ title: 'FAA AC 43.13-1B, wires in harnesses, its own reading of the figure', where, how }) as const

/** Factor of row `row` at `loading`. */
const alongRow = (row: readonly number[], loading: number): number => {
  const above = BUNDLE_LOADINGS.findIndex((column) => column >= loading)
  if (above <= 0) return row[1]!
  const [low, high] = [BUNDLE_LOADINGS[above - 1]!, BUNDLE_LOADINGS[above]!]
  return row[above]! + ((row[above + 1]! - row[above]!) * (loading - low)) / (high - low)
}

/** Without the checks of the declaration, for the many wires of a loom; `wires` 1 … 60, `loading` 0.2 … 1. */
export const bundleShare = (wires: number, loading: number): number => {
  const found = BUNDLE_ROWS.findIndex(([n]) => n! >= wires)
  const above = found < 0 ? BUNDLE_ROWS.length - 1 : found
  const row = BUNDLE_ROWS[above]!
  if (row[0] === wires) return alongRow(row, loading)
  const below = BUNDLE_ROWS[above - 1]!
  const [a, b] = [alongRow(below, loading), alongRow(row, loading)]
  return a * (b / a) ** (Math.log(wires / below[0]!) / Math.log(row[0]! / below[0]!))
}

export const bundleFactor = calculation({
  id: 'bundle-factor',
  title: 'Current of a wire in a bundle',
  inputs: {
    wires: quantity('ratio', {
      symbol: 'N',
      min: 1,
      max: 60,
      whole: true,
      about: 'wires that carry current in the bundle',
    }),
    loading: quantity('ratio', {
      symbol: 'L',
      min: 0.2,
      max: 1,
      about: 'loading: current of those wires over what they may carry together',
    }),
  },
  outputs: { factor: result('ratio', { symbol: 'f', about: 'share of the free-air current' }) },
  formula: '{factor} = figure 4 of AS50881 at {wires} and {loading}',
  sources: [as50881],
  cautions: [
    'A wire that carries nothing in a hot bundle is as hot as the bundle: the class of the weakest insulation in it decides.',
  ],
  limits: [
    'Sea level. Read off curves, ± 0.01 at best. Beyond 19 wires the last two rows are carried on in logarithms: held to published points at 20 % loading only.',
  ],
  checks: [
    {
      inputs: { wires: 8, loading: 0.6 },
      output: 'factor',
      expected: 0.6,
      tolerance: { abs: 0.01 },
      because: 'two readings of one curve',
      source: example('page 11-27, example', 'read'),
      evidence: 'published',
    },
    {
      inputs: { wires: 12, loading: 1 },
      output: 'factor',
      expected: 0.43,
      tolerance: { abs: 0.01 },
      because: 'two readings of one curve',
      source: example('paragraph 11-69, example 2', 'memory'),
      evidence: 'published',
    },
    {
      inputs: { wires: 33, loading: 0.2 },
      output: 'factor',
      expected: 18 / (47 * Math.sqrt(130 / 150) * 0.79),
      tolerance: { abs: 0.02 },
      because:
        'AWG 14 of 200 °C in 70 °C air may carry 18 A among 33 wires at 60 000 ft, 47 A alone in 50 °C (page 11-27); to 0.5 A; 0.79 for the altitude from memory',
      source: example('table 11-9, note 1, page 11-23', 'read'),
      evidence: 'published',
    },
    {
      inputs: { wires: 35, loading: 0.2 },
      output: 'factor',
      expected: 0.52,
      tolerance: { abs: 0.01 },
      because: 'carried on from 19 wires',
      source: example('paragraph 11-69, example 1', 'memory'),
      evidence: 'published',
    },
    {
      inputs: { wires: 1, loading: 1 },
      output: 'factor',
      expected: 1,
      tolerance: { abs: 1e-12 },
      because: 'one wire is no bundle',
      source: as50881,
      evidence: 'law',
    },
  ],
  compute: ({ wires, loading }) => ({ factor: bundleShare(wires, loading) }),
})
