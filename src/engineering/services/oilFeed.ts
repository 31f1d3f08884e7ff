/**
 * Oil that a feed pipe with a restrictor passes.   Δp = f·(L/d)·ρ·v²/2 + ρ/2·(4Q/(C·π·r²))², f = 64/Re if laminar
 *   Δp  pressure across pipe and restrictor  Pa     0 … 2e6
 *   d   bore of the pipe                     m      5e-4 … 0.5
 *   L   length of the pipe                   m      0.01 … 2000
 *   r   bore of the restrictor               m      2e-4 … 0.5
 *   C   discharge coefficient                1      0.4 … 1
 *   ρ   density                              kg/m³  600 … 1100
 *   ν   kinematic viscosity                  m²/s   5e-7 … 0.02
 *   ε   roughness of the wall                m      0 … 0.003
 *   Q   flow                                 m³/s
 *   Δr  lost in the restrictor               Pa
 *   Re  Reynolds number in the pipe          1
 * Errors: `out-of-range`, `inconsistent-inputs` (restrictor wider than the pipe). Limits: nothing resists behind the pipe, so
 * this is the most that can flow. Below Re 2300 the pipe’s loss is Hagen–Poiseuille’s, 128·ρ·ν·L·Q/(π·d⁴).
 * Source: Hagen–Poiseuille; Colebrook where not laminar; flow of an orifice [worked figures read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { frictionFactor } from '../fluids/frictionFactor.ts'
import { roughnessInput, viscosityInput } from './oilInputs.ts'

const giancoli: Source = {
  title: 'Giancoli, Physics, chapter 10, problem 62: oil of 0.2 Pa·s, 1.6 km, 0.29 m bore, 650 cm³/s: about 1200 Pa',
  where: 'giancolianswers.com, spoken solution',
  how: 'read',
}
const orifice: Source = {
  title: 'Orifice of 50 mm, coefficient 0.62, under 3 m of head: 0.00934 m³/s',
  where: 'ajdesigner.com/orifice-flow, worked example',
  how: 'read',
}
const poiseuille: Source = { title: 'Hagen–Poiseuille: White, Fluid Mechanics, chapter 6', how: 'memory' }
/** Up to here flow in a round pipe is laminar: White, Fluid Mechanics [from memory]. */
export const LAMINAR_TO = 2300
/** Of a restrictor, whose hole is neither sharp nor a tube. */
export const RESTRICTOR = {
  value: 0.71,
  plusMinus: 0.09,
  source: { title: 'Orifice equation: sharp edge 0.62, tube 0.80', where: 'engineering.wikia.com', how: 'read' },
} as const

interface Feed {
  readonly pressure: number
  readonly bore: number
  readonly length: number
  readonly restrictor: number
  readonly coefficient: number
  readonly density: number
  readonly viscosity: number
  readonly roughness: number
}
const solve = ({ pressure, bore, length, restrictor, coefficient, density, viscosity, roughness }: Feed) => {
  const a = (density / 2) * (4 / (coefficient * Math.PI * restrictor ** 2)) ** 2
  const b = (128 * density * viscosity * length) / (Math.PI * bore ** 4)
  const reynoldsOf = (flow: number): number => (4 * flow) / (Math.PI * bore * viscosity)
  // Laminar, a·Q² + b·Q = Δp; written so that nothing cancels where one of both losses is small.
  let flow = pressure === 0 ? 0 : (2 * pressure) / (b + Math.sqrt(b * b + 4 * a * pressure))
  if (reynoldsOf(flow) > LAMINAR_TO) {
    const over = (8 * density * length) / (Math.PI ** 2 * bore ** 5)
    let [low, high] = [0, flow]
    for (let turn = 0; turn < 60; turn += 1) {
      flow = (low + high) / 2
      const friction = frictionFactor(reynoldsOf(flow), roughness / bore)
      if ((friction * over + a) * flow * flow < pressure) low = flow
      else high = flow
    }
  }
  return { flow, restrictorLoss: a * flow * flow, reynolds: reynoldsOf(flow) }
}

