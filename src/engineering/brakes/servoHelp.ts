/**
 * What a vacuum servo adds.   Smax = A·Δp, S = min((i − 1)·F, Smax), Fk = Smax/(i − 1)
 *   F     onto the servo          N   0 … 2e4
 *   i     servo ratio             1   1 … 12
 *   A     effective diaphragm     m²  0 … 0.3
 *   Δp    vacuum                  Pa  0 … 1.1e5
 *   Smax  greatest help           N
 *   S     help                    N
 *   Fk    run-out                 N
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: beyond run-out each newton of the foot adds one newton only.
 * Source: Limpert [from memory]; pressure times area as a physics page works it [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { POUND_FORCE } from '../exactUnits.ts'
import { limpert } from './sources.ts'

const hyperphysics: Source = {
  title: 'Magdeburg hemispheres, hyperphysics.phy-astr.gsu.edu',
  where: '154 cm², half of the air pumped out: 780 N',
  how: 'read',
}

export const servoHelp = calculation({
  id: 'servo-help',
  title: 'What a vacuum servo adds, and where it runs out',
  inputs: {
    force: quantity('force', {
      symbol: 'F',
      min: 0,
      max: 2e4,
      about: 'force onto the servo: pedal force × pedal ratio',
    }),
    ratio: quantity('ratio', {
      symbol: 'i',
      min: 1,
      max: 12,
      plausible: [1.5, 8],
      about: 'servo ratio: force out over force in, below run-out',
    }),
    area: quantity('area', {
      symbol: 'A',
      min: 0,
      max: 0.3,
      plausible: [0.01, 0.12],
      about: 'effective area of all diaphragms together, less than their outer diameter gives',
    }),
    vacuum: quantity('pressureDifference', {
      symbol: 'Δp',
      min: 0,
      max: 1.1e5,
      plausible: [0, 9e4],
      about: 'outside pressure less the pressure in the servo’s front chamber while applied',
    }),
  },
  outputs: {
    greatest: result('force', { symbol: 'Smax', about: 'greatest help' }),
    help: result('force', { symbol: 'S', about: 'help at this force' }),
    runOut: result('force', { symbol: 'Fk', about: 'force onto the servo at which it runs out' }),
  },
  conditions: [
    {
      at: 'ratio',
      holds: ({ ratio }) => ratio > 1,
      says: 'A servo whose ratio is 1 adds nothing and runs out nowhere.',
      todo: 'Enter the ratio from its sheet, or leave the servo out.',
    },
  ],
  formula:
    '{greatest} = {area} × {vacuum}\n{help} = min(({ratio} − 1) × {force}, {greatest})\n{runOut} = {greatest} / ({ratio} − 1)',
  sources: [limpert, hyperphysics],
  cautions: ['A servo helps only while it has vacuum: the brakes must stop the car without it, with more force.'],
  limits: ['Jump-in, return spring and hysteresis are left out: together up to some 200 N at the push rod.'],
  checks: [
    {
      inputs: { force: 2e4, ratio: 4, area: 0.0154, vacuum: 101325 / 2 },
      output: 'greatest',
      expected: 780,
      tolerance: { rel: 2e-3 },
      because: 'printed to 10 N',
      source: hyperphysics,
      evidence: 'published',
    },
    {
      inputs: { force: 550 * POUND_FORCE, ratio: 1.8, area: 0.05, vacuum: 6.67e4 },
      output: 'help',
      expected: 440 * POUND_FORCE,
      tolerance: { rel: 1e-9 },
      because: 'exact: 550 lbf in, 990 lbf out',
      source: {
        title: 'Brake line pressure, toolroost.com',
        where: '110 lbf, 5 to 1, servo 1.80: 990 lbf at the cylinder',
        how: 'read',
      },
      evidence: 'published',
    },
  ],
  compute: ({ force, ratio, area, vacuum }) => {
    const greatest = area * vacuum
    return { greatest, help: Math.min((ratio - 1) * force, greatest), runOut: greatest / (ratio - 1) }
  },
})
