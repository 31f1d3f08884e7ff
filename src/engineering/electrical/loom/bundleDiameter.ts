/**
 * Diameter of a bundle of equal wires.   Df = d · k(N);  Dl = Df · f;  Do = Dl + 4 · t
 *   N    wires                              1    1 … 100
 *   d    outer diameter of a wire           m    1e-4 … 0.04
 *   f    hand-laid over tightest packing    1    1 … 1.5
 *   t    thickness of the tape              m    0 … 2e-3
 *   Df   tightest packing                   m
 *   Dl   laid by hand                       m
 *   Do   over tape                          m
 * Errors: `out-of-range`, `not-whole`. Limits: k(N) is found by a search, within 4 % of the best packing known; the tape
 *   is wound half over itself, so that it lies twice on each side.
 * Source: best packings known of equal circles in a circle, Graham, Lubachevsky, Nurmela, Östergård (1998), and Specht.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'
import { HAND_LAID_SOURCE } from './bundle.ts'
import { packCircles } from './packCircles.ts'

export const equalCircles: Source = {
  title:
    'R. L. Graham, B. D. Lubachevsky, K. J. Nurmela, P. R. J. Östergård, Dense packings of congruent circles in a circle, Discrete Mathematics 181 (1998) 139–154; E. Specht, best known packings of equal circles',
  where: 'table of ratios D/d, 1 … 61 circles',
  how: 'read',
}
const wire = 2e-3
const check = (wires: number, ratio: number) =>
  ({
    inputs: { wires, diameter: wire, handLaid: 1, tape: 0 },
    output: 'tightest',
    expected: ratio * wire,
    tolerance: { rel: 1e-3 },
    because: 'a search, not a proof',
    source: equalCircles,
    evidence: 'published',
  }) as const

export const bundleDiameter = calculation({
  id: 'bundle-diameter',
  title: 'Diameter of a bundle of equal wires',
  inputs: {
    wires: quantity('ratio', { symbol: 'N', min: 1, max: 100, whole: true, about: 'wires' }),
    diameter: quantity('length', {
      symbol: 'd',
      min: 1e-4,
      max: 0.04,
      plausible: [1.2e-3, 0.02],
      about: 'outer diameter of a wire',
    }),
    handLaid: quantity('ratio', {
      symbol: 'f',
      min: 1,
      max: 1.5,
      plausible: [1, 1.25],
      about: 'hand-laid over tightest packing',
    }),
    tape: quantity('length', {
      symbol: 't',
      min: 0,
      max: 2e-3,
      plausible: [0, 1e-3],
      about: 'thickness of the tape',
    }),
  },
  outputs: {
    tightest: result('length', { symbol: 'Df', about: 'tightest packing' }),
    laid: result('length', { symbol: 'Dl', about: 'laid by hand' }),
    over: result('length', { symbol: 'Do', about: 'over tape' }),
  },
  formula: '{tightest} = {diameter} × k({wires})\n{laid} = {tightest} × {handLaid}\n{over} = {laid} + 4 × {tape}',
  sources: [equalCircles, HAND_LAID_SOURCE],
  cautions: [],
  limits: [
    'k is found by a search, within 4 % of the best packing known, mostly within 0.2 %. Tape half over itself lies twice on each side. The customary 1.2·√(N)·d lies below the geometrical least for 2 to 6, 9 and 10 wires and is not used.',
  ],
  checks: [
    check(2, 2),
    check(3, 2.1547),
    check(4, 2.41421),
    check(5, 2.7013),
    check(7, 3),
    check(13, 4.23607),
    check(19, 4.8637),
  ],
  compute: ({ wires, diameter, handLaid, tape }) => {
    const tightest = packCircles(new Array<number>(wires).fill(diameter / 2)).radius * 2
    const laid = wires > 1 ? tightest * handLaid : tightest
    return { tightest, laid, over: laid + 4 * tape }
  },
})
