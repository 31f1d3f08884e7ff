/**
 * Energy that an output's clamp takes when it switches a coil off.   E = Vc·L/R·(I − (Vc − V)/R·ln(1 + R·I/(Vc − V))), P = E·f
 *   V   supply                          V   0 … 30
 *   Vc  clamp, output to earth          V   1 … 500
 *   L   inductance of the load          H   1e-6 … 10
 *   R   resistance of the load          Ω   0.01 … 1e4
 *   I   current when switched off       A   0.001 … 100
 *   f   switchings per second           Hz  0 … 2e4
 *   E   energy in the clamp, each time  J
 *   t   time until the current is gone  s
 *   P   mean power in the clamp         W
 * Errors: `out-of-range`, `inconsistent-inputs` (clamp not at least 1 V above the supply). Limits: clamp of constant voltage, linear coil.
 * Source: Infineon BTS5016SDA and BTS7040 data sheets, clamp energy of inductive loads.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const sheet: Source = {
  title: 'Infineon BTS5016SDA data sheet (2008), section 5.3.1: energy while de-energising an inductance',
  where: 'page 11, with its simplified form ½·L·I²·Vc/(Vc − V) for R near 0',
  how: 'read',
}
const integrated: Source = {
  title: 'scipy 1.17.1, integrate.quad of clamp voltage × current until the current is gone, epsrel 1e-13',
  how: 'computed',
}
const row = (
  values: readonly [number, number, number, number, number],
  output: 'energy' | 'time',
  expected: number,
) => ({
  inputs: {
    supply: values[0],
    clamp: values[1],
    inductance: values[2],
    resistance: values[3],
    current: values[4],
    frequency: 0,
  },
  output,
  expected,
  tolerance: { rel: 1e-9 },
  because: 'closed form against quadrature',
  source: integrated,
  evidence: 'library' as const,
})

export const clampEnergy = calculation({
  id: 'clamp-energy',
  title: 'Energy in the clamp of an output that switches a coil off',
  inputs: {
    supply: quantity('voltage', { symbol: 'V', min: 0, max: 30, plausible: [9, 16], about: 'supply' }),
    clamp: quantity('voltage', {
      symbol: 'Vc',
      min: 1,
      max: 500,
      plausible: [14, 450],
      about: 'clamp voltage, output to earth',
    }),
    inductance: quantity('inductance', {
      symbol: 'L',
      min: 1e-6,
      max: 10,
      plausible: [1e-4, 1],
      about: 'inductance of the load',
    }),
    resistance: quantity('resistance', {
      symbol: 'R',
      min: 0.01,
      max: 1e4,
      plausible: [0.2, 200],
      about: 'resistance of the load',
    }),
    current: quantity('current', {
      symbol: 'I',
      min: 0.001,
      max: 100,
      plausible: [0.05, 20],
      about: 'current when switched off',
    }),
    frequency: quantity('frequency', {
      symbol: 'f',
      min: 0,
      max: 2e4,
      plausible: [0, 1000],
      about: 'switchings per second',
    }),
  },
  outputs: {
    energy: result('energy', { symbol: 'E', about: 'energy in the clamp, each time' }),
    time: result('time', { symbol: 't', about: 'time until the current is gone' }),
    power: result('power', { symbol: 'P', about: 'mean power in the clamp' }),
  },
  formula:
    '{energy} = {clamp} × {inductance}/{resistance} × ({current} − ({clamp} − {supply})/{resistance} × ln(1 + {resistance} × {current} / ({clamp} − {supply})))\n{time} = {inductance}/{resistance} × ln(1 + {resistance} × {current} / ({clamp} − {supply}))\n{power} = {energy} × {frequency}',
  sources: [sheet],
  cautions: ['A coil without diode or clamp makes hundreds of volts at the output and kills it.'],
  limits: [
    'Clamp of constant voltage, linear coil. A freewheel diode at the load takes this energy instead, and slows the release.',
  ],
  conditions: [
    {
      at: 'clamp',
      holds: (given) => given.clamp >= given.supply + 1,
      says: 'The clamp is not at least 1 V above the supply.',
      todo: 'Enter the voltage from output to earth at which it clamps, from the data sheet.',
    },
  ],
  checks: [
    row([14, 60, 2.5e-3, 12, 1.1667], 'energy', 0.0018518205319138436),
    row([14, 60, 2.5e-3, 12, 1.1667], 'time', 5.535621507863547e-5),
    row([14, 45, 15e-3, 2.4, 4], 'energy', 0.14493671182045753),
    {
      inputs: { supply: 14, clamp: 42, inductance: 1e-3, resistance: 0.01, current: 2, frequency: 100 },
      output: 'power',
      expected: 0.5 * 1e-3 * 4 * (42 / 28) * 100,
      tolerance: { rel: 1e-3 },
      because: 'the sheet’s simplified form, R near 0',
      source: sheet,
      evidence: 'published',
    },
  ],
  compute: ({ supply, clamp, inductance, resistance, current, frequency }) => {
    const over = clamp - supply
    const x = (resistance * current) / over
    // I − over/R·ln(1 + x) loses digits for small x; its series is I·(x/2 − x²/3 + …).
    const rest = x < 1e-4 ? current * (x / 2 - (x * x) / 3) : current - (over / resistance) * Math.log1p(x)
    const energy = ((clamp * inductance) / resistance) * rest
    return { energy, time: (inductance / resistance) * Math.log1p(x), power: energy * frequency }
  },
})
