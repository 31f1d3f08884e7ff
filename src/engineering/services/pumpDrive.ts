/**
 * Power and torque that the engine gives a hydraulic pump.   P = Q·Δp/η, T = P/ω
 *   Q   flow of the pump            m³/s   1e-7 … 0.1
 *   Δp  pressure rise               Pa     0 … 5e7
 *   η   efficiency of the pump      1      0.1 … 1
 *   ω   speed of the engine         rad/s  10 … 2000
 *   Ph  power in the liquid         W
 *   P   power at its shaft          W
 *   T   torque at the crankshaft    N·m
 * Errors: `out-of-range`. Limits: steady; belt and pulley lose 2 to 5 % more.
 * Source: hydraulic power = flow × pressure [worked figures read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { RPM } from '../exactUnits.ts'

const worked: Source = {
  title: 'Hydraulic power: 180 l/min at 250 bar 75 kW; at efficiency 0.87 the engine gives 86 kW',
  where: 'hydraulicsonline.com/hydraulic-calculations',
  how: 'read',
}
/** Of a vane pump, slow and no longer new: below what its maker gives. */
export const VANE_EFFICIENCY = {
  value: 0.75,
  plusMinus: 0.15,
  source: {
    title:
      'Vane pump, new: 0.85 to 0.92 [read at agentcalc.com/hydraulic-pump-power-calculator]; slow and worn down to 0.6',
    how: 'common practice',
  },
} as const

export const pumpDrive = calculation({
  id: 'pump-drive',
  title: 'Power and torque that the engine gives a hydraulic pump',
  inputs: {
    flow: quantity('volumeFlow', {
      symbol: 'Q',
      min: 1e-7,
      max: 0.1,
      plausible: [3e-5, 3e-4],
      about: 'flow that the pump gives',
    }),
    pressure: quantity('pressureDifference', {
      symbol: 'Δp',
      min: 0,
      max: 5e7,
      plausible: [2e5, 1.4e7],
      about: 'pressure rise, at most that of its relief valve',
    }),
    efficiency: quantity('ratio', {
      symbol: 'η',
      min: 0.1,
      max: 1,
      plausible: [0.5, 0.92],
      about: 'power in the liquid over power at the shaft',
    }),
    speed: quantity('angularSpeed', {
      symbol: 'ω',
      min: 10,
      max: 2000,
      plausible: [60, 800],
      about: 'speed of the engine',
    }),
  },
  outputs: {
    hydraulic: result('power', { symbol: 'Ph', about: 'power in the liquid' }),
    power: result('power', { symbol: 'P', about: 'power at the pump’s shaft' }),
    torque: result('torque', { symbol: 'T', about: 'torque that it takes at the crankshaft' }),
  },
  formula: '{hydraulic} = {flow} × {pressure}\n{power} = {hydraulic} / {efficiency}\n{torque} = {power} / {speed}',
  sources: [worked],
  cautions: [
    'A belt pulls fingers in: engine off, and the key in a pocket. Hydraulic oil at full lock stands at some 100 bar and cuts skin.',
  ],
  limits: [
    'Steady. The belt and its pulleys lose some per cent more. Held at full lock, all of it becomes heat in the oil.',
  ],
  checks: [
    {
      inputs: { flow: 0.18 / 60, pressure: 250e5, efficiency: 0.87, speed: 1500 * RPM },
      output: 'hydraulic',
      expected: 75e3,
      tolerance: { rel: 1e-9 },
      because: 'exact',
      source: worked,
      evidence: 'published',
    },
    {
      inputs: { flow: 0.18 / 60, pressure: 250e5, efficiency: 0.87, speed: 1500 * RPM },
      output: 'power',
      expected: 86e3,
      tolerance: { abs: 500 },
      because: 'printed to two digits',
      source: worked,
      evidence: 'published',
    },
  ],
  compute: ({ flow, pressure, efficiency, speed }) => {
    const hydraulic = flow * pressure
    return { hydraulic, power: hydraulic / efficiency, torque: hydraulic / efficiency / speed }
  },
})
