/**
 * Air temperature after loss-free compression.   T2 = T1·(p2/p1)^((k−1)/k), k = 1.4
 *   T1  temperature before         K   200 … 400
 *   p1  absolute pressure before   Pa  2e4 … 2e5
 *   p2  absolute pressure after    Pa  2e4 … 4e6
 *   T2  temperature after          K
 * Errors: `out-of-range`, `inconsistent-inputs` (pressure falls). Limits: dry air, k constant; the least any compressor can do.
 * Source: Çengel & Boles, Thermodynamics, isentropic processes of ideal gases [from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { AIR_EXPONENT, cengelBoles, pressureRises } from './sources.ts'

export const isentropicTemperature = calculation({
  id: 'isentropic-temperature',
  title: 'Air temperature after loss-free compression',
  inputs: {
    temperature: quantity('temperature', {
      symbol: 'T1',
      min: 200,
      max: 400,
      plausible: [243, 343],
      about: 'air temperature before',
    }),
    pressure: quantity('pressureAbsolute', {
      symbol: 'p1',
      min: 2e4,
      max: 2e5,
      plausible: [6e4, 1.1e5],
      about: 'absolute pressure before',
    }),
    outletPressure: quantity('pressureAbsolute', {
      symbol: 'p2',
      min: 2e4,
      max: 4e6,
      plausible: [1e5, 4e5],
      about: 'absolute pressure after',
    }),
  },
  outputs: { outletTemperature: result('temperature', { symbol: 'T2', about: 'air temperature after' }) },
  constants: { exponent: AIR_EXPONENT },
  formula: '{outletTemperature} = {temperature} × ({outletPressure} / {pressure})^(({exponent} − 1) / {exponent})',
  sources: [cengelBoles],
  cautions: [],
  limits: ['Dry air with k = 1.4, reversible and without heat; a real compressor is always hotter.'],
  conditions: [pressureRises],
  checks: [
    {
      inputs: { temperature: 250, pressure: 52828, outletPressure: 1e5 },
      output: 'outletTemperature',
      expected: 300,
      tolerance: { rel: 2e-5 },
      because: 'printed to five digits',
      source: {
        title: 'NACA Report 1135, isentropic flow of air',
        where: 'Mach 1: p/p0 0.52828, T/T0 0.83333',
        how: 'memory',
      },
      evidence: 'published',
    },
    {
      inputs: { temperature: 295.15, pressure: 95e3, outletPressure: 95e3 * 8 ** 1.4 },
      output: 'outletTemperature',
      expected: 662.7,
      tolerance: { rel: 0.025 },
      because: 'the book’s figure has variable specific heat; with k = 1.4 it is 677.7 K, 2.3 % above',
      source: { ...cengelBoles, where: 'isentropic compression in an engine, 22 °C, 95 kPa, volume ratio 8' },
      evidence: 'published',
    },
  ],
  compute: ({ temperature, pressure, outletPressure }) => ({
    outletTemperature: temperature * (outletPressure / pressure) ** ((AIR_EXPONENT.value - 1) / AIR_EXPONENT.value),
  }),
})
