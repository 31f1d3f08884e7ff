/**
 * Engine and shaft speed at a road speed.   ω = v·i·f/r; ωs = v·f/r
 *   v   road speed          m/s    0 … 150
 *   i   ratio of the gear   1      0.2 … 20
 *   f   ratio of the final drive  1  0.5 … 20
 *   r   rolling radius      m      0.1 … 1
 *   ω   engine speed        rad/s
 *   ωs  propeller shaft     rad/s
 * Errors: `out-of-range`. Limits: no slip; where the shaft turns behind the gearbox and before the final drive.
 * Source: rolling without slip; worked figures below [read].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { INCH, MPH, RPM } from '../exactUnits.ts'
import { GEARING_AT_REVS, GEARING_AT_SPEED } from '../signals/speed/sources.ts'

export const cruisingRevs = calculation({
  id: 'cruising-revs',
  title: 'Engine and shaft speed at a road speed',
  inputs: {
    speed: quantity('speed', { symbol: 'v', min: 0, max: 150, plausible: [5, 80], about: 'road speed' }),
    gear: quantity('ratio', { symbol: 'i', min: 0.2, max: 20, plausible: [0.5, 5], about: 'ratio of the gear' }),
    finalDrive: quantity('ratio', {
      symbol: 'f',
      min: 0.5,
      max: 20,
      plausible: [2.2, 7],
      about: 'ratio of the final drive',
    }),
    radius: quantity('length', { symbol: 'r', min: 0.1, max: 1, plausible: [0.24, 0.42], about: 'rolling radius' }),
  },
  outputs: {
    engine: result('angularSpeed', { symbol: 'ω', about: 'engine speed' }),
    shaft: result('angularSpeed', { symbol: 'ωs', about: 'speed of the propeller shaft' }),
  },
  formula: '{shaft} = {speed} × {finalDrive} / {radius}\n{engine} = {shaft} × {gear}',
  sources: [GEARING_AT_SPEED, GEARING_AT_REVS],
  cautions: [],
  limits: [
    'No slip of clutch or tyre. The shaft’s speed is that behind a gearbox that drives an axle with this final drive.',
  ],
  checks: [
    {
      inputs: { speed: 70 * MPH, gear: 1, finalDrive: 3.55, radius: 13 * INCH },
      output: 'engine',
      expected: 3211 * RPM,
      tolerance: { rel: 7e-4 },
      because: 'its constant is rounded to 336 (336.13)',
      source: GEARING_AT_SPEED,
      evidence: 'published',
    },
    {
      inputs: { speed: 71.8 * MPH, gear: 1, finalDrive: 3.73, radius: 15 * INCH },
      output: 'shaft',
      expected: 3000 * RPM,
      tolerance: { rel: 1e-3 },
      because: 'printed to three digits',
      source: GEARING_AT_REVS,
      evidence: 'published',
    },
  ],
  compute: ({ speed, gear, finalDrive, radius }) => {
    const shaft = (speed * finalDrive) / radius
    return { shaft, engine: shaft * gear }
  },
})
