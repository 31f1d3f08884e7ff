/**
 * Pressure that the car’s speed gives at its front.   Δp = C·ρ·v²/2
 *   ρ   density                 kg/m³  0.3 … 2
 *   v   speed                   m/s    0 … 100
 *   C   share that gets there   1      0 … 1
 *   Δp  ram pressure            Pa
 * Errors: `out-of-range`. Limits: below Mach 0.3; C is pressure in front of the core less that behind it, over the dynamic pressure.
 * Source: Bernoulli; ASCE 7, velocity pressure 0.00256·V² lb/ft² [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const asce: Source = {
  title: 'ASCE 7, velocity pressure 0.00256·V² lb/ft², V in mile/h, standard air of 0.0765 lb/ft³',
  how: 'memory',
}

export const ramPressure = calculation({
  id: 'ram-pressure',
  title: 'Pressure that road speed gives a radiator',
  inputs: {
    density: quantity('density', { symbol: 'ρ', min: 0.3, max: 2, plausible: [0.8, 1.4], about: 'density of the air' }),
    speed: quantity('speed', { symbol: 'v', min: 0, max: 100, plausible: [0, 70], about: 'road speed, wind included' }),
    share: quantity('ratio', {
      symbol: 'C',
      min: 0,
      max: 1,
      plausible: [0.1, 0.8],
      about: 'pressure across the core over dynamic pressure; ducted and sealed 0.5 and more, open gaps 0.2',
    }),
  },
  outputs: { ram: result('pressureDifference', { symbol: 'Δp', about: 'pressure across the core from road speed' }) },
  formula: '{ram} = {share} × {density} × {speed}² / 2',
  sources: [asce],
  cautions: [],
  limits: [
    'The share is of this car: gaps around the core and the air’s way out of the bay decide it. Measure it with a tube on each side.',
  ],
  checks: [
    {
      inputs: { density: 1.225, speed: 44.704, share: 1 },
      output: 'ram',
      expected: 25.6 * 47.88025898033584,
      tolerance: { rel: 2e-3 },
      because: 'printed to three digits',
      source: { ...asce, where: '100 mile/h, 25.6 lb/ft²' },
      evidence: 'published',
    },
  ],
  compute: ({ density, speed, share }) => ({ ram: 0.5 * share * density * speed * speed }),
})
