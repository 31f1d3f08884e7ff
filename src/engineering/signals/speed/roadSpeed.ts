/**
 * Road speed in a gear.   v = ω·r / (i·f)
 *   ω   engine speed             rad/s  0 … 2000
 *   i   ratio of the gear        1      0.2 … 20
 *   f   ratio of the final drive  1     0.5 … 20
 *   r   rolling radius           m      0.1 … 1
 *   v   road speed               m/s
 *   v'  road speed at 1000 min⁻¹  m/s
 * Errors: `out-of-range`. Limits: no slip of clutch, converter or tyre; the rolling radius is about 3 % under the free one.
 * Source: rolling without slip.
 */
import { calculation, quantity, result } from '../../calculation.ts'
import { INCH, MPH, RPM } from '../../exactUnits.ts'
import { GEARING_AT_REVS, GEARING_AT_SPEED, rollingRadius } from './sources.ts'

export const roadSpeed = calculation({
  id: 'road-speed',
  title: 'Road speed in a gear',
  inputs: {
    engineSpeed: quantity('angularSpeed', {
      symbol: 'ω',
      min: 0,
      max: 2000,
      plausible: [0, 1050],
      about: 'engine speed',
    }),
    gear: quantity('ratio', { symbol: 'i', min: 0.2, max: 20, plausible: [0.5, 5], about: 'ratio of the gear' }),
    finalDrive: quantity('ratio', {
      symbol: 'f',
      min: 0.5,
      max: 20,
      plausible: [2.2, 7],
      about: 'ratio of the final drive',
    }),
    radius: rollingRadius(),
  },
  outputs: {
    speed: result('speed', { symbol: 'v', about: 'road speed' }),
    per1000: result('speed', { symbol: "v'", about: 'road speed at 1000 revolutions a minute' }),
  },
  formula:
    '{speed} = {engineSpeed} × {radius} / ({gear} × {finalDrive})\n{per1000} = 104.72 rad/s × {radius} / ({gear} × {finalDrive})',
  sources: [GEARING_AT_SPEED, GEARING_AT_REVS],
  cautions: [],
  limits: [
    'No slip. A radial tyre rolls on about 97 % of its free radius (common practice, no published source); measure a few turns on the ground.',
  ],
  checks: [
    {
      inputs: { engineSpeed: 3211 * RPM, gear: 1, finalDrive: 3.55, radius: 13 * INCH },
      output: 'speed',
      expected: 70 * MPH,
      tolerance: { rel: 7e-4 },
      because: 'its constant is rounded to 336 (336.13)',
      source: GEARING_AT_SPEED,
      evidence: 'published',
    },
    {
      inputs: { engineSpeed: 3000 * RPM, gear: 1, finalDrive: 3.73, radius: 15 * INCH },
      output: 'speed',
      expected: 71.8 * MPH,
      tolerance: { rel: 1e-3 },
      because: 'printed to three digits',
      source: GEARING_AT_REVS,
      evidence: 'published',
    },
  ],
  compute: ({ engineSpeed, gear, finalDrive, radius }) => ({
    speed: (engineSpeed * radius) / (gear * finalDrive),
    per1000: (1000 * RPM * radius) / (gear * finalDrive),
  }),
})
