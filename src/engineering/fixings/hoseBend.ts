/**
 * Least bend of a one-wire rubber hose.   table by dash
 *   n  dash size  one of 3 to 32
 *   R  least radius  m
 * Errors: `no-choice`. Limits: SAE 100R1 hydraulic hose, inside of the bend; another hose has its maker’s radius.
 * Source: SAE J517, 100R1: 3.5 in of 3/16 to 25 in of 2 in [read]; sizes between [from memory].
 */
import { calculation, choice, result, type Source } from '../calculation.ts'
import { INCH } from '../exactUnits.ts'

const j517: Source = {
  title: 'SAE J517, 100R1, as tabled by blog.parker.com: least bend 3.5 to 25 in for 3/16 to 2 in hose',
  how: 'read',
}
const between: Source = { title: 'SAE J517, 100R1, least bend of the sizes between', how: 'memory' }
/** in. */
const RADII = {
  '3': 3.5,
  '4': 4,
  '5': 4.5,
  '6': 5,
  '8': 7,
  '10': 8,
  '12': 9.5,
  '16': 12,
  '20': 16.5,
  '24': 20,
  '32': 25,
} as const
const DASHES = ['3', '4', '5', '6', '8', '10', '12', '16', '20', '24', '32'] as const
const row = (dash: (typeof DASHES)[number], inches: number) => ({
  inputs: { dash },
  output: 'radius',
  expected: inches * INCH,
  tolerance: { abs: 0.05 * INCH },
  because: 'last digit printed',
  source: j517,
  evidence: 'published' as const,
})

export const hoseBend = calculation({
  id: 'hose-bend',
  title: 'Least bend of a one-wire rubber hose',
  inputs: { dash: choice(DASHES, { symbol: 'n', about: 'dash size: bore in sixteenths of an inch' }) },
  outputs: { radius: result('length', { symbol: 'R', about: 'least radius, on the inside of the bend' }) },
  formula: '{radius} = table by {dash}',
  sources: [j517, between],
  cautions: ['Fuel and brake hose: the radius of its own maker, and a qualified person must inspect it.'],
  limits: [
    'SAE 100R1 and EN 853 1SN rubber hose with one braid of wire. Fuel hose, PTFE hose and thin-walled hose have their maker’s radius. Sizes between 3/16 and 2 in are from memory.',
  ],
  checks: [row('3', 3.5), row('32', 25)],
  compute: ({ dash }) => ({ radius: RADII[dash] * INCH }),
})
