/**
 * Largest resistance that a listed copper conductor may have, at a temperature.   R' = R'20·(1 + α20·(T − 293.15 K))
 *   S    size                        one of the sizes in conductorTable.ts
 *   T    conductor temperature       K    220 … 500
 *   R'   resistance per length       Ω/m
 *   A    nominal cross-section       m²
 * Errors: `out-of-range`, `unknown-choice`. Limits: copper; metric sizes ISO 6722, gauge sizes stranded aircraft wire.
 * Source: ISO 6722 as reprinted; FAA AC 43.13-1B table 11-9; α20 handbook table 30.1.
 */
import { calculation, choice, quantity, result, type Source } from '../calculation.ts'
import { CONDUCTORS, conductorOf, faaTable, iso6722, iso6722Memory } from './conductorTable.ts'
import { handbook, METALS, warmer } from './sources.ts'

const british: Source = {
  title: 'Guidance on Choice and Use of Cable, older British thick-wall table',
  where: 'rydertowing.co.uk',
  how: 'read',
}

export const tableResistance = calculation({
  id: 'table-resistance',
  title: 'Largest resistance of a standard conductor',
  inputs: {
    size: choice(
      CONDUCTORS.map(({ size }) => size),
      { symbol: 'S', about: 'size of the conductor as its table names it' },
    ),
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 220,
      max: 500,
      plausible: [233, 423],
      about: 'conductor temperature',
    }),
  },
  outputs: {
    resistance: result('resistancePerLength', { symbol: "R'", about: 'largest resistance per length' }),
    area: result('area', { symbol: 'A', about: 'nominal metal cross-section' }),
  },
  constants: { alpha: { symbol: 'α20', value: METALS.copper.alpha, unit: '1/K', source: handbook } },
  formula: "{resistance} = R'20({size}) × (1 + {alpha} × ({temperature} − 293.15 K))",
  sources: [iso6722, iso6722Memory, faaTable],
  cautions: [
    'Sizes from memory (0.35, 0.5, 0.75, 1.25, 2, 3, 8, 12, 20, 30, 40, 60 mm²) wait for the standard’s page.',
  ],
  limits: [
    'Copper. The maximum of its own table: metric sizes ISO 6722, gauge sizes stranded aircraft wire; IEC 60228 class 5 flex is up to 5 % higher.',
  ],
  checks: [
    {
      inputs: { size: '1.5 mm²', temperature: 293.15 },
      output: 'resistance',
      expected: 12.5e-3,
      tolerance: { rel: 0.02 },
      because: 'typical value of another table, the maximum lies 1.6 % above',
      source: british,
      evidence: 'published',
    },
    {
      inputs: { size: '2.5 mm²', temperature: 293.15 },
      output: 'resistance',
      expected: 7.5e-3,
      tolerance: { rel: 0.02 },
      because: 'typical value of another table',
      source: british,
      evidence: 'published',
    },
    {
      inputs: { size: '3 mm²', temperature: 293.15 },
      output: 'resistance',
      expected: 6e-3,
      tolerance: { rel: 0.03 },
      because: 'typical value of another table',
      source: british,
      evidence: 'published',
    },
    {
      inputs: { size: 'AWG 12', temperature: 293.15 },
      output: 'resistance',
      expected: 0.00202 / 0.3048,
      tolerance: { rel: 1e-6 },
      because: 'the same figure in its worked table',
      source: { title: 'FAA AC 43.13-1B', where: 'table 11-7, page 11-22', how: 'read' },
      evidence: 'published',
    },
  ],
  compute: ({ size, temperature }) => {
    // The choice admits listed sizes only.
    const { maximumResistance, area } = conductorOf(size)!
    return { resistance: maximumResistance * warmer('copper', temperature), area }
  },
})
