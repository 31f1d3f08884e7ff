/**
 * Torque of an engine that gives a power at a speed.   T = P/ω
 *   P  power         W      100 … 2e6
 *   ω  engine speed  rad/s  10 … 2000
 *   T  torque        N·m
 * Errors: `out-of-range`. Limits: torque at that speed only; the greatest comes lower down and is more.
 * Source: power = torque × angular speed.
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { RPM } from '../exactUnits.ts'

const worked: Source = {
  title: 'Torque, work done and power, engineeringtoolbox.com',
  where: '5 kW at 3000 rev/min: 15.9 N·m',
  how: 'read',
}

export const engineTorque = calculation({
  id: 'engine-torque',
  title: 'Torque of an engine from power and speed',
  inputs: {
    power: quantity('power', { symbol: 'P', min: 100, max: 2e6, plausible: [1e4, 6e5], about: 'power' }),
    speed: quantity('angularSpeed', { symbol: 'ω', min: 10, max: 2000, plausible: [100, 1050], about: 'engine speed' }),
  },
  outputs: { torque: result('torque', { symbol: 'T', about: 'torque at that speed' }) },
  formula: '{torque} = {power} / {speed}',
  sources: [worked],
  cautions: [],
  limits: ['The torque at that speed only: an engine’s greatest torque comes at a lower speed and is more than this.'],
  checks: [
    {
      inputs: { power: 5000, speed: 3000 * RPM },
      output: 'torque',
      expected: 15.9,
      tolerance: { abs: 0.05 },
      because: 'last digit printed',
      source: worked,
      evidence: 'published',
    },
  ],
  compute: ({ power, speed }) => ({ torque: power / speed }),
})
