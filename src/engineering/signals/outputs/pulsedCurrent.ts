/**
 * Current of a coil or motor winding under pulse-width modulation, with a freewheel diode.   Im = (D·V − (1 − D)·Vf)/R
 *   V   supply                      V   1 … 60
 *   Vf  drop of the freewheel diode  V  0 … 3
 *   R   resistance                  Ω   0.01 … 1e4
 *   L   inductance                  H   1e-6 … 10
 *   D   share of time on            1   0 … 1
 *   f   modulation frequency        Hz  1 … 1e5
 *   Im  mean current                A
 *   I1  lowest current              A
 *   I2  highest current             A
 * Errors: `out-of-range`, `no-answer` (the current stops between pulses, so that the load does not hold). Limits: settled,
 *   linear; a motor's back-EMF is not in it.
 * Source: R–L circuit in periodic steady state.
 */
import { calculation, quantity, result, type Source } from '../../calculation.ts'

const simulated: Source = {
  title:
    'scipy 1.17.1, integrate.solve_ivp through 400 periods and quad over the last, 13.8 V, 0.8 V, 8 Ω, 20 mH, D 0.4, 300 Hz',
  how: 'computed',
}
const inputs = { supply: 13.8, diode: 0.8, resistance: 8, inductance: 0.02, duty: 0.4, frequency: 300 }
const row = (output: 'mean' | 'lowest' | 'highest', expected: number) => ({
  inputs,
  output,
  expected,
  tolerance: { rel: 1e-9 },
  because: 'closed form against integration to 1e-11',
  source: simulated,
  evidence: 'library' as const,
})

export const pulsedCurrent = calculation({
  id: 'pulsed-current',
  title: 'Current of a load under pulse-width modulation',
  inputs: {
    supply: quantity('voltage', { symbol: 'V', min: 1, max: 60, plausible: [9, 16], about: 'supply' }),
    diode: quantity('voltage', {
      symbol: 'Vf',
      min: 0,
      max: 3,
      plausible: [0.3, 1.2],
      about: 'drop of the freewheel diode',
    }),
    resistance: quantity('resistance', {
      symbol: 'R',
      min: 0.01,
      max: 1e4,
      plausible: [0.2, 200],
      about: 'resistance of the load',
    }),
    inductance: quantity('inductance', {
      symbol: 'L',
      min: 1e-6,
      max: 10,
      plausible: [1e-4, 1],
      about: 'inductance of the load',
    }),
    duty: quantity('ratio', { symbol: 'D', min: 0, max: 1, about: 'share of time on' }),
    frequency: quantity('frequency', {
      symbol: 'f',
      min: 1,
      max: 1e5,
      plausible: [5, 3e4],
      about: 'modulation frequency',
    }),
  },
  outputs: {
    mean: result('current', { symbol: 'Im', about: 'mean current' }),
    lowest: result('current', { symbol: 'I1', about: 'lowest current' }),
    highest: result('current', { symbol: 'I2', about: 'highest current' }),
  },
  formula:
    '{mean} = ({duty} × {supply} − (1 − {duty}) × {diode}) / {resistance}\n{lowest}, {highest}: steady state of {inductance} at {frequency}',
  sources: [simulated],
  cautions: ['Without a freewheel diode at the load, every pulse goes into the output’s clamp.'],
  limits: ['Settled, current never zero, no back-EMF.'],
  checks: [
    row('mean', 0.63),
    row('lowest', 0.36029232095298924),
    row('highest', 0.9243993993501887),
    {
      inputs: { ...inputs, duty: 1 },
      output: 'mean',
      expected: 13.8 / 8,
      tolerance: { rel: 1e-12 },
      because: 'always on',
      source: simulated,
      evidence: 'law',
    },
  ],
  compute: ({ supply, diode, resistance, inductance, duty, frequency }) => {
    const tau = inductance / resistance
    const on = Math.exp(-duty / (frequency * tau))
    const off = Math.exp(-(1 - duty) / (frequency * tau))
    const [up, down] = [supply / resistance, -diode / resistance]
    // highest = up + (lowest − up)·on; lowest = down + (highest − down)·off.
    const highest = (up * (1 - on) + down * (1 - off) * on) / (1 - on * off)
    const lowest = down + (highest - down) * off
    const holds = lowest >= 0
    return {
      mean: holds ? (duty * supply - (1 - duty) * diode) / resistance : Number.NaN,
      lowest: holds ? lowest : Number.NaN,
      highest: holds ? highest : Number.NaN,
    }
  },
})
