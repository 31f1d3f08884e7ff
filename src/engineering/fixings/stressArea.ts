/**
 * Stress area of a metric thread.   d2 = d − 0.649519·P; d3 = d − 1.226869·P; As = π/4·((d2 + d3)/2)²
 *   d   nominal diameter  m   0.001 … 0.1
 *   P   pitch             m   0.0002 … 0.006
 *   d2  pitch diameter    m
 *   d3  root diameter     m
 *   As  stress area       m²
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: ISO metric thread of 60°, whole and not worn.
 * Source: ISO 898-1, nominal stress area, with diameters of ISO 724 [from memory]; areas as tabled [read].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { iso724, iso898, stressAreas } from './sources.ts'
import { threadHolds } from './thread.ts'

/** mm and mm², coarse threads, as printed. */
const check = (diameter: number, pitch: number, expected: number, abs: number, source: typeof iso898) => ({
  inputs: { diameter: diameter / 1e3, pitch: pitch / 1e3 },
  output: 'area',
  expected: expected / 1e6,
  tolerance: { abs: abs / 1e6 },
  because: 'last digit printed',
  source,
  evidence: 'published' as const,
})

/** m², by ISO 898-1. */
export const areaOf = (diameter: number, pitch: number): number =>
  (Math.PI / 4) * ((diameter - 0.649519 * pitch + (diameter - 1.226869 * pitch)) / 2) ** 2

export const stressArea = calculation({
  id: 'thread-stress-area',
  title: 'Stress area of a metric thread',
  inputs: {
    diameter: quantity('length', {
      symbol: 'd',
      min: 0.001,
      max: 0.1,
      plausible: [0.003, 0.024],
      about: 'nominal diameter of the thread: 8 mm for M8',
    }),
    pitch: quantity('length', {
      symbol: 'P',
      min: 0.0002,
      max: 0.006,
      plausible: [0.0005, 0.003],
      about: 'pitch of the thread: 1.25 mm for coarse M8',
    }),
  },
  outputs: {
    pitchDiameter: result('length', { symbol: 'd2', about: 'pitch diameter' }),
    root: result('length', { symbol: 'd3', about: 'diameter of the root' }),
    area: result('area', { symbol: 'As', about: 'nominal stress area' }),
  },
  conditions: [threadHolds],
  formula:
    '{pitchDiameter} = {diameter} − 0.649519 × {pitch}\n{root} = {diameter} − 1.226869 × {pitch}\n{area} = π / 4 × (({pitchDiameter} + {root}) / 2)²',
  sources: [iso898, iso724, stressAreas],
  cautions: [],
  limits: ['ISO metric thread of 60°, whole and not worn, stretched, waisted or drilled.'],
  checks: [
    check(6, 1, 20.123, 6e-4, stressAreas),
    check(8, 1.25, 36.609, 6e-4, stressAreas),
    check(10, 1.5, 57.99, 6e-4, stressAreas),
    check(16, 2, 156.67, 6e-3, stressAreas),
    check(4, 0.7, 8.78, 6e-3, iso898),
    check(12, 1.75, 84.3, 6e-2, iso898),
  ],
  compute: ({ diameter, pitch }) => ({
    pitchDiameter: diameter - 0.649519 * pitch,
    root: diameter - 1.226869 * pitch,
    area: areaOf(diameter, pitch),
  }),
})
