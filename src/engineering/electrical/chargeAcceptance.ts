/**
 * Charging current that a lead-acid battery takes at its regulated voltage.   I = C/(1 h)·(1 − s + 0.02)·2^((T − 298.15 K)/19 K)
 *   C   capacity, 20 h rate   C    3600 … 1.8e6
 *   s   state of charge       1    0 … 1
 *   T   battery temperature   K    243 … 333
 *   I   charging current      A
 * Errors: `out-of-range`. Limits: 14 to 14.5 V on a 12 V battery in good order; ± 50 %: makes and ages differ that much.
 * Source: ampere-hour law (Woodbridge, 1935); tail of 2 % of capacity from a battery data sheet; temperature from the
 *   charge-acceptance test of EN 50342-1 [from memory; previews of it and of IEC 60095-1 stop at their contents]. That the
 *   three may be multiplied: common practice, no published source.
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const HOUR = 3600
const TAIL = 0.02
const HALVING = 19
const WARM = 298.15
/** ± of the answer, as a share of it. Common practice, no published source. */
export const ACCEPTANCE_SPREAD = 0.5

const woodbridge: Source = {
  title:
    'Ampere-hour law of Woodbridge (1935): amperes no more than the ampere-hours still missing; 80 % of capacity at first',
  where: 'manualika.com, “Woodbridge”',
  how: 'read',
}
const sheet: Source = {
  title: 'Data sheet of a lead-gel battery: at 14.1 V charging ends when the current is down to 2 % of the capacity',
  where: 'quoted at roboternetz.de',
  how: 'read',
}
const en50342: Source = {
  title: 'EN 50342-1, charge acceptance: half charged, 0 °C, 14.4 V, after 10 min at least 2·C20/10 h',
  how: 'memory',
}

export const chargeAcceptance = calculation({
  id: 'charge-acceptance',
  title: 'Charging current that a battery takes',
  inputs: {
    capacity: quantity('charge', {
      symbol: 'C',
      min: HOUR,
      max: 500 * HOUR,
      plausible: [20 * HOUR, 120 * HOUR],
      about: 'capacity at the 20 h rate',
    }),
    charge: quantity('ratio', { symbol: 's', min: 0, max: 1, about: 'state of charge' }),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 243,
      max: 333,
      plausible: [258, 323],
      about: 'battery temperature',
    }),
  },
  outputs: { current: result('current', { symbol: 'I', about: 'charging current' }) },
  constants: {
    tail: { symbol: 'i∞', value: TAIL, unit: '1', source: sheet },
    halving: { symbol: 'T½', value: HALVING, unit: 'K', source: en50342 },
  },
  formula: '{current} = {capacity} / 3600 s × (1 − {charge} + {tail}) × 2^(({temperature} − 298.15 K) / {halving})',
  sources: [woodbridge, sheet, en50342],
  cautions: ['A battery gives off explosive gas while it charges; a frozen battery takes nothing and may burst.'],
  limits: [
    'Lead-acid in good order at 14 to 14.5 V (12 V battery), ± 50 %. Below that voltage its inner resistance decides. The product of the three factors is common practice, no published source.',
  ],
  checks: [
    {
      inputs: { capacity: 100 * HOUR, charge: 0, temperature: WARM },
      output: 'current',
      expected: 80,
      tolerance: { rel: 0.3 },
      because: '“up to 80 %”; the law itself gives all of it',
      source: woodbridge,
      evidence: 'published',
    },
    {
      inputs: { capacity: 100 * HOUR, charge: 0.5, temperature: 273.15 },
      output: 'current',
      expected: 20,
      tolerance: { rel: 0.1 },
      because: 'least that passes the test',
      source: en50342,
      evidence: 'published',
    },
    {
      inputs: { capacity: 70 * HOUR, charge: 1, temperature: WARM },
      output: 'current',
      expected: 1.4,
      tolerance: { rel: 0.01 },
      because: 'two digits',
      source: sheet,
      evidence: 'published',
    },
  ],
  compute: ({ capacity, charge, temperature }) => ({
    current: (capacity / HOUR) * (1 - charge + TAIL) * 2 ** ((temperature - WARM) / HALVING),
  }),
})
