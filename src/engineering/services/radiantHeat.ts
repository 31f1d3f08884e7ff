/**
 * Heat that a hot pipe throws on a cable, hose or pipe beside it, and how hot that becomes.
 *   w = e·σ·(Tp⁴ − T0⁴)/(n + 1), q = w·F·D, F = r/d;   Tf where π·a·w·F·D, Tm where a·w·asin(F)·D, goes off by air and radiation
 *   r   outside radius of the hot pipe    m    0.002 … 0.5
 *   d   from its axis to the thing        m    0.003 … 5
 *   Tp  surface of the hot pipe           K    300 … 1300
 *   e   emissivity of the hot pipe        1    0.01 … 1
 *   n   shields between                   1    0 … 5
 *   D   outside diameter of the thing     m    5e-4 … 0.3
 *   a   emissivity of the thing           1    0.05 … 1
 *   T0  air and surroundings              K    230 … 450
 *   F   view of the pipe, facing          1
 *   q   heat on one metre of its width    W
 *   Tf  side that faces, nothing spreads  K
 *   Tm  mean, all spreads round it        K
 * Errors: `out-of-range`, `inconsistent-inputs` (nearer than the radius, or the pipe colder than the air). Limits: long, parallel,
 * grey, still air; shields as bright as the pipe. The truth lies between Tm and Tf.
 * Source: Stefan–Boltzmann; view of a long cylinder from an element that faces it, r/d; Churchill & Chu [from memory].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { churchillChu, surfaceHeat } from '../electrical/heatBalance.ts'
import { incropera } from './sources.ts'

const STEFAN_BOLTZMANN = 5.670374419e-8
const header: Source = {
  title: 'Katz, Automotive Aerodynamics, example 11.3: ε 0.60, F 0.1, 0.023 m², 400 °C on 35 °C: 15.34 W',
  where: 'fliphtml5.com/osspz/kdgs, page 493',
  how: 'read',
}
const view: Source = {
  title: 'Howell, A Catalog of Radiation Configuration Factors: element that faces a long cylinder, F = r/d',
  how: 'memory',
}
const shields: Source = { ...incropera, where: 'section 13.3.3: N shields of one emissivity leave 1/(N + 1)' }

interface Place {
  readonly radius: number
  readonly distance: number
  readonly pipe: number
  readonly emissivity: number
  readonly shields: number
  readonly diameter: number
  readonly absorbs: number
  readonly surroundings: number
}
/** Temperature at which a metre of the thing gives off `heat`, W. Grows with it, so that halving finds it. */
const rest = ({ diameter, absorbs, surroundings, pipe }: Place, heat: number): number => {
  let [low, high] = [surroundings, pipe]
  for (let turn = 0; turn < 50; turn += 1) {
    const middle = (low + high) / 2
    const { convection, radiation } = surfaceHeat(diameter, middle, surroundings, absorbs)
    if (convection + radiation < heat) low = middle
    else high = middle
  }
  return (low + high) / 2
}

