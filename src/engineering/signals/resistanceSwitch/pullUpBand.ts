/**
 * Worst-case voltage and reading of one resistance behind a pull-up.   V = (Vs·R + E·Rp − I·Rp·R) / (Rp + R), at every corner
 *   Vs  supply of the pull-up             V  0.5 … 60
 *   a   tolerance of the supply           1  0 … 0.5
 *   w   converter's reference             one of the same supply, its own
 *   Vr  reference, where it is its own    V  0.5 … 60
 *   b   tolerance of the reference        1  0 … 0.5
 *   Rp  pull-up                           Ω  1 … 1e7
 *   c   tolerance of the pull-up          1  0 … 0.5
 *   R   resistance to the switch's earth  Ω  0 … 1e8
 *   d   its tolerance                     1  0 … 0.5
 *   k   contact resistance, old           Ω  0 … 1e5
 *   E1  earth offset, lowest              V  -5 … 5
 *   E2  earth offset, highest             V  -5 … 5
 *   I   leakage into the input, ±         A  0 … 0.01
 *   N   bits of the converter             1  4 … 24
 *   n   its non-linearity, ± steps        1  0 … 1000
 *   V1  lowest voltage at the pin         V
 *   V2  highest voltage at the pin        V
 *   r1  lowest reading, share of full     1
 *   r2  highest reading, share of full    1
 * Errors: `out-of-range`, `inconsistent-inputs`, `overwhelmed`. Limits: direct current; a converter saturates at 0 and 1.
 * Source: Ohm's and Kirchhoff's laws; corners as in ecadworkbench.com, voltage divider tolerance.
 */
import { calculation, choice, quantity, result, type Source } from '../../calculation.ts'
import { type Interval, within } from '../interval.ts'
import { envelopeOf, type InputCircuit } from './circuit.ts'

// Its low corner is printed 1.086 V; 3.3 × 9.9/30.1 is 1.0854. Only the high corner is used.
const guide: Source = {
  title: 'Worked example: 3.3 V, 20 kΩ over 10 kΩ, 1 % each: about 1.115 V at most',
  where: 'ecadworkbench.com, voltage divider tolerance',
  how: 'read',
}
const exercise: Source = {
  title: 'Worked problem 1.007P: 5 V, 3 kΩ over 2 kΩ, 5 % each: 1.88 … 2.12 V',
  where: 'passeidireto.com 198000484',
  how: 'read',
}
const tolerance = (symbol: string, about: string) =>
  quantity('ratio', { symbol, min: 0, max: 0.5, plausible: [0, 0.2], about })

/** V at the pin, every corner tried: not the way `envelopeOf` goes, so that each holds the other to it. */
function pinVoltage({ pullUp, supply, earthOffset, leakage }: InputCircuit, resistance: Interval): Interval {
  const ends = (interval: Interval): readonly number[] => [interval.low, interval.high]
  const all = ends(pullUp).flatMap((p) =>
    ends(supply).flatMap((s) =>
      ends(earthOffset).flatMap((e) =>
        ends(leakage).flatMap((i) => ends(resistance).map((r) => (s * r + e * p - i * p * r) / (p + r))),
      ),
    ),
  )
  return { low: Math.min(...all), high: Math.max(...all) }
}

const divider = (supply: number, pullUp: number, resistance: number, each: number) => ({
  supply,
  supplyTolerance: 0,
  sharing: 'the same supply' as const,
  reference: supply,
  referenceTolerance: 0,
  pullUp,
  pullUpTolerance: each,
  resistance,
  tolerance: each,
  contact: 0,
  earthLow: 0,
  earthHigh: 0,
  leakage: 0,
  bits: 12,
  linearity: 0,
})
const row = (
  inputs: ReturnType<typeof divider>,
  output: 'lowest' | 'highest',
  expected: number,
  abs: number,
  source: Source,
) => ({
  inputs,
  output,
  expected,
  tolerance: { abs },
  because: 'last digit printed, rounded',
  source,
  evidence: 'published' as const,
})

