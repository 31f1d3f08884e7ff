/**
 * Sizes of a 37° flared fitting.   D = n/16 in; thread and bore by table
 *   n   dash size  one of 3 to 20
 *   D   tube, outside      m
 *   dt  thread, outside    m
 *   P   pitch              m
 *   db  bore               m
 * Errors: `no-choice`. Limits: 37° only; a 45° flare shares threads and does not seal against it.
 * Source: SAE J514 and ISO 8434-2 threads as tabled [read]; -3, -5, -20 and bores (MS33656) [from memory].
 */
import { calculation, choice, result, type Source } from '../calculation.ts'
import { INCH } from '../exactUnits.ts'
import { flareThreads } from './sources.ts'

const ms33656: Source = {
  title: 'MS33656, fitting end for flared tube: bore',
  where:
    'in: -3 0.125, -4 0.172, -5 0.234, -6 0.297, -8 0.391, -10 0.484, -12 0.609, -16 0.844, -20 1.078; -3, -5, -20 threads of SAE J514',
  how: 'memory',
}
const flare45: Source = {
  title: 'Threads, exact-eng.co.uk: 37° and 45° flares share sizes and do not seal against each other',
  how: 'read',
}
/** Thread’s outside diameter in, threads an inch, bore in. */
const SIZES = {
  '3': [3 / 8, 24, 0.125],
  '4': [7 / 16, 20, 0.172],
  '5': [1 / 2, 20, 0.234],
  '6': [9 / 16, 18, 0.297],
  '8': [3 / 4, 16, 0.391],
  '10': [7 / 8, 14, 0.484],
  '12': [17 / 16, 12, 0.609],
  '16': [21 / 16, 12, 0.844],
  '20': [13 / 8, 12, 1.078],
} as const
const DASHES = ['3', '4', '5', '6', '8', '10', '12', '16', '20'] as const
type Dash = (typeof DASHES)[number]

const row = (dash: Dash, output: string, inches: number) => ({
  inputs: { dash },
  output,
  expected: inches * INCH,
  tolerance: { abs: 1e-4 * INCH },
  because: 'a thread is printed as a fraction, exact',
  source: flareThreads,
  evidence: 'published' as const,
})

export const flareSize = calculation({
  id: 'flare-size',
  title: 'Sizes of a 37° flared fitting',
  inputs: { dash: choice(DASHES, { symbol: 'n', about: 'dash size: 6 for -6' }) },
  outputs: {
    tube: result('length', { symbol: 'D', about: 'outside diameter of the tube' }),
    thread: result('length', { symbol: 'dt', about: 'outside diameter of the thread: measure it with a caliper' }),
    pitch: result('length', { symbol: 'P', about: 'pitch of the thread' }),
    bore: result('length', { symbol: 'db', about: 'bore of the fitting, the narrowest place of a line of that size' }),
  },
  formula: '{tube} = {dash} / 16 in\n{thread}, {pitch}, {bore} = table by {dash}',
  sources: [flareThreads, ms33656, flare45],
  cautions: [
    'A flare carries fuel, oil or brake fluid: no sealant on the cone, no 45° nut on a 37° cone, and a qualified person must inspect brake and fuel lines.',
  ],
  limits: [
    '37° flares by SAE J514, ISO 8434-2 or of the aviation kind. The bore is from memory and makers bore wider; hose of the same dash is another size: ask its maker.',
  ],
  checks: [
    row('4', 'thread', 7 / 16),
    row('6', 'thread', 9 / 16),
    row('8', 'pitch', 1 / 16),
    row('10', 'thread', 7 / 8),
    row('12', 'thread', 17 / 16),
    row('16', 'tube', 1),
    row('16', 'pitch', 1 / 12),
  ],
  compute: ({ dash }) => {
    const [thread, perInch, bore] = SIZES[dash]
    return { tube: (Number(dash) / 16) * INCH, thread: thread * INCH, pitch: INCH / perInch, bore: bore * INCH }
  },
})
