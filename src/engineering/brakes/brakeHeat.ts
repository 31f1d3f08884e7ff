/**
 * How hot discs or drums get in a row of stops.   ΔT = k·m·(v1² − v2²)/2 · a·b/(n·M·c); after n stops T = Ta + (T0 − Ta)·q^(N−1) + ΔT·(1 + q + … + q^(N−1)), q = exp(−t/τ)
 *   m   mass of the car         kg        50 … 4e4
 *   k   turning parts           1         1 … 1.5
 *   v1  from                    m/s       0.5 … 100
 *   v2  to                      m/s       0 … 95
 *   a   share of the axle       1         0 … 1
 *   b   share into the iron     1         0.3 … 1
 *   M   iron of one wheel       kg        0.3 … 60
 *   c   specific heat           J/(kg·K)  300 … 1200
 *   N   stops                   1         1 … 50
 *   t   between stops           s         0 … 3600
 *   τ   cooling time            s         20 … 5000
 *   T0  at the start            K         230 … 900
 *   Ta  air                     K         220 … 340
 *   ΔT  one stop                K
 *   T   after the last stop     K
 *   Tn  the same, not cooled    K
 * Errors: `out-of-range`, `inconsistent-inputs`. Limits: heat even through the iron; the rubbing face is hotter.
 * Source: Limpert / DARCOM-P 706-358, chapter 3 [from memory]; worked figures below [read].
 */
import { calculation, quantity, result, type Source } from '../calculation.ts'
import { POUND } from '../exactUnits.ts'
import { limpert } from './sources.ts'

const KMH = 1 / 3.6
const KELVIN = 5 / 9
const howHot: Source = {
  title: 'How hot do brakes get, scribd.com/document/12801615',
  where: '3000 lb from 60 mile/h, four rotors of 10 lb, 0.130 Btu/(lb·°F): 90.3 °F',
  how: 'read',
}
const rotors: Source = {
  title: 'Disc rotors, sib.ru/sibblog/notes/40060',
  where: '1690 kg from 134 km/h, front 70 %, rubbing ring 6 kg: about 125 °C',
  how: 'read',
}
const common = { turning: 1, to: 0, intoIron: 1, stops: 1, interval: 0, cooling: 300, start: 293.15, air: 293.15 }
const BTU = 4186.8

export const brakeHeat = calculation({
  id: 'brake-heat',
  title: 'How hot the discs or drums of an axle get in a row of stops',
  inputs: {
    mass: quantity('mass', { symbol: 'm', min: 50, max: 4e4, plausible: [400, 5000], about: 'mass of the car' }),
    turning: quantity('ratio', {
      symbol: 'k',
      min: 1,
      max: 1.5,
      plausible: [1, 1.15],
      about: 'what turning wheels and shafts add, declutched',
    }),
    from: quantity('speed', { symbol: 'v1', min: 0.5, max: 100, plausible: [8, 70], about: 'speed before each stop' }),
    to: quantity('speed', { symbol: 'v2', min: 0, max: 95, about: 'speed after it; 0 where it stops' }),
    axle: quantity('ratio', { symbol: 'a', min: 0, max: 1, about: 'share of the brake force that this axle takes' }),
    intoIron: quantity('ratio', {
      symbol: 'b',
      min: 0.3,
      max: 1,
      plausible: [0.85, 1],
      about: 'share of the heat that goes into iron, not linings; 1 is the safe side',
    }),
    iron: quantity('mass', {
      symbol: 'M',
      min: 0.3,
      max: 60,
      plausible: [2, 15],
      about: 'iron of one wheel that heats: the disc’s rubbing ring, or the drum without its back',
    }),
    specificHeat: quantity('specificHeat', {
      symbol: 'c',
      min: 300,
      max: 1200,
      plausible: [420, 620],
      about: 'of the iron: grey iron 460 cold to 580 at 300 °C',
    }),
    stops: quantity('ratio', { symbol: 'N', min: 1, max: 50, whole: true, about: 'stops in a row' }),
    interval: quantity('time', {
      symbol: 't',
      min: 0,
      max: 3600,
      about: 'between stops; 0: no cooling, the safe side',
    }),
    cooling: quantity('time', {
      symbol: 'τ',
      min: 20,
      max: 5000,
      plausible: [100, 1500],
      about: 'time in which the rise above air falls to 37 %, as measured; of no matter where the interval is 0',
    }),
    start: quantity('temperature', { symbol: 'T0', min: 230, max: 900, about: 'of the iron before the first stop' }),
    air: quantity('temperature', { symbol: 'Ta', min: 220, max: 340, about: 'of the air' }),
  },
  outputs: {
    rise: result('temperatureDifference', { symbol: 'ΔT', about: 'rise in one stop' }),
    end: result('temperature', { symbol: 'T', about: 'right after the last stop' }),
    uncooled: result('temperature', { symbol: 'Tn', about: 'right after the last stop, had nothing cooled' }),
  },
  conditions: [
    {
      at: 'to',
      holds: ({ from, to }) => to < from,
      says: 'The speed after the stop is not below the speed before it.',
      todo: 'Enter the greater speed as the one before.',
    },
  ],
  formula:
    '{rise} = {turning} × {mass} × ({from}² − {to}²) / 2 × {axle} × {intoIron} / (2 × {iron} × {specificHeat})\nq = e^(−{interval} / {cooling})\n{end} = {air} + ({start} − {air}) × q^({stops} − 1) + {rise} × (1 + q + … + q^({stops} − 1))\n{uncooled} = {start} + {stops} × {rise}',
  sources: [limpert, howHot, rotors],
  cautions: [
    'Hot discs burn skin and ruin hubs’ grease; smoking brakes may flare: let them cool on the move, hands off.',
  ],
  limits: [
    'Mean through the iron. The face is far hotter for a second; a long hill with the brakes dragging is another matter.',
  ],
  checks: [
    {
      inputs: {
        ...common,
        mass: 3000 * POUND,
        from: 88 * 0.3048,
        axle: 0.5,
        iron: 10 * POUND,
        specificHeat: 0.13 * BTU,
      },
      output: 'rise',
      expected: 90.3 * KELVIN,
      tolerance: { rel: 0.015 },
      because: 'the source rounds foot-pounds to 0.0013 Btu, 1.2 % high',
      source: howHot,
      evidence: 'published',
    },
    {
      inputs: { ...common, mass: 1690, from: 134 * KMH, axle: 0.7, iron: 6, specificHeat: 545 },
      output: 'rise',
      expected: 125,
      tolerance: { rel: 0.01 },
      because: 'printed as about; 545 J/(kg·K) is of iron at 250 °C',
      source: rotors,
      evidence: 'published',
    },
    {
      inputs: { ...common, mass: 1690, from: 134 * KMH, axle: 0.7, iron: 5.5, specificHeat: 545 },
      output: 'rise',
      expected: 137,
      tolerance: { rel: 0.01 },
      because: 'printed to 1 °C',
      source: { ...rotors, where: 'the same with a rubbing ring of 5.5 kg: 137 °C' },
      evidence: 'published',
    },
  ],
  compute: ({ mass, turning, from, to, axle, intoIron, iron, specificHeat, stops, interval, cooling, start, air }) => {
    const rise = (((turning * mass * (from * from - to * to)) / 2) * axle * intoIron) / (2 * iron * specificHeat)
    const q = Math.exp(-interval / cooling)
    const times = Math.round(stops)
    const sum = interval === 0 ? times : (1 - q ** times) / (1 - q)
    return {
      rise,
      end: air + (start - air) * q ** (times - 1) + rise * sum,
      uncooled: start + times * rise,
    }
  },
})
