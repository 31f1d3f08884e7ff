/**
 * Pedal force for a deceleration: line pressure back to the foot.   p from B = Gf·p + Gr·pr(p); P = p·π·d²/4; F = P/(v·i), beyond run-out (P − Smax)/i
 *   B     brake force needed   N   0 … 2e5
 *   Gf    gain, front          m²  0 … 0.05
 *   Gr    gain, rear           m²  0 … 0.05
 *   ps    valve begins         Pa  0 … 3e7
 *   s     valve’s slope        1   0 … 1
 *   d     master cylinder      m   0.01 … 0.06
 *   i     pedal ratio          1   1 … 12
 *   v     servo ratio          1   1 … 12
 *   Smax  greatest help        N   0 … 3e4
 *   p     line pressure        Pa
 *   P     onto the piston      N
 *   S     help                 N
 *   F     pedal force          N
 * Errors: `out-of-range`, `inconsistent-inputs` where no axle brakes. Limits: no wheel locks; losses left out.
 * Source: the other way round of Pascal and the servo’s line; table of hotrodheaven.com [read].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { INCH, POUND_FORCE, PSI } from '../exactUnits.ts'
import { limpert, masterCylinderTable } from './sources.ts'

const gain = (symbol: string, about: string) => quantity('area', { symbol, min: 0, max: 0.05, about })

const EVEN = { frontGain: 6e-4, rearGain: 4e-4, split: 3e7, slope: 1, bore: INCH } as const

export const pedalNeeded = calculation({
  id: 'pedal-force-needed',
  title: 'Pedal force that a brake force takes',
  inputs: {
    road: quantity('force', {
      symbol: 'B',
      min: 0,
      max: 2e5,
      plausible: [500, 3e4],
      about: 'brake force of the whole car: mass × deceleration',
    }),
    frontGain: gain('Gf', 'brake force of the front axle for each unit of its pressure; 0 with that circuit failed'),
    rearGain: gain('Gr', 'brake force of the rear axle for each unit of its pressure; 0 with that circuit failed'),
    split: quantity('pressureGauge', {
      symbol: 'ps',
      min: 0,
      max: 3e7,
      about: 'line pressure at which the rear valve begins; without a valve any, with slope 1',
    }),
    slope: quantity('ratio', { symbol: 's', min: 0, max: 1, about: 'share passed on beyond it; 1 without a valve' }),
    bore: quantity('length', {
      symbol: 'd',
      min: 0.01,
      max: 0.06,
      plausible: [0.015, 0.032],
      about: 'bore of the master cylinder',
    }),
    pedal: quantity('ratio', { symbol: 'i', min: 1, max: 12, plausible: [2.5, 7.5], about: 'pedal ratio' }),
    servo: quantity('ratio', {
      symbol: 'v',
      min: 1,
      max: 12,
      plausible: [1, 8],
      about: 'servo ratio; 1 without a servo or with it dead',
    }),
    greatest: quantity('force', { symbol: 'Smax', min: 0, max: 3e4, about: 'greatest help of the servo; 0 without' }),
  },
  outputs: {
    line: result('pressureGauge', { symbol: 'p', about: 'line pressure' }),
    push: result('force', { symbol: 'P', about: 'force onto the master cylinder’s piston' }),
    help: result('force', { symbol: 'S', about: 'help of the servo' }),
    force: result('force', { symbol: 'F', about: 'pedal force' }),
  },
  conditions: [
    {
      at: 'frontGain',
      holds: ({ frontGain, rearGain, slope }) => frontGain > 0 || (rearGain > 0 && slope > 0),
      says: 'No axle brakes: no pedal force is enough.',
      todo: 'Enter the brakes of at least one axle.',
    },
  ],
  formula:
    '{road} = {frontGain} × {line} + {rearGain} × ({line} up to {split}, then {split} + {slope} × ({line} − {split})), solved for {line}\n{push} = {line} × π × {bore}² / 4\n{help} = min({push} × (1 − 1 / {servo}), {greatest})\n{force} = ({push} − {help}) / {pedal}',
  sources: [limpert, masterCylinderTable],
  cautions: ['At best the arithmetic holds: a qualified person must inspect the brakes before the car is driven.'],
  limits: ['Holds until a wheel locks. Seals, springs and the servo’s jump-in, some tens of newtons, are left out.'],
  checks: [
    {
      inputs: { ...EVEN, road: 764 * PSI * 1e-3, pedal: 6, servo: 1, greatest: 0 },
      output: 'force',
      expected: 100 * POUND_FORCE,
      tolerance: { rel: 1e-3 },
      because: 'pressure printed to 1 lbf/in²',
      source: masterCylinderTable,
      evidence: 'published',
    },
    {
      inputs: { ...EVEN, road: 1261 * PSI * 1e-3, pedal: 5, servo: 1.8, greatest: 3000 },
      output: 'force',
      expected: 110 * POUND_FORCE,
      tolerance: { rel: 1e-3 },
      because: 'pressure printed to 1 lbf/in²',
      source: {
        title: 'Brake line pressure, toolroost.com',
        where: '110 lbf, 5 to 1, servo 1.80: 1261 lbf/in²',
        how: 'read',
      },
      evidence: 'published',
    },
  ],
  compute: ({ road, frontGain, rearGain, split, slope, bore, pedal, servo, greatest }) => {
    const atSplit = (frontGain + rearGain) * split
    const beyond = frontGain + rearGain * slope
    const line =
      road <= atSplit ? road / (frontGain + rearGain) : split + (road - atSplit) / (beyond === 0 ? Number.NaN : beyond)
    const push = (line * Math.PI * bore * bore) / 4
    const help = Math.min(push * (1 - 1 / servo), greatest)
    return { line, push, help, force: (push - help) / pedal }
  },
})
