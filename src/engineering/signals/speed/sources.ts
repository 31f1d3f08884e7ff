/** Sources and inputs that several calculations of speed share. */
import { quantity, type Source } from '../../calculation.ts'

export const rollingRadius = (symbol = 'r', about = 'rolling radius of the driven tyre, loaded') =>
  quantity('length', { symbol, min: 0.1, max: 1, plausible: [0.22, 0.45], about })

/** Worked figures of gearing, printed one way round and the other. */
export const GEARING_AT_SPEED: Source = {
  title: 'Worked example: 70 mph, 3.55 × 1.0, tyre 26 in: 3211 rpm',
  where: 'calchorsepower.com, gear ratio',
  how: 'read',
}
export const GEARING_AT_REVS: Source = {
  title: 'Worked example: radius 15 in, ratio 3.73, 3000 rpm: 71.8 mph',
  where: 'ajdesigner.com/gear',
  how: 'read',
}
