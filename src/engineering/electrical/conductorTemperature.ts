/**
 * Steady temperature of one wire in still air.   I²·R'20·(1 + α20·(T − 293.15 K)) = heat given off at T
 *   I     current                         A    0 … 1e3
 *   M     metal                           one of copper, aluminium, copper-clad aluminium
 *   R'20  resistance per length, 20 °C    Ω/m  1e-5 … 1
 *   d     diameter over the strands       m    1e-4 … 0.03
 *   D     diameter over the insulation    m    1e-4 … 0.04
 *   Ta    temperature of the air around   K    220 … 600
 *   T     conductor temperature           K
 *   Ts    surface temperature             K
 *   P'    heat per length                 W/m
 * Errors: `out-of-range`, `inconsistent-inputs`, `no-answer` where no steady temperature below 700 K exists.
 * Source: heat balance, Churchill & Chu convection and radiation [from memory]; ± 20 % in current against safety tables.
 */
import { calculation, quantity, result } from '../calculation.ts'
import { iso6722 } from './conductorTable.ts'
import { churchillChu } from './heatBalance.ts'
import { handbook } from './sources.ts'
import { steadyTemperature } from './steadyTemperature.ts'
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

export const conductorTemperature = calculation({
  id: 'conductor-temperature',
  title: 'Steady temperature of a wire',
  inputs: {
    current: quantity('current', { symbol: 'I', min: 0, max: 1e3, plausible: [0, 400], about: 'steady current' }),
    ...wireInputs,
  },
  outputs: {
    temperature: result('temperature', { symbol: 'T', about: 'conductor temperature' }),
    surface: result('temperature', { symbol: 'Ts', about: 'surface temperature of the insulation' }),
  },
  formula:
    "{current}² × {resistance} × (1 + α20({metal}) × ({temperature} − 293.15 K)) = h({surface}, {outerDiameter}) × π × {outerDiameter} × ({surface} − {ambient}) + 0.9 × σ × π × {outerDiameter} × ({surface}⁴ − {ambient}⁴)\n{temperature} = {surface} + P' × ln({outerDiameter} / {conductorDiameter}) / (2π × 0.19 W/(m·K))",
  sources: [churchillChu, handbook],
  cautions: WIRE_CAUTIONS,
  limits: WIRE_LIMITS,
  conditions: [wallIsThere],
  checks: [
    {
      inputs: { current: 47, ...aerospace(14, 323.15) },
      output: 'temperature',
      expected: 473.15,
      tolerance: { abs: 15 },
      because: '5 % of current is 10 % of the rise of 150 K',
      source: freeAir,
      evidence: 'published',
    },
    {
      inputs: { current: 68, ...aerospace(12, 298.15) },
      output: 'temperature',
      expected: 473.15,
      tolerance: { abs: 22 },
      because: '5 % of current is up to 12 % of the rise of 175 K',
      source: freeAirMemory,
      evidence: 'published',
    },
    {
      inputs: { current: 24, ...thickWall('1.5 mm²', 303.15) },
      output: 'temperature',
      expected: 343.15,
      tolerance: { abs: 16 },
      because: '20 % of current is 40 % of the rise of 40 K; a safety table',
      source: iso6722,
      evidence: 'published',
    },
    {
      inputs: { current: 73, ...thickWall('10 mm²', 303.15) },
      output: 'temperature',
      expected: 343.15,
      tolerance: { abs: 16 },
      because: '20 % of current is 40 % of the rise of 40 K; a safety table',
      source: iso6722,
      evidence: 'published',
    },
    {
      inputs: { current: 0, ...thickWall('1.5 mm²', 303.15) },
      output: 'temperature',
      expected: 303.15,
      tolerance: { abs: 1e-9 },
      because: 'no current, no rise',
      source: churchillChu,
      evidence: 'law',
    },
  ],
  // No balance: runaway or a ruined wire. `run` turns the missing figure into a refusal.
  compute: ({ current, ambient, ...wire }) =>
    steadyTemperature(wire, current, ambient) ?? { temperature: Number.NaN, surface: Number.NaN },
})
