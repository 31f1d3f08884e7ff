/**
 * True vapour pressure of petrol from its Reid vapour pressure.
 *   r  Reid vapour pressure, 37.8 °C  Pa  13790 … 137900
 *   T  temperature                    K   250 … 370
 *   p  true vapour pressure           Pa
 * Errors: `out-of-range`. Limits: hydrocarbon petrol (distillation slope 3 °F per %); ethanol of 5 to 10 % lifts it by
 * several kPa, and the Reid test of such a blend must be a dry one.
 * Source: API relation as printed in US EPA AP-42, chapter 7.1, figure on true vapour pressure of refined stocks [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { PSI } from '../exactUnits.ts'

const ap42: Source = {
  title: 'API relation of Reid to true vapour pressure, refined stocks, slope 3 for motor petrol',
  where: 'US EPA AP-42 chapter 7.1, figure 7.1-14b',
  how: 'memory',
}
const table: Source = {
  title: 'True vapour pressure of petrol RVP 7, 10 and 13 at 40 … 100 °F: RVP 10 is 5.2 psia at 60 °F, 10.5 at 100 °F',
  where: 'US EPA AP-42 chapter 7.1, table 7.1-2',
  how: 'memory',
}
const forum: Source = {
  title: 'Simulation of a petrol of RVP 10 psi: 33 psia at 80 °C',
  where: 'eng-tips.com, thread 218716',
  how: 'read',
}
/** Slope of the ASTM distillation curve at 10 % evaporated, °F per %, for motor petrol: same figure of AP-42. */
const SLOPE = 3

const truePressure = (reid: number, temperature: number): number => {
  const rankine = temperature * 1.8
  const logReid = Math.log10(reid / PSI)
  const root = Math.sqrt(SLOPE)
  return (
    PSI *
    Math.exp(
      (0.7553 - 413 / rankine) * root * logReid -
        (1.854 - 1042 / rankine) * root +
        (2416 / rankine - 2.013) * logReid -
        8742 / rankine +
        15.64,
    )
  )
}
const fahrenheit = (degrees: number): number => (degrees + 459.67) / 1.8

export const petrolVapourPressure = calculation({
  id: 'petrol-vapour-pressure',
  title: 'Vapour pressure of petrol at a temperature',
  inputs: {
    reid: quantity('pressureAbsolute', {
      symbol: 'r',
      min: 13790,
      max: 137900,
      plausible: [45000, 100000],
      about: 'Reid vapour pressure, at 37.8 °C',
    }),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 250,
      max: 370,
      plausible: [253, 340],
      about: 'temperature of the petrol',
    }),
  },
  outputs: { vapourPressure: result('pressureAbsolute', { symbol: 'p', about: 'true vapour pressure' }) },
  formula:
    'ln {vapourPressure} = (0.7553 − 413/R)·√3·log10 {reid} − (1.854 − 1042/R)·√3 + (2416/R − 2.013)·log10 {reid} − 8742/R + 15.64, pressures in psi, R = 1.8 × {temperature}',
  sources: [ap42],
  cautions: ['Petrol gives off vapour that can ignite at every temperature a garage has, down to −40 °C.'],
  limits: [
    'Petrol of hydrocarbons. 5 to 10 % of ethanol lifts vapour pressure by several kPa (EU directive 2009/30/EC, annex III); not for E85, ethanol or methanol.',
    'Winter petrol has far more vapour pressure than summer petrol: 45 to 60 kPa Reid in summer, to 100 in winter (EN 228 classes, from memory).',
  ],
  checks: [
    { inputs: { reid: 10 * PSI, temperature: fahrenheit(60) }, expected: 5.2 * PSI },
    { inputs: { reid: 7 * PSI, temperature: fahrenheit(80) }, expected: 5.2 * PSI },
    { inputs: { reid: 13 * PSI, temperature: fahrenheit(100) }, expected: 13.8 * PSI },
  ]
    .map((check) => ({
      ...check,
      output: 'vapourPressure',
      tolerance: { rel: 0.015 },
      because: 'printed to two or three digits; the table was read off a nomograph',
      source: table,
      evidence: 'published' as const,
    }))
    .concat([
      {
        inputs: { reid: 10 * PSI, temperature: 353.15 },
        expected: 33 * PSI,
        output: 'vapourPressure',
        tolerance: { rel: 0.03 },
        because: 'another petrol of the same Reid pressure, two digits',
        source: forum,
        evidence: 'published' as const,
      },
    ]),
  compute: ({ reid, temperature }) => ({ vapourPressure: truePressure(reid, temperature) }),
})
