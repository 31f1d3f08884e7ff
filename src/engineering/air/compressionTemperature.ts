/**
 * Air temperature after a real compressor.   T2 = T1·(1 + ((p2/p1)^((k−1)/k) − 1)/η), k = 1.4
 *   T1  temperature into the compressor         K   200 … 400
 *   p1  absolute pressure into the compressor   Pa  2e4 … 2e5
 *   p2  absolute pressure out of it             Pa  2e4 … 2e6
 *   η   isentropic efficiency                   1   0.2 … 1
 *   T2  temperature out of the compressor       K
 * Errors: `out-of-range`, `inconsistent-inputs` (pressure falls). Limits: dry air, no heat through the housing, k constant.
 * Source: Çengel & Boles, Thermodynamics, isentropic efficiency of compressors [from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { AIR_EXPONENT, cengelBoles, pressureRises } from './sources.ts'

export const compressionTemperature = calculation({
  id: 'compression-temperature',
  title: 'Air temperature after a compressor',
  inputs: {
    temperature: quantity('temperature', {
      symbol: 'T1',
      min: 200,
      max: 400,
      plausible: [243, 343],
      about: 'air temperature into the compressor',
    }),
    pressure: quantity('pressureAbsolute', {
      symbol: 'p1',
      min: 2e4,
      max: 2e5,
      plausible: [6e4, 1.1e5],
      about: 'absolute pressure into the compressor, filter loss taken off',
    }),
    outletPressure: quantity('pressureAbsolute', {
      symbol: 'p2',
      min: 2e4,
      max: 2e6,
      plausible: [1e5, 4e5],
      about: 'absolute pressure out of the compressor',
    }),
    efficiency: quantity('ratio', {
      symbol: 'η',
      min: 0.2,
      max: 1,
      plausible: [0.5, 0.82],
      about: 'isentropic efficiency of the compressor (over 1: two temperatures swapped, or a gauge pressure)',
    }),
  },
  outputs: {
    outletTemperature: result('temperature', { symbol: 'T2', about: 'air temperature out of the compressor' }),
  },
  constants: { exponent: AIR_EXPONENT },
  formula:
    '{outletTemperature} = {temperature} × (1 + (({outletPressure} / {pressure})^(({exponent} − 1) / {exponent}) − 1) / {efficiency})',
  sources: [cengelBoles],
  cautions: [],
  limits: [
    'Dry air with k = 1.4, good to 1 % up to a pressure ratio of 8; no heat through the housing; total temperatures.',
  ],
  conditions: [pressureRises],
  checks: [
    {
      inputs: { temperature: 285.15, pressure: 1e5, outletPressure: 8e5, efficiency: 0.8 },
      output: 'outletTemperature',
      expected: 569.5,
      tolerance: { rel: 0.01 },
      because: 'the book’s figure has variable specific heat; with constant k it is 574.4 K',
      source: { ...cengelBoles, where: 'adiabatic compressor, 12 °C, 100 to 800 kPa, η 0.80' },
      evidence: 'published',
    },
    {
      inputs: { temperature: 250, pressure: 52828, outletPressure: 1e5, efficiency: 1 },
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
  ],
  compute: ({ temperature, pressure, outletPressure, efficiency }) => ({
    outletTemperature:
      temperature *
      (1 + ((outletPressure / pressure) ** ((AIR_EXPONENT.value - 1) / AIR_EXPONENT.value) - 1) / efficiency),
  }),
})
