/**
 * An old rev counter on a controller's output.   N = n·k/m,  s = U − T
 *   m  pulses a revolution the counter was made for    1      0.25 … 16
 *   k  pulses a revolution the controller gives        1      0.25 … 16
 *   n  engine speed                                    rad/s  0 … 2000
 *   U  height of the pulse at the counter              V      0 … 1000
 *   T  height from which the counter follows           V      0 … 1000
 *   N  speed the needle shows                          rad/s
 *   q  shown over true                                 1
 *   s  pulse to spare; below 0 the needle lies or lags  V
 * Errors: `out-of-range`. Limits: a counter that counts pulses; what height it follows is found on the bench with a signal.
 * Source: count of pulses; workshop pages as cited.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'
import { RPM } from '../../exactUnits.ts'

const four: Source = {
  title: 'Rev counters of one dash: that of the four-cylinder engine reads double on a V8',
  where: 'coolcats.net, 4-to-8 cylinder tachometer',
  how: 'read',
}
const turbo: Source = {
  title: 'Four-cylinder rev counter on an eight-cylinder engine: 3000 1/min read as 6000',
  where: 'fordmustangcar.com, using a four-cylinder tachometer, steps 1 and 7',
  how: 'read',
}
const pulses = (symbol: string, about: string) =>
  quantity('ratio', { symbol, min: 0.25, max: 16, plausible: [0.5, 6], about })
const height = (symbol: string, about: string) =>
  quantity('voltage', { symbol, min: 0, max: 1000, plausible: [1, 400], about })
const eightOnFour = { made: 2, given: 4, engineSpeed: 3000 * RPM, pulse: 12, threshold: 8 }

export const revCounterDrive = calculation({
  id: 'rev-counter-drive',
  title: 'An old rev counter on a controller’s output',
  inputs: {
    made: pulses('m', 'pulses a revolution the counter was made for'),
    given: pulses('k', 'pulses a revolution the controller gives'),
    engineSpeed: quantity('angularSpeed', {
      symbol: 'n',
      min: 0,
      max: 2000,
      plausible: [0, 1050],
      about: 'engine speed',
    }),
    pulse: height('U', 'height of the pulse at the counter'),
    threshold: height('T', 'height from which the counter follows'),
  },
  outputs: {
    shown: result('angularSpeed', { symbol: 'N', about: 'speed the needle shows' }),
    factor: result('ratio', { symbol: 'q', about: 'shown over true' }),
    spare: result('voltage', { symbol: 's', about: 'pulse to spare; below 0 the needle lies or lags' }),
  },
  formula: '{shown} = {engineSpeed} × {given} / {made}\n{factor} = {given} / {made}\n{spare} = {pulse} − {threshold}',
  sources: [four, turbo],
  cautions: [
    'The coil’s flyback is 300 V or more (studylib.net 18766749 [read]): hands off with the engine running, and never onto a controller’s pin.',
  ],
  limits: [
    'A counter made for a coil may ask for its flyback: a small relay’s coil as pull-up makes one from a plain output, and must stay within the output’s clamp (common practice, no published source).',
    'Set the controller to the pulses the counter was made for: cylinders over two for a four-stroke with one coil.',
  ],
  checks: [
    {
      inputs: eightOnFour,
      output: 'factor',
      expected: 2,
      tolerance: { abs: 1e-9 },
      because: 'a count: four pulses a revolution instead of two',
      source: four,
      evidence: 'published',
    },
    {
      inputs: eightOnFour,
      output: 'shown',
      expected: 6000 * RPM,
      tolerance: { abs: 1e-6 },
      because: 'a count',
      source: turbo,
      evidence: 'published',
    },
  ],
  compute: ({ made, given, engineSpeed, pulse, threshold }) => ({
    shown: (engineSpeed * given) / made,
    factor: given / made,
    spare: pulse - threshold,
  }),
})
