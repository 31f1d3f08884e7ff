/**
 * Current in a coil after a time.   i = V/R·(1 − e^(−t·R/L))
 *   V  voltage across coil and wires     V  0 … 100
 *   R  resistance of coil and wires      Ω  0.01 … 1e4
 *   L  inductance                        H  1e-6 … 10
 *   t  time since switched on            s  0 … 100
 *   i  current                           A
 *   W  energy stored                     J
 * Errors: `out-of-range`. Limits: iron not saturated, nothing moving (an injector's needle or relay's armature dents the curve).
 * Source: rise of current in R and L.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const worked: Source = {
  title: 'Worked problem: 12 V ignition coil, 10 mH, 2 Ω: 95 % of its current after 14.97 ms',
  where: 'indextestingapp.uonbi.ac.ke/preguntia/15223650',
  how: 'read',
}

export const coilCurrent = calculation({
  id: 'coil-current',
  title: 'Current in a coil after a time',
  inputs: {
    voltage: quantity('voltage', {
      symbol: 'V',
      min: 0,
      max: 100,
      plausible: [6, 16],
      about: 'voltage across coil and wires',
    }),
    resistance: quantity('resistance', {
      symbol: 'R',
      min: 0.01,
      max: 1e4,
      plausible: [0.2, 200],
      about: 'resistance of coil and wires',
    }),
    inductance: quantity('inductance', { symbol: 'L', min: 1e-6, max: 10, plausible: [1e-4, 1], about: 'inductance' }),
    time: quantity('time', { symbol: 't', min: 0, max: 100, plausible: [0, 0.1], about: 'time since switched on' }),
  },
  outputs: {
    current: result('current', { symbol: 'i', about: 'current' }),
    energy: result('energy', { symbol: 'W', about: 'energy stored' }),
  },
  formula:
    '{current} = {voltage} / {resistance} × (1 − exp(−{time} × {resistance} / {inductance}))\n{energy} = ½ × {inductance} × {current}²',
  sources: [worked],
  cautions: [],
  limits: ['Iron not saturated, nothing moving.'],
  checks: [
    {
      inputs: { voltage: 12, resistance: 2, inductance: 0.01, time: 0.01497 },
      output: 'current',
      expected: 0.95 * 6,
      tolerance: { abs: 0.001 },
      because: 'time printed to four digits',
      source: worked,
      evidence: 'published',
    },
    {
      inputs: { voltage: 12, resistance: 2, inductance: 0.01, time: 1 },
      output: 'current',
      expected: 6,
      tolerance: { rel: 1e-12 },
      because: 'at last V/R',
      source: worked,
      evidence: 'law',
    },
  ],
  compute: ({ voltage, resistance, inductance, time }) => {
    const current = (-voltage / resistance) * Math.expm1((-time * resistance) / inductance)
    return { current, energy: (inductance * current ** 2) / 2 }
  },
})
