/**
 * Counts of a speed sensor, or turns of a speedometer cable, over a distance.   N = z/m · s/(2π·r), n = z/m · v/(2π·r)
 *   z  counts                      1    0.1 … 1e4
 *   m  over turns of the wheel     1    0.1 … 1e3
 *   r  rolling radius              m    0.1 … 1
 *   s  distance                    m    1 … 1e5
 *   v  road speed                  m/s  0 … 150
 *   N  counts over that distance   1
 *   n  counts per second           Hz
 * Errors: `out-of-range`. Limits: both wheels of the axle turned alike; pushed, one wheel turned alone counts half through a differential.
 * Source: rolling without slip. Count by hand: mark the tyre, push the car some turns, count teeth passed or turns of the cable.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'
import { INCH, MILE } from '../../exactUnits.ts'
import { rollingRadius } from './sources.ts'

const calibrating: Source = {
  title: 'Calibrating Odometers and Speedometers (A. Rackstraw, 2002): 12½ turns of the cable for 6 of the wheel',
  where: 'britcycle.com/Manuals, two worked examples',
  how: 'read',
}

export const speedSensorCount = calculation({
  id: 'speed-sensor-count',
  title: 'Counts of a speed sensor or speedometer cable over a distance',
  inputs: {
    counts: quantity('ratio', {
      symbol: 'z',
      min: 0.1,
      max: 1e4,
      plausible: [1, 200],
      about: 'counts (teeth passed, turns of the cable)',
    }),
    wheelTurns: quantity('ratio', {
      symbol: 'm',
      min: 0.1,
      max: 1e3,
      plausible: [1, 20],
      about: 'turns of the wheel meanwhile',
    }),
    radius: rollingRadius(),
    distance: quantity('length', { symbol: 's', min: 1, max: 1e5, plausible: [1000, 1610], about: 'distance' }),
    speed: quantity('speed', { symbol: 'v', min: 0, max: 150, plausible: [0, 80], about: 'road speed' }),
  },
  outputs: {
    total: result('ratio', { symbol: 'N', about: 'counts over that distance' }),
    frequency: result('frequency', { symbol: 'n', about: 'counts per second at that speed' }),
  },
  formula:
    '{total} = {counts} / {wheelTurns} × {distance} / (2π × {radius})\n{frequency} = {counts} / {wheelTurns} × {speed} / (2π × {radius})',
  sources: [calibrating],
  cautions: ['Push the car on level ground; nothing under a car that stands on a jack.'],
  limits: ['Both wheels of the axle turn. One wheel turned alone counts half through a differential.'],
  checks: [
    {
      inputs: { counts: 12.5, wheelTurns: 6, radius: 13 * INCH, distance: MILE, speed: 0 },
      output: 'total',
      expected: 1616,
      tolerance: { rel: 7e-4 },
      because: 'its constant is rounded to 1680 (1680.7)',
      source: calibrating,
      evidence: 'published',
    },
    {
      inputs: { counts: 12.5, wheelTurns: 6, radius: 0.33, distance: 1000, speed: 0 },
      output: 'total',
      expected: 1005,
      tolerance: { rel: 7e-4 },
      because: 'printed to four digits, constant rounded to 2653',
      source: calibrating,
      evidence: 'published',
    },
  ],
  compute: ({ counts, wheelTurns, radius, distance, speed }) => {
    const perMetre = counts / wheelTurns / (2 * Math.PI * radius)
    return { total: perMetre * distance, frequency: perMetre * speed }
  },
})
