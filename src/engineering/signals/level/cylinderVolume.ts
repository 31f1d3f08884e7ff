/**
 * Liquid in a lying cylinder.   V = L·(r²·arccos(1 − h/r) − (r − h)·√(2rh − h²)), r = D/2
 *   D  inside diameter       m  0.01 … 5
 *   L  inside length         m  0.01 … 20
 *   h  height of the liquid  m  0 … 5
 *   V  volume                m³
 *   f  share of the whole    1
 * Errors: `out-of-range`, `inconsistent-inputs` (liquid higher than the tank). Limits: flat ends, level, nothing inside.
 * Source: area of a circular segment, any table of geometry.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const worked: Source = {
  title: 'Worked problem: tank of horizontal cylindrical segment, r = 0.725 m, length 10 m, level 0.2 m below the top',
  where: 'hackmath.net, problem 3613',
  how: 'read',
}

/** m² under a chord at height h in a circle of radius r, 0 ≤ h ≤ 2r. */
export const segmentArea = (radius: number, height: number): number =>
  radius * radius * Math.acos(1 - height / radius) -
  (radius - height) * Math.sqrt(Math.max(0, 2 * radius * height - height * height))

export const cylinderVolume = calculation({
  id: 'cylinder-volume',
  title: 'Liquid in a lying cylinder',
  inputs: {
    diameter: quantity('length', { symbol: 'D', min: 0.01, max: 5, plausible: [0.1, 1], about: 'inside diameter' }),
    length: quantity('length', { symbol: 'L', min: 0.01, max: 20, plausible: [0.2, 2], about: 'inside length' }),
    height: quantity('length', { symbol: 'h', min: 0, max: 5, about: 'height of the liquid' }),
  },
  outputs: {
    volume: result('volume', { symbol: 'V', about: 'volume of the liquid' }),
    share: result('ratio', { symbol: 'f', about: 'share of the whole tank' }),
  },
  formula:
    'r = {diameter} / 2\n{volume} = {length} × (r² × arccos(1 − {height}/r) − (r − {height}) × √(2 × r × {height} − {height}²))\n{share} = {volume} / (π × r² × {length})',
  sources: [worked],
  cautions: ['Petrol: outdoors, tank and can earthed to each other, no source of ignition, extinguisher at hand.'],
  limits: ['Flat ends, standing level, baffles and pump not taken off.'],
  conditions: [
    {
      at: 'height',
      holds: (given) => given.height <= given.diameter,
      says: 'The liquid stands higher than the tank.',
      todo: 'Measure the height from the inside bottom.',
    },
  ],
  checks: [
    {
      inputs: { diameter: 1.45, length: 10, height: 1.25 },
      output: 'volume',
      expected: 15.138,
      tolerance: { abs: 6e-4 },
      because: 'printed to a litre',
      source: worked,
      evidence: 'published',
    },
    {
      inputs: { diameter: 1.45, length: 10, height: 0.2 },
      output: 'volume',
      expected: 1.375,
      tolerance: { abs: 6e-4 },
      because: 'the segment left out, area printed 0.1375 m²',
      source: worked,
      evidence: 'published',
    },
    {
      inputs: { diameter: 0.4, length: 1, height: 0.2 },
      output: 'share',
      expected: 0.5,
      tolerance: { abs: 1e-12 },
      because: 'half full at half height',
      source: worked,
      evidence: 'law',
    },
  ],
  compute: ({ diameter, length, height }) => {
    const volume = length * segmentArea(diameter / 2, height)
    return { volume, share: volume / (Math.PI * (diameter / 2) ** 2 * length) }
  },
})
