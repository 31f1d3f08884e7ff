/**
 * Two tracks of a pedal or throttle against each other.   d = (V1 − a1)/(b1 − a1) − (V2 − a2)/(b2 − a2)
 *   V1  track 1 now               V  0 … 30
 *   a1  track 1, closed           V  0 … 30
 *   b1  track 1, fully open       V  0 … 30
 *   V2  track 2 now               V  0 … 30
 *   a2  track 2, closed           V  0 … 30
 *   b2  track 2, fully open       V  0 … 30
 *   x1  position by track 1       1
 *   x2  position by track 2       1
 *   d   disagreement              1
 *   E2  what track 2 should show  V
 * Errors: `out-of-range`, `inconsistent-inputs` (a track whose ends coincide). Limits: straight tracks, one supply for all figures.
 * Source: proportion; that one track shows half of the other, and what a controller allows: workshop manuals as cited.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const half: Source = {
  title: 'Fault code P2138: at the same position pedal sensor B is always by factor 2 smaller than A',
  where: 'honcivic.autos/techinfo A011636',
  how: 'read',
}
const limit: Source = {
  title: 'Fault code P2138: set when the two tracks, each over its own travel, differ by more than 4.5 %',
  where: 'gds-manuals.ru xm12 2013, 8588659',
  how: 'read',
}
const track = (symbol: string, about: string) =>
  quantity('voltage', { symbol, min: 0, max: 30, plausible: [0, 5.2], about })
const halved = (voltage1: number, voltage2: number) => ({
  voltage1,
  closed1: 0.75,
  open1: 4,
  voltage2,
  closed2: 0.375,
  open2: 2,
})

export const twoTrackDifference = calculation({
  id: 'two-track-difference',
  title: 'Two tracks of a pedal or throttle against each other',
  inputs: {
    voltage1: track('V1', 'track 1 now'),
    closed1: track('a1', 'track 1, closed'),
    open1: track('b1', 'track 1, fully open'),
    voltage2: track('V2', 'track 2 now'),
    closed2: track('a2', 'track 2, closed'),
    open2: track('b2', 'track 2, fully open'),
  },
  outputs: {
    position1: result('ratio', { symbol: 'x1', about: 'position by track 1' }),
    position2: result('ratio', { symbol: 'x2', about: 'position by track 2' }),
    difference: result('ratio', { symbol: 'd', about: 'disagreement' }),
    expected2: result('voltage', { symbol: 'E2', about: 'what track 2 should show' }),
  },
  formula:
    '{position1} = ({voltage1} − {closed1}) / ({open1} − {closed1})\n{position2} = ({voltage2} − {closed2}) / ({open2} − {closed2})\n{difference} = {position1} − {position2}\n{expected2} = {closed2} + {position1} × ({open2} − {closed2})',
  sources: [half, limit],
  cautions: [
    'Electronic throttle: wheels off the ground or the gearbox out of gear, engine off, fingers out of the throttle body.',
  ],
  limits: [
    'Straight tracks and one supply for all six figures. What a controller allows is its own: 4.5 % of travel in the manual cited.',
  ],
  conditions: [
    {
      at: 'open1',
      holds: (given) => given.closed1 !== given.open1,
      says: 'Track 1 shows the same closed and open.',
      todo: 'Measure both again, key on; a track that never moves is not fed or broken.',
    },
    {
      at: 'open2',
      holds: (given) => given.closed2 !== given.open2,
      says: 'Track 2 shows the same closed and open.',
      todo: 'Measure both again, key on; a track that never moves is not fed or broken.',
    },
  ],
  checks: [
    {
      inputs: halved(3, 1.5),
      output: 'expected2',
      expected: 1.5,
      tolerance: { abs: 1e-6 },
      because: 'a factor of exactly two',
      source: half,
      evidence: 'published',
    },
    {
      inputs: halved(3, 1.5),
      output: 'difference',
      expected: 0,
      tolerance: { abs: 1e-9 },
      because: 'both by the stated factor, so they agree',
      source: half,
      evidence: 'published',
    },
    {
      inputs: halved(4, 2 - 0.045 * 1.625),
      output: 'difference',
      expected: 0.045,
      tolerance: { abs: 1e-9 },
      because: 'at the manual’s limit, by its own words a share of travel',
      source: limit,
      evidence: 'published',
    },
  ],
  compute: ({ voltage1, closed1, open1, voltage2, closed2, open2 }) => {
    const position1 = (voltage1 - closed1) / (open1 - closed1)
    const position2 = (voltage2 - closed2) / (open2 - closed2)
    return {
      position1,
      position2,
      difference: position1 - position2,
      expected2: closed2 + position1 * (open2 - closed2),
    }
  },
})
