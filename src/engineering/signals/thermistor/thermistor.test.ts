import { describe, expect, it } from 'vitest'
import { ZERO_CELSIUS } from '../sources.ts'
import { steinhartHartCurve, steinhartHartThrough } from './curve.ts'
import { fitBeta, fitSteinhartHart, type ThermistorReading } from './fit.ts'
import { BOSCH_M8HT, FRONIUS_10K, LASER_DRIVER, SEMITEC_103AT } from './tables.testing.ts'

const readings = (table: readonly (readonly [number, number])[], only?: readonly number[]): ThermistorReading[] =>
  table
    .filter(([celsius]) => only?.includes(celsius) ?? true)
    .map(([celsius, resistance]) => ({ temperature: celsius + ZERO_CELSIUS, resistance }))
const errorAt = (
  table: readonly (readonly [number, number])[],
  fit: { temperatureOf(r: number): number },
  from: number,
  to: number,
): number =>
  Math.max(
    ...table
      .filter(([celsius]) => celsius >= from && celsius <= to)
      .map(([celsius, r]) => Math.abs(fit.temperatureOf(r) - ZERO_CELSIUS - celsius)),
  )

describe('Steinhart–Hart', () => {
  // The often-quoted coefficients of a 10 kΩ module sheet (studylibfr.com [read]): 32 650 Ω is 0.000 °C, 10 000 Ω is 25.000 °C.
  // Against the other 10 kΩ table the same coefficients, printed to six digits for another part, leave 0.08 K.
  it('gives the published module’s temperatures', () => {
    const curve = steinhartHartCurve({ a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8 })
    expect(curve.temperatureOf(32650) - ZERO_CELSIUS).toBeCloseTo(0, 2)
    expect(curve.temperatureOf(10000) - ZERO_CELSIUS).toBeCloseTo(25, 2)
    expect(errorAt(FRONIUS_10K, curve, 0, 100)).toBeLessThan(0.1)
  })
  it('turns round exactly, whatever the sign of its last coefficient', () => {
    for (const c of [8.76741e-8, 0, -5e-8]) {
      const curve = steinhartHartCurve({ a: 1.129148e-3, b: 2.34125e-4, c })
      for (const r of [300, 1e3, 1e4, 1e5]) expect(curve.resistanceOf(curve.temperatureOf(r)) / r).toBeCloseTo(1, 9)
    }
  })
  // LDT-5525 manual: a third-order fit errs by less than 0.01 K over the range.
  it('through three of the laser driver’s rows meets the others within 0.01 K', () => {
    const fit = fitSteinhartHart(readings(LASER_DRIVER, [50, 0, 20]))
    expect(errorAt(LASER_DRIVER, fit, 0, 50)).toBeLessThan(0.01)
    const { a, b, c } = fit.coefficients as { a: number; b: number; c: number }
    expect(steinhartHartThrough([32128, 12262, 3542], [273.15, 293.15, 323.15])).toMatchObject({
      a: expect.closeTo(a, 12),
      b: expect.closeTo(b, 12),
      c: expect.closeTo(c, 13),
    })
  })
  it('through ice, warm and boiling meets two makers’ tables', () => {
    expect(errorAt(BOSCH_M8HT, fitSteinhartHart(readings(BOSCH_M8HT, [100, 0, 50])), -10, 150)).toBeLessThan(0.025)
    expect(errorAt(SEMITEC_103AT, fitSteinhartHart(readings(SEMITEC_103AT, [40, 85, 0])), -20, 110)).toBeLessThan(0.08)
  })
  it('through a whole table spreads what is left, in any order', () => {
    const fit = fitSteinhartHart(readings(SEMITEC_103AT).reverse())
    expect(fit.largestResidual).toBeLessThan(0.05)
    expect(fit.residuals.length).toBe(SEMITEC_103AT.length)
    expect(fit.residuals.some((each) => each < 0) && fit.residuals.some((each) => each > 0)).toBe(true)
    expect(fit.plusMinusAt(10000)).toBeLessThan(0.05)
  })
})

