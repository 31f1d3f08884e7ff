/**
 * Voltage lost along a conductor.   U = R'·L·I
 *   R'  resistance per length   Ω/m  0 … 10
 *   L   length of conductor     m    0 … 1e3
 *   I   current                 A    0 … 2e3
 *   U   voltage drop            V
 *   P   heat in the conductor   W
 * Errors: `out-of-range`. Limits: direct current; joints, fuses and switches add their own drops.
 * Source: Ohm's law; FAA AC 43.13-1B tables 11-7 and 11-8.
 */
import { calculation, quantity, result } from '../calculation.ts'
import { faa } from './sources.ts'

const FOOT = 0.3048
const row = (ohmPerFoot: number, feet: number, current: number) => ({
  resistance: ohmPerFoot / FOOT,
  length: feet * FOOT,
  current,
})
const printed = { ...faa, where: 'tables 11-7 and 11-8, page 11-22' }

export const voltageDrop = calculation({
  id: 'voltage-drop',
  title: 'Voltage drop along a conductor',
  inputs: {
    resistance: quantity('resistancePerLength', {
      symbol: "R'",
      min: 0,
      max: 10,
      plausible: [1e-4, 0.1],
      about: 'resistance per length at the conductor’s temperature',
    }),
    length: quantity('length', {
      symbol: 'L',
      min: 0,
      max: 1e3,
      plausible: [0.02, 30],
      about: 'length of conductor, feed and return if both are wires',
    }),
    current: quantity('current', { symbol: 'I', min: 0, max: 2e3, plausible: [0.001, 400], about: 'current' }),
  },
  outputs: {
    drop: result('voltage', { symbol: 'U', about: 'voltage lost along the conductor' }),
    heat: result('power', { symbol: 'P', about: 'heat in the conductor' }),
  },
  formula: '{drop} = {resistance} × {length} × {current}\n{heat} = {drop} × {current}',
  sources: [faa],
  cautions: [],
  limits: [
    'Direct current, steady; joints, fuses and switches add their own drops. Both legs count: where the body is the return, its joints do.',
  ],
  // Of the same tables the row 0.00202 × 88 ft is printed 3.60 V (product 3.555) and a row of 19.5 ft 0.366 V (product 0.491): misprints, not used.
  checks: [
    {
      inputs: row(0.00044, 107, 20),
      output: 'drop',
      expected: 0.942,
      tolerance: { abs: 6e-4 },
      because: 'printed to 1 mV',
      source: printed,
      evidence: 'published',
    },
    {
      inputs: row(0.00028, 90, 20),
      output: 'drop',
      expected: 0.504,
      tolerance: { abs: 6e-4 },
      because: 'printed to 1 mV',
      source: printed,
      evidence: 'published',
    },
    {
      inputs: row(0.00306, 100, 20),
      output: 'drop',
      expected: 6.12,
      tolerance: { abs: 6e-3 },
      because: 'printed to 10 mV',
      source: printed,
      evidence: 'published',
    },
    {
      inputs: row(0.00126, 156, 20),
      output: 'drop',
      expected: 3.93,
      tolerance: { abs: 6e-3 },
      because: 'printed to 10 mV',
      source: printed,
      evidence: 'published',
    },
    {
      inputs: row(0.00126, 273, 20),
      output: 'drop',
      expected: 6.88,
      tolerance: { abs: 6e-3 },
      because: 'printed to 10 mV',
      source: printed,
      evidence: 'published',
    },
    {
      inputs: { resistance: 0.01, length: 1, current: 200 },
      output: 'drop',
      expected: 2,
      tolerance: { abs: 0.05 },
      because: 'printed to two digits',
      source: {
        title: 'Battery maker’s clinic sheet: 200 A through 0.01 Ω',
        where: 'studylib.net 18668575',
        how: 'read',
      },
      evidence: 'published',
    },
  ],
  compute: ({ resistance, length, current }) => {
    const drop = resistance * length * current
    return { drop, heat: drop * current }
  },
})