export const radiantHeat = calculation({
  id: 'radiant-heat',
  title: 'Heat that a hot pipe throws on what runs beside it',
  inputs: {
    radius: quantity('length', {
      symbol: 'r',
      min: 0.002,
      max: 0.5,
      plausible: [0.015, 0.1],
      about: 'outside radius of the hot pipe',
    }),
    distance: quantity('length', {
      symbol: 'd',
      min: 0.003,
      max: 5,
      plausible: [0.03, 1],
      about: 'from the pipe’s axis to the thing: its gap and the radius',
    }),
    pipe: quantity('temperature', {
      symbol: 'Tp',
      min: 300,
      max: 1300,
      plausible: [400, 1150],
      about: 'surface of the hot pipe',
    }),
    emissivity: quantity('ratio', {
      symbol: 'e',
      min: 0.01,
      max: 1,
      plausible: [0.2, 0.95],
      about: 'emissivity of the hot pipe, rusty or scaled 0.8',
    }),
    shields: quantity('ratio', {
      symbol: 'n',
      min: 0,
      max: 5,
      whole: true,
      about: 'sheets of metal between both with air on either side',
    }),
    diameter: quantity('length', {
      symbol: 'D',
      min: 5e-4,
      max: 0.3,
      plausible: [0.001, 0.05],
      about: 'outside diameter of the cable, hose or pipe',
    }),
    absorbs: quantity('ratio', {
      symbol: 'a',
      min: 0.05,
      max: 1,
      plausible: [0.6, 1],
      about: 'emissivity of the thing, plastics and rubber about 0.9',
    }),
    surroundings: quantity('temperature', {
      symbol: 'T0',
      min: 230,
      max: 450,
      plausible: [253, 400],
      about: 'air and surroundings of the thing',
    }),
  },
  outputs: {
    view: result('ratio', { symbol: 'F', about: 'view of the hot pipe from the side that faces it' }),
    heat: result('power', { symbol: 'q', about: 'heat thrown on one metre of its width' }),
    facing: result('temperature', { symbol: 'Tf', about: 'side that faces the pipe, if no heat spreads round it' }),
    mean: result('temperature', { symbol: 'Tm', about: 'the whole, if all heat spreads round it' }),
  },
  constants: {
    radiation: {
      symbol: 'σ',
      value: STEFAN_BOLTZMANN,
      unit: 'W/(m²·K⁴)',
      source: { title: 'Stefan–Boltzmann constant, CODATA 2018', how: 'memory' },
    },
  },
  formula:
    '{view} = {radius} / {distance}\nw = {emissivity} × {radiation} × ({pipe}⁴ − {surroundings}⁴) / ({shields} + 1)\n{heat} = w × {view} × {diameter} × 1 m\n{facing} where π × {absorbs} × {heat} leaves one metre by air and radiation at {facing}\n{mean} where {absorbs} × w × asin({view}) × {diameter} × 1 m leaves it at {mean}',
  sources: [header, view, shields, churchillChu],
  cautions: [
    'Hot metal burns skin, melts insulation and lights petrol, oil and brake fluid. Look and measure from a distance; touch nothing until it is cold.',
  ],
  limits: [
    'A long straight pipe with the thing beside and along it, still air. What crosses it, or a short hot piece, receives less; hot air that rises from the pipe adds to this and is not counted.',
    'Shields of the pipe’s own emissivity, close to it. A bright shield does better; one that is bolted to hot metal does worse.',
    'Above 600 K the air’s figures are stretched: nothing made of plastic is left there.',
  ],
  conditions: [
    {
      at: 'distance',
      holds: ({ radius, distance }) => distance > radius,
      says: 'The thing is nearer to the axis than the pipe’s own radius.',
      todo: 'Add the pipe’s radius to the gap between both.',
    },
    {
      at: 'pipe',
      holds: ({ pipe, surroundings }) => pipe > surroundings,
      says: 'The hot pipe is not hotter than the air.',
      todo: 'Look whether the two temperatures are swapped.',
    },
  ],
  checks: [
    {
      inputs: {
        radius: 0.05,
        distance: 0.5,
        pipe: 673,
        emissivity: 0.6,
        shields: 0,
        diameter: 0.023,
        absorbs: 1,
        surroundings: 308,
      },
      output: 'heat',
      expected: 15.34,
      tolerance: { rel: 1e-3 },
      because: 'four digits; the book’s σ is 5.669',
      source: header,
      evidence: 'published',
    },
    {
      inputs: {
        radius: 0.05,
        distance: 0.5,
        pipe: 673,
        emissivity: 0.6,
        shields: 1,
        diameter: 0.023,
        absorbs: 1,
        surroundings: 308,
      },
      output: 'heat',
      expected: 15.34 / 2,
      tolerance: { rel: 1e-3 },
      because: 'one shield of the same emissivity leaves a half',
      source: shields,
      evidence: 'law',
    },
  ],
  compute: (place) => {
    const { radius, distance, pipe, emissivity, shields: count, diameter, absorbs, surroundings } = place
    const seen = radius / distance
    const thrown = (emissivity * STEFAN_BOLTZMANN * (pipe ** 4 - surroundings ** 4)) / (count + 1)
    return {
      view: seen,
      heat: thrown * seen * diameter,
      facing: rest(place, Math.PI * absorbs * thrown * seen * diameter),
      mean: rest(place, absorbs * thrown * Math.asin(seen) * diameter),
    }
  },
})
