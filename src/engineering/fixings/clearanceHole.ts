/**
 * Hole through which a bolt passes.   table by thread and fit
 *   M   thread  one of M3 to M16
 *   f   fit  one of fine, medium, coarse
 *   dh  hole    m
 *   x   play    m
 * Errors: `no-choice`. Limits: through holes; a threaded hole is another matter.
 * Source: ISO 273, as tabled [read].
 */
import { calculation, choice, result } from '../calculation.ts'
import { iso273 } from './sources.ts'

/** mm: fine (H12), medium (H13), coarse (H14), as printed. */
const HOLES = {
  M3: [3.2, 3.4, 3.6],
  M4: [4.3, 4.5, 4.8],
  M5: [5.3, 5.5, 5.8],
  M6: [6.4, 6.6, 7],
  M8: [8.4, 9, 10],
  M10: [10.5, 11, 12],
  M12: [13, 13.5, 14.5],
  M14: [15, 15.5, 16.5],
  M16: [17, 17.5, 18.5],
} as const
type Thread = keyof typeof HOLES
const THREADS = Object.keys(HOLES) as Thread[]
const FITS = ['fine', 'medium', 'coarse'] as const

const row = (thread: Thread, fit: (typeof FITS)[number], mm: number) => ({
  inputs: { thread, fit },
  output: 'hole',
  expected: mm / 1e3,
  tolerance: { abs: 5e-5 },
  because: 'last digit printed',
  source: iso273,
  evidence: 'published' as const,
})

export const clearanceHole = calculation({
  id: 'clearance-hole',
  title: 'Hole through which a bolt passes',
  inputs: {
    thread: choice(THREADS, { symbol: 'M', about: 'thread of the bolt' }),
    fit: choice(FITS, { symbol: 'f', about: 'fine where holes are drilled together, coarse where parts are apart' }),
  },
  outputs: {
    hole: result('length', { symbol: 'dh', about: 'diameter to drill' }),
    play: result('length', { symbol: 'x', about: 'play on the diameter' }),
  },
  formula: '{hole} = table by {thread} and {fit}\n{play} = {hole} − nominal diameter',
  sources: [iso273],
  cautions: [],
  limits: ['Through holes. What locates a part (dowels, shear plates, hubs) is no clearance hole.'],
  checks: [
    row('M4', 'fine', 4.3),
    row('M6', 'medium', 6.6),
    row('M8', 'medium', 9),
    row('M10', 'fine', 10.5),
    row('M12', 'coarse', 14.5),
    row('M16', 'medium', 17.5),
  ],
  compute: ({ thread, fit }) => {
    const hole = HOLES[thread][FITS.indexOf(fit)]! / 1e3
    return { hole, play: hole - Number(thread.slice(1)) / 1e3 }
  },
})
