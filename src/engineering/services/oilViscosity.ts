/**
 * Kinematic viscosity of an oil at a temperature, from two known points.   lg lg(ν + 0.7) = A − B·lg T, ν in mm²/s
 *   ν1  viscosity at the first point   m²/s   2e-6 … 0.02
 *   T1  temperature of the first       K      253 … 423
 *   ν2  viscosity at the second point  m²/s   2e-6 … 0.02
 *   T2  temperature of the second      K      253 … 423
 *   T   temperature in question        K      243 … 443
 *   ν   viscosity there                m²/s
 *   ν/ν1  over that of the first point  1
 * Errors: `out-of-range`, `inconsistent-inputs` (the hotter point is the thicker, or both are one). Limits: above the cloud
 * point and its wax; ν above 2 mm²/s; oil not thinned by shear or fuel.
 * Source: ASTM D341 (Walther’s equation), as worked in a public sheet [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const d341: Source = {
  title:
    'ASTM D341 as worked: 32 mm²/s at 40 °C, 5.4 at 100 °C; A 9.5259, B 3.7449; 8.5 mm²/s at 80 °C, zero at −273 °C',
  where: 'scribd.com/document/361017004',
  how: 'read',
}
/** mm²/s */
const SHIFT = 0.7
const double = (viscosity: number): number => Math.log10(Math.log10(viscosity * 1e6 + SHIFT))
const viscosityInput = (symbol: string, about: string) =>
  quantity('kinematicViscosity', { symbol, min: 2e-6, max: 0.02, plausible: [5e-6, 2e-4], about })
const pointInput = (symbol: string, about: string) => quantity('temperature', { symbol, min: 253, max: 423, about })

export const oilViscosity = calculation({
  id: 'oil-viscosity',
  title: 'Viscosity of an oil at a temperature',
  inputs: {
    first: viscosityInput('ν1', 'kinematic viscosity at the first temperature'),
    firstTemperature: pointInput('T1', 'temperature of the first point, often 40 °C'),
    second: viscosityInput('ν2', 'kinematic viscosity at the second temperature'),
    secondTemperature: pointInput('T2', 'temperature of the second point, often 100 °C'),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 243,
      max: 443,
      plausible: [253, 423],
      about: 'temperature in question',
    }),
  },
  outputs: {
    viscosity: result('kinematicViscosity', { symbol: 'ν', about: 'kinematic viscosity there' }),
    ratio: result('ratio', { symbol: 'ν/ν1', about: 'over that of the first point' }),
  },
  formula:
    'W(ν) = lg lg(ν + 0.7), ν in mm²/s\nB = (W({first}) − W({second})) / (lg {secondTemperature} − lg {firstTemperature})\nW({viscosity}) = W({first}) − B × (lg {temperature} − lg {firstTemperature})\n{ratio} = {viscosity} / {first}',
  sources: [d341],
  cautions: ['Hot oil burns skin, and used oil is bad for it: gloves, and let it cool.'],
  limits: [
    'Above the cloud point, where wax does not yet show, and above 2 mm²/s. Between both points within a few per cent; far outside them it is a guess.',
    'New oil at rest. Shear in a bearing, and fuel in the oil, make it thinner.',
  ],
  conditions: [
    {
      at: 'secondTemperature',
      holds: ({ first, firstTemperature, second, secondTemperature }) =>
        (first - second) * (secondTemperature - firstTemperature) > 0,
      says: 'The oil is not thinner at the hotter of both points.',
      todo: 'Look whether the two viscosities are swapped, or the same point is entered twice.',
    },
  ],
  checks: [
    {
      inputs: {
        first: 32e-6,
        firstTemperature: 313,
        second: 5.4e-6,
        secondTemperature: 373,
        temperature: 353,
      },
      output: 'viscosity',
      expected: 8.5e-6,
      tolerance: { rel: 7e-3 },
      because: 'printed to two digits',
      source: d341,
      evidence: 'published',
    },
    {
      inputs: {
        first: 32e-6,
        firstTemperature: 313,
        second: 5.4e-6,
        secondTemperature: 373,
        temperature: 293,
      },
      output: 'viscosity',
      expected: (10 ** (10 ** (9.5259 - 3.7449 * Math.log10(293))) - 0.7) * 1e-6,
      tolerance: { rel: 2e-3 },
      because: 'by the printed A and B, five digits, which the double logarithm stretches',
      source: d341,
      evidence: 'published',
    },
  ],
  compute: ({ first, firstTemperature, second, secondTemperature, temperature }) => {
    const slope = (double(first) - double(second)) / Math.log10(secondTemperature / firstTemperature)
    const viscosity =
      (10 ** (10 ** (double(first) - slope * Math.log10(temperature / firstTemperature))) - SHIFT) * 1e-6
    return { viscosity, ratio: viscosity / first }
  },
})