export const pullUpBand = calculation({
  id: 'pull-up-band',
  title: 'Worst-case reading of a resistance behind a pull-up',
  inputs: {
    supply: quantity('voltage', {
      symbol: 'Vs',
      min: 0.5,
      max: 60,
      plausible: [3, 15],
      about: 'supply of the pull-up',
    }),
    supplyTolerance: tolerance('a', 'tolerance of the supply'),
    sharing: choice(['the same supply', 'its own'], { symbol: 'w', about: 'converter’s reference' }),
    reference: quantity('voltage', {
      symbol: 'Vr',
      min: 0.5,
      max: 60,
      plausible: [1, 15],
      about: 'reference, where it is its own (else the supply again)',
    }),
    referenceTolerance: tolerance('b', 'tolerance of the reference'),
    pullUp: quantity('resistance', { symbol: 'Rp', min: 1, max: 1e7, plausible: [100, 1e5], about: 'pull-up' }),
    pullUpTolerance: tolerance('c', 'tolerance of the pull-up'),
    resistance: quantity('resistance', {
      symbol: 'R',
      min: 0,
      max: 1e8,
      plausible: [0, 1e6],
      about: 'resistance from the wire to the switch’s earth',
    }),
    tolerance: tolerance('d', 'its tolerance'),
    contact: quantity('resistance', {
      symbol: 'k',
      min: 0,
      max: 1e5,
      plausible: [0, 100],
      about: 'contact resistance when old; new it is 0',
    }),
    earthLow: quantity('voltage', {
      symbol: 'E1',
      min: -5,
      max: 5,
      plausible: [-0.2, 0.2],
      about: 'lowest earth offset of the switch above the sensor earth',
    }),
    earthHigh: quantity('voltage', {
      symbol: 'E2',
      min: -5,
      max: 5,
      plausible: [-0.2, 0.5],
      about: 'highest earth offset of the switch above the sensor earth',
    }),
    leakage: quantity('current', {
      symbol: 'I',
      min: 0,
      max: 0.01,
      plausible: [0, 1e-4],
      about: 'leakage into the input, ±',
    }),
    bits: quantity('ratio', {
      symbol: 'N',
      min: 4,
      max: 24,
      plausible: [8, 16],
      whole: true,
      about: 'bits of the converter',
    }),
    linearity: quantity('ratio', {
      symbol: 'n',
      min: 0,
      max: 1000,
      plausible: [0, 8],
      about: 'its non-linearity, ± steps',
    }),
  },
  outputs: {
    lowest: result('voltage', { symbol: 'V1', about: 'lowest voltage at the pin' }),
    highest: result('voltage', { symbol: 'V2', about: 'highest voltage at the pin' }),
    lowestReading: result('ratio', { symbol: 'r1', about: 'lowest reading, share of full scale' }),
    highestReading: result('ratio', { symbol: 'r2', about: 'highest reading, share of full scale' }),
  },
  formula:
    'V = ({supply} × {resistance} + E × {pullUp} − I × {pullUp} × {resistance}) / ({pullUp} + {resistance}), each quantity at both ends of its tolerance, {resistance} with and without {contact}\n{lowest}, {highest}: least and greatest of them\n{lowestReading}, {highestReading}: over the reference, ± ({linearity} + ½) steps of {bits} bits',
  sources: [guide, exercise],
  cautions: [],
  limits: ['Direct current. Every extreme lies at a corner, since the voltage is monotone in each quantity alone.'],
  conditions: [
    {
      at: 'earthHigh',
      holds: (given) => given.earthLow <= given.earthHigh,
      says: 'The lowest earth offset is above the highest.',
      todo: 'Exchange them.',
    },
  ],
  checks: [
    row(divider(3.3, 20e3, 10e3, 0.01), 'highest', 1.115, 6e-4, guide),
    row(divider(5, 3e3, 2e3, 0.05), 'lowest', 1.88, 5.1e-3, exercise),
    row(divider(5, 3e3, 2e3, 0.05), 'highest', 2.12, 5.1e-3, exercise),
  ],
  compute: (given) => {
    const circuit: InputCircuit = {
      pullUp: within(given.pullUp, given.pullUpTolerance),
      supply: within(given.supply, given.supplyTolerance),
      reference: given.sharing === 'its own' ? within(given.reference, given.referenceTolerance) : 'supply',
      earthOffset: { low: given.earthLow, high: given.earthHigh },
      leakage: { low: -given.leakage, high: given.leakage },
      bits: given.bits,
      linearity: given.linearity,
    }
    const resistance = within(given.resistance, given.tolerance)
    const seen = { low: resistance.low, high: resistance.high + given.contact }
    const envelope = envelopeOf(circuit)
    const pin = pinVoltage(circuit, seen)
    return {
      lowest: pin.low,
      highest: pin.high,
      lowestReading: envelope.lowest(seen.low),
      highestReading: envelope.highest(seen.high),
    }
  },
})
