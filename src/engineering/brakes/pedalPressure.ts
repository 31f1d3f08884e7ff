/**
 * What the foot and the servo make of line pressure.   P = F·i + S, p = P/(π·d²/4)
 *   F  pedal force             N   0 … 3000
 *   i  pedal ratio             1   1 … 12
 *   S  servo’s help            N   0 … 2e4
 *   d  master cylinder         m   0.01 … 0.06
 *   P  onto the piston         N
 *   p  line pressure           Pa
 * Errors: `out-of-range`. Limits: seals and return springs left out; both circuits of a tandem cylinder at one pressure.
 * Source: Pascal; Limpert [from memory]; table of hotrodheaven.com [read].
 */
import { calculation, quantity, result } from '../calculation.ts'
import { INCH, POUND_FORCE, PSI } from '../exactUnits.ts'
import { limpert, masterCylinderTable } from './sources.ts'

export const pedalPressure = calculation({
  id: 'brake-line-pressure',
  title: 'Line pressure from pedal force',
  inputs: {
    force: quantity('force', { symbol: 'F', min: 0, max: 3000, plausible: [0, 1000], about: 'pedal force' }),
    ratio: quantity('ratio', {
      symbol: 'i',
      min: 1,
      max: 12,
      plausible: [2.5, 7.5],
      about: 'pedal ratio: foot to pivot over push rod to pivot',
    }),
    help: quantity('force', { symbol: 'S', min: 0, max: 2e4, about: 'what the servo adds; 0 without one' }),
    bore: quantity('length', {
      symbol: 'd',
      min: 0.01,
      max: 0.06,
      plausible: [0.015, 0.032],
      about: 'bore of the master cylinder',
    }),
  },
  outputs: {
    push: result('force', { symbol: 'P', about: 'force onto the master cylinder’s piston' }),
    pressure: result('pressureGauge', { symbol: 'p', about: 'line pressure' }),
  },
  formula: '{push} = {force} × {ratio} + {help}\n{pressure} = {push} / (π × {bore}² / 4)',
  sources: [limpert, masterCylinderTable],
  cautions: ['The pedal, its pivot and the cylinder’s mount carry this force: a qualified person must inspect them.'],
  limits: ['Seal friction and return springs, a few per cent, are left out: the true pressure is a little less.'],
  checks: [
    {
      inputs: { force: 100 * POUND_FORCE, ratio: 6, help: 0, bore: INCH },
      output: 'pressure',
      expected: 764 * PSI,
      tolerance: { rel: 1e-3 },
      because: 'printed to 1 lbf/in²',
      source: masterCylinderTable,
      evidence: 'published',
    },
    {
      inputs: { force: 100 * POUND_FORCE, ratio: 6, help: 0, bore: 0.875 * INCH },
      output: 'pressure',
      expected: 998 * PSI,
      tolerance: { rel: 1e-3 },
      because: 'printed to 1 lbf/in²',
      source: masterCylinderTable,
      evidence: 'published',
    },
    {
      inputs: { force: 110 * POUND_FORCE, ratio: 5, help: 440 * POUND_FORCE, bore: INCH },
      output: 'pressure',
      expected: 1261 * PSI,
      tolerance: { rel: 1e-3 },
      because: 'printed to 1 lbf/in²',
      source: {
        title: 'Brake line pressure, toolroost.com',
        where: '110 lbf, 5 to 1, servo 1.80: 990 lbf at the cylinder, 1261 lbf/in²',
        how: 'read',
      },
      evidence: 'published',
    },
  ],
  compute: ({ force, ratio, help, bore }) => {
    const push = force * ratio + help
    return { push, pressure: push / ((Math.PI * bore * bore) / 4) }
  },
})
