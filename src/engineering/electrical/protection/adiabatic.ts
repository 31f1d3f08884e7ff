/**
 * Temperature of a conductor after a short-circuit, no heat lost.   θf = (β + θi)·exp(I²·t/(k0²·S²)) − β
 *   I    current                          A    0 … 2e4
 *   t    duration                         s    0 … 30
 *   S    cross-section of metal           m²   1e-8 … 1e-3
 *   M    metal                            one of copper, aluminium, copper-clad aluminium
 *   Ti   temperature at the start         K    200 … 600
 *   Tf   temperature at the end           K
 *   k    √(I²t)/S that leads there        A·√s/mm², given as a plain number
 * Errors: `out-of-range`, `no-answer` beyond 1 400 K, where copper has melted.
 * Source: IEC 60364-5-54 annex A, IEC 60949 [read]. Limits: no heat lost, so never too cool; far too hot beyond a few seconds.
 */
import { calculation, choice, quantity, result } from '../../calculation.ts'
import { METAL_NAMES, type Metal } from '../sources.ts'
import { iec60949, kTable, SHORT_CIRCUIT, withstandTable, ZERO_CELSIUS } from './material.ts'

/** Beyond it copper has melted, and no insulation was left long before. */
export const MOLTEN = 1400

/** K after `jouleIntegral` A²·s in `area` m²; Infinity when molten. */
export const adiabaticTemperature = (metal: Metal, area: number, start: number, jouleIntegral: number): number => {
  const { heat, beta, rho } = SHORT_CIRCUIT[metal]
  const zero = ZERO_CELSIUS - beta
  const exponent = (jouleIntegral / area ** 2) * (rho / (heat * (beta + 20)))
  const end = zero + (start - zero) * Math.exp(exponent)
  return end > MOLTEN ? Number.POSITIVE_INFINITY : end
}

/** A²·s that takes `area` m² from `start` to `end` K with no heat lost. */
export const adiabaticJoule = (metal: Metal, area: number, start: number, end: number): number => {
  const { heat, beta, rho } = SHORT_CIRCUIT[metal]
  const zero = ZERO_CELSIUS - beta
  return ((area ** 2 * heat * (beta + 20)) / rho) * Math.log((end - zero) / (start - zero))
}

/** k of the tables, A·√s/mm². */
export const kFactor = (metal: Metal, start: number, end: number): number =>
  Math.sqrt(adiabaticJoule(metal, 1, start, end)) * 1e-6

const celsius = (value: number) => value + ZERO_CELSIUS
const mm2 = 1e-6

export const adiabaticHeating = calculation({
  id: 'adiabatic-heating',
  title: 'Temperature of a conductor after a short-circuit',
  inputs: {
    current: quantity('current', { symbol: 'I', min: 0, max: 2e4, plausible: [10, 3000], about: 'fault current' }),
    time: quantity('time', { symbol: 't', min: 0, max: 30, plausible: [0.001, 5], about: 'time until it is cut off' }),
    area: quantity('area', {
      symbol: 'S',
      min: 1e-8,
      max: 1e-3,
      plausible: [2e-7, 1.2e-4],
      about: 'cross-section of metal',
    }),
    metal: choice(METAL_NAMES, { symbol: 'M', about: 'metal of the conductor' }),
    start: quantity('temperature', {
      symbol: 'Ti',
      min: 200,
      max: 600,
      plausible: [253, 400],
      about: 'conductor temperature before the fault',
    }),
  },
  outputs: { end: result('temperature', { symbol: 'Tf', about: 'conductor temperature at the end' }) },
  formula:
    '{end} = (β + {start} − 273.15) × exp({current}² × {time} × ρ20 / ({area}² × Qc × (β + 20))) − β + 273.15, β, Qc and ρ20 of {metal}',
  sources: [iec60949],
  cautions: ['A short to the body heats the whole loop: the thinnest conductor in it decides.'],
  limits: ['No heat lost: right for a few seconds at most, too hot beyond; never too cool.'],
  checks: [
    // √(I²t)/S = k: one second at k·S amperes.
    ...(
      [
        ['copper', 70, 160, 115],
        ['aluminium', 70, 160, 76],
        ['copper', 90, 250, 143],
        ['aluminium', 90, 250, 94],
      ] as const
    ).map(([metal, start, end, k]) => ({
      inputs: { current: k, time: 1, area: mm2, metal, start: celsius(start) },
      output: 'end' as const,
      expected: celsius(end),
      tolerance: { abs: 2.5 },
      because: 'k is printed to whole numbers: half a unit is 1 % of I²t, up to 2 K',
      source: kTable,
      evidence: 'published' as const,
    })),
    {
      inputs: { current: 5735.5, time: 0.25, area: 25 * mm2, metal: 'copper', start: celsius(70) },
      output: 'end',
      expected: celsius(160),
      tolerance: { abs: 1 },
      because: 'k²S² printed as 8.2656e6 A²s to five digits, with k rounded to 115',
      source: withstandTable,
      evidence: 'published',
    },
  ],
  compute: ({ current, time, area, metal, start }) => {
    const end = adiabaticTemperature(metal, area, start, current ** 2 * time)
    return { end: Number.isFinite(end) ? end : Number.NaN }
  },
})
