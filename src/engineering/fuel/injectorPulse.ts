/**
 * Pulse that a fuel mass asks of an injector.   t = X + m/Q
 *   m  fuel of one pulse    kg    1e-8 … 1e-3
 *   Q  flow while open      kg/s  1e-4 … 0.1
 *   X  dead time            s     0 … 0.01
 *   t  commanded pulse      s
 *   ta  of it fuel flows    s
 * Errors: `out-of-range`. Limits: the straight part of the injector; shorter pulses leave the line.
 * Source: linear model after SAE J1832 (slope, time offset) [from memory]; the same line in a maker’s manual [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { POUND } from '../exactUnits.ts'
import { LB_PER_HOUR } from './sources.ts'

const manual: Source = {
  title: 'Delphi, Multec 3.5 Fuel Injector Application Manual: flow against on-time as a straight line Y = M·X + B',
  where: 'section 5.2.2, easymanua.ls',
  how: 'read',
}
const article: Source = {
  title:
    'Article “Calculate injector pulsewidth from airflow”: 28 lb/min of air at 5500 1/min, 11 to 1, injectors of 0.4 lb/min: 57.9e-5 min, 35 ms; 0.55 lb/min at 700 1/min, 14.64 to 1: 6.7e-5 min',
  where: 'rezachantek.blogspot.com, March 2010',
  how: 'read',
}
/** Fuel of one injection in that article: air a minute, over turns, two intake strokes a turn, over air to fuel. */
const fuelOf = (air: number, speed: number, ratio: number): number => (air * POUND) / speed / 2 / ratio

export const injectorPulse = calculation({
  id: 'injector-pulse',
  title: 'Pulse that a fuel mass asks of an injector',
  inputs: {
    mass: quantity('mass', {
      symbol: 'm',
      min: 1e-8,
      max: 1e-3,
      plausible: [2e-6, 1.5e-4],
      about: 'fuel of one pulse of one injector',
    }),
    flow: quantity('massFlow', {
      symbol: 'Q',
      min: 1e-4,
      max: 0.1,
      plausible: [1e-3, 0.03],
      about: 'flow while open, in this fuel at this pressure',
    }),
    deadTime: quantity('time', {
      symbol: 'X',
      min: 0,
      max: 0.01,
      plausible: [2e-4, 4e-3],
      about: 'dead time at the injector’s voltage and pressure',
    }),
  },
  outputs: {
    pulse: result('time', { symbol: 't', about: 'commanded pulse' }),
    open: result('time', { symbol: 'ta', about: 'of it, in which fuel flows by the linear model' }),
  },
  formula: '{open} = {mass} / {flow}\n{pulse} = {deadTime} + {open}',
  sources: [manual],
  cautions: ['A pulse below the shortest that repeats makes idle uneven, whatever the arithmetic says.'],
  limits: ['The straight part of the injector. Dead time falls with voltage and moves with pressure.'],
  checks: [
    {
      inputs: { mass: fuelOf(28, 5500, 11), flow: 0.4 * 60 * LB_PER_HOUR, deadTime: 0 },
      output: 'pulse',
      expected: 57.9e-5 * 60,
      tolerance: { rel: 1e-3 },
      because: 'printed to three digits; the article leaves the dead time out',
      source: article,
      evidence: 'published',
    },
    {
      inputs: { mass: fuelOf(0.55, 700, 14.64), flow: 0.4 * 60 * LB_PER_HOUR, deadTime: 0.8e-3 },
      output: 'pulse',
      expected: 6.7e-5 * 60 + 0.8e-3,
      tolerance: { rel: 5e-3 },
      because: 'printed to two digits, dead time added',
      source: article,
      evidence: 'published',
    },
  ],
  compute: ({ mass, flow, deadTime }) => ({ open: mass / flow, pulse: deadTime + mass / flow }),
})
