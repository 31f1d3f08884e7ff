/**
 * Torque along the driveline in a gear.   Ts = T·i; Ta = Ts·f; T1 = Ta/2
 *   T   torque into the gearbox  N·m  0 … 5000
 *   i   ratio of the gear        1    0.2 … 20
 *   f   ratio of the final drive  1   0.5 … 20
 *   Ts  at the gearbox output    N·m
 *   Ta  at the axle              N·m
 *   T1  at one wheel             N·m
 * Errors: `out-of-range`. Limits: no losses, so nothing sees more; steady; an open differential shares evenly.
 * Source: x-engineer.org, wheel torque from engine torque.
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const worked: Source = {
  title: 'Wheel torque from engine torque, x-engineer.org: 150 N·m, 4.171, 3.460',
  where: 'formula and figures put in read; 1082.4 N·m at each wheel from memory',
  how: 'memory',
}

export const drivelineTorque = calculation({
  id: 'driveline-torque',
  title: 'Torque along the driveline in a gear',
  inputs: {
    torque: quantity('torque', {
      symbol: 'T',
      min: 0,
      max: 5000,
      plausible: [50, 900],
      about: 'torque into the gearbox',
    }),
    gear: quantity('ratio', { symbol: 'i', min: 0.2, max: 20, plausible: [0.5, 5], about: 'ratio of the gear' }),
    finalDrive: quantity('ratio', {
      symbol: 'f',
      min: 0.5,
      max: 20,
      plausible: [2.2, 7],
      about: 'ratio of the final drive',
    }),
  },
  outputs: {
    shaft: result('torque', { symbol: 'Ts', about: 'torque at the gearbox’s output' }),
    axle: result('torque', { symbol: 'Ta', about: 'torque at the axle, both wheels together' }),
    wheel: result('torque', { symbol: 'T1', about: 'torque at one wheel' }),
  },
  formula: '{shaft} = {torque} × {gear}\n{axle} = {shaft} × {finalDrive}\n{wheel} = {axle} / 2',
  sources: [worked],
  cautions: [],
  limits: ['Losses, some per cent, are left out: no part sees more than this while the torque is steady.'],
  checks: [
    {
      inputs: { torque: 150, gear: 4.171, finalDrive: 3.46 },
      output: 'wheel',
      expected: 1082.4,
      tolerance: { abs: 0.06 },
      because: 'to the last digit',
      source: worked,
      evidence: 'published',
    },
  ],
  compute: ({ torque, gear, finalDrive }) => ({
    shaft: torque * gear,
    axle: torque * gear * finalDrive,
    wheel: (torque * gear * finalDrive) / 2,
  }),
})
