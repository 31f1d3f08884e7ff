/**
 * How long a parked car’s battery lasts.   t = Q/(I + C·r·2^((T − 293.15 K)/(10 K))/(30 d))
 *   Q   charge that may go               C   1 … 3.6e6
 *   I   current drawn, parked            A   0 … 10
 *   C   capacity                         C   360 … 3.6e6
 *   r   self-discharge in 30 d at 20 °C  1   0.001 … 0.5
 *   T   battery temperature              K   233 … 333
 *   t   time                             s
 * Errors: `out-of-range`. Limits: self-discharge taken as steady and in proportion to the capacity; make and age of a battery
 *   move it by a factor of three. Peukert’s exponent has no part in it: parked currents are far below the rated one.
 * Source: balance of charge; self-discharge by makers’ sheets read; its doubling every 10 K [from memory].
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const HOUR = 3600
const DAY = 24 * HOUR
const MONTH = 30 * DAY
/** K that double the self-discharge. */
const DOUBLING = 10

const faq: Source = {
  title: 'Battery supplier: self-discharge 4 % a week at 80 °F; 125 A·h stored for 16 weeks loses 80 A·h',
  where: 'vave-india.com/faqs.php',
  how: 'read',
}
export const selfDischargeSheet: Source = {
  title: 'Data sheet of a flooded deep-cycle battery: self-discharge 5–15 % a month depending on storage temperature',
  where: 'J305P-AC data sheet, page 1',
  how: 'read',
}
const doubling: Source = { title: 'Self-discharge doubles about every 10 K', how: 'memory' }

export const parkedTime = calculation({
  id: 'parked-time',
  title: 'How long a parked battery lasts',
  inputs: {
    usable: quantity('charge', { symbol: 'Q', min: 1, max: 3.6e6, about: 'charge that may go' }),
    draw: quantity('current', {
      symbol: 'I',
      min: 0,
      max: 10,
      plausible: [0, 0.1],
      about: 'current that the parked car draws',
    }),
    capacity: quantity('charge', { symbol: 'C', min: 360, max: 3.6e6, about: 'capacity of the battery' }),
    selfDischarge: quantity('ratio', {
      symbol: 'r',
      min: 1e-3,
      max: 0.5,
      plausible: [0.01, 0.15],
      about: 'share of the capacity lost by itself in 30 d at 20 °C',
    }),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 233,
      max: 333,
      plausible: [253, 313],
      about: 'battery temperature',
    }),
  },
  outputs: { time: result('time', { symbol: 't', about: 'time until that charge has gone' }) },
  constants: { double: { symbol: 'T2', value: DOUBLING, unit: 'K', source: doubling } },
  formula:
    '{time} = {usable} / ({draw} + {capacity} × {selfDischarge} × 2^(({temperature} − 293.15 K) / {double}) / 30 d)',
  sources: [selfDischargeSheet, faq, doubling],
  cautions: ['A battery left flat sulphates, and its thin acid freezes not far below 0 °C.'],
  limits: ['Self-discharge of a new battery; an old or dirty one loses several times as much.'],
  checks: [
    {
      inputs: {
        usable: 80 * HOUR,
        draw: 0,
        capacity: 125 * HOUR,
        selfDischarge: (0.04 * 30) / 7,
        temperature: 293.15,
      },
      output: 'time',
      expected: 16 * 7 * DAY,
      tolerance: { rel: 0.01 },
      because: 'whole weeks and amperes; their rate entered as that of the battery’s own temperature',
      source: faq,
      evidence: 'published',
    },
    {
      inputs: { usable: 24 * HOUR, draw: 0.05, capacity: 60 * HOUR, selfDischarge: 1e-3, temperature: 233.15 },
      output: 'time',
      expected: 20 * DAY,
      tolerance: { rel: 1e-3 },
      because: 'next to no self-discharge: 24 A·h at 50 mA are 480 h',
      source: { title: 'Balance of charge', how: 'computed' },
      evidence: 'law',
    },
  ],
  compute: ({ usable, draw, capacity, selfDischarge, temperature }) => ({
    time: usable / (draw + (capacity * selfDischarge * 2 ** ((temperature - 293.15) / DOUBLING)) / MONTH),
  }),
})
