/**
 * Greatest angle of a joint at a speed.   between rows of the table angle × speed runs straight
 *   ω   speed of the shaft  rad/s  10 … 1000
 *   βl  greatest angle      rad
 * Errors: `out-of-range`. Limits: joints of cross and yokes; above 5000 1/min the product of the last row is kept.
 * Source: spicerparts.com, driveline operating angle calculator [read to 3500 1/min, the rest from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { DEGREE, RPM } from '../exactUnits.ts'
import { angleCalculator } from './sources.ts'

/** 1/min and degrees, as printed. */
const ROWS = [
  [1500, 11.5],
  [2000, 8.7],
  [2500, 7],
  [3000, 5.8],
  [3500, 5],
  [4000, 4.2],
  [4500, 3.7],
  [5000, 3.2],
] as const
/** Below its first row the table is not carried on: 11.5° it stays. */
const limitAt = (rpm: number): number => {
  const [first, last] = [ROWS[0], ROWS.at(-1)!]
  if (rpm <= first[0]) return first[1]
  if (rpm >= last[0]) return (last[0] * last[1]) / rpm
  const at = ROWS.findIndex(([speed]) => speed >= rpm)
  const [[n0, b0], [n1, b1]] = [ROWS[at - 1]!, ROWS[at]!]
  return (n0 * b0 + ((n1 * b1 - n0 * b0) * (rpm - n0)) / (n1 - n0)) / rpm
}
const row = (rpm: number, degrees: number) => ({
  inputs: { speed: rpm * RPM },
  output: 'angle',
  expected: degrees * DEGREE,
  tolerance: { abs: 0.05 * DEGREE },
  because: 'last digit printed',
  source: angleCalculator,
  evidence: 'published' as const,
})

export const jointLimit = calculation({
  id: 'joint-angle-limit',
  title: 'Greatest angle of a joint at a speed',
  inputs: {
    speed: quantity('angularSpeed', {
      symbol: 'ω',
      min: 10,
      max: 1000,
      plausible: [50, 700],
      about: 'speed of the shaft',
    }),
  },
  outputs: { angle: result('angle', { symbol: 'βl', about: 'greatest angle of the joint at that speed' }) },
  formula: '{angle} = table at {speed}; angle × speed runs straight between its rows',
  sources: [angleCalculator],
  cautions: [],
  limits: [
    'Joints of a cross in two yokes. Above 5000 1/min the table ends and the last row’s angle × speed is kept (ours, no published source); below 1500 1/min it stays 11.5°.',
  ],
  checks: [row(5000, 3.2), row(4500, 3.7), row(4000, 4.2), row(3500, 5)],
  compute: ({ speed }) => ({ angle: limitAt(speed / RPM) * DEGREE }),
})
