/**
 * Current of injectors on one output, each with a series resistor or none.   I = n·V/(R + Rs)
 *   V   voltage across injector and resistor   V  4 … 30
 *   R   resistance of each injector            Ω  0.1 … 50
 *   Rs  resistor in series with each           Ω  0 … 50
 *   n   injectors on this output               1  1 … 12
 *   I   current of the output                  A
 *   Ii  current of each injector               A
 *   P   heat in each series resistor, held on  W
 * Errors: `out-of-range`, `not-whole`. Limits: held on and settled (duty 1); a peak-and-hold driver limits it below this.
 * Source: Ohm's law.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const tutorial: Source = {
  title: 'Workshop manual, waveforms, injector pattern tutorial: bank of 4.4 Ω at 14 V draws 3.2 A',
  where: 'figure 4, sinref.ru',
  how: 'read',
}
const saturated: Source = {
  title:
    'Fuel-injector service notes: high impedance 12 to 16 Ω, low impedance 4 Ω or less, peak perhaps 4 A, hold 0.75 to 1 A',
  where: 'injectorrx.com, what is impedance',
  how: 'read',
}

/** By resistance at 20 °C: `high` runs on a plain switch, `low` needs peak-and-hold or a series resistor, between ask the maker. */
export const injectorImpedance = (resistance: number): 'low' | 'between' | 'high' =>
  resistance <= 4 ? 'low' : resistance >= 12 ? 'high' : 'between'

export const injectorCurrent = calculation({
  id: 'injector-current',
  title: 'Current of injectors on one output',
  inputs: {
    voltage: quantity('voltage', {
      symbol: 'V',
      min: 4,
      max: 30,
      plausible: [8, 15],
      about: 'voltage across injector and resistor',
    }),
    resistance: quantity('resistance', {
      symbol: 'R',
      min: 0.1,
      max: 50,
      plausible: [1, 18],
      about: 'resistance of each injector',
    }),
    series: quantity('resistance', {
      symbol: 'Rs',
      min: 0,
      max: 50,
      plausible: [0, 12],
      about: 'resistor in series with each, 0 for none',
    }),
    count: quantity('ratio', { symbol: 'n', min: 1, max: 12, whole: true, about: 'injectors on this output' }),
  },
  outputs: {
    total: result('current', { symbol: 'I', about: 'current of the output' }),
    each: result('current', { symbol: 'Ii', about: 'current of each injector' }),
    heat: result('power', { symbol: 'P', about: 'heat in each series resistor, held on' }),
  },
  formula: '{each} = {voltage} / ({resistance} + {series})\n{total} = {count} × {each}\n{heat} = {each}² × {series}',
  sources: [tutorial, saturated],
  cautions: ['A series resistor slows the opening: the dead time changes and must be measured again.'],
  limits: ['Settled and held on. Warm windings have more resistance and draw less.'],
  checks: [
    {
      inputs: { voltage: 14, resistance: 13.2, series: 0, count: 3 },
      output: 'total',
      expected: 3.2,
      tolerance: { abs: 0.05 },
      because: 'printed to two digits; three in parallel make 4.4 Ω',
      source: tutorial,
      evidence: 'published',
    },
    {
      inputs: { voltage: 12, resistance: 12, series: 0, count: 1 },
      output: 'each',
      expected: 1,
      tolerance: { rel: 1e-12 },
      because: 'Ohm’s law',
      source: saturated,
      evidence: 'law',
    },
  ],
  compute: ({ voltage, resistance, series, count }) => {
    const each = voltage / (resistance + series)
    return { each, total: count * each, heat: each * each * series }
  },
})
