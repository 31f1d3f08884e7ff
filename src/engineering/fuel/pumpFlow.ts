/**
 * Pump flow at its real voltage and pressure, between two points of its own curve.
 *   V = (Va + (Vb − Va)·(p − pa)/(pb − pa)) · (U/Ur)^m
 *   pa  pressure of the first point       Pa    0 … 2e6
 *   Va  flow at the first point           m³/s  0 … 1e-3
 *   pb  pressure of the second point      Pa    0 … 2e6
 *   Vb  flow at the second point          m³/s  0 … 1e-3
 *   Ur  voltage of the curve              V     3 … 60
 *   p   pressure across the pump          Pa    0 … 2e6
 *   U   voltage at the pump's terminals   V     3 … 60
 *   m   voltage exponent                  1     0 … 3
 *   V   volume flow                       m³/s
 * Errors: `out-of-range`, `inconsistent-inputs` (pressure not between the two points, points not distinct, flow rising with
 *   pressure).
 * Source: none published for the law as a whole; straight line in pressure and power of the voltage are common practice.
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { LB_PER_HOUR } from './sources.ts'

const law: Source = {
  title: 'Straight line between two points of the pump’s own curve, flow ∝ voltage to a power taken from its sheet',
  how: 'common practice',
}
const boschPump: Source = {
  title: 'Bosch Motorsport data sheet, fuel pump LPx-F1, volume flow at 4 500 min⁻¹',
  where: '182.2, 167.0, 152.3, 138.3, 125.2 l/h at 4 … 8 bar',
  how: 'read',
}
const voltageGraph: Source = {
  title:
    'Magazine article “Electronic fuel injection tips”, quoting the maker’s graph of an in-line pump: 700 lb/h at 12 V and 800 lb/h at 13.5 V, both at 45 psi',
  where: 'classictrucks.com 1206clt',
  how: 'read',
}
const LITRE_PER_HOUR = 1e-3 / 3600
const bosch = (low: number, high: number, pressure: number) => {
  const printed: Record<number, number> = { 4: 182.2, 5: 167, 6: 152.3, 7: 138.3, 8: 125.2 }
  return {
    firstPressure: low * 1e5,
    firstFlow: printed[low]! * LITRE_PER_HOUR,
    secondPressure: high * 1e5,
    secondFlow: printed[high]! * LITRE_PER_HOUR,
    ratedVoltage: 48,
    pressure: pressure * 1e5,
    voltage: 48,
    exponent: 1,
  }
}

export const pumpFlow = calculation({
  id: 'pump-flow',
  title: 'Fuel pump flow at a voltage and a pressure',
  inputs: {
    firstPressure: quantity('pressureDifference', {
      symbol: 'pa',
      min: 0,
      max: 2e6,
      about: 'pressure of the first point of the curve',
    }),
    firstFlow: quantity('volumeFlow', {
      symbol: 'Va',
      min: 0,
      max: 1e-3,
      plausible: [1e-5, 3e-4],
      about: 'flow at the first point',
    }),
    secondPressure: quantity('pressureDifference', {
      symbol: 'pb',
      min: 0,
      max: 2e6,
      about: 'pressure of the second point of the curve',
    }),
    secondFlow: quantity('volumeFlow', {
      symbol: 'Vb',
      min: 0,
      max: 1e-3,
      plausible: [1e-5, 3e-4],
      about: 'flow at the second point',
    }),
    ratedVoltage: quantity('voltage', {
      symbol: 'Ur',
      min: 3,
      max: 60,
      plausible: [12, 14.5],
      about: 'voltage at which the curve was taken',
    }),
    pressure: quantity('pressureDifference', {
      symbol: 'p',
      min: 0,
      max: 2e6,
      plausible: [2e5, 7e5],
      about: 'pressure across the pump, losses included',
    }),
    voltage: quantity('voltage', {
      symbol: 'U',
      min: 3,
      max: 60,
      plausible: [9, 15],
      about: 'voltage at the pump’s own terminals while it runs',
    }),
    exponent: quantity('ratio', {
      symbol: 'm',
      min: 0,
      max: 3,
      plausible: [0.8, 2.5],
      about: 'voltage exponent at this pressure, from the pump’s own sheet',
    }),
  },
  outputs: { flow: result('volumeFlow', { symbol: 'V', about: 'volume flow of the pump' }) },
  formula:
    '{flow} = ({firstFlow} + ({secondFlow} − {firstFlow}) × ({pressure} − {firstPressure}) / ({secondPressure} − {firstPressure})) × ({voltage} / {ratedVoltage})^{exponent}',
  sources: [law],
  cautions: ['Measure the voltage at the pump’s terminals with the engine at full load, not at the battery.'],
  limits: [
    'Between two points of the pump’s own curve, never beyond them.',
    'The exponent belongs to a pressure: it is near 1 at low pressure, and a maker’s table shows flow going with speed to about the power 2.5 near the highest pressure.',
  ],
  conditions: [
    {
      at: 'secondPressure',
      holds: (given) => given.firstPressure !== given.secondPressure,
      says: 'Both points of the curve have the same pressure.',
      todo: 'Give two points at different pressures.',
    },
    {
      at: 'pressure',
      holds: (given) =>
        given.pressure >= Math.min(given.firstPressure, given.secondPressure) &&
        given.pressure <= Math.max(given.firstPressure, given.secondPressure),
      says: 'The pressure does not lie between the two points of the curve.',
      todo: 'Choose points on either side of it, from the pump’s own sheet.',
    },
    {
      at: 'secondFlow',
      holds: (given) => (given.secondFlow - given.firstFlow) * (given.secondPressure - given.firstPressure) <= 0,
      says: 'The pump would give more flow against more pressure, which none does.',
      todo: 'Look whether two rows are swapped, or come from two voltages or two pumps.',
    },
  ],
  checks: [
    {
      inputs: bosch(4, 8, 6),
      output: 'flow',
      expected: 152.3 * LITRE_PER_HOUR,
      tolerance: { rel: 0.012 },
      because: 'four bar between the points: the curve sags by 1 %',
      source: boschPump,
      evidence: 'published',
    },
    {
      inputs: bosch(5, 7, 6),
      output: 'flow',
      expected: 152.3 * LITRE_PER_HOUR,
      tolerance: { rel: 0.004 },
      because: 'two bar between the points',
      source: boschPump,
      evidence: 'published',
    },
    {
      inputs: {
        firstPressure: 3e5,
        firstFlow: (700 * LB_PER_HOUR) / 744,
        secondPressure: 3.2e5,
        secondFlow: (700 * LB_PER_HOUR) / 744,
        ratedVoltage: 12,
        pressure: 3.1e5,
        voltage: 13.5,
        exponent: 1,
      },
      output: 'flow',
      expected: (800 * LB_PER_HOUR) / 744,
      tolerance: { rel: 0.02 },
      because: 'read off a graph; an exponent of 1.13 would hit it',
      source: voltageGraph,
      evidence: 'published',
    },
  ],
  compute: (given) => {
    const share = (given.pressure - given.firstPressure) / (given.secondPressure - given.firstPressure)
    return {
      flow:
        (given.firstFlow + (given.secondFlow - given.firstFlow) * share) *
        (given.voltage / given.ratedVoltage) ** given.exponent,
    }
  },
})
