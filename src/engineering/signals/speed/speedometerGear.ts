/**
 * Teeth of the driven speedometer gear.   z2 = z1·f·s / (2π·r·n)
 *   z1  teeth of the driving gear           1  1 … 100
 *   f   ratio of the final drive            1  0.5 … 20
 *   r   rolling radius                      m  0.1 … 1
 *   s   distance of the speedometer's constant  m  100 … 1e4
 *   n   its constant: turns of the cable over that distance  1  10 … 1e5
 *   z2  teeth of the driven gear            1
 *   e   speedometer with the nearest whole number of teeth reads, over true  1
 * Errors: `out-of-range`, `not-whole`. Limits: driving gear on the gearbox's output shaft.
 * Source: rolling without slip.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'
import { INCH, MILE } from '../../exactUnits.ts'
import { rollingRadius } from './sources.ts'

const worked: Source = {
  title: 'Worked example: tyre 20 in, axle 3, 40 teeth driving, 1001 turns a mile: about 121 teeth',
  where: 'bit1024.com, speedometer gear',
  how: 'read',
}

export const speedometerGear = calculation({
  id: 'speedometer-gear',
  title: 'Teeth of the driven speedometer gear',
  inputs: {
    driving: quantity('ratio', {
      symbol: 'z1',
      min: 1,
      max: 100,
      plausible: [3, 40],
      whole: true,
      about: 'teeth of the driving gear',
    }),
    finalDrive: quantity('ratio', {
      symbol: 'f',
      min: 0.5,
      max: 20,
      plausible: [2.2, 7],
      about: 'ratio of the final drive',
    }),
    radius: rollingRadius(),
    distance: quantity('length', {
      symbol: 's',
      min: 100,
      max: 1e4,
      plausible: [1000, 1610],
      about: 'distance of the speedometer’s constant',
    }),
    constant: quantity('ratio', {
      symbol: 'n',
      min: 10,
      max: 1e5,
      plausible: [400, 2500],
      about: 'turns of the cable over that distance, printed on the dial',
    }),
  },
  outputs: {
    driven: result('ratio', { symbol: 'z2', about: 'teeth of the driven gear, before rounding' }),
    reads: result('ratio', { symbol: 'e', about: 'reading over true speed with the nearest whole number of teeth' }),
  },
  formula:
    '{driven} = {driving} × {finalDrive} × {distance} / (2π × {radius} × {constant})\n{reads} = {driven} / {driven} rounded',
  sources: [worked],
  cautions: ['A speedometer may not read low: UN R39 and the local inspection.'],
  limits: ['Driving gear on the gearbox’s output shaft, direct cable.'],
  checks: [
    {
      inputs: { driving: 40, finalDrive: 3, radius: 10 * INCH, distance: MILE, constant: 1001 },
      output: 'driven',
      expected: 120.88,
      tolerance: { abs: 0.02 },
      because: 'revolutions a mile printed 1008.4, so 3 × 1008.4 × 40/1001; they print 121',
      source: worked,
      evidence: 'published',
    },
  ],
  compute: ({ driving, finalDrive, radius, distance, constant }) => {
    const driven = (driving * finalDrive * distance) / (2 * Math.PI * radius * constant)
    return { driven, reads: driven / Math.max(1, Math.round(driven)) }
  },
})
