/**
 * Pedal travel.   a = π·d²/4, x0 = i·(s0 + l + V0/a), x = i·(s0 + l + V/a), u = (s0 + l + V/a)/s, r = s − (s0 + l + V/a)
 *   i   pedal ratio            1    1 … 12
 *   d   master cylinder        m    0.01 … 0.06
 *   s0  idle way               m    0 … 0.02
 *   l   lost way               m    0 … 0.06
 *   V0  fluid at first touch   m³   0 … 1e-4
 *   V   fluid under pressure   m³   0 … 1e-4
 *   s   stroke                 m    0.005 … 0.1
 *   x0  travel at first touch  m
 *   x   travel under pressure  m
 *   u   share of the stroke    1
 *   r   stroke that is left    m
 * Errors: `out-of-range`. Limits: stiff pedal, bracket and bulkhead; no air in the fluid.
 * Source: geometry; piston areas as in the table of hotrodheaven.com [read].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { INCH, POUND_FORCE, PSI } from '../exactUnits.ts'
import { limpert, masterCylinderTable } from './sources.ts'

const fluid = (symbol: string, about: string) => quantity('volume', { symbol, min: 0, max: 1e-4, about })

export const pedalTravel = calculation({
  id: 'brake-pedal-travel',
  title: 'Pedal travel and stroke of the master cylinder',
  inputs: {
    ratio: quantity('ratio', {
      symbol: 'i',
      min: 1,
      max: 12,
      plausible: [2.5, 7.5],
      about: 'pedal ratio: foot to pivot over push rod to pivot',
    }),
    bore: quantity('length', {
      symbol: 'd',
      min: 0.01,
      max: 0.06,
      plausible: [0.015, 0.032],
      about: 'bore of the master cylinder',
    }),
    idle: quantity('length', {
      symbol: 's0',
      min: 0,
      max: 0.02,
      plausible: [5e-4, 4e-3],
      about: 'play of the push rod and way until the ports are closed',
    }),
    lost: quantity('length', {
      symbol: 'l',
      min: 0,
      max: 0.06,
      about: 'stroke of the chamber that lost its fluid, run through until its piston bottoms; 0 where both hold',
    }),
    touch: fluid('V0', 'fluid that the circuits that hold take at first touch'),
    pressed: fluid('V', 'fluid that they take at the pressure of the stop'),
    stroke: quantity('length', {
      symbol: 's',
      min: 0.005,
      max: 0.1,
      plausible: [0.02, 0.05],
      about: 'whole stroke of the master cylinder, both chambers',
    }),
  },
  outputs: {
    first: result('length', { symbol: 'x0', about: 'pedal travel at first touch' }),
    travel: result('length', { symbol: 'x', about: 'pedal travel at the pressure of the stop' }),
    used: result('ratio', { symbol: 'u', about: 'share of the master cylinder’s stroke that is used' }),
    left: result('length', { symbol: 'r', about: 'stroke that is left; below 0 it bottoms before that pressure' }),
  },
  formula:
    '{first} = {ratio} × ({idle} + {lost} + {touch} / (π × {bore}² / 4))\n{travel} = {ratio} × ({idle} + {lost} + {pressed} / (π × {bore}² / 4))\n{used} = ({idle} + {lost} + {pressed} / (π × {bore}² / 4)) / {stroke}\n{left} = {stroke} − {idle} − {lost} − {pressed} / (π × {bore}² / 4)',
  sources: [masterCylinderTable, limpert],
  cautions: ['At best the arithmetic holds: a qualified person must inspect the brakes before the car is driven.'],
  limits: ['Pedal, bracket and bulkhead are thought stiff, the fluid free of air: the true pedal goes farther.'],
  checks: [
    {
      // 600 lbf make 764 lbf/in²: 0.785 in². That many cubic inches are one inch of stroke, six inches of the pedal.
      inputs: {
        ratio: 6,
        bore: INCH,
        idle: 0,
        lost: 0,
        touch: 0,
        pressed: ((600 * POUND_FORCE) / (764 * PSI)) * INCH,
        stroke: 0.04,
      },
      output: 'travel',
      expected: 6 * INCH,
      tolerance: { rel: 1e-3 },
      because: 'pressures printed to 1 lbf/in²',
      source: masterCylinderTable,
      evidence: 'published',
    },
    {
      // By hand, 20 mm bore, 314.16 mm²: 3.1416 cm³ is 10 mm; 1.5 + 12 + 10 = 23.5 mm; × 4 = 94 mm of 36 mm stroke.
      inputs: { ratio: 4, bore: 0.02, idle: 1.5e-3, lost: 0.012, touch: 1e-6, pressed: Math.PI * 1e-6, stroke: 0.036 },
      output: 'left',
      expected: 0.0125,
      tolerance: { rel: 1e-6 },
      because: 'worked by hand to the last digit',
      source: { title: 'Volume over piston area, worked by hand', how: 'computed' },
      evidence: 'law',
    },
  ],
  compute: ({ ratio, bore, idle, lost, touch, pressed, stroke }) => {
    const area = (Math.PI * bore * bore) / 4
    const way = idle + lost + pressed / area
    return { first: ratio * (idle + lost + touch / area), travel: ratio * way, used: way / stroke, left: stroke - way }
  },
})
