/**
 * Room between a bundle and the edge of a hole.   c = (H − b)/2 − e; x = c − 3/8 in
 *   H  hole                 m    0.002 … 0.3
 *   b  bundle               m    0.0005 … 0.3
 *   e  off the middle       m    0 … 0.15
 *   c  clearance            m
 *   x  over what is asked   m
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: a round hole, a bundle clamped so that it stays where it is.
 * Source: FAA AC 43.13-1B, 11-115: a grommet wherever less than 3/8 in is not ensured [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { INCH } from '../exactUnits.ts'

const faa: Source = {
  title: 'FAA AC 43.13-1B, paragraph 11-115, landseaskyspace.com',
  where: 'grommets wherever wires cannot be clamped with at least a 3/8-inch clearance at penetrations',
  how: 'read',
}
const ASKED = (3 / 8) * INCH

export const passageClearance = calculation({
  id: 'passage-clearance',
  title: 'Room between a bundle and the edge of a hole',
  inputs: {
    hole: quantity('length', {
      symbol: 'H',
      min: 0.002,
      max: 0.3,
      plausible: [0.006, 0.1],
      about: 'diameter of the hole',
    }),
    bundle: quantity('length', {
      symbol: 'b',
      min: 0.0005,
      max: 0.3,
      plausible: [0.0015, 0.06],
      about: 'diameter of the bundle with its sleeve',
    }),
    off: quantity('length', { symbol: 'e', min: 0, max: 0.15, about: 'bundle off the middle of the hole' }),
  },
  outputs: {
    clearance: result('length', { symbol: 'c', about: 'narrowest room between bundle and edge' }),
    over: result('length', { symbol: 'x', about: 'over 3/8 in; below 0 the hole wants a grommet' }),
  },
  conditions: [
    {
      at: 'bundle',
      holds: ({ hole, bundle, off }) => bundle / 2 + off <= hole / 2,
      says: 'The bundle does not pass through the hole.',
      todo: 'Measure both, or make the hole wider.',
    },
  ],
  formula: '{clearance} = ({hole} − {bundle}) / 2 − {off}\n{over} = {clearance} − 9.525 mm',
  sources: [faa],
  cautions: ['A wire that chafes through on a bare edge burns: no hole in sheet metal without its grommet.'],
  limits: [
    'A round hole and a bundle that clamps hold in its place on both sides. A rule for aircraft; on a car a grommet costs nothing and keeps the water out as well. The hole for a grommet is its groove’s diameter: the maker’s sheet.',
  ],
  checks: [
    {
      inputs: { hole: 0.02 + 0.75 * INCH, bundle: 0.02, off: 0 },
      output: 'over',
      expected: 0,
      tolerance: { abs: 1e-5 },
      because: 'exactly 3/8 in on each side',
      source: faa,
      evidence: 'published',
    },
  ],
  compute: ({ hole, bundle, off }) => {
    const clearance = (hole - bundle) / 2 - off
    return { clearance, over: clearance - ASKED }
  },
})