export const oilFeed = calculation({
  id: 'oil-feed',
  title: 'Oil that a feed pipe with a restrictor passes',
  inputs: {
    pressure: quantity('pressureDifference', {
      symbol: 'Δp',
      min: 0,
      max: 2e6,
      plausible: [5e4, 8e5],
      about: 'pressure across pipe and restrictor',
    }),
    bore: quantity('length', {
      symbol: 'd',
      min: 5e-4,
      max: 0.5,
      plausible: [0.002, 0.012],
      about: 'bore of the pipe, inside',
    }),
    length: quantity('length', {
      symbol: 'L',
      min: 0.01,
      max: 2000,
      plausible: [0.1, 2],
      about: 'length of the pipe',
    }),
    restrictor: quantity('length', {
      symbol: 'r',
      min: 2e-4,
      max: 0.5,
      plausible: [6e-4, 0.012],
      about: 'bore of the restrictor; the pipe’s own bore where there is none',
    }),
    coefficient: quantity('ratio', {
      symbol: 'C',
      min: 0.4,
      max: 1,
      plausible: [0.55, 0.85],
      about: 'discharge coefficient of the restrictor',
    }),
    density: quantity('density', {
      symbol: 'ρ',
      min: 600,
      max: 1100,
      plausible: [780, 900],
      about: 'density of the oil',
    }),
    viscosity: viscosityInput,
    roughness: roughnessInput,
  },
  outputs: {
    flow: result('volumeFlow', { symbol: 'Q', about: 'flow' }),
    restrictorLoss: result('pressureDifference', { symbol: 'Δr', about: 'lost in the restrictor' }),
    reynolds: result('ratio', { symbol: 'Re', about: 'Reynolds number in the pipe' }),
  },
  formula:
    '{pressure} = f × {length} / {bore} × {density} × v² / 2 + {restrictorLoss}, f = 64 / {reynolds} if laminar, else by Colebrook at {roughness} / {bore}\n{restrictorLoss} = {density} / 2 × (4 × {flow} / ({coefficient} × π × {restrictor}²))²\n{reynolds} = 4 × {flow} / (π × {bore} × {viscosity})',
  sources: [poiseuille, giancoli, orifice],
  cautions: [
    'A split feed sprays hot oil on the exhaust and burns: hose and ends for hot oil under pressure, clear of hot metal, and watched at the first start.',
  ],
  limits: [
    'A straight pipe; laminar below Re 2300, where its loss is Hagen–Poiseuille’s. Nothing resists behind it: the bearings of a turbocharger do, so this is the most that can flow.',
    'A hole of 1 mm passes thick oil less freely than its coefficient says.',
  ],
  conditions: [
    {
      at: 'restrictor',
      holds: ({ bore, restrictor }) => restrictor <= bore,
      says: 'The restrictor is wider than the pipe.',
      todo: 'Look whether the two bores are swapped.',
    },
  ],
  checks: [
    {
      inputs: {
        pressure: 1200,
        bore: 0.29,
        length: 1600,
        restrictor: 0.29,
        coefficient: 1,
        density: 900,
        viscosity: 0.2 / 900,
        roughness: 0,
      },
      output: 'flow',
      expected: 6.5e-4,
      tolerance: { rel: 3e-3 },
      because: 'the pressure is printed as about 1200 Pa, 1198 by its own figures',
      source: giancoli,
      evidence: 'published',
    },
    {
      inputs: {
        pressure: 1000 * 9.81 * 3,
        bore: 0.5,
        length: 0.01,
        restrictor: 0.05,
        coefficient: 0.62,
        density: 1000,
        viscosity: 0.001,
        roughness: 0,
      },
      output: 'flow',
      expected: 0.00934,
      tolerance: { rel: 1e-3 },
      because: 'printed to three digits; a thick fluid in a wide, short pipe leaves the orifice alone',
      source: orifice,
      evidence: 'published',
    },
  ],
  compute: solve,
})
