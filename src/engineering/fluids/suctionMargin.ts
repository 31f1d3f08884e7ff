/**
 * What is left above boiling at a pump's inlet.   m = p + ρ·g·h − Δp − pv
 *   p   pressure on the liquid in the tank  Pa     20000 … 300000
 *   h   liquid above the inlet              m      -20 … 50
 *   Δp  lost in strainer and suction line   Pa     0 … 200000
 *   pv  vapour pressure of the liquid       Pa     0 … 200000
 *   ρ   density                             kg/m³  600 … 1200
 *   m   margin at the inlet                 Pa
 *   H   the same as height of liquid        m
 * Errors: `out-of-range`, `inconsistent-inputs` (it boils in the tank itself). Limits: steady; a pump needs more than 0, by its own sheet.
 * Source: definition of net positive suction head available, Hydraulic Institute [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { PSI } from '../exactUnits.ts'
import { STANDARD_GRAVITY } from './sources.ts'

const definition: Source = {
  title: 'Net positive suction head available: surface pressure and static height, less friction and vapour pressure',
  where: 'Hydraulic Institute, ANSI/HI 9.6.1',
  how: 'memory',
}
const handbook: Source = {
  title:
    'The Practical Pumping Handbook, sample NPSHA: 45 ft static, 34.474 ft air, 6.775 ft vapour, 0.378 ft friction',
  where: 'page 82',
  how: 'read',
}
const FOOT = 0.3048
/** 14.7 psi stand for 34.474 ft in that sample, at a specific gravity of 0.985. */
const HANDBOOK_DENSITY = (14.7 * PSI) / (34.474 * FOOT * STANDARD_GRAVITY)

export const suctionMargin = calculation({
  id: 'suction-margin',
  title: 'Suction margin of a pump against vapour',
  inputs: {
    surfacePressure: quantity('pressureAbsolute', {
      symbol: 'p',
      min: 2e4,
      max: 3e5,
      plausible: [6e4, 1.1e5],
      about: 'absolute pressure on the liquid in the tank',
    }),
    height: quantity('length', {
      symbol: 'h',
      min: -20,
      max: 50,
      plausible: [-1, 1],
      about: 'liquid surface above the pump inlet, negative when the pump lifts',
    }),
    loss: quantity('pressureDifference', {
      symbol: 'Δp',
      min: 0,
      max: 2e5,
      plausible: [0, 3e4],
      about: 'pressure lost in strainer and suction line',
    }),
    vapourPressure: quantity('pressureAbsolute', {
      symbol: 'pv',
      min: 0,
      max: 2e5,
      about: 'vapour pressure of the liquid at its temperature',
    }),
    density: quantity('density', { symbol: 'ρ', min: 600, max: 1200, about: 'density of the liquid' }),
  },
  outputs: {
    margin: result('pressureDifference', { symbol: 'm', about: 'pressure at the inlet above boiling' }),
    head: result('length', { symbol: 'H', about: 'the same as height of liquid' }),
  },
  formula:
    '{margin} = {surfacePressure} + {density} × g × {height} − {loss} − {vapourPressure}\n{head} = {margin} / ({density} × g)',
  sources: [definition],
  cautions: [
    'Below 0 the liquid boils before the pump: the pump then gives vapour, runs dry and hot, and the rail falls.',
  ],
  limits: [
    'Steady flow. A pump needs more than 0, by its own sheet; hot petrol gives off dissolved air and light ends earlier.',
  ],
  conditions: [
    {
      at: 'vapourPressure',
      holds: ({ surfacePressure, vapourPressure }) => vapourPressure < surfacePressure,
      says: 'The vapour pressure is at or above the pressure on the liquid: it boils in the tank itself.',
      todo: 'Look whether the pressure was read as gauge, not absolute, and at the temperature; else cool the liquid, or take fuel of less vapour pressure (summer grade).',
    },
  ],
  checks: [
    {
      inputs: {
        surfacePressure: 14.7 * PSI,
        height: 45 * FOOT,
        loss: 0.378 * FOOT * STANDARD_GRAVITY * HANDBOOK_DENSITY,
        vapourPressure: 2.889 * PSI,
        density: HANDBOOK_DENSITY,
      },
      output: 'head',
      expected: (45 + 34.474 - 6.775 - 0.378) * FOOT,
      tolerance: { rel: 1e-4 },
      because: 'its terms printed to three decimals',
      source: handbook,
      evidence: 'published',
    },
  ],
  compute: ({ surfacePressure, height, loss, vapourPressure, density }) => {
    const margin = surfacePressure + density * STANDARD_GRAVITY * height - loss - vapourPressure
    return { margin, head: margin / (density * STANDARD_GRAVITY) }
  },
})
