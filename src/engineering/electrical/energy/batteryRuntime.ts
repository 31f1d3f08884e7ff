/**
 * How long a battery feeds a steady current.   t = s·H·(C/(I·H))^k   (Peukert, rated form)
 *   C   capacity, H-hour rate               C   360 … 3.6e6
 *   H   hours of that rate                  s   3600 … 3.6e5
 *   k   Peukert exponent                    1   1 … 1.8
 *   I   current drawn                       A   0.001 … 1000
 *   s   share of the capacity taken         1   0.01 … 1
 *   t   time                                s
 * Errors: `out-of-range`. Limits: new battery at 25 °C, constant current; cold and age take from it. The form that refers
 *   to 1 A, t = Cp/I^k, is this one with H = Cp/1 A; the two give different times for one k and must not be mixed.
 * Source: Peukert’s law; example and ranges of k named beside the checks.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const HOUR = 3600
export const peukertExample: Source = {
  title: 'Peukert’s law, worked example in the 1 A form: 100 A·h, exponent 1.2, 5 A: 14.5 h',
  where: 'electrotechnik.net',
  how: 'read',
}
export const peukertRanges: Source = {
  title: 'Peukert exponents: flooded 1.2–1.6, absorbed glass mat 1.05–1.15, gel 1.1–1.25',
  where: 'a battery guide’s text',
  how: 'read',
}
const linkManual: Source = {
  title: 'Battery monitor manual, exponent from two tests: 20 h at 5 A and 7.5 h at 10 A',
  where: 'Xantrex Link 20 owner’s manual, page 26',
  how: 'read',
}

export const batteryRuntime = calculation({
  id: 'battery-runtime',
  title: 'How long a battery feeds a current',
  inputs: {
    capacity: quantity('charge', {
      symbol: 'C',
      min: 360,
      max: 3.6e6,
      plausible: [20 * HOUR, 300 * HOUR],
      about: 'capacity at the rate of H hours',
    }),
    rate: quantity('time', {
      symbol: 'H',
      min: HOUR,
      max: 100 * HOUR,
      plausible: [5 * HOUR, 20 * HOUR],
      about: 'hours of the rate at which the capacity is stated, 20 h for starter batteries',
    }),
    exponent: quantity('ratio', {
      symbol: 'k',
      min: 1,
      max: 1.8,
      plausible: [1.05, 1.6],
      about: 'Peukert exponent',
    }),
    current: quantity('current', {
      symbol: 'I',
      min: 1e-3,
      max: 1e3,
      plausible: [0.1, 100],
      about: 'current drawn, steady',
    }),
    share: quantity('ratio', { symbol: 's', min: 0.01, max: 1, about: 'share of the capacity that is taken' }),
  },
  outputs: { time: result('time', { symbol: 't', about: 'time until that share is taken' }) },
  formula: '{time} = {share} × {rate} × ({capacity} / ({current} × {rate}))^{exponent}',
  sources: [peukertExample, peukertRanges],
  cautions: ['A battery taken below half its charge ages fast; below a fifth it may be spoilt.'],
  limits: [
    'Rated form: a battery of 100 A·h at 20 h gives 5 A for 20 h whatever the exponent. New battery at 25 °C; cold and age take from it.',
  ],
  checks: [
    {
      inputs: { capacity: 100 * HOUR, rate: 100 * HOUR, exponent: 1.2, current: 5, share: 1 },
      output: 'time',
      expected: 14.5 * HOUR,
      tolerance: { abs: 0.05 * HOUR },
      because: 'printed to 0.1 h',
      source: peukertExample,
      evidence: 'published',
    },
    {
      inputs: { capacity: 100 * HOUR, rate: 20 * HOUR, exponent: 1.415, current: 10, share: 1 },
      output: 'time',
      expected: 7.5 * HOUR,
      tolerance: { abs: 0.05 * HOUR },
      because: 'two tests stated to 0.1 h; their exponent computed, 1.415',
      source: linkManual,
      evidence: 'published',
    },
    {
      inputs: { capacity: 100 * HOUR, rate: 20 * HOUR, exponent: 1.2, current: 5, share: 1 },
      output: 'time',
      expected: 20 * HOUR,
      tolerance: { rel: 1e-9 },
      because: 'the rated current for the rated time, by definition',
      source: { title: 'Definition of the rated form', how: 'computed' },
      evidence: 'law',
    },
  ],
  compute: ({ capacity, rate, exponent, current, share }) => ({
    time: share * rate * (capacity / (current * rate)) ** exponent,
  }),
})
