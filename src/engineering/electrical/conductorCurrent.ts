/**
 * Current that brings one wire in still air to a temperature.   I = √(heat given off at T / (R'20·(1 + α20·(T − 293.15 K))))
 *   T     conductor temperature allowed   K    230 … 600
 *   M     metal                           one of copper, aluminium, copper-clad aluminium
 *   R'20  resistance per length, 20 °C    Ω/m  1e-5 … 1
 *   d     diameter over the strands       m    1e-4 … 0.03
 *   D     diameter over the insulation    m    1e-4 … 0.04
 *   Ta    temperature of the air around   K    220 … 600
 *   I     current                         A
 * Errors: `out-of-range`, `inconsistent-inputs` (allowed temperature not above the air's).
 * Source: heat balance, Churchill & Chu convection and radiation [from memory]; ± 20 % against safety tables.
 */
import { calculation, quantity, result } from '../calculation.ts'
import { iso6722 } from './conductorTable.ts'
import { acrossInsulation, churchillChu, rootBetween, surfaceHeat } from './heatBalance.ts'
import { handbook, warmer } from './sources.ts'
import {
  aerospace,
  freeAir,
  freeAirMemory,
  thickWall,
  WIRE_CAUTIONS,
  WIRE_LIMITS,
  wallIsThere,
  wireInputs,
} from './wireInputs.ts'

export const conductorCurrent = calculation({
  id: 'conductor-current',
  title: 'Current that a wire carries at a temperature',
  inputs: {
    temperature: quantity('temperature', {
      symbol: 'T',
      min: 230,
      max: 600,
      plausible: [333, 473],
      about: 'conductor temperature allowed',
    }),
    ...wireInputs,
  },
  outputs: { current: result('current', { symbol: 'I', about: 'steady current' }) },
  formula:
    "P' = h × π × {outerDiameter} × (Ts − {ambient}) + 0.9 × σ × π × {outerDiameter} × (Ts⁴ − {ambient}⁴), Ts = {temperature} − P' × ln({outerDiameter} / {conductorDiameter}) / (2π × 0.19 W/(m·K))\n{current} = √(P' / ({resistance} × (1 + α20({metal}) × ({temperature} − 293.15 K))))",
  sources: [churchillChu, handbook],
  cautions: WIRE_CAUTIONS,
  limits: WIRE_LIMITS,
  conditions: [
    wallIsThere,
    {
      at: 'temperature',
      holds: (given) => given.temperature > given.ambient,
      says: 'The temperature allowed is not above that of the air around.',
      todo: 'Choose an insulation of a higher class, or a cooler path.',
    },
  ],
  checks: [
    {
      inputs: { temperature: 473.15, ...aerospace(14, 323.15) },
      output: 'current',
      expected: 47,
      tolerance: { rel: 0.05 },
      because: 'a chart reading; diameters from memory',
      source: freeAir,
      evidence: 'published',
    },
    {
      inputs: { temperature: 473.15, ...aerospace(12, 298.15) },
      output: 'current',
      expected: 68,
      tolerance: { rel: 0.06 },
      because: 'a chart reading; diameters from memory',
      source: freeAirMemory,
      evidence: 'published',
    },
    {
      inputs: { temperature: 343.15, ...thickWall('2.5 mm²', 303.15) },
      output: 'current',
      expected: 32,
      tolerance: { rel: 0.2 },
      because: 'a safety table',
      source: iso6722,
      evidence: 'published',
    },
    {
      inputs: { temperature: 343.15, ...thickWall('25 mm²', 323.15) },
      output: 'current',
      expected: 91.6,
      tolerance: { rel: 0.2 },
      because: 'a safety table',
      source: iso6722,
      evidence: 'published',
    },
  ],
  compute: ({ temperature, metal, resistance, conductorDiameter, outerDiameter, ambient }) => {
    const given = (surface: number): number => {
      const { convection, radiation } = surfaceHeat(outerDiameter, surface, ambient)
      return convection + radiation
    }
    const surface = rootBetween(
      ambient,
      temperature,
      (guess) => guess + acrossInsulation(given(guess), conductorDiameter, outerDiameter) - temperature,
    )
    return { current: Math.sqrt(given(surface) / (resistance * warmer(metal, temperature))) }
  },
})
