/**
 * Clamping force that a torque gives.   F = T/(K·d); σ = F/As; s = σ/Sp
 *   T  torque                   N·m  0.1 … 3000
 *   K  nut factor               1    0.05 … 0.6
 *   c  property class  one of 4.6 to 12.9
 *   d  nominal diameter         m    0.003 … 0.039
 *   P  pitch                    m    0.0003 … 0.005
 *   F  clamping force           N
 *   σ  stress                   Pa
 *   s  share of the proof load  1
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: short form; K is known only as a range.
 * Source: T = K·F·d; worked example and nut factors below [read].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { iso898, nutFactor, nutFactors } from './sources.ts'
import { areaOf } from './stressArea.ts'
import {
  BOLT_CAUTION,
  diameterInput,
  gradeInput,
  nutFactorInput,
  pitchInput,
  proofStress,
  threadHolds,
} from './thread.ts'

const EXAMPLE = { torque: 50, factor: 0.2, grade: '8.8', diameter: 0.01, pitch: 0.0015 } as const

export const boltPreload = calculation({
  id: 'bolt-preload',
  title: 'Clamping force that a torque gives',
  inputs: {
    torque: quantity('torque', {
      symbol: 'T',
      min: 0.1,
      max: 3000,
      plausible: [2, 400],
      about: 'torque at the wrench',
    }),
    factor: nutFactorInput,
    grade: gradeInput,
    diameter: diameterInput,
    pitch: pitchInput,
  },
  outputs: {
    force: result('force', { symbol: 'F', about: 'clamping force' }),
    stress: result('stress', { symbol: 'σ', about: 'tension in the thread' }),
    share: result('ratio', { symbol: 's', about: 'share of the proof load; above 1 the bolt stays stretched' }),
  },
  conditions: [threadHolds],
  formula:
    '{force} = {torque} / ({factor} × {diameter})\n{stress} = {force} / (π / 4 × ({diameter} − 0.938194 × {pitch})²)\n{share} = {stress} / proof stress of {grade}',
  sources: [nutFactor, nutFactors, iso898],
  cautions: [BOLT_CAUTION],
  limits: [
    'Short form: one factor for all friction, a range and never one figure. Give it its ±: oil on a thread that was to be dry raises the force by a quarter or more.',
    'Tension alone; the twist of tightening adds to it.',
  ],
  checks: [
    {
      inputs: EXAMPLE,
      output: 'force',
      expected: 25e3,
      tolerance: { rel: 1e-9 },
      because: 'exact as printed',
      source: nutFactor,
      evidence: 'published',
    },
    {
      inputs: EXAMPLE,
      output: 'stress',
      expected: 431e6,
      tolerance: { abs: 0.5e6 },
      because: 'last digit printed',
      source: nutFactor,
      evidence: 'published',
    },
    {
      // The example takes 600 MPa for M10 (71.8 %); ISO 898-1 has 580 MPa up to 16 mm, a proof load of 33.7 kN.
      inputs: EXAMPLE,
      output: 'share',
      expected: 25 / 33.7,
      tolerance: { rel: 3e-3 },
      because: 'proof load printed to three digits',
      source: iso898,
      evidence: 'published',
    },
  ],
  compute: ({ torque, factor, grade, diameter, pitch }) => {
    const force = torque / (factor * diameter)
    const stress = force / areaOf(diameter, pitch)
    return { force, stress, share: stress / proofStress(grade, diameter) }
  },
})
