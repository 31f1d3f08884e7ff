/**
 * Time constant that hides slosh from a level gauge.   τ = √(1/a² − 1) / (2π·f)
 *   f  frequency of the slosh        Hz  0.01 … 1e3
 *   a  share of the swing left over  1   0.001 … 0.99
 *   τ  time constant                 s
 *   t  time after filling until it shows within 5 %   s
 * Errors: `out-of-range`. Limits: first-order filter; slosh of a tank without baffles: √(g·k·tanh(k·h))/2π, k = π/length.
 * Source: first-order low-pass filter, 1/√(1 + (2πfτ)²).
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const lesson: Source = {
  title: 'RC low-pass filter, 1 kΩ and 1 µF: 159.15 Hz leaves 1/√2',
  where: 'napkincalc.com, electronics 1',
  how: 'read',
}
const worked: Source = {
  title: 'Worked problem 10.10: 10 kΩ, 0.03 µF; at 400 Hz 96 V are left of 120 V',
  where: 'holooly.com',
  how: 'read',
}

export const dampingTime = calculation({
  id: 'damping-time',
  title: 'Time constant that hides slosh from a level gauge',
  inputs: {
    frequency: quantity('frequency', {
      symbol: 'f',
      min: 0.01,
      max: 1e3,
      plausible: [0.3, 5],
      about: 'frequency of the slosh',
    }),
    share: quantity('ratio', {
      symbol: 'a',
      min: 0.001,
      max: 0.99,
      plausible: [0.01, 0.3],
      about: 'share of the swing left over',
    }),
  },
  outputs: {
    time: result('time', { symbol: 'τ', about: 'time constant' }),
    settled: result('time', { symbol: 't', about: 'time after filling until it shows within 5 %' }),
  },
  formula: '{time} = √(1/{share}² − 1) / (2π × {frequency})\n{settled} = 3 × {time}',
  sources: [lesson, worked],
  cautions: [],
  limits: ['First-order filter. It also delays the sight of a leak or a theft by as much.'],
  checks: [
    {
      inputs: { frequency: 159.15, share: Math.SQRT1_2 },
      output: 'time',
      expected: 1e-3,
      tolerance: { rel: 1e-4 },
      because: 'frequency printed to five digits',
      source: lesson,
      evidence: 'published',
    },
    {
      inputs: { frequency: 400, share: 96 / 120 },
      output: 'time',
      expected: 10e3 * 0.03e-6,
      tolerance: { rel: 0.015 },
      because: '96 V printed to two digits',
      source: worked,
      evidence: 'published',
    },
  ],
  compute: ({ frequency, share }) => {
    const time = Math.sqrt(1 / share ** 2 - 1) / (2 * Math.PI * frequency)
    return { time, settled: 3 * time }
  },
})
