/**
 * A pair of disc brakes.   N = p·A, M = 2·μ·N·r, B = 2·M/R, G = 4·μ·A·r/R
 *   p  line pressure          Pa   0 … 3e7
 *   A  pistons, one side      m²   1e-5 … 0.05
 *   μ  lining friction        1    0.02 … 1
 *   r  effective radius       m    0.02 … 0.4
 *   R  tyre                   m    0.1 … 0.8
 *   N  clamping force         N
 *   M  torque of one wheel    N·m
 *   B  force of the axle      N
 *   G  gain of the axle       m²
 * Errors: `out-of-range`. Limits: both sides press alike; a floating caliper counts its one side.
 * Source: T = 2·μ·F·r, engineeringtoolbox.com [read]; Limpert [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { INCH, POUND_FORCE, PSI } from '../exactUnits.ts'
import { limpert } from './sources.ts'

const toolbox: Source = {
  title: 'Disk brakes, torque and force, engineeringtoolbox.com',
  where: 'd_1808: T = 2·μ·F·r, two pads',
  how: 'read',
}

export const frictionInput = quantity('ratio', {
  symbol: 'μ',
  min: 0.02,
  max: 1,
  plausible: [0.25, 0.5],
  about: 'friction of lining on iron, with its ±: it moves with heat, speed, water and wear',
})
export const linePressureInput = quantity('pressureGauge', {
  symbol: 'p',
  min: 0,
  max: 3e7,
  plausible: [0, 1.5e7],
  about: 'line pressure at this axle',
})
export const tyreInput = quantity('length', {
  symbol: 'R',
  min: 0.1,
  max: 0.8,
  plausible: [0.22, 0.42],
  about: 'rolling radius of the tyre',
})

export const discBrake = calculation({
  id: 'disc-brake',
  title: 'Torque of disc brakes and what it is at the road',
  inputs: {
    pressure: linePressureInput,
    pistons: quantity('area', {
      symbol: 'A',
      min: 1e-5,
      max: 0.05,
      plausible: [5e-4, 6e-3],
      about: 'area of the pistons on one side of one caliper; of a floating caliper all its pistons',
    }),
    friction: frictionInput,
    radius: quantity('length', {
      symbol: 'r',
      min: 0.02,
      max: 0.4,
      plausible: [0.07, 0.18],
      about: 'effective radius: middle of the pad’s track, (outer + inner) / 2',
    }),
    tyre: tyreInput,
  },
  outputs: {
    clamp: result('force', { symbol: 'N', about: 'force on each pad' }),
    torque: result('torque', { symbol: 'M', about: 'torque of one wheel' }),
    road: result('force', { symbol: 'B', about: 'brake force of the axle at the road' }),
    gain: result('area', { symbol: 'G', about: 'brake force of the axle for each unit of line pressure' }),
  },
  formula:
    '{clamp} = {pressure} × {pistons}\n{torque} = 2 × {friction} × {clamp} × {radius}\n{road} = 2 × {torque} / {tyre}\n{gain} = 4 × {friction} × {pistons} × {radius} / {tyre}',
  sources: [toolbox, limpert],
  cautions: ['At best the arithmetic holds: a qualified person must inspect the brakes before the car is driven.'],
  limits: ['Both wheels alike. The middle of the track stands for the effective radius: within 2 % for usual pads.'],
  checks: [
    {
      inputs: {
        pressure: 998 * PSI,
        pistons: 4 * ((Math.PI / 4) * (1.75 * INCH) ** 2),
        friction: 0.4,
        radius: 0.12,
        tyre: 0.3,
      },
      output: 'clamp',
      expected: 9600 * POUND_FORCE,
      tolerance: { rel: 1e-3 },
      because: 'printed to 100 lbf',
      source: {
        title: 'Brake system hydraulic line pressure, calcady.com',
        where: '998 lbf/in² on 4 × 1.75 in: 9600 lbf',
        how: 'read',
      },
      evidence: 'published',
    },
    {
      // 54 mm, 4.386 MPa, μ 0.40, 110 mm, tyre 300 mm: 883.9 N·m, worked here by hand from the toolbox’s formula.
      inputs: { pressure: 4.3857e6, pistons: (Math.PI / 4) * 0.054 ** 2, friction: 0.4, radius: 0.11, tyre: 0.3 },
      output: 'torque',
      expected: 883.9,
      tolerance: { rel: 1e-4 },
      because: 'four digits',
      source: { title: 'Formula of the toolbox, worked by hand', how: 'computed' },
      evidence: 'law',
    },
  ],
  compute: ({ pressure, pistons, friction, radius, tyre }) => {
    const clamp = pressure * pistons
    const torque = 2 * friction * clamp * radius
    return { clamp, torque, road: (2 * torque) / tyre, gain: (4 * friction * pistons * radius) / tyre }
  },
})
