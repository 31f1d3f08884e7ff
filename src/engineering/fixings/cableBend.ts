/**
 * Least radius that a cable may be bent to.   R = n·D, n by table
 *   D  cable, outside  m    0.0005 … 0.08
 *   u  use  one of fixed, moving
 *   n  multiple        1
 *   R  least radius    m
 * Errors: `out-of-range`. Limits: flexible cables, measured inside the bend; not screened or coaxial ones.
 * Source: DIN VDE 0298-3, flexible cables, as tabled by a maker of cables [read].
 */
import { calculation, choice, quantity, result, type Source } from '../calculation.ts'

const vde: Source = {
  title: 'Least bending radii by DIN VDE 0298-3, a cable maker’s table T 56, scribd.com 118613583',
  where: 'flexible cables: fixed 3, 3, 4, 4; free movement 3, 4, 5, 5 diameters up to 8, 12, 20 mm and above',
  how: 'read',
}
const faa: Source = {
  title: 'FAA AC 43.13-1B, 11-96: bundles ten times the largest wire, three times at a terminal with support',
  how: 'memory',
}
const USES = ['fixed', 'moving'] as const
type Use = (typeof USES)[number]
/** Up to this diameter, m; multiples fixed and moving. */
const STEPS = [
  [0.008, 3, 3],
  [0.012, 3, 4],
  [0.02, 4, 5],
  [Number.POSITIVE_INFINITY, 4, 5],
] as const
const timesOf = (cable: number, use: Use): number => STEPS.find(([up]) => cable <= up)![use === 'fixed' ? 1 : 2]

const row = (mm: number, use: Use, times: number) => ({
  inputs: { cable: mm / 1e3, use },
  output: 'radius',
  expected: (mm * times) / 1e3,
  tolerance: { rel: 1e-9 },
  because: 'exact as printed',
  source: vde,
  evidence: 'published' as const,
})

export const cableBend = calculation({
  id: 'cable-bend',
  title: 'Least radius that a cable may be bent to',
  inputs: {
    cable: quantity('length', {
      symbol: 'D',
      min: 0.0005,
      max: 0.08,
      plausible: [0.0015, 0.03],
      about: 'outside diameter of the cable',
    }),
    use: choice(USES, { symbol: 'u', about: 'laid once, or moving with an engine, door or lid' }),
  },
  outputs: {
    times: result('ratio', { symbol: 'n', about: 'multiple of the diameter' }),
    radius: result('length', { symbol: 'R', about: 'least radius, on the inside of the bend' }),
  },
  formula: '{times} = table by {cable} and {use}\n{radius} = {times} × {cable}',
  sources: [vde, faa],
  cautions: [],
  limits: [
    'Flexible cables of fine strands, not colder than their maker allows. Screened, coaxial and data cables, and bundles: their own rule (bundles ten times the largest wire, from memory).',
  ],
  checks: [
    row(8, 'fixed', 3),
    row(10, 'moving', 4),
    row(12, 'fixed', 3),
    row(16, 'fixed', 4),
    row(16, 'moving', 5),
    row(25, 'moving', 5),
  ],
  compute: ({ cable, use }) => {
    const times = timesOf(cable, use)
    return { times, radius: times * cable }
  },
})
