/**
 * Air through a radiator with fan and ram.   Δpk·(Q/Qk)^n = Δpr + Δpf(Q), Δpf the line through two points of the fan
 *   Q1   fan, lesser flow         m³/s  0 … 20
 *   Δp1  fan, its pressure        Pa    0 … 5000
 *   Q2   fan, greater flow        m³/s  1e-4 … 20
 *   Δp2  fan, its pressure        Pa    0 … 5000
 *   Qk   core, known flow         m³/s  1e-4 … 20
 *   Δpk  core, loss at it         Pa    1 … 5000
 *   n    exponent of the core     1     1 … 2
 *   Δpr  ram pressure             Pa    0 … 5000
 *   Q    air through the core     m³/s
 *   Δpf  what the fan adds        Pa
 * Errors: `out-of-range`, `inconsistent-inputs` (a fan that gives more flow against more pressure), `no-answer`. Limits: one fan
 *   line, straight, carried on past its points: beyond its free flow the fan holds the air back.
 * Source: continuity and pressure balance; core exponent 1.6 to 1.8 (common practice, no published source).
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'

const scipy: Source = { title: 'SciPy 1.17.1, optimize.brentq on the same balance', how: 'computed' }
const flowInput = (symbol: string, min: number, about: string) =>
  quantity('volumeFlow', { symbol, min, max: 20, about })
const pressureInput = (symbol: string, min: number, about: string) =>
  quantity('pressureDifference', { symbol, min, max: 5000, about })

export const radiatorAirFlow = calculation({
  id: 'radiator-air-flow',
  title: 'Air through a radiator with fan and ram',
  inputs: {
    lesserFlow: flowInput('Q1', 0, 'fan curve, point of lesser flow'),
    lesserPressure: pressureInput('Δp1', 0, 'pressure of the fan at that flow'),
    greaterFlow: flowInput('Q2', 1e-4, 'fan curve, point of greater flow'),
    greaterPressure: pressureInput('Δp2', 0, 'pressure of the fan at that flow'),
    coreFlow: flowInput('Qk', 1e-4, 'flow at which the loss of the core is known'),
    coreLoss: pressureInput('Δpk', 1, 'loss of the core at that flow'),
    exponent: quantity('ratio', {
      symbol: 'n',
      min: 1,
      max: 2,
      plausible: [1.4, 2],
      about: 'loss of the core goes with flow to this power; 1.7 is usual for louvred fins',
    }),
    ram: pressureInput('Δpr', 0, 'pressure across the core from road speed'),
  },
  outputs: {
    flow: result('volumeFlow', { symbol: 'Q', about: 'air through the core' }),
    fan: result('pressureDifference', { symbol: 'Δpf', about: 'pressure the fan adds; below 0 it holds the air back' }),
  },
  formula:
    '{fan} = {lesserPressure} + ({greaterPressure} − {lesserPressure}) × ({flow} − {lesserFlow}) / ({greaterFlow} − {lesserFlow})\n{coreLoss} × ({flow} / {coreFlow})^{exponent} = {ram} + {fan}, solved for {flow}',
  sources: [{ title: 'Pressure balance of core, ram and fan', how: 'computed' }],
  cautions: [],
  limits: [
    'Air that goes round the core is not counted: seal the gaps. Fan curve straight between its two points and beyond.',
  ],
  conditions: [
    {
      at: 'greaterFlow',
      holds: (given) => given.greaterFlow > given.lesserFlow,
      says: 'The two points of the fan curve are not in order of flow.',
      todo: 'Enter the point of lesser flow first.',
    },
    {
      at: 'greaterPressure',
      holds: (given) => given.greaterPressure < given.lesserPressure,
      says: 'This fan would give more flow against more pressure, which none does over its working range.',
      todo: 'Look whether flow and pressure are swapped between the points, or the curve is that of the core.',
    },
  ],
  checks: [
    {
      inputs: {
        lesserFlow: 0,
        lesserPressure: 180,
        greaterFlow: 0.7,
        greaterPressure: 60,
        coreFlow: 0.8,
        coreLoss: 120,
        exponent: 1.7,
        ram: 50,
      },
      output: 'flow',
      expected: 0.7352421586111306,
      tolerance: { rel: 1e-9 },
      because: 'both solve to rounding',
      source: scipy,
      evidence: 'library',
    },
  ],
  compute: ({ lesserFlow, lesserPressure, greaterFlow, greaterPressure, coreFlow, coreLoss, exponent, ram }) => {
    const slope = (greaterPressure - lesserPressure) / (greaterFlow - lesserFlow)
    const fanAt = (flow: number): number => lesserPressure + slope * (flow - lesserFlow)
    const spare = (flow: number): number => ram + fanAt(flow) - coreLoss * (flow / coreFlow) ** exponent
    // Falls steadily: the balance has one answer, none only if it starts below zero.
    if (!(spare(0) > 0)) return { flow: Number.NaN, fan: Number.NaN }
    let [low, high] = [0, 1]
    while (spare(high) > 0) high *= 2
    for (let turn = 0; turn < 80; turn += 1) {
      const middle = (low + high) / 2
      if (spare(middle) > 0) low = middle
      else high = middle
    }
    const flow = (low + high) / 2
    return { flow, fan: fanAt(flow) }
  },
})
