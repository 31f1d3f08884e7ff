/**
 * True speed with other or worn tyres.   v = u·r/r0
 *   u   speed shown                             m/s  0 … 150
 *   r0  rolling radius it was calibrated with   m    0.1 … 1
 *   r   rolling radius now                      m    0.1 … 1
 *   v   true speed                              m/s
 *   e   shown over true                         1
 * Errors: `out-of-range`. Limits: a speedometer driven by the wheels; a tyre worn by 6 mm has a radius 6 mm less.
 * Source: rolling without slip.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'
import { INCH, MPH } from '../../exactUnits.ts'
import { rollingRadius } from './sources.ts'

const worked: Source = {
  title: 'Worked example: from 31.6 in to 33.8 in tyres, 60 mph shown are about 64',
  where: 'superglobalcalculator.com, speedometer gear',
  how: 'read',
}

export const tyreError = calculation({
  id: 'speedometer-tyre-error',
  title: 'True speed with other or worn tyres',
  inputs: {
    shown: quantity('speed', { symbol: 'u', min: 0, max: 150, plausible: [0, 80], about: 'speed shown' }),
    calibrated: rollingRadius('r0', 'rolling radius it was calibrated with'),
    radius: rollingRadius('r', 'rolling radius now'),
  },
  outputs: {
    speed: result('speed', { symbol: 'v', about: 'true speed' }),
    reads: result('ratio', { symbol: 'e', about: 'shown over true' }),
  },
  formula: '{speed} = {shown} × {radius} / {calibrated}\n{reads} = {calibrated} / {radius}',
  sources: [worked],
  cautions: ['A speedometer may not read low: UN R39 and the local inspection.'],
  limits: ['Speedometer and distance driven by the wheels.'],
  checks: [
    {
      inputs: { shown: 60 * MPH, calibrated: 15.8 * INCH, radius: 16.9 * INCH },
      output: 'speed',
      expected: 64 * MPH,
      tolerance: { rel: 0.004 },
      because: 'printed “about 64”, which is to half a mile an hour',
      source: worked,
      evidence: 'published',
    },
  ],
  compute: ({ shown, calibrated, radius }) => ({ speed: (shown * radius) / calibrated, reads: calibrated / radius }),
})
