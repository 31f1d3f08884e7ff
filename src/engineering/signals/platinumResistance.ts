/**
 * Resistance of a platinum sensor.   R = R0·(1 + A·t + B·t² + C·(t − 100 °C)·t³), the last term below 0 °C only, t = T − 273.15 K
 *   R0  resistance at 0 °C   Ω  1 … 1e4
 *   T   temperature          K  73 … 1124
 *   R   resistance           Ω
 * Errors: `out-of-range`. Limits: IEC 60751 sensors (Pt100, Pt1000), ITS-90; leads add their own resistance.
 * Source: IEC 60751:2008, constants as cited at tinkererway.dev [read].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { iec60751, ZERO_CELSIUS } from './sources.ts'

const A = 3.9083e-3
const B = -5.775e-7
const C = -4.183e-12

export const platinumRatio = (temperature: number): number => {
  const t = temperature - ZERO_CELSIUS
  return 1 + A * t + B * t * t + (t < 0 ? C * (t - 100) * t ** 3 : 0)
}

/** K from R/R0: the quadratic above 0 °C, then Newton below, where the quartic bends it by less than a kelvin a step. */
export function platinumTemperature(ratio: number): number {
  let t = (-A + Math.sqrt(A * A - 4 * B * (1 - ratio))) / (2 * B)
  if (t < 0)
    for (let turn = 0; turn < 8; turn += 1) {
      const slope = A + 2 * B * t + C * (4 * t ** 3 - 300 * t * t)
      t -= (platinumRatio(t + ZERO_CELSIUS) - ratio) / slope
    }
  return t + ZERO_CELSIUS
}

/** ± K by class of IEC 60751 (instrumentationforum.com [read]). */
export const platinumTolerance = (grade: 'AA' | 'A' | 'B', temperature: number): number => {
  const [constant, share] = { AA: [0.1, 0.0017], A: [0.15, 0.002], B: [0.3, 0.005] }[grade] as [number, number]
  return constant + share * Math.abs(temperature - ZERO_CELSIUS)
}

const row = (celsius: number, expected: number) => ({
  inputs: { resistance0: 100, temperature: celsius + ZERO_CELSIUS },
  output: 'resistance' as const,
  expected,
  tolerance: { abs: 0.0051 },
  because: 'printed to 0.01 Ω',
  source: iec60751,
  evidence: 'published' as const,
})

export const platinumResistance = calculation({
  id: 'platinum-resistance',
  title: 'Resistance of a platinum temperature sensor',
  inputs: {
    resistance0: quantity('resistance', {
      symbol: 'R0',
      min: 1,
      max: 1e4,
      plausible: [99, 1001],
      about: 'resistance at 0 °C',
    }),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 73,
      max: 1124,
      plausible: [220, 1100],
      about: 'temperature',
    }),
  },
  outputs: { resistance: result('resistance', { symbol: 'R', about: 'resistance' }) },
  constants: {
    a: { symbol: 'A', value: A, unit: '1/K', source: iec60751 },
    b: { symbol: 'B', value: B, unit: '1/K²', source: iec60751 },
    c: { symbol: 'C', value: C, unit: '1/K⁴', source: iec60751 },
  },
  formula:
    't is {temperature} in °C\n{resistance} = {resistance0} × (1 + {a} × t + {b} × t² + {c} × (t − 100 °C) × t³), the last term below 0 °C only',
  sources: [iec60751],
  cautions: [],
  limits: ['IEC 60751 platinum (3851 ppm/K) only. Two long leads add their resistance to it.'],
  checks: [row(-200, 18.52), row(-50, 80.31), row(0, 100), row(100, 138.51), row(300, 212.05), row(600, 313.71)],
  compute: ({ resistance0, temperature }) => ({ resistance: resistance0 * platinumRatio(temperature) }),
})
