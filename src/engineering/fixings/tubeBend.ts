/**
 * A bend in a tube.   R = n·D; L = R·θ; s = R·tan(θ/2); dn = 0.75·D
 *   D   tube, outside           m    0.002 … 0.1
 *   n   radius over diameter    1    1 … 20
 *   θ   angle of the bend       rad  0.01 … 3.1
 *   R   radius of the middle    m
 *   L   tube in the bend        m
 *   s   set back                m
 *   dn  narrowest, at least     m
 * Errors: `out-of-range`. Limits: cold bends round a former; the former’s maker says how tight a wall may go.
 * Source: three diameters, lengths and set back of bending shops [read]; 75 % of FAA-H-8083 [read, quoted].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { DEGREE } from '../exactUnits.ts'

const shop: Source = {
  title: 'Bend design, concentric.net/~dtneal: a radius of three diameters or more, to the middle of the tube',
  how: 'read',
}
const lengths: Source = {
  title: 'Round tube information, ercolina.ca: radius × degrees × 0.0175 is the length in a bend',
  how: 'read',
}
const setback: Source = {
  title: 'Tube bending, pertneer.net: set back = radius × tangent of half the angle',
  how: 'read',
}
const flattened: Source = {
  title: 'FAA-H-8083-30, tube bending, as quoted in a course on pipes and hoses',
  where: 'the small diameter of the flattened portion not less than 75 per cent of the outside diameter',
  how: 'read',
}
const tableTwo: Source = {
  title: 'FAA AC 43.13-1B, table 9-2, least radii: 3/8 in tube 15/16 in of aluminium, 1 5/16 in of steel',
  how: 'memory',
}

export const tubeBend = calculation({
  id: 'tube-bend',
  title: 'A bend in a tube',
  inputs: {
    tube: quantity('length', {
      symbol: 'D',
      min: 0.002,
      max: 0.1,
      plausible: [0.004, 0.08],
      about: 'outside diameter of the tube',
    }),
    times: quantity('ratio', {
      symbol: 'n',
      min: 1,
      max: 20,
      plausible: [2.5, 8],
      about: 'radius of the former to the middle of the tube, over its diameter: 3 or more',
    }),
    angle: quantity('angle', {
      symbol: 'θ',
      min: 0.01,
      max: 3.1,
      plausible: [0.05, 3.1],
      about: 'angle through which the tube is turned',
    }),
  },
  outputs: {
    radius: result('length', { symbol: 'R', about: 'radius to the middle of the tube' }),
    length: result('length', { symbol: 'L', about: 'tube that lies in the bend' }),
    back: result('length', { symbol: 's', about: 'from the corner of the middle lines back to where the bend begins' }),
    narrow: result('length', { symbol: 'dn', about: 'least diameter left across the flattened bend' }),
  },
  formula:
    '{radius} = {times} × {tube}\n{length} = {radius} × {angle}\n{back} = {radius} × tan({angle} / 2)\n{narrow} = 0.75 × {tube}',
  sources: [shop, lengths, setback, flattened, tableTwo],
  cautions: [
    'A wrinkled, kinked or flattened brake or fuel line is scrap; a qualified person must inspect what carries either.',
  ],
  limits: [
    'Cold bends round a former, no wrinkle. Thin walls and hard tube ask for more than three diameters: the maker’s figure first.',
  ],
  checks: [
    {
      inputs: { tube: 0.01, times: 3, angle: 90 * DEGREE },
      output: 'radius',
      expected: 0.03,
      tolerance: { rel: 1e-9 },
      because: 'exact as printed',
      source: shop,
      evidence: 'published',
    },
    {
      inputs: { tube: 0.02, times: 5, angle: 90 * DEGREE },
      output: 'length',
      expected: 0.1 * 90 * 0.0175,
      tolerance: { rel: 3e-3 },
      because: 'its constant is rounded to 0.0175',
      source: lengths,
      evidence: 'published',
    },
    {
      inputs: { tube: 0.02, times: 5, angle: 90 * DEGREE },
      output: 'back',
      expected: 0.1,
      tolerance: { rel: 1e-9 },
      because: 'the tangent of 45° is 1',
      source: setback,
      evidence: 'published',
    },
    {
      inputs: { tube: 0.01, times: 3, angle: 90 * DEGREE },
      output: 'narrow',
      expected: 0.0075,
      tolerance: { rel: 1e-9 },
      because: 'exact as printed',
      source: flattened,
      evidence: 'published',
    },
  ],
  compute: ({ tube, times, angle }) => {
    const radius = times * tube
    return { radius, length: radius * angle, back: radius * Math.tan(angle / 2), narrow: 0.75 * tube }
  },
})
