/**
 * What a rivet nut bears.   table by thread and material
 *   M   thread  one of M3 to M12
 *   m   material  one of steel, aluminium
 *   Tt  turns in the sheet  N·m
 *   Tb  breaks             N·m
 *   Fp  proof load         N
 * Errors: `no-choice`, `inconsistent-inputs`. Limits: flat head, round body, one maker; turning depends on hole and sheet.
 * Source: technical data sheet of a maker of rivet nuts, tables 1 to 3 [read].
 */
import { calculation, choice, result, type Source } from '../calculation.ts'

const sheet: Source = {
  title: 'Technical data sheet of rivet nut, stainless-steel-bolts.com, tables 1 to 3',
  where: 'flat head, round body; table 3 prints its unit as N and is read as N·m',
  how: 'read',
}
const MATERIALS = ['steel', 'aluminium'] as const
const THREADS = ['M3', 'M4', 'M5', 'M6', 'M8', 'M10', 'M12'] as const
type Material = (typeof MATERIALS)[number]
type Thread = (typeof THREADS)[number]
/** Turning N·m, breaking N·m, proof load N, as printed. */
const BEARS: Readonly<Record<Material, Partial<Record<Thread, readonly [number, number, number]>>>> = {
  steel: {
    M3: [0.5, 2, 3900],
    M4: [1, 5, 6800],
    M5: [2, 8.5, 11500],
    M6: [4.5, 15, 16500],
    M8: [5.5, 26, 25000],
    M10: [11, 50, 32000],
    M12: [30, 80, 34000],
  },
  aluminium: {
    M3: [0.25, 0.7, 1900],
    M4: [0.9, 2.5, 4000],
    M5: [1.5, 5, 6500],
    M6: [3.5, 8, 7800],
    M8: [5, 20, 12300],
    M10: [6.5, 25, 17500],
  },
}
const row = (material: Material, thread: Thread, output: string, expected: number, abs: number) => ({
  inputs: { thread, material },
  output,
  expected,
  tolerance: { abs },
  because: 'last digit printed',
  source: sheet,
  evidence: 'published' as const,
})

export const rivetNutTorque = calculation({
  id: 'rivet-nut-torque',
  title: 'What a rivet nut bears',
  inputs: {
    thread: choice(THREADS, { symbol: 'M', about: 'thread of the screw' }),
    material: choice(MATERIALS, { symbol: 'm', about: 'of the rivet nut' }),
  },
  outputs: {
    turns: result('torque', { symbol: 'Tt', about: 'torque at which the nut turns in the sheet: stay below it' }),
    breaks: result('torque', { symbol: 'Tb', about: 'torque at which it fails' }),
    proof: result('force', { symbol: 'Fp', about: 'pull that its thread holds' }),
  },
  conditions: [
    {
      at: 'material',
      holds: ({ thread, material }) => BEARS[material][thread] !== undefined,
      says: 'The data sheet has no figure for that thread in aluminium.',
      todo: 'Take steel, or a smaller thread.',
    },
  ],
  formula: '{turns}, {breaks}, {proof} = table by {thread} and {material}',
  sources: [sheet],
  cautions: [
    'Never tighten a rivet nut to the torque of the bolt. Not for seats, belts, brakes or steering without a qualified person’s word.',
  ],
  limits: ['Flat head, round body, of one maker, in a hole to size; hexagon and knurled bodies turn later.'],
  checks: [
    row('steel', 'M6', 'turns', 4.5, 0.05),
    row('steel', 'M8', 'breaks', 26, 0.5),
    row('steel', 'M10', 'proof', 32000, 50),
    row('aluminium', 'M5', 'turns', 1.5, 0.05),
  ],
  compute: ({ thread, material }) => {
    const [turns, breaks, proof] = BEARS[material][thread]!
    return { turns, breaks, proof }
  },
})
