/**
 * Pulses that a rev counter gets.   k = 2·c/s with every firing counted; 2/s from a coil on plug; 1 from a wasted-spark coil
 *   w   where it is connected   one of common coil, all coils joined, wasted-spark coil, coil on plug
 *   c   number of cylinders     1      1 … 16
 *   s   strokes                 1      2 … 4
 *   ω   engine speed            rad/s  0 … 2000
 *   k   pulses a revolution     1
 *   f   pulses per second       Hz
 * Errors: `out-of-range`, `not-whole`, `unknown-choice`, `inconsistent-inputs` (strokes neither 2 nor 4).
 * Limits: one spark per firing; multiple sparks at idle fool a rev counter.
 * Source: one spark each cylinder each cycle; a coil with two plugs fires both each revolution (wasted spark).
 */
import { calculation, choice, quantity, result, type Source } from '../../calculation.ts'
import { RPM } from '../../exactUnits.ts'

const manual: Source = {
  title:
    'Instrument installation manual, tachometer connections: eight cylinders, single coil four pulses a revolution; coil on plug one in two revolutions',
  where: 'manualshive.com/manual/1868910, page 5, types 1 to 3',
  how: 'read',
}
/** Text of the choice is what the docstring and the form show. */
const PLACES = ['common coil', 'all coils joined', 'wasted-spark coil', 'coil on plug'] as const
const row = (place: (typeof PLACES)[number], expected: number) => ({
  inputs: { place, cylinders: 8, strokes: 4, engineSpeed: 3000 * RPM },
  output: 'pulses' as const,
  expected,
  tolerance: { abs: 1e-9 },
  because: 'a count',
  source: manual,
  evidence: 'published' as const,
})

export const revCounterPulses = calculation({
  id: 'rev-counter-pulses',
  title: 'Pulses a rev counter gets',
  inputs: {
    place: choice(PLACES, { symbol: 'w', about: 'where it is connected' }),
    cylinders: quantity('ratio', {
      symbol: 'c',
      min: 1,
      max: 16,
      plausible: [1, 12],
      whole: true,
      about: 'number of cylinders',
    }),
    strokes: quantity('ratio', { symbol: 's', min: 2, max: 4, whole: true, about: 'strokes of a cycle' }),
    engineSpeed: quantity('angularSpeed', {
      symbol: 'ω',
      min: 0,
      max: 2000,
      plausible: [0, 1050],
      about: 'engine speed',
    }),
  },
  outputs: {
    pulses: result('ratio', { symbol: 'k', about: 'pulses a revolution' }),
    frequency: result('frequency', { symbol: 'f', about: 'pulses per second' }),
  },
  formula:
    '{pulses} = 2 × {cylinders} / {strokes} at {place} when all cylinders count; a coil on plug 2/{strokes}, a wasted-spark coil 1\n{frequency} = {pulses} × {engineSpeed} / 2π',
  sources: [manual],
  cautions: [
    'An old rev counter triggers on the coil’s flyback, up to 300 V or more (studylib.net 18766749 [read]): never join that wire to a controller’s pin. A controller’s 5 or 12 V output may not trigger it; a small relay’s coil as pull-up gives it a flyback of its own (common practice, no published source).',
  ],
  limits: ['One spark a firing. Controllers that fire several at idle make it read wrong there.'],
  conditions: [
    {
      at: 'strokes',
      holds: (given) => given.strokes !== 3,
      says: 'An engine of three strokes is not known here.',
      todo: 'Enter 2 or 4.',
    },
  ],
  checks: [row('common coil', 4), row('coil on plug', 0.5), row('wasted-spark coil', 1)],
  compute: ({ place, cylinders, strokes, engineSpeed }) => {
    const firing = 2 / strokes
    const pulses = place === 'coil on plug' ? firing : place === 'wasted-spark coil' ? 1 : cylinders * firing
    return { pulses, frequency: (pulses * engineSpeed) / (2 * Math.PI) }
  },
})
