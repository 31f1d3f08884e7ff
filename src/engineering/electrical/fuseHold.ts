/**
 * What a fuse lets its conductor carry: for good, and at 135 % until the slowest good fuse opens.
 *   F    fuse type                                     one of blade, maxi, bolt-down
 *   In   rated current                                 A  3 … 500
 *   Ih   current carried without end                   A
 *   Ig   current of the 135 % gate                     A
 *   tg   longest time at the 135 % gate                s
 * Errors: `out-of-range`, `unknown-choice`. Limits: fuse at 23 °C; below 135 % no standard makes a fuse open, so a fault
 *   there is not protected. Source: ISO 8820-3 and -5 [from memory], makers' sheets read.
 */
import { calculation, choice, quantity, result } from '../calculation.ts'
import { atofSheet, FUSE_TYPES, holdMultiple, iso8820, maxiSheet, slowestTime } from './fuseGates.ts'

const GATE = 1.35

export const fuseHold = calculation({
  id: 'fuse-hold',
  title: 'What a fuse lets its wire carry',
  inputs: {
    type: choice(FUSE_TYPES, {
      symbol: 'F',
      about: 'fuse type: blade (types C and F), maxi (type E), bolt-down (ISO 8820-5)',
    }),
    rating: quantity('current', { symbol: 'In', min: 3, max: 500, about: 'rated current' }),
  },
  outputs: {
    hold: result('current', {
      symbol: 'Ih',
      about: 'current carried without end: 110 % of rating, 100 % for bolt-down',
    }),
    gate: result('current', { symbol: 'Ig', about: 'current of the 135 % gate' }),
    longest: result('time', { symbol: 'tg', about: 'longest time at the 135 % gate' }),
  },
  formula:
    '{hold} = {rating} × 1.10 (1.00 for bolt-down), fuse type {type}\n{gate} = {rating} × 1.35\n{longest} from the gates of the type',
  sources: [iso8820, atofSheet, maxiSheet],
  cautions: [
    'A fault that draws less than 135 % of rating, such as an arcing or resistive short, is not protected by the fuse.',
  ],
  limits: [
    'Fuse at 23 °C with its test cable; a hot fuse box opens it earlier and asks for a smaller continuous load. Bolt-down figures differ by maker: take the maker’s sheet.',
  ],
  checks: [
    {
      inputs: { type: 'blade', rating: 40 },
      output: 'longest',
      expected: 600,
      tolerance: { rel: 1e-9 },
      because: 'a gate, printed 0.75–600 s',
      source: atofSheet,
      evidence: 'published',
    },
    {
      inputs: { type: 'maxi', rating: 40 },
      output: 'longest',
      expected: 1800,
      tolerance: { rel: 1e-9 },
      because: 'a gate, printed 60–1 800 s',
      source: maxiSheet,
      evidence: 'published',
    },
    {
      inputs: { type: 'blade', rating: 10 },
      output: 'hold',
      expected: 11,
      tolerance: { rel: 1e-9 },
      because: 'a gate',
      source: iso8820,
      evidence: 'published',
    },
    {
      inputs: { type: 'bolt-down', rating: 100 },
      output: 'hold',
      expected: 100,
      tolerance: { rel: 1e-9 },
      because: 'a gate',
      source: iso8820,
      evidence: 'published',
    },
  ],
  compute: ({ type, rating }) => ({
    hold: rating * holdMultiple(type),
    gate: rating * GATE,
    longest: slowestTime(type, GATE)!,
  }),
})
