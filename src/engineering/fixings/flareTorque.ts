/**
 * Torque of the nut of a 37° flare.   table by dash and line
 *   n   dash size  one of 4 to 20
 *   l   line  one of aluminium tube, steel tube, hose
 *   T1  least torque   N·m
 *   T2  most torque    N·m
 * Errors: `no-choice`. Limits: steel or aluminium nuts, threads lubricated, cone clean and dry.
 * Source: TM 55-1520-240-23-1, columns C, D and E [read].
 */
import { calculation, choice, result } from '../calculation.ts'
import { INCH, POUND_FORCE } from '../exactUnits.ts'
import { flareTorques } from './sources.ts'

const LINES = ['aluminium tube', 'steel tube', 'hose'] as const
/** Inch-pounds, least and most, in the order of LINES, as printed. */
const TORQUES = {
  '4': [50, 65, 135, 150, 100, 120],
  '6': [100, 125, 270, 300, 210, 250],
  '8': [210, 250, 450, 500, 340, 420],
  '10': [300, 350, 650, 700, 400, 480],
  '12': [425, 500, 900, 1000, 725, 850],
  '16': [600, 700, 1200, 1400, 900, 1150],
  '20': [680, 800, 1200, 1400, 950, 1150],
} as const
const DASHES = ['4', '6', '8', '10', '12', '16', '20'] as const
type Dash = (typeof DASHES)[number]
const INCH_POUND = INCH * POUND_FORCE

const row = (dash: Dash, line: (typeof LINES)[number], output: 'least' | 'most', inchPounds: number) => ({
  inputs: { dash, line },
  output,
  expected: inchPounds * INCH_POUND,
  tolerance: { abs: 0.5 * INCH_POUND },
  because: 'last digit printed',
  source: flareTorques,
  evidence: 'published' as const,
})

export const flareTorque = calculation({
  id: 'flare-torque',
  title: 'Torque of the nut of a 37° flare',
  inputs: {
    dash: choice(DASHES, { symbol: 'n', about: 'dash size: 6 for -6' }),
    line: choice(LINES, { symbol: 'l', about: 'what the nut draws on to the cone' }),
  },
  outputs: {
    least: result('torque', { symbol: 'T1', about: 'least torque' }),
    most: result('torque', { symbol: 'T2', about: 'most torque' }),
  },
  formula: '{least} = table by {dash} and {line}\n{most} = table by {dash} and {line}',
  sources: [flareTorques],
  cautions: [
    'Hold the fitting with a second spanner. Brake and fuel lines: a qualified person must inspect them; try with pressure and no spark near.',
  ],
  limits: [
    'Steel or aluminium nuts on aircraft lines, threads lubricated, cone clean and dry; the fitting maker’s figure comes first. An engine maker’s manual has 16 ± 4 N·m for -4 and 50 ± 7 N·m for -8, half of it where a part is not steel.',
  ],
  checks: [
    row('4', 'aluminium tube', 'least', 50),
    row('6', 'steel tube', 'most', 300),
    row('8', 'hose', 'least', 340),
    row('10', 'aluminium tube', 'most', 350),
    row('12', 'steel tube', 'least', 900),
    row('20', 'hose', 'most', 1150),
  ],
  compute: ({ dash, line }) => {
    const at = 2 * LINES.indexOf(line)
    return { least: TORQUES[dash][at]! * INCH_POUND, most: TORQUES[dash][at + 1]! * INCH_POUND }
  },
})
