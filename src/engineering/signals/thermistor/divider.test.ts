import { describe, expect, it } from 'vitest'
import { exactly, type Interval, within } from '../interval.ts'
import { preferredValues } from '../preferredValues.ts'
import type { InputCircuit } from '../resistanceSwitch/circuit.ts'
import { betaCurve } from './curve.ts'
import { bestDividerPullUp, dividerPoint, dividerRange, offStraight, selfHeating } from './divider.ts'
import { fitSteinhartHart } from './fit.ts'
import { SEMITEC_103AT } from './tables.testing.ts'

const circuit: Omit<InputCircuit, 'pullUp'> = {
  supply: exactly(5),
  reference: 'supply',
  earthOffset: exactly(0),
  leakage: exactly(0),
  bits: 10,
  linearity: 0,
}
const sensor = fitSteinhartHart(
  SEMITEC_103AT.map(([celsius, resistance]) => ({ temperature: celsius + 273.15, resistance })),
)
const range: Interval = { low: 253.15, high: 383.15 }
const pullUps = preferredValues('E24', 100, 1e5).map((nominal) => ({ nominal, tolerance: 0.01 }))

describe('a thermistor behind a pull-up', () => {
  // Semitec 103AT at 0 °C, 27.28 kΩ, behind 10 kΩ on 5 V: 27.28/37.28 × 5 = 3.6588 V; the fit of the whole table leaves 0.02 K there, under 1 mV.
  it('gives the divider’s voltage', () =>
    expect(dividerPoint(sensor, { ...circuit, pullUp: exactly(10e3) }, 273.15).voltage).toBeCloseTo(3.6588, 2))
  it('resolves as the slope of the divider says', () => {
    // dV/dT of a B curve at R = Rp: V·B/(4·T²); a step is V/1024. At 25 °C, B 3435 K: 4·298.15²/3435/1024 = 0.1011 K.
    const point = dividerPoint(betaCurve(3435, 1e4, 298.15), { ...circuit, pullUp: exactly(10e3) }, 298.15)
    expect(point.resolution).toBeCloseTo(0.10109, 4)
  })
  it('errs both ways, by no more than any draw from the box of tolerances', () => {
    const full = { ...circuit, pullUp: within(2490, 0.01), earthOffset: { low: -0.02, high: 0.02 } }
    const point = dividerPoint(sensor, full, 363.15, 2)
    let seed = 7
    const from = ({ low, high }: Interval): number => {
      seed = (seed * 48271) % 2147483647
      return seed % 2 ? low + ((high - low) * seed) / 2147483647 : seed % 4 ? low : high
    }
    let [least, most] = [0, 0]
    for (let draw = 0; draw < 20_000; draw += 1) {
      const [p, e, r] = [from(full.pullUp), from(full.earthOffset), point.resistance + from({ low: 0, high: 2 })]
      const share = (5 * r + e * p) / (p + r) / 5 + from({ low: -0.5, high: 0.5 }) / 1024
      const off = sensor.temperatureOf((share * 2490) / (1 - share)) - 363.15
      least = Math.min(least, off)
      most = Math.max(most, off)
    }
    const own = sensor.plusMinusAt(point.resistance)!
    expect(point.error.low! + own).toBeCloseTo(least, 3)
    expect(point.error.high! - own).toBeCloseTo(most, 3)
  })
  it('cannot be read where the converter saturates', () => {
    const point = dividerPoint(sensor, { ...circuit, pullUp: within(100, 0.05), leakage: { low: -1e-3, high: 0 } }, 255)
    expect(point.error.low).toBeUndefined()
  })
  it('warms itself most where it equals the pull-up', () => {
    // 5 V over 2 × 1 kΩ: 6.25 mW; at 2.5 mW/K 2.5 K.
    expect(selfHeating(5, 1000, 1000, 2.5e-3)).toBeCloseTo(2.5, 12)
    expect(dividerPoint(sensor, { ...circuit, pullUp: exactly(1000) }, 360, 0, 2.5e-3).selfHeating).toBeLessThan(2.5)
  })
})

describe('choice of its pull-up', () => {
  it('for resolution evens out the two ends of the range', () => {
    const choice = bestDividerPullUp(sensor, circuit, range, pullUps, 'resolution')
    // With one value of R at each end the coarser end rules; at the best pull-up they are nearly alike.
    const ends = [range.low, range.high].map(
      (t) => dividerPoint(sensor, { ...circuit, pullUp: exactly(choice.pullUp.nominal) }, t).resolution,
    )
    expect(Math.max(...ends) / Math.min(...ends)).toBeLessThan(1.15)
    expect(choice.worst).toBe(Math.min(...choice.tried.map(({ worst }) => worst)))
  })
  it('for linearity meets the inflection formula at the middle of the range', () => {
    // Rp = Rm·(B − 2·Tm)/(B + 2·Tm): textbook linearisation of an NTC divider at one temperature. B 3435, Tm 298.15: 0.704.
    const narrow = { low: 288.15, high: 308.15 }
    const fine = preferredValues('E192', 3000, 20000).map((nominal) => ({ nominal, tolerance: 0 }))
    const { pullUp } = bestDividerPullUp(betaCurve(3435, 1e4, 298.15), circuit, narrow, fine, 'linearity')
    expect(pullUp.nominal / 7042).toBeGreaterThan(0.98)
    expect(pullUp.nominal / 7042).toBeLessThan(1.02)
  })
  it('refuses an empty range', () =>
    expect(() => bestDividerPullUp(sensor, circuit, { low: 300, high: 300 }, pullUps, 'resolution')).toThrow(
      /is empty/,
    ))
  it('lists the range with its ends', () => {
    const points = dividerRange(sensor, circuit, pullUps[30]!, range, 14)
    expect([points[0]!.temperature, points.at(-1)!.temperature]).toEqual([range.low, range.high])
  })
  it('measures how far points lie off a straight line', () => {
    // A parabola x² on 0 … 1 lies within ± 1/8 of its best line (Chebyshev).
    expect(offStraight(Array.from({ length: 101 }, (_, i) => ({ x: i / 100, y: (i / 100) ** 2 })))).toBeCloseTo(
      0.125,
      6,
    )
  })
})
