/**
 * Ring terminal for a stud: its hole, and what the stud connects.   table by stud
 *   M   stud  one of M4 to M12
 *   dh  hole of the ring   m
 *   x   play               m
 *   I   current            A
 * Errors: `no-choice`. Limits: which conductor a ring takes is its maker’s to say.
 * Source: DIN 46234, holes [from memory]; M4 by a maker’s manual, currents by a maker’s sheet [read].
 */
import { calculation, choice, result, type Source } from '../calculation.ts'

const din: Source = {
  title: 'DIN 46234, ring terminals without insulating sleeve',
  where: 'holes 4.3, 5.3, 6.5, 8.4, 10.5, 13 mm for M4 to M12; but for M6 they are those of ISO 273, fine',
  how: 'memory',
}
const manual: Source = {
  title: 'SIRIUS Innovations, System Manual 01/2011, tables 1-34 and 1-35, ring cable lugs to DIN 46234',
  where: 'M3 stud: at least 3.2 mm; M4 stud: at least 4.3 mm',
  how: 'read',
}
const bolts: Source = {
  title: 'Current-carrying connection bolts, erichgeiss.de',
  where: 'bolt not leading the current: 35 A M4, 75 A M5, 125 A M6, 150 A M8, 200 A M10, 350 A M12',
  how: 'read',
}
/** mm and A, as printed. */
const STUDS = {
  M4: [4.3, 35],
  M5: [5.3, 75],
  M6: [6.5, 125],
  M8: [8.4, 150],
  M10: [10.5, 200],
  M12: [13, 350],
} as const
type Stud = keyof typeof STUDS

export const ringTerminal = calculation({
  id: 'ring-terminal',
  title: 'Ring terminal for a stud',
  inputs: { stud: choice(Object.keys(STUDS) as Stud[], { symbol: 'M', about: 'thread of the stud or screw' }) },
  outputs: {
    hole: result('length', { symbol: 'dh', about: 'hole of the ring' }),
    play: result('length', { symbol: 'x', about: 'play on the stud: a ring with more has lost contact area' }),
    current: result('current', {
      symbol: 'I',
      about: 'what one maker lets a steel stud connect, ring on ring, the stud itself not carrying it',
    }),
  },
  formula: '{hole} = table by {stud}\n{play} = {hole} − nominal diameter\n{current} = table by {stud}',
  sources: [din, manual, bolts],
  cautions: ['Battery negative off first; no ring or watch on the hand. A loose ring on a battery cable burns.'],
  limits: [
    'Ring on ring or on a bare, flat, tinned or plated face, never through a washer or paint. Currents are one maker’s. Which conductor a ring takes is its maker’s to say: no open standard table was found.',
  ],
  checks: [
    {
      inputs: { stud: 'M4' },
      output: 'hole',
      expected: 0.0043,
      tolerance: { abs: 5e-5 },
      because: 'last digit printed',
      source: manual,
      evidence: 'published',
    },
    {
      inputs: { stud: 'M8' },
      output: 'current',
      expected: 150,
      tolerance: { abs: 0.5 },
      because: 'last digit printed',
      source: bolts,
      evidence: 'published',
    },
    {
      inputs: { stud: 'M12' },
      output: 'current',
      expected: 350,
      tolerance: { abs: 0.5 },
      because: 'last digit printed',
      source: bolts,
      evidence: 'published',
    },
  ],
  compute: ({ stud }) => {
    const [hole, current] = STUDS[stud]
    return { hole: hole / 1e3, play: hole / 1e3 - Number(stud.slice(1)) / 1e3, current }
  },
})
