/**
 * Temperature of a thermistor from three readings of it.   1/T = A + B·ln R + C·(ln R)³ through (R1, T1), (R2, T2), (R3, T3)
 *   R1  first resistance           Ω  1 … 1e7
 *   T1  first temperature          K  200 … 500
 *   R2  second resistance          Ω  1 … 1e7
 *   T2  second temperature         K  200 … 500
 *   R3  third resistance           Ω  1 … 1e7
 *   T3  third temperature          K  200 … 500
 *   R   resistance now             Ω  1 … 1e7
 *   T   temperature now            K
 * Errors: `out-of-range`, `inconsistent-inputs` (resistance does not fall from each temperature to the next warmer one).
 * Limits: between the readings to hundredths of a kelvin; beyond them the error grows quickly.
 * Source: Steinhart & Hart, Deep-Sea Research 15 (1968) 497 [from memory].
 */
import { calculation, quantity, result } from '../../calculation.ts'
import { boschNtc, laserDriver, semitec, steinhartHart, ZERO_CELSIUS } from '../sources.ts'
import { steinhartHartCurve, steinhartHartThrough } from './curve.ts'

const resistance = (symbol: string, which: string) =>
  quantity('resistance', { symbol, min: 1, max: 1e7, plausible: [20, 3e5], about: `${which} resistance` })
const temperature = (symbol: string, which: string) =>
  quantity('temperature', { symbol, min: 200, max: 500, plausible: [230, 425], about: `${which} temperature` })
const celsius = (value: number): number => value + ZERO_CELSIUS
const through = (
  [r1, t1]: readonly [number, number],
  [r2, t2]: readonly [number, number],
  [r3, t3]: readonly [number, number],
  now: number,
) => ({
  resistance1: r1,
  temperature1: celsius(t1),
  resistance2: r2,
  temperature2: celsius(t2),
  resistance3: r3,
  temperature3: celsius(t3),
  resistance: now,
})

export const thermistorThreePoint = calculation({
  id: 'thermistor-three-point',
  title: 'Temperature of a thermistor from three readings',
  inputs: {
    resistance1: resistance('R1', 'first'),
    temperature1: temperature('T1', 'first'),
    resistance2: resistance('R2', 'second'),
    temperature2: temperature('T2', 'second'),
    resistance3: resistance('R3', 'third'),
    temperature3: temperature('T3', 'third'),
    resistance: quantity('resistance', {
      symbol: 'R',
      min: 1,
      max: 1e7,
      plausible: [20, 3e5],
      about: 'resistance now',
    }),
  },
  outputs: { temperature: result('temperature', { symbol: 'T', about: 'temperature now' }) },
  formula:
    '1/{temperature} = A + B × ln {resistance} + C × (ln {resistance})³\nA, B, C through {resistance1} at {temperature1}, {resistance2} at {temperature2}, {resistance3} at {temperature3}',
  sources: [steinhartHart],
  cautions: ['Boiling water and its steam scald. Hang the sensor in it by its lead, not by hand.'],
  limits: ['NTC thermistors; the readings in any order. Beyond the warmest and coldest reading the curve is a guess.'],
  conditions: [
    {
      at: 'resistance2',
      holds: (given) => {
        const points = [
          [given.temperature1, given.resistance1],
          [given.temperature2, given.resistance2],
          [given.temperature3, given.resistance3],
        ].sort((a, b) => a[0]! - b[0]!)
        return points.slice(1).every((point, i) => point[0]! > points[i]![0]! && point[1]! < points[i]![1]!)
      },
      says: 'Resistance does not fall from each temperature to the next warmer one.',
      todo: 'Measure again with the sensor settled; a sensor whose resistance rises is no NTC thermistor.',
    },
  ],
  checks: [
    {
      inputs: through([32128, 0], [12262, 20], [3542, 50], 19549),
      output: 'temperature',
      expected: celsius(10),
      tolerance: { abs: 0.01 },
      because: 'the fit is printed as good to 0.01 K',
      source: laserDriver,
      evidence: 'published',
    },
    {
      inputs: through([946.6, 100], [27936, 0], [4103, 50], 459.4),
      output: 'temperature',
      expected: celsius(130),
      tolerance: { abs: 0.03 },
      because: 'table printed to four digits, 130 °C is beyond the readings',
      source: boschNtc,
      evidence: 'published',
    },
    {
      inputs: through([27280, 0], [5827, 40], [1451, 85], 2228),
      output: 'temperature',
      expected: celsius(70),
      tolerance: { abs: 0.02 },
      because: 'table printed to four digits',
      source: semitec,
      evidence: 'published',
    },
  ],
  compute: (given) => {
    const found = steinhartHartThrough(
      [given.resistance1, given.resistance2, given.resistance3],
      [given.temperature1, given.temperature2, given.temperature3],
    )
    return { temperature: found ? steinhartHartCurve(found).temperatureOf(given.resistance) : Number.NaN }
  },
})
