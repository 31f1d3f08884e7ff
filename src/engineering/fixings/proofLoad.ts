/**
 * Load that a bolt holds without lasting stretch.   Fp = Sp·As
 *   c   property class  one of 4.6 to 12.9
 *   d   nominal diameter  m    0.003 … 0.039
 *   P   pitch             m    0.0003 … 0.005
 *   Sp  proof stress      Pa
 *   Fp  proof load        N
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: carbon and alloy steel by ISO 898-1, not stainless, 10 to 35 °C.
 * Source: ISO 898-1, proof loads, as tabled [read].
 */
import { calculation, result } from '../calculation.ts'
import { iso724, iso898 } from './sources.ts'
import { areaOf } from './stressArea.ts'
import { BOLT_CAUTION, diameterInput, gradeInput, pitchInput, proofStress, threadHolds } from './thread.ts'

const check = (grade: '4.6' | '8.8' | '10.9' | '12.9', diameter: number, pitch: number, expected: number) => ({
  inputs: { grade, diameter: diameter / 1e3, pitch: pitch / 1e3 },
  output: 'load',
  expected,
  tolerance: { rel: 3e-3 },
  because: 'printed to three digits, from a stress area of three digits',
  source: iso898,
  evidence: 'published' as const,
})

export const proofLoad = calculation({
  id: 'bolt-proof-load',
  title: 'Load that a bolt holds without lasting stretch',
  inputs: { grade: gradeInput, diameter: diameterInput, pitch: pitchInput },
  outputs: {
    stress: result('stress', { symbol: 'Sp', about: 'proof stress of the class' }),
    load: result('force', { symbol: 'Fp', about: 'proof load' }),
  },
  conditions: [threadHolds],
  formula: '{stress} = table by {grade}\n{load} = {stress} × π / 4 × ({diameter} − 0.938194 × {pitch})²',
  sources: [iso898, iso724],
  cautions: [BOLT_CAUTION],
  limits: [
    'Bolts, screws and studs of carbon and alloy steel by ISO 898-1 from 10 to 35 °C, in a nut or thread as strong. Not stainless steel, not titanium, not a bolt without a mark.',
  ],
  checks: [
    check('8.8', 8, 1.25, 21200),
    check('8.8', 12, 1.75, 48900),
    check('8.8', 20, 2.5, 147000),
    check('10.9', 10, 1.5, 48100),
    check('12.9', 12, 1.75, 81800),
    check('4.6', 6, 1, 4520),
  ],
  compute: ({ grade, diameter, pitch }) => {
    const stress = proofStress(grade, diameter)
    return { stress, load: stress * areaOf(diameter, pitch) }
  },
})
