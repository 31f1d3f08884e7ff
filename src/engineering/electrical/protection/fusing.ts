/**
 * Current that melts a bare copper conductor in a time.   I = A·√(log10((Tm − Ta)/(234 + Ta) + 1)/(33·t)), A in circular mils
 *   S    cross-section of copper           m²   1e-8 … 2e-4
 *   t    time                              s    1e-3 … 10
 *   Ta   temperature at the start          K    220 … 500
 *   I    melting current                   A
 * Errors: `out-of-range`. Source: Onderdonk, as quoted by Brooks [read]. Limits: no heat lost; an insulated wire is hurt at
 *   four tenths of it, so this is never a limit for protection: it says when the wire itself becomes the fuse.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const brooks: Source = {
  title: 'Brooks, “Onderdonk’s and Preece’s equations: how do they compare?” (2015, 2023)',
  where: 'pcdandf.com',
  how: 'read',
}
const worked: Source = { title: 'The same equation worked by hand from its published form', how: 'computed' }
const CIRCULAR_MIL = 5.067074790974977e-10

export const fusingCurrent = calculation({
  id: 'fusing-current',
  title: 'Current that melts a copper conductor',
  inputs: {
    area: quantity('area', { symbol: 'S', min: 1e-8, max: 2e-4, plausible: [1e-7, 1e-4], about: 'cross-section' }),
    time: quantity('time', { symbol: 't', min: 1e-3, max: 10, plausible: [0.01, 5], about: 'time to melt' }),
    start: quantity('temperature', {
      symbol: 'Ta',
      min: 220,
      max: 500,
      plausible: [253, 400],
      about: 'temperature before',
    }),
  },
  outputs: { current: result('current', { symbol: 'I', about: 'melting current' }) },
  formula:
    '{current} = {area} / (π/4 × (25.4 µm)²) × √(log10((1083 − Ta) / (234 + Ta) + 1) / (33 × {time})), Ta = {start} in °C',
  sources: [brooks],
  cautions: ['The insulation is ruined and may burn long before the copper melts.'],
  limits: ['No heat lost: not beyond some ten seconds. Copper melts at 1 083 °C.'],
  checks: [
    {
      inputs: { area: 20.25e-6, time: 1, start: 298.15 },
      output: 'current',
      expected: 288 * 20.25,
      tolerance: { rel: 0.01 },
      because: 'the IEC constant and Onderdonk’s 1/33 agree within 1 % of current: k(25 → 1083 °C) = 288',
      source: { title: 'IEC 60949 k of copper from 25 to 1 083 °C', where: 'formula as quoted', how: 'read' },
      evidence: 'published',
    },
    {
      inputs: { area: 10383 * CIRCULAR_MIL, time: 1, start: 313.15 },
      output: 'current',
      expected: 1492,
      tolerance: { rel: 1e-3 },
      because: 'four digits',
      source: worked,
      evidence: 'law',
    },
  ],
  compute: ({ area, time, start }) => {
    const celsius = start - 273.15
    return {
      current: (area / CIRCULAR_MIL) * Math.sqrt(Math.log10((1083 - celsius) / (234 + celsius) + 1) / (33 * time)),
    }
  },
})
