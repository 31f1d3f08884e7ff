/**
 * Axle loads after one engine gives way to another.   m1' = m1 − mo·(1 − xo/L) + mi·(1 − xi/L); m2' = m2 − mo·xo/L + mi·xi/L
 *   m1   front before         kg  0 … 2e4
 *   m2   rear before          kg  0 … 2e4
 *   L    wheelbase            m   0.8 … 8
 *   mo   taken out            kg  0 … 5000
 *   xo   its place            m   -3 … 10
 *   mi   put in               kg  0 … 5000
 *   xi   its place            m   -3 … 10
 *   m1'  front after          kg
 *   m2'  rear after           kg
 *   f'   front share          1
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: level; everything else as before.
 * Source: moments about an axle; worked figure of a truck maker’s manual [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { INCH, POUND } from '../exactUnits.ts'

const worked: Source = {
  title: 'Peterbilt 220 manual, appendix B, figure B-2, at easymanua.ls: 100 lb at 133 in, wheelbase 214 in',
  where: '62.14 lb on the rear axle',
  how: 'read',
}
const mass = (symbol: string, max: number, about: string) => quantity('mass', { symbol, min: 0, max, about })
const place = (symbol: string, about: string) =>
  quantity('length', { symbol, min: -3, max: 10, plausible: [-1, 4], about })

export const swappedLoads = calculation({
  id: 'swapped-axle-loads',
  title: 'Axle loads after one engine gives way to another',
  inputs: {
    front: mass('m1', 2e4, 'mass on the front axle before'),
    rear: mass('m2', 2e4, 'mass on the rear axle before'),
    wheelbase: quantity('length', { symbol: 'L', min: 0.8, max: 8, plausible: [1.8, 3.8], about: 'wheelbase' }),
    out: mass('mo', 5000, 'mass taken out'),
    outAt: place('xo', 'centre of what is taken out, behind the front axle; before it below 0'),
    in: mass('mi', 5000, 'mass put in'),
    inAt: place('xi', 'centre of what is put in, behind the front axle; before it below 0'),
  },
  outputs: {
    frontAfter: result('mass', { symbol: "m1'", about: 'mass on the front axle after' }),
    rearAfter: result('mass', { symbol: "m2'", about: 'mass on the rear axle after' }),
    share: result('ratio', { symbol: "f'", about: 'share of the front axle after' }),
  },
  conditions: [
    {
      at: 'out',
      holds: ({ front, rear, wheelbase, out, outAt }) =>
        front - out * (1 - outAt / wheelbase) >= 0 && rear - (out * outAt) / wheelbase >= 0,
      says: 'More is taken out than lies on an axle.',
      todo: 'Look at the masses on the axles and at the place of what is taken out.',
    },
  ],
  formula:
    '{frontAfter} = {front} − {out} × (1 − {outAt} / {wheelbase}) + {in} × (1 − {inAt} / {wheelbase})\n{rearAfter} = {rear} − {out} × {outAt} / {wheelbase} + {in} × {inAt} / {wheelbase}\n{share} = {frontAfter} / ({frontAfter} + {rearAfter})',
  sources: [worked],
  cautions: [
    'A reckoned load is no weighing: put the car on scales before brakes, springs and tyres are judged by it.',
  ],
  limits: [
    'Level, everything else as before. Add coolers, battery and exhaust to what is put in, at their common centre.',
  ],
  checks: [
    {
      inputs: { front: 0, rear: 0, wheelbase: 214 * INCH, out: 0, outAt: 0, in: 100 * POUND, inAt: 133 * INCH },
      output: 'rearAfter',
      expected: 62.14 * POUND,
      tolerance: { abs: 0.012 * POUND },
      because: 'cut, not rounded, at the last digit',
      source: worked,
      evidence: 'published',
    },
  ],
  compute: ({ front, rear, wheelbase, out, outAt, in: put, inAt }) => {
    const frontAfter = front - out * (1 - outAt / wheelbase) + put * (1 - inAt / wheelbase)
    const rearAfter = rear - (out * outAt) / wheelbase + (put * inAt) / wheelbase
    return { frontAfter, rearAfter, share: frontAfter / (frontAfter + rearAfter) }
  },
})
