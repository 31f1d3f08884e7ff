/**
 * Dwell of an ignition coil, and the energy it then holds.   t = −L/R·ln(1 − i·R/V), W = ½·L·i²
 *   V  voltage across coil and driver, less the driver's own drop  V  4 … 30
 *   R  resistance of primary and wires                            Ω  0.01 … 10
 *   L  inductance of the primary                                  H  1e-4 … 0.1
 *   i  current wanted                                             A  0.1 … 50
 *   t  dwell                                                      s
 *   W  energy stored                                              J
 *   I  current if left on                                         A
 * Errors: `out-of-range`, `inconsistent-inputs` (the current is not reached at this voltage). Limits: iron not saturated:
 *   near saturation the current rises faster and the energy less than this.
 * Source: rise of current in R and L.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const worked: Source = {
  title: 'Worked problem: 12 V ignition coil, 10 mH, 2 Ω: 95 % of its current after 14.97 ms',
  where: 'indextestingapp.uonbi.ac.ke/preguntia/15223650',
  how: 'read',
}
const solenoid: Source = {
  title: 'Alexander & Sadiku, Fundamentals of Electric Circuits, ignition solenoid 4 Ω, 6 mH, 12 V: 3 A, 27 mJ',
  where: 'practice problem to figure 7.78, quoted at holooly.com',
  how: 'read',
}

export const coilDwell = calculation({
  id: 'coil-dwell',
  title: 'Dwell of an ignition coil',
  inputs: {
    voltage: quantity('voltage', {
      symbol: 'V',
      min: 4,
      max: 30,
      plausible: [6, 15],
      about: 'voltage across the primary and its wires',
    }),
    resistance: quantity('resistance', {
      symbol: 'R',
      min: 0.01,
      max: 10,
      plausible: [0.2, 5],
      about: 'resistance of primary and wires',
    }),
    inductance: quantity('inductance', {
      symbol: 'L',
      min: 1e-4,
      max: 0.1,
      plausible: [1e-3, 0.015],
      about: 'inductance of the primary',
    }),
    current: quantity('current', { symbol: 'i', min: 0.1, max: 50, plausible: [2, 20], about: 'current wanted' }),
  },
  outputs: {
    dwell: result('time', { symbol: 't', about: 'dwell' }),
    energy: result('energy', { symbol: 'W', about: 'energy stored' }),
    leftOn: result('current', { symbol: 'I', about: 'current if left on' }),
  },
  formula:
    '{dwell} = −{inductance}/{resistance} × ln(1 − {current} × {resistance} / {voltage})\n{energy} = ½ × {inductance} × {current}²\n{leftOn} = {voltage} / {resistance}',
  sources: [worked, solenoid],
  cautions: [
    'A coil left on burns. Before its plug goes in, know the output’s state while the controller boots and which edge fires.',
    'The secondary gives tens of kilovolts: hands off while cranking, and a spark lights petrol vapour.',
  ],
  limits: ['Iron not saturated; the maker’s dwell table goes first.'],
  conditions: [
    {
      at: 'current',
      holds: (given) => given.current * given.resistance < given.voltage * 0.9999,
      says: 'The coil never reaches this current at this voltage.',
      todo: 'Take a lower current, or look for the volts lost in feed and earth.',
    },
  ],
  checks: [
    {
      inputs: { voltage: 12, resistance: 2, inductance: 0.01, current: 5.7 },
      output: 'dwell',
      expected: 0.01497,
      tolerance: { abs: 1e-5 },
      because: 'printed to four digits, last one cut off',
      source: worked,
      evidence: 'published',
    },
    {
      inputs: { voltage: 12, resistance: 4, inductance: 6e-3, current: 2.99 },
      output: 'leftOn',
      expected: 3,
      tolerance: { abs: 1e-9 },
      because: 'whole figures',
      source: solenoid,
      evidence: 'published',
    },
    {
      inputs: { voltage: 13, resistance: 4, inductance: 6e-3, current: 3 },
      output: 'energy',
      expected: 0.027,
      tolerance: { abs: 1e-9 },
      because: 'whole figures',
      source: solenoid,
      evidence: 'published',
    },
  ],
  compute: ({ voltage, resistance, inductance, current }) => ({
    dwell: (-inductance / resistance) * Math.log(1 - (current * resistance) / voltage),
    energy: (inductance * current ** 2) / 2,
    leftOn: voltage / resistance,
  }),
})
