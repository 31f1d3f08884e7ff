/**
 * Height of the centre of gravity by raising one axle.   sin θ = H/L; h = r + L·(Wt − Wl)/(m·tan θ)
 *   m   mass of the car           kg   50 … 4e4
 *   Wl  low axle, level           kg   20 … 3e4
 *   Wt  low axle, tilted          kg   20 … 3e4
 *   L   wheelbase                 m    0.8 … 8
 *   H   axle raised by            m    0.05 … 3
 *   r   axles above the pads      m    0.1 … 1
 *   θ   tilt                      rad
 *   hr  above the axles           m
 *   h   centre of gravity         m
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: suspension locked, tanks full or empty, wheels of one size.
 * Source: moments; derivation of R. Gray and builder’s guideline 3.5 of a maker of vans [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const derivation: Source = {
  title: 'Finding the height of the centre of gravity by tilting, R. Gray 1997, geocities.cmolabs.net',
  where: 'c = (W′/M − W/M)·b/tan X above the axles',
  how: 'read',
}
const guideline: Source = {
  title: 'VW body builder’s guideline, Crafter, section 3.5, equations (1) to (4)',
  where:
    'equations read: distance from the rear axle Xh = Gv·RS/(Gv + Gh), level and raised; the figures put in are ours',
  how: 'read',
}
/** By the guideline’s equations: the centre’s distance from the rear axle, level and with the rear raised. */
const byGuideline = (): number => {
  const [total, level, raised, base, rise] = [2100, 1200, 1290, 3.25, 0.8]
  const shortened = Math.sqrt(base ** 2 - rise ** 2)
  const [xLevel, xRaised] = [(level * base) / total, (raised * shortened) / total]
  // The raised point lies at xLevel along the car and y above it: xRaised = xLevel·cos + y·sin.
  return (xRaised - (xLevel * shortened) / base) / (rise / base)
}
const load = (symbol: string, about: string) =>
  quantity('mass', { symbol, min: 20, max: 3e4, plausible: [150, 2500], about })

export const tiltHeight = calculation({
  id: 'tilt-height',
  title: 'Height of the centre of gravity by raising one axle',
  inputs: {
    total: quantity('mass', { symbol: 'm', min: 50, max: 4e4, plausible: [400, 4000], about: 'mass of the car' }),
    level: load('Wl', 'on the axle that stays down, car level'),
    tilted: load('Wt', 'on the same axle with the other raised'),
    wheelbase: quantity('length', { symbol: 'L', min: 0.8, max: 8, plausible: [1.8, 3.8], about: 'wheelbase' }),
    rise: quantity('length', {
      symbol: 'H',
      min: 0.05,
      max: 3,
      plausible: [0.25, 1],
      about: 'by which the other axle is raised',
    }),
    axleHeight: quantity('length', {
      symbol: 'r',
      min: 0.1,
      max: 1,
      plausible: [0.24, 0.4],
      about: 'middle of the wheels above the pads, car level',
    }),
  },
  outputs: {
    tilt: result('angle', { symbol: 'θ', about: 'tilt of the car' }),
    above: result('length', { symbol: 'hr', about: 'centre of gravity above the middle of the wheels' }),
    height: result('length', { symbol: 'h', about: 'centre of gravity above the road' }),
  },
  conditions: [
    {
      at: 'rise',
      holds: ({ rise, wheelbase }) => rise < wheelbase / 2,
      says: 'The axle is raised by half of the wheelbase or more.',
      todo: 'Never tilt a car that far; look at the unit.',
    },
    {
      at: 'level',
      holds: ({ level, tilted, total }) => level < total && tilted < total,
      says: 'One axle weighs as much as the whole car.',
      todo: 'Enter the mass of the whole car, and the scales under the axle that stays down.',
    },
  ],
  formula:
    '{tilt} = arcsin({rise} / {wheelbase})\n{above} = {wheelbase} × ({tilted} − {level}) / ({total} × tan {tilt})\n{height} = {axleHeight} + {above}',
  sources: [derivation, guideline],
  cautions: [
    'A raised car can fall or roll: firm level ground, the brakes of the low axle locked, chocks on both sides of its wheels, stands or blocks under the raised axle, never a jack alone, and nobody under or in the car.',
    'Fuel runs to the low end: tank nearly empty or quite full, cap and vent tight, no flame; oil and coolant full; battery fixed.',
  ],
  limits: [
    'Suspension blocked with links in place of the dampers, tyres hard, wheels free to roll on the pads. The ± is that of the small gain of load: raise more, weigh finer.',
  ],
  checks: [
    {
      inputs: { total: 2100, level: 1200, tilted: 1290, wheelbase: 3.25, rise: 0.8, axleHeight: 0.34 },
      output: 'above',
      expected: byGuideline(),
      tolerance: { rel: 1e-9 },
      because: 'both ways are exact',
      source: guideline,
      evidence: 'published',
    },
  ],
  compute: ({ total, level, tilted, wheelbase, rise, axleHeight }) => {
    const tilt = Math.asin(rise / wheelbase)
    const above = (wheelbase * (tilted - level)) / (total * Math.tan(tilt))
    return { tilt, above, height: axleHeight + above }
  },
})
