/**
 * What an old gauge shows of a sender through two resistors.   g = S + R·A/(R + A),  or (R + S)·A/(R + S + A)
 *   R   sender now                       Ω  0 … 1e4
 *   S   resistor in series               Ω  0 … 1e4
 *   A   resistor across                  Ω  0.1 … 1e9
 *   w   order, from the sender on        one of across, then series, series, then across
 *   g0  brings the needle to empty       Ω  0 … 1e4
 *   g1  brings the needle to full        Ω  0 … 1e4
 *   g   resistance that the gauge sees   Ω
 *   x   place of the needle, 1 is full   1
 * Errors: `out-of-range`, `inconsistent-inputs` (a gauge whose ends coincide). Limits: a needle that moves evenly with resistance;
 *   below 0 and above 1 it stands against its stop. No resistor across: enter 1 GΩ.
 * Source: Ohm's law, resistances side by side.
 */
import { calculation, choice, quantity, result, type Source } from '../../calculation.ts'
import { sideBySide } from '../interval.ts'
import { FILL_CAUTION } from './fillTest.ts'

const meter: Source = {
  title: 'Fuel meter: two 820 Ω side by side above a sender of 410 Ω at empty halve the battery’s voltage',
  where: 'toyotaguru.us, fuel sender gauge, description',
  how: 'read',
}
const tank: Source = {
  title: 'Fuel gauge: sender 0 Ω empty, 90 Ω full',
  where: 'myvehicle.help, instrument cluster, fuel gauge',
  how: 'read',
}
const ORDERS = ['across, then series', 'series, then across'] as const
const ohms = (symbol: string, about: string) =>
  quantity('resistance', { symbol, min: 0, max: 1e4, plausible: [0, 500], about })

export const gaugeReading = calculation({
  id: 'gauge-reading',
  title: 'What an old gauge shows of a sender through two resistors',
  inputs: {
    sender: ohms('R', 'sender now'),
    series: ohms('S', 'resistor in series'),
    across: quantity('resistance', {
      symbol: 'A',
      min: 0.1,
      max: 1e9,
      plausible: [10, 1e9],
      about: 'resistor across',
    }),
    order: choice(ORDERS, { symbol: 'w', about: 'order, from the sender on' }),
    empty: ohms('g0', 'brings the needle to empty'),
    full: ohms('g1', 'brings the needle to full'),
  },
  outputs: {
    seen: result('resistance', { symbol: 'g', about: 'resistance that the gauge sees' }),
    needle: result('ratio', { symbol: 'x', about: 'place of the needle, 1 is full' }),
  },
  formula:
    '{seen} = {series} + {sender} × {across} / ({sender} + {across}), or with the series resistor first ({sender} + {series}) × {across} / ({sender} + {series} + {across})\n{needle} = ({seen} − {empty}) / ({full} − {empty})',
  sources: [meter, tank],
  cautions: [FILL_CAUTION],
  limits: [
    'A needle that moves evenly with resistance; below 0 and above 1 it stands against its stop. Resistors can shrink a sender’s travel, not stretch or turn it.',
  ],
  conditions: [
    {
      at: 'full',
      holds: (given) => given.empty !== given.full,
      says: 'One resistance cannot bring the needle to both ends.',
      todo: 'Find with a resistance box what brings it to empty and what to full.',
    },
  ],
  checks: [
    {
      inputs: { sender: 820, series: 0, across: 820, order: 'across, then series', empty: 410, full: 15 },
      output: 'seen',
      expected: 410,
      tolerance: { abs: 20 },
      because: '“approximately half” of the battery’s voltage, so 410 Ω above 410 Ω, within 5 %',
      source: meter,
      evidence: 'published',
    },
    {
      inputs: { sender: 90, series: 0, across: 1e9, order: 'series, then across', empty: 0, full: 90 },
      output: 'needle',
      expected: 1,
      tolerance: { abs: 1e-6 },
      because: 'the gauge on its own sender; 1 GΩ across takes 10⁻⁷',
      source: tank,
      evidence: 'published',
    },
  ],
  compute: ({ sender, series, across, order, empty, full }) => {
    const seen =
      order === 'across, then series' ? sideBySide(sender, across) + series : sideBySide(sender + series, across)
    return { seen, needle: (seen - empty) / (full - empty) }
  },
})
