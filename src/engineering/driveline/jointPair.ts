/**
 * What is left of the fluctuation behind two joints.   βr² = √(β1⁴ + β2⁴ − 2·β1²·β2²·cos 2φ); allowed βa = √A/ω
 *   β1  angle of the first joint   rad    0 … 0.35
 *   β2  angle of the second joint  rad    0 … 0.35
 *   φ   out of phase               rad    0 … 1.5708
 *   ω   speed of the shaft         rad/s  1 … 2000
 *   βr  angle left                 rad
 *   u   fluctuation left           1
 *   βa  angle allowed              rad
 * Errors: `out-of-range`. Limits: small angles (to 20°); both joints of cross and yokes.
 * Source: SAE AE-7 as charted at engineersedge.com [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { DEGREE, RPM } from '../exactUnits.ts'
import { jointHandbook } from './sources.ts'

const chart: Source = {
  title: 'Vehicle driveline design, engineersedge.com: angles allowed in a two-joint system, after SAE AE-7',
  where: 'at 1500 rpm 7.3° with 0°, 8.9° with 5°, 11.6° with 9°; at 1700 rpm 6.5° with 0°',
  how: 'read',
}
/** 1/s². The chart’s rows are angles that keep the pinion’s angular acceleration to it: (7.3° · 1500 1/min)² = 400 1/s². */
const ACCELERATION = 400

export const jointPair = calculation({
  id: 'joint-pair',
  title: 'What is left of the fluctuation behind two joints',
  inputs: {
    first: quantity('angle', {
      symbol: 'β1',
      min: 0,
      max: 0.35,
      plausible: [0, 0.15],
      about: 'angle of the first joint',
    }),
    second: quantity('angle', {
      symbol: 'β2',
      min: 0,
      max: 0.35,
      plausible: [0, 0.15],
      about: 'angle of the second joint',
    }),
    phase: quantity('angle', {
      symbol: 'φ',
      min: 0,
      max: 1.5708,
      about:
        'by which the second joint is out of phase; 0 where the shaft’s yokes lie alike and all parts in one plane',
    }),
    speed: quantity('angularSpeed', {
      symbol: 'ω',
      min: 1,
      max: 2000,
      plausible: [50, 900],
      about: 'speed of the shaft',
    }),
  },
  outputs: {
    left: result('angle', { symbol: 'βr', about: 'angle of one joint that would do the same' }),
    share: result('ratio', { symbol: 'u', about: 'fluctuation left behind both, over the speed' }),
    allowed: result('angle', { symbol: 'βa', about: 'angle left that is allowed at this speed' }),
  },
  constants: {
    acceleration: { symbol: 'A', value: ACCELERATION, unit: '1/s²', source: chart },
  },
  formula:
    '{left}² = √({first}⁴ + {second}⁴ − 2 × {first}² × {second}² × cos(2 × {phase}))\n{share} = {left}²\n{allowed} = √{acceleration} / {speed}',
  sources: [jointHandbook, chart],
  cautions: [],
  limits: [
    'Angles up to 20°. With equal angles, the yokes in line and all in one plane nothing is left; a quarter turn out of line both add.',
  ],
  checks: [
    {
      inputs: { first: 9 * DEGREE, second: 11.6 * DEGREE, phase: 0, speed: 1500 * RPM },
      output: 'left',
      expected: 7.3 * DEGREE,
      tolerance: { abs: 0.08 * DEGREE },
      because: 'last digit of the second angle, times its share',
      source: chart,
      evidence: 'published',
    },
    {
      inputs: { first: 5 * DEGREE, second: 8.9 * DEGREE, phase: 0, speed: 1500 * RPM },
      output: 'left',
      expected: 7.3 * DEGREE,
      tolerance: { abs: 0.08 * DEGREE },
      because: 'last digit of the second angle, times its share',
      source: chart,
      evidence: 'published',
    },
    {
      inputs: { first: 0, second: 6.5 * DEGREE, phase: 0, speed: 1700 * RPM },
      output: 'allowed',
      expected: 6.5 * DEGREE,
      tolerance: { rel: 0.06 },
      because: 'the chart’s rows lie between 7.3 and 6.9° a step of 100 1/min',
      source: chart,
      evidence: 'published',
    },
    {
      inputs: { first: 0, second: 7.3 * DEGREE, phase: 0, speed: 1500 * RPM },
      output: 'allowed',
      expected: 7.3 * DEGREE,
      tolerance: { abs: 0.05 * DEGREE },
      because: 'last digit printed',
      source: chart,
      evidence: 'published',
    },
  ],
  compute: ({ first, second, phase, speed }) => {
    const [a, b] = [first * first, second * second]
    // |a − b·e^(2iφ)|: what each joint does twice a turn, added as pointers.
    const share = Math.hypot(a - b * Math.cos(2 * phase), b * Math.sin(2 * phase))
    return { left: Math.sqrt(share), share, allowed: Math.sqrt(ACCELERATION) / speed }
  },
})
