/**
 * Torque for a share of a bolt’s proof load.   F = s·Sp·As; T = K·F·d
 *   s   share of the proof load  1    0.1 … 1
 *   K   nut factor               1    0.05 … 0.6
 *   c   property class  one of 4.6 to 12.9
 *   d   nominal diameter         m    0.003 … 0.039
 *   P   pitch                    m    0.0003 … 0.005
 *   F   clamping force           N
 *   T   torque                   N·m
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: short form; K is known only as a range.
 * Source: T = K·F·d, Shigley and others; worked example and nut factors below [read].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { boltTorqueExample, iso898, nutFactors } from './sources.ts'
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

const EXAMPLE = { share: 0.7, factor: 0.2, grade: '8.8', diameter: 0.012, pitch: 0.00175 } as const

export const boltTorque = calculation({
  id: 'bolt-torque',
  title: 'Torque for a share of a bolt’s proof load',
  inputs: {
    share: quantity('ratio', {
      symbol: 's',
      min: 0.1,
      max: 1,
      plausible: [0.4, 0.9],
      about: 'share of the proof load: 75 % where the joint is to be taken apart again',
    }),
    factor: nutFactorInput,
    grade: gradeInput,
    diameter: diameterInput,
    pitch: pitchInput,
  },
  outputs: {
    force: result('force', { symbol: 'F', about: 'clamping force at that share' }),
    torque: result('torque', { symbol: 'T', about: 'torque at the wrench; its ± is that of the nut factor' }),
  },
  conditions: [threadHolds],
  formula:
    '{force} = {share} × proof stress of {grade} × π / 4 × ({diameter} − 0.938194 × {pitch})²\n{torque} = {factor} × {force} × {diameter}',
  sources: [boltTorqueExample, nutFactors, iso898],
  cautions: [BOLT_CAUTION],
  limits: [
    'Short form: one factor for all friction, a range and never one figure. Give it its ±. Soft threads (aluminium, rivet nuts) and soft clamped parts give way long before the bolt.',
  ],
  checks: [
    {
      inputs: EXAMPLE,
      output: 'torque',
      expected: 82,
      tolerance: { abs: 0.5 },
      because: 'printed whole',
      source: boltTorqueExample,
      evidence: 'published',
    },
    {
      inputs: EXAMPLE,
      output: 'force',
      expected: 34e3,
      tolerance: { abs: 500 },
      because: 'printed whole',
      source: boltTorqueExample,
      evidence: 'published',
    },
  ],
  compute: ({ share, factor, grade, diameter, pitch }) => {
    const force = share * proofStress(grade, diameter) * areaOf(diameter, pitch)
    return { force, torque: factor * force * diameter }
  },
})
