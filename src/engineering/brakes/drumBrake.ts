/**
 * A pair of drum brakes.   F = p·A, M = F·(S1 + S2)·r, B = 2·M/R, G = 2·A·(S1 + S2)·r/R
 *   p   line pressure          Pa   0 … 3e7
 *   A   one piston             m²   1e-5 … 0.01
 *   S1  first shoe             1    0 … 8
 *   S2  second shoe            1    0 … 8
 *   r   drum                   m    0.03 … 0.4
 *   R   tyre                   m    0.1 … 0.8
 *   F   spreading force        N
 *   M   torque of one wheel    N·m
 *   B   force of the axle      N
 *   G   gain of the axle       m²
 * Errors: `out-of-range`. Limits: return springs left out.
 * Source: Shigley, example 16-2 [from memory]; Limpert [from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { linePressureInput, tyreInput } from './discBrake.ts'
import { limpert, shigley } from './sources.ts'

const factor = (symbol: string, about: string) =>
  quantity('ratio', { symbol, min: 0, max: 8, plausible: [0.2, 5], about })

export const drumBrake = calculation({
  id: 'drum-brake',
  title: 'Torque of drum brakes and what it is at the road',
  inputs: {
    pressure: linePressureInput,
    piston: quantity('area', {
      symbol: 'A',
      min: 1e-5,
      max: 0.01,
      plausible: [1e-4, 8e-4],
      about: 'area of the one piston that pushes one shoe',
    }),
    first: factor('S1', 'factor of the first shoe, leading'),
    second: factor('S2', 'factor of the second shoe: trailing, or a second leading one'),
    drum: quantity('length', {
      symbol: 'r',
      min: 0.03,
      max: 0.4,
      plausible: [0.08, 0.16],
      about: 'inner radius of the drum',
    }),
    tyre: tyreInput,
  },
  outputs: {
    spread: result('force', { symbol: 'F', about: 'force on each shoe' }),
    torque: result('torque', { symbol: 'M', about: 'torque of one wheel' }),
    road: result('force', { symbol: 'B', about: 'brake force of the axle at the road' }),
    gain: result('area', { symbol: 'G', about: 'brake force of the axle for each unit of line pressure' }),
  },
  formula:
    '{spread} = {pressure} × {piston}\n{torque} = {spread} × ({first} + {second}) × {drum}\n{road} = 2 × {torque} / {tyre}\n{gain} = 2 × {piston} × ({first} + {second}) × {drum} / {tyre}',
  sources: [shigley, limpert],
  cautions: ['At best the arithmetic holds: a qualified person must inspect the brakes before the car is driven.'],
  limits: ['Return springs, some 0.3 to 0.5 MPa of line pressure, are left out; hot drums widen and the pedal sinks.'],
  checks: [
    {
      inputs: { pressure: 2280 / 2.5e-4, piston: 2.5e-4, first: 1.0701, second: 0.4737, drum: 0.15, tyre: 0.3 },
      output: 'torque',
      expected: 528,
      tolerance: { rel: 2e-3 },
      because: 'printed to three digits',
      source: { ...shigley, where: 'example 16-2: both shoes together 528 N·m' },
      evidence: 'published',
    },
  ],
  compute: ({ pressure, piston, first, second, drum, tyre }) => {
    const spread = pressure * piston
    const torque = spread * (first + second) * drum
    return { spread, torque, road: (2 * torque) / tyre, gain: (2 * piston * (first + second) * drum) / tyre }
  },
})