describe('B form', () => {
  // Semitec: B25/85 = 3435 K ± 1 %. Its plain B curve errs by about +2.5 K at −20 °C, which is why there are two forms.
  it('gives the maker’s B, and errs where it must', () => {
    const fit = fitBeta(readings(SEMITEC_103AT, [25, 85]))
    expect((fit.coefficients as { beta: number }).beta).toBeCloseTo(3435, -1)
    expect((fit.coefficients as { resistance25: number }).resistance25).toBeCloseTo(10000, 6)
    expect(fit.temperatureOf(67770) - ZERO_CELSIUS + 20).toBeGreaterThan(2)
  })
})

describe('± of a fit', () => {
  const three = readings(BOSCH_M8HT, [0, 50, 100])
  it('is not known from three bare readings', () => expect(fitSteinhartHart(three).plusMinusAt(5000)).toBeUndefined())
  it('at a reading is that reading’s own; both sources of it join', () => {
    const fit = fitSteinhartHart(three.map((each) => ({ ...each, temperaturePlusMinus: 0.5 })))
    for (const { resistance } of three) expect(fit.plusMinusAt(resistance)).toBeCloseTo(0.5, 6)
    expect(fit.plusMinusAt(250)).toBeGreaterThan(0.8)
    const both = fitSteinhartHart(
      three.map((each) => ({ ...each, temperaturePlusMinus: 0.3, resistancePlusMinus: each.resistance * 0.01 })),
    )
    // 1 % at 0 °C: B ≈ 3400 K, so 0.01·273²/3400 = 0.22 K.
    expect(both.plusMinusAt(three[0]!.resistance)).toBeCloseTo(Math.hypot(0.3, 0.22), 1)
  })
  it('covers the truth 95 times in 100', () => {
    let seed = 99
    const uniform = (): number => {
      seed = (seed * 48271) % 2147483647
      return seed / 2147483647
    }
    const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
    const truth = steinhartHartCurve({ a: 1.129148e-3, b: 2.34125e-4, c: 8.76741e-8 })
    let inside = 0
    for (let draw = 0; draw < 2000; draw += 1) {
      const fit = fitSteinhartHart(
        [274, 290, 310, 330, 350, 371].map((temperature) => ({
          temperature: temperature + 0.25 * normal(),
          resistance: truth.resistanceOf(temperature),
        })),
      )
      if (Math.abs(fit.temperatureOf(3000) - truth.temperatureOf(3000)) <= fit.plusMinusAt(3000)!) inside += 1
    }
    expect(inside / 2000).toBeGreaterThan(0.935)
    expect(inside / 2000).toBeLessThan(0.965)
  })
  it('widens when the readings disagree more than they may', () => {
    const odd = readings(BOSCH_M8HT, [0, 20, 50, 80, 100]).map((each, i) => ({
      ...each,
      temperature: each.temperature + (i === 2 ? 3 : 0),
      temperaturePlusMinus: 0.2,
    }))
    const fit = fitSteinhartHart(odd)
    expect(fit.disagreement).toBeGreaterThan(3)
    expect(fit.plusMinusAt(4000)).toBeGreaterThan(0.5)
  })
})

describe('bad readings', () => {
  it('are told with what to measure', () => {
    expect(() => fitSteinhartHart(readings(BOSCH_M8HT, [0, 50]))).toThrow(
      /2 readings were given, 3 are needed.*melting ice/,
    )
    const twice = readings(BOSCH_M8HT, [0, 50, 100])
    expect(() => fitSteinhartHart([twice[0]!, { ...twice[1]!, resistance: 30000 }, twice[2]!])).toThrow(
      /From 0 °C \(27936 Ω\) to 50 °C \(30000 Ω\) resistance does not fall\. Measure both again/,
    )
    expect(() =>
      fitSteinhartHart([100, 120, 140].map((resistance, i) => ({ temperature: 273 + 50 * i, resistance }))),
    ).toThrow(/rises with temperature/)
    expect(() => fitBeta([{ temperature: 273, resistance: 0 }, ...twice])).toThrow(
      /no temperature and resistance above zero/,
    )
  })
})
