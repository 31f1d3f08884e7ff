/**
 * Heat that a pump leaves in its liquid.   W = P − Q·Δp;  ΔT = W/(ρ·Q·c);  η = Q·Δp/P
 *   P   power into the pump             W         0.01 … 1e6
 *   Q   volume flow                     m³/s      1e-7 … 10
 *   Δp  pressure rise                   Pa        0 … 1e8
 *   ρ   density                         kg/m³     600 … 1200
 *   c   specific heat                   J/(kg·K)  1000 … 5000
 *   W   heat left at once               W
 *   ΔT  temperature rise in one pass    K
 *   η   share that becomes pressure     1
 * Errors: `out-of-range`, `inconsistent-inputs` (more pressure power out than power in). Limits: all losses go into the liquid.
 * Source: energy balance of a steady pump.
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const balance: Source = {
  title: 'Energy balance of a pump in steady flow',
  where: 'Çengel & Cimbala, chapter 5',
  how: 'memory',
}
const example: Source = {
  title:
    'Çengel & Cimbala, Fluid Mechanics, pumping power and frictional heating: 15 kW motor of 90 %, 50 l/s, 100 to 300 kPa gives 74.1 % and 0.017 °C',
  where: 'chapter 5, worked example',
  how: 'memory',
}
const inputs = { power: 13500, flow: 0.05, pressure: 2e5, density: 1000, heat: 4180 }

export const pumpHeat = calculation({
  id: 'pump-heat',
  title: 'Heat that a pump leaves in its liquid',
  inputs: {
    power: quantity('power', {
      symbol: 'P',
      min: 0.01,
      max: 1e6,
      plausible: [10, 500],
      about: 'power into the pump; volts times amps for an electric one',
    }),
    flow: quantity('volumeFlow', { symbol: 'Q', min: 1e-7, max: 10, plausible: [1e-6, 1e-3], about: 'volume flow' }),
    pressure: quantity('pressureDifference', {
      symbol: 'Δp',
      min: 0,
      max: 1e8,
      plausible: [0, 1e6],
      about: 'pressure rise across the pump',
    }),
    density: quantity('density', { symbol: 'ρ', min: 600, max: 1200, about: 'density of the liquid' }),
    heat: quantity('specificHeat', {
      symbol: 'c',
      min: 1000,
      max: 5000,
      plausible: [1900, 4200],
      about: 'specific heat of the liquid',
    }),
  },
  outputs: {
    lost: result('power', { symbol: 'W', about: 'heat left in the liquid at once' }),
    rise: result('temperatureDifference', { symbol: 'ΔT', about: 'temperature rise in one pass' }),
    efficiency: result('ratio', { symbol: 'η', about: 'share of the power that becomes pressure' }),
  },
  formula:
    '{lost} = {power} − {flow} × {pressure}\n{rise} = {lost} / ({density} × {flow} × {heat})\n{efficiency} = {flow} × {pressure} / {power}',
  sources: [balance],
  cautions: [
    'What returns to the tank turns its pressure to heat as well: nearly all of the pump’s power warms the tank.',
  ],
  limits: ['Steady; motor and pump give their losses to the liquid, as a pump in the tank or cooled by its fuel does.'],
  conditions: [
    {
      at: 'flow',
      holds: ({ power, flow, pressure }) => flow * pressure <= power,
      says: 'Flow times pressure is more than the power into the pump: its efficiency would be over 1.',
      todo: 'Look at the unit of flow or pressure, or at a current read at another voltage.',
    },
  ],
  checks: [
    {
      inputs,
      output: 'efficiency',
      expected: 0.741,
      tolerance: { rel: 1e-3 },
      because: 'printed to three digits',
      source: example,
      evidence: 'published',
    },
    {
      inputs,
      output: 'rise',
      expected: 0.017,
      tolerance: { rel: 0.03 },
      because: 'printed to two digits',
      source: example,
      evidence: 'published',
    },
  ],
  compute: ({ power, flow, pressure, density, heat }) => {
    const useful = flow * pressure
    return { lost: power - useful, rise: (power - useful) / (density * flow * heat), efficiency: useful / power }
  },
})
