/**
 * What is left in a servo after strokes with the engine stalled, at one temperature.   V = V1 + V2 + Vr; p' = p + (pa·(V2 + s) − p·V2)/V, at most pa; pf = p·(V − V2)/(V − V2 − u)
 *   p0  at the start           Pa  500 … 1.1e5
 *   pa  outside                Pa  4e4 … 1.1e5
 *   V1  front chamber          m³  1e-4 … 0.02
 *   V2  rear chamber           m³  0 … 0.02
 *   Vr  reservoir              m³  0 … 0.05
 *   s   swept by one stroke    m³  1e-6 … 0.015
 *   u   swept in the next      m³  1e-6 … 0.015
 *   n   strokes                1   0 … 40
 *   p   left                   Pa
 *   pf  while applied          Pa
 *   Δp  vacuum while applied   Pa
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: full strokes, tight check valve and hoses, isothermal.
 * Source: Boyle; worked figure of 100 ml and 150 kPa [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const boyle: Source = {
  title: 'Boyle’s law, worked: 100 ml at 150 kPa pressed to 200 kPa is 75 ml',
  where: 'partnerperformance.uonbi.ac.ke, 12165311',
  how: 'read',
}
const volume = (symbol: string, min: number, max: number, plausible: readonly [number, number], about: string) =>
  quantity('volume', { symbol, min, max, plausible, about })

export const vacuumStrokes = calculation({
  id: 'vacuum-strokes',
  title: 'Vacuum left in a servo after strokes with the engine stalled',
  inputs: {
    start: quantity('pressureAbsolute', {
      symbol: 'p0',
      min: 500,
      max: 1.1e5,
      plausible: [1e4, 1e5],
      about: 'absolute pressure in servo and reservoir when the engine stalls',
    }),
    outside: quantity('pressureAbsolute', {
      symbol: 'pa',
      min: 4e4,
      max: 1.1e5,
      plausible: [6e4, 1.05e5],
      about: 'of the air outside',
    }),
    front: volume('V1', 1e-4, 0.02, [5e-4, 6e-3], 'front chamber of the servo, at rest, all of its stages'),
    rear: volume('V2', 0, 0.02, [5e-5, 3e-3], 'rear chamber at rest, all of its stages'),
    reservoir: volume('Vr', 0, 0.05, [0, 6e-3], 'reservoir on the servo’s side of the check valve; 0 without'),
    swept: volume('s', 1e-6, 0.015, [1e-4, 5e-3], 'swept by the diaphragms in one full stroke: area × stroke'),
    used: volume('u', 1e-6, 0.015, [5e-5, 5e-3], 'swept in the stop that counts: area × the stroke that it takes'),
    strokes: quantity('ratio', { symbol: 'n', min: 0, max: 40, whole: true, about: 'full strokes already made' }),
  },
  outputs: {
    left: result('pressureAbsolute', { symbol: 'p', about: 'pressure after them, pedal up' }),
    applied: result('pressureAbsolute', {
      symbol: 'pf',
      about: 'pressure in front of the diaphragm in the next stroke',
    }),
    vacuum: result('pressureDifference', { symbol: 'Δp', about: 'vacuum that helps in the next stroke' }),
  },
  conditions: [
    {
      at: 'swept',
      holds: ({ front, reservoir, swept, used }) => Math.max(swept, used) < front + reservoir,
      says: 'One stroke sweeps more than the front chamber and the reservoir hold.',
      todo: 'Measure the chambers by filling them with water from a can, and the stroke at the push rod.',
    },
    {
      at: 'start',
      holds: ({ start, outside }) => start <= outside,
      says: 'The servo would start above the pressure outside.',
      todo: 'Enter the absolute pressure; a gauge that reads 0.7 bar of vacuum means about 30 kPa.',
    },
  ],
  formula:
    'after each stroke p = p + ({outside} × ({rear} + {swept}) − p × {rear}) / ({front} + {rear} + {reservoir}), from {start}, {strokes} times, at most {outside}\n{left} = p\n{applied} = p × ({front} + {reservoir}) / ({front} + {reservoir} − {used}), at most {outside}\n{vacuum} = {outside} − {applied}',
  sources: [boyle],
  cautions: [
    'Try it standing: engine off, pump the pedal, count until it goes hard. Never on a hill, never on the road.',
  ],
  limits: [
    'Every stroke full and slow enough for one temperature; what leaks at check valve, hose or diaphragm comes on top. Above outside pressure the check valve lets air out.',
  ],
  checks: [
    {
      // Front chamber 100 ml less 25 ml swept; a tenth of the printed pressures, as Boyle’s law is proportional.
      inputs: {
        start: 15e3,
        outside: 1e5,
        front: 1e-4,
        rear: 0,
        reservoir: 0,
        swept: 2.5e-5,
        used: 2.5e-5,
        strokes: 0,
      },
      output: 'applied',
      expected: 20e3,
      tolerance: { rel: 1e-9 },
      because: 'exact',
      source: boyle,
      evidence: 'published',
    },
    {
      // Two vessels joined, 3 l at 60 kPa and 2 l at 100 kPa: (180 + 200) / 5 = 76 kPa.
      inputs: { start: 6e4, outside: 1e5, front: 3e-3, rear: 2e-3, reservoir: 0, swept: 1e-6, used: 1e-6, strokes: 1 },
      output: 'left',
      expected: 7.6e4,
      tolerance: { abs: 25 },
      because: 'the stroke cannot be nil: 1e-6 of 5e-3 m³ at 100 kPa is 20 Pa',
      source: { title: 'Boyle’s law for two vessels joined, by hand', how: 'computed' },
      evidence: 'law',
    },
  ],
  compute: ({ start, outside, front, rear, reservoir, swept, used, strokes }) => {
    const all = front + rear + reservoir
    let left = start
    for (let stroke = 0; stroke < Math.round(strokes); stroke += 1)
      left = Math.min(outside, left + (outside * (rear + swept) - left * rear) / all)
    const applied = Math.min(outside, (left * (front + reservoir)) / (front + reservoir - used))
    return { left, applied, vacuum: outside - applied }
  },
})
