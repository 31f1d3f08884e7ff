/**
 * Axle loads, cross weight and place of the centre of gravity from four scales.   x = L·(RL + RR)/m; y = ((FR − FL)·tf + (RR − RL)·tr)/(2·m); c = (FL + RR)/m
 *   FL  front left        kg  1 … 1e4
 *   FR  front right       kg  1 … 1e4
 *   RL  rear left         kg  1 … 1e4
 *   RR  rear right        kg  1 … 1e4
 *   L   wheelbase         m   0.8 … 8
 *   tf  front track       m   0.5 … 3
 *   tr  rear track        m   0.5 … 3
 *   m1  front axle        kg
 *   m2  rear axle         kg
 *   m   whole             kg
 *   c   cross weight      1
 *   l   left share        1
 *   x   behind the front  m
 *   y   to the right      m
 * Errors: `out-of-range`. Limits: level pads, suspension settled, as it drives.
 * Source: moments; worked figures of machinecalcs.com [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { vehicleDynamics } from './sources.ts'

const corner = (symbol: string, about: string) =>
  quantity('mass', { symbol, min: 1, max: 1e4, plausible: [80, 1200], about })
const track = (symbol: string, about: string) =>
  quantity('length', { symbol, min: 0.5, max: 3, plausible: [1, 1.9], about })
const worked: Source = {
  title: 'Corner weights, machinecalcs.com: 360, 350, 340 and 350 kg',
  where: '1400 kg, cross weight 50.7 %',
  how: 'read',
}

export const cornerWeights = calculation({
  id: 'corner-weights',
  title: 'Axle loads, cross weight and centre of gravity from four scales',
  inputs: {
    frontLeft: corner('FL', 'scale under the front left wheel'),
    frontRight: corner('FR', 'scale under the front right wheel'),
    rearLeft: corner('RL', 'scale under the rear left wheel'),
    rearRight: corner('RR', 'scale under the rear right wheel'),
    wheelbase: quantity('length', { symbol: 'L', min: 0.8, max: 8, plausible: [1.8, 3.8], about: 'wheelbase' }),
    frontTrack: track('tf', 'front track, middle to middle of the tyres'),
    rearTrack: track('tr', 'rear track, middle to middle of the tyres'),
  },
  outputs: {
    front: result('mass', { symbol: 'm1', about: 'mass on the front axle' }),
    rear: result('mass', { symbol: 'm2', about: 'mass on the rear axle' }),
    total: result('mass', { symbol: 'm', about: 'mass of the car' }),
    cross: result('ratio', { symbol: 'c', about: 'cross weight: front left and rear right over the whole' }),
    left: result('ratio', { symbol: 'l', about: 'share of the left side' }),
    behind: result('length', { symbol: 'x', about: 'centre of gravity behind the front axle' }),
    aside: result('length', { symbol: 'y', about: 'centre of gravity right of the middle; below 0 left of it' }),
  },
  formula:
    '{front} = {frontLeft} + {frontRight}\n{rear} = {rearLeft} + {rearRight}\n{total} = {front} + {rear}\n{cross} = ({frontLeft} + {rearRight}) / {total}\n{left} = ({frontLeft} + {rearLeft}) / {total}\n{behind} = {wheelbase} × {rear} / {total}\n{aside} = (({frontRight} − {frontLeft}) × {frontTrack} + ({rearRight} − {rearLeft}) × {rearTrack}) / (2 × {total})',
  sources: [vehicleDynamics, worked],
  cautions: ['Wheels straight, brakes off and chocks at hand: a car on four pads rolls.'],
  limits: [
    'Pads level to some millimetres, tyres at pressure, suspension settled by rolling on, load and driver as it drives.',
  ],
  checks: [
    {
      inputs: {
        frontLeft: 360,
        frontRight: 350,
        rearLeft: 340,
        rearRight: 350,
        wheelbase: 2.5,
        frontTrack: 1.4,
        rearTrack: 1.4,
      },
      output: 'cross',
      expected: 0.507,
      tolerance: { abs: 5e-4 },
      because: 'last digit printed',
      source: worked,
      evidence: 'published',
    },
    {
      inputs: {
        frontLeft: 360,
        frontRight: 350,
        rearLeft: 340,
        rearRight: 350,
        wheelbase: 2.5,
        frontTrack: 1.4,
        rearTrack: 1.4,
      },
      output: 'total',
      expected: 1400,
      tolerance: { rel: 1e-9 },
      because: 'exact as printed',
      source: worked,
      evidence: 'published',
    },
  ],
  compute: ({ frontLeft, frontRight, rearLeft, rearRight, wheelbase, frontTrack, rearTrack }) => {
    const [front, rear] = [frontLeft + frontRight, rearLeft + rearRight]
    const total = front + rear
    return {
      front,
      rear,
      total,
      cross: (frontLeft + rearRight) / total,
      left: (frontLeft + rearLeft) / total,
      behind: (wheelbase * rear) / total,
      aside: ((frontRight - frontLeft) * frontTrack + (rearRight - rearLeft) * rearTrack) / (2 * total),
    }
  },
})
