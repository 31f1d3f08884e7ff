/**
 * Temperature change of a liquid that takes up or gives off heat.   ΔT = P/(ρ·Q·c)
 *   P   heat                 W         0 … 1e6
 *   Q   flow                 m³/s      1e-7 … 1
 *   ρ   density              kg/m³     600 … 1200
 *   c   specific heat        J/(kg·K)  1000 … 5000
 *   ΔT  change               K
 * Errors: `out-of-range`. Limits: steady, all of the heat into or out of this stream.
 * Source: energy balance of a stream [from memory].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { incropera } from './sources.ts'

const cooler = {
  ...incropera,
  where: 'example 11.1: 0.1 kg/s of oil of 2131 J/(kg·K) cooled from 100 to 60 °C gives 8524 W',
}

export const streamHeat = calculation({
  id: 'stream-heat',
  title: 'Temperature change of a stream by the heat it carries',
  inputs: {
    heat: quantity('power', {
      symbol: 'P',
      min: 0,
      max: 1e6,
      plausible: [100, 5e4],
      about: 'heat taken up or given off',
    }),
    flow: quantity('volumeFlow', { symbol: 'Q', min: 1e-7, max: 1, plausible: [1e-5, 5e-3], about: 'flow' }),
    density: quantity('density', { symbol: 'ρ', min: 600, max: 1200, about: 'density' }),
    specificHeat: quantity('specificHeat', {
      symbol: 'c',
      min: 1000,
      max: 5000,
      plausible: [1800, 4300],
      about: 'specific heat: oil about 2100, coolant about 3600',
    }),
  },
  outputs: { change: result('temperatureDifference', { symbol: 'ΔT', about: 'rise or fall of its temperature' }) },
  formula: '{change} = {heat} / ({density} × {flow} × {specificHeat})',
  sources: [cooler],
  cautions: [],
  limits: ['Steady, and all of the heat goes into or out of this stream.'],
  checks: [
    {
      inputs: { heat: 8524, flow: 0.1 / 850, density: 850, specificHeat: 2131 },
      output: 'change',
      expected: 40,
      tolerance: { rel: 1e-3 },
      because: 'printed to four digits',
      source: cooler,
      evidence: 'published',
    },
  ],
  compute: ({ heat, flow, density, specificHeat }) => ({ change: heat / (density * flow * specificHeat) }),
})
