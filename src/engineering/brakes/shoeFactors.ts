/**
 * Factor of a pivoted drum shoe, friction force over the force that spreads it.   S = T/(F·r)
 *   μ   lining friction            1    0.02 … 1
 *   r   drum                       m    0.03 … 0.4
 *   a   pivot from the middle      m    0.02 … 0.4
 *   c   arm of spreading force     m    0.03 … 0.8
 *   θ1  lining begins              rad  0 … 1.5
 *   θ2  lining ends                rad  0.5 … 3.1
 *   Sl  leading shoe               1
 *   St  trailing shoe              1
 * Errors: `out-of-range`, `inconsistent-inputs` where the leading shoe would grip by itself. Limits: pressure as the sine
 * of the angle from the pivot; rigid shoe and drum; angles from the pivot.
 * Source: Shigley, chapter 16, eqs. 16-2 to 16-6 [from memory]; its problem 16-1 [answer read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { frictionInput } from './discBrake.ts'
import { shigley } from './sources.ts'

const problem: Source = {
  title: 'Shigley, problem 16-1: 300 mm, R 125 mm, shoes 40 mm wide, 2.2 kN each, friction 0.28',
  where: 'answer as quoted at poppenprograms.org and djtino.net: 734 kPa on the leading shoe',
  how: 'read',
}
const length = (symbol: string, min: number, max: number, about: string) =>
  quantity('length', { symbol, min, max, about })

/** Moments of normal and friction force about the pivot, and the torque, all per peak pressure and width. */
const moments = (friction: number, drum: number, pivot: number, start: number, end: number) => {
  const square = (end - start) / 2 - (Math.sin(2 * end) - Math.sin(2 * start)) / 4
  const cosines = Math.cos(start) - Math.cos(end)
  const sines = (Math.sin(end) ** 2 - Math.sin(start) ** 2) / 2
  return {
    normal: drum * pivot * square,
    rubbing: friction * drum * (drum * cosines - pivot * sines),
    torque: friction * drum * drum * cosines,
  }
}

const SHOE = {
  drum: 0.15,
  pivot: 0.125,
  arm: 2 * 0.125 * Math.cos(Math.PI / 6),
  start: 0,
  end: (120 * Math.PI) / 180,
} as const
const EXAMPLE = {
  friction: 0.32,
  drum: 0.15,
  pivot: Math.hypot(0.112, 0.05),
  arm: 0.212,
  start: 0,
  end: (126 * Math.PI) / 180,
} as const

export const shoeFactors = calculation({
  id: 'drum-shoe-factors',
  title: 'Leading and trailing shoe of a drum brake',
  inputs: {
    friction: frictionInput,
    drum: length('r', 0.03, 0.4, 'inner radius of the drum'),
    pivot: length('a', 0.02, 0.4, 'from the middle of the drum to the shoe’s pivot'),
    arm: length('c', 0.03, 0.8, 'from the pivot to the line of the wheel cylinder’s push, at right angles'),
    start: quantity('angle', { symbol: 'θ1', min: 0, max: 1.5, about: 'from the pivot to where the lining begins' }),
    end: quantity('angle', { symbol: 'θ2', min: 0.5, max: 3.1, about: 'from the pivot to where the lining ends' }),
  },
  outputs: {
    leading: result('ratio', { symbol: 'Sl', about: 'factor of the leading shoe, which the drum pulls in' }),
    trailing: result('ratio', { symbol: 'St', about: 'factor of the trailing shoe, which the drum pushes off' }),
  },
  conditions: [
    {
      at: 'end',
      holds: ({ start, end }) => end > start,
      says: 'The lining ends before it begins.',
      todo: 'Measure both angles from the line between the middle of the drum and the pivot.',
    },
    {
      at: 'friction',
      holds: ({ friction, drum, pivot, start, end }) => {
        const { normal, rubbing } = moments(friction, drum, pivot, start, end)
        return normal > rubbing
      },
      says: 'With these dimensions the leading shoe grips by itself and locks.',
      todo: 'Measure pivot and angles again; a drum so made must not be used.',
    },
  ],
  formula:
    'MN ∝ {drum} × {pivot} × ∫ sin²θ, MF ∝ {friction} × {drum} × ∫ sin θ × ({drum} − {pivot} × cos θ), from {start} to {end}\n{leading} = {friction} × {drum} × (cos θ1 − cos θ2) × {arm} / (MN − MF)\n{trailing} = {friction} × {drum} × (cos θ1 − cos θ2) × {arm} / (MN + MF)',
  sources: [shigley],
  cautions: ['A leading shoe turns a little more friction into much more brake: damp or new linings snatch.'],
  limits: [
    'Pivoted shoes. A shoe that slides on its abutment, or one that pushes the other (duo-servo), has other factors: take the maker’s.',
  ],
  checks: [
    {
      inputs: { friction: 0.28, ...SHOE },
      output: 'leading',
      // T = μ·pa·b·r²·1.5 with pa 734 kPa, over F·r.
      expected: (0.28 * 734e3 * 0.04 * 0.15 * 1.5) / 2200,
      tolerance: { rel: 1e-3 },
      because: 'pressure printed to 1 kPa',
      source: problem,
      evidence: 'published',
    },
    {
      inputs: EXAMPLE,
      output: 'leading',
      expected: 366 / (2280 * 0.15),
      tolerance: { rel: 4e-3 },
      because: 'torque and force printed to three digits',
      source: { ...shigley, where: 'example 16-2: 2.28 kN, 366 N·m' },
      evidence: 'published',
    },
    {
      inputs: EXAMPLE,
      output: 'trailing',
      expected: 162 / (2280 * 0.15),
      tolerance: { rel: 6e-3 },
      because: 'torque and force printed to three digits',
      source: { ...shigley, where: 'example 16-2: 2.28 kN, 162 N·m' },
      evidence: 'published',
    },
  ],
  compute: ({ friction, drum, pivot, arm, start, end }) => {
    const { normal, rubbing, torque } = moments(friction, drum, pivot, start, end)
    const over = (moment: number): number => (torque * arm) / (moment * drum)
    return { leading: over(normal - rubbing), trailing: over(normal + rubbing) }
  },
})
