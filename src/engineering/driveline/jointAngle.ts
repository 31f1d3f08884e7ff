/**
 * Angle at a joint from slopes seen from the side and from above.   cos β = u1·u2, u = (1, tan p, tan s)/√(1 + tan²p + tan²s)
 *   s1  slope before the joint        rad  -0.8 … 0.8
 *   s2  slope behind the joint        rad  -0.8 … 0.8
 *   p1  direction before, from above  rad  -0.8 … 0.8
 *   p2  direction behind, from above  rad  -0.8 … 0.8
 *   β   angle of the joint            rad
 * Errors: `out-of-range`. Limits: angles as projected onto the two views, as a protractor and a plan give them.
 * Source: Spicer driveline installation manual, true universal joint operating angle [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { DEGREE } from '../exactUnits.ts'

const manual: Source = {
  title: 'Spicer Driveline Installation Service Manual, page 10, figure 6, at manualsdir.com',
  where: '2.15° from above and 2.5° from the side: 3.3°',
  how: 'read',
}
const angle = (symbol: string, about: string) =>
  quantity('angle', { symbol, min: -0.8, max: 0.8, plausible: [-0.3, 0.3], about })

export const jointAngle = calculation({
  id: 'joint-angle',
  title: 'Angle of a joint from side view and plan',
  inputs: {
    slopeBefore: angle('s1', 'slope of the part before the joint, falling to the rear positive'),
    slopeBehind: angle('s2', 'slope of the part behind the joint, falling to the rear positive'),
    planBefore: angle('p1', 'direction of the part before the joint from above, to the right positive'),
    planBehind: angle('p2', 'direction of the part behind the joint from above, to the right positive'),
  },
  outputs: { angle: result('angle', { symbol: 'β', about: 'angle between both parts' }) },
  formula:
    'cos {angle} = (1 + tan {planBefore} × tan {planBehind} + tan {slopeBefore} × tan {slopeBehind}) / (√(1 + tan {planBefore}² + tan {slopeBefore}²) × √(1 + tan {planBehind}² + tan {slopeBehind}²))',
  sources: [manual],
  cautions: [
    'Measure with the car on its wheels, at the height it drives at: ramps, or stands under the axles, never a jack alone.',
  ],
  limits: [
    'For small angles the root of the squares of both differences, as the manual has it. The axle must hang as it drives.',
  ],
  checks: [
    {
      inputs: { slopeBefore: 2.5 * DEGREE, slopeBehind: 0, planBefore: 2.15 * DEGREE, planBehind: 0 },
      output: 'angle',
      expected: 3.3 * DEGREE,
      tolerance: { abs: 0.05 * DEGREE },
      because: 'last digit printed',
      source: manual,
      evidence: 'published',
    },
    {
      inputs: { slopeBefore: 4 * DEGREE, slopeBehind: -1.5 * DEGREE, planBefore: 0, planBehind: 0 },
      output: 'angle',
      expected: 5.5 * DEGREE,
      tolerance: { abs: 1e-9 },
      because: 'in one view slopes simply differ',
      source: manual,
      evidence: 'law',
    },
  ],
  compute: ({ slopeBefore, slopeBehind, planBefore, planBehind }) => {
    const [y1, z1, y2, z2] = [planBefore, slopeBefore, planBehind, slopeBehind].map(Math.tan) as [
      number,
      number,
      number,
      number,
    ]
    // The cross product keeps its digits where the cosine is near to 1.
    const across = Math.hypot(y1 * z2 - z1 * y2, z1 - z2, y2 - y1)
    return { angle: Math.atan2(across, 1 + y1 * y2 + z1 * z2) }
  },
})
