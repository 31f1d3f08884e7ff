import { describe, expect, it } from 'vitest'
import { backOnCurve, misread, onCurve } from './earthOffset.ts'

const span: [number, number][] = [
  [0.5, 0],
  [4.5, 1e6],
]

describe('a raised sensor return', () => {
  it('of 0.1 V is 2.5 % of the span of a 0.5–4.5 V sensor: ΔV / 4.0 V', () => {
    const read = misread('voltage', 2.5, 0.1, 5, 0)
    expect((onCurve(span, read) - onCurve(span, 2.5)) / 1e6).toBeCloseTo(0.025, 12)
  })
  it('moves a ratiometric sensor by dV·(1 − x)/Vref, so nothing at full scale', () => {
    expect(misread('ratio of supply', 0.2, 0.1, 5, 0) - 0.2).toBeCloseTo((0.1 * 0.8) / 5, 12)
    expect(misread('ratio of supply', 1, 0.1, 5, 0)).toBeCloseTo(1, 12)
  })
  it('makes a thermistor seem colder: 2.5 kΩ under 2.49 kΩ by the divider worked by hand', () => {
    // V = 0.1 + 4.9 × 2500/4990 = 2.55491 V; R = 2490 × 2.55491/2.44509 = 2601.8 Ω
    expect(misread('resistance', 2500, 0.1, 5, 2490)).toBeCloseTo(2601.8, 0)
  })
  it('is not a reading where it lifts the input to the reference', () => {
    expect(misread('resistance', 2500, 5, 5, 2490)).toBeNaN()
  })
  it('without offset reads true in every form', () => {
    for (const form of ['voltage', 'ratio of supply', 'resistance'] as const)
      expect(misread(form, 0.7, 0, 5, 2490)).toBeCloseTo(0.7, 12)
  })
})

describe('a curve', () => {
  it('is walked both ways, and on along its ends one way', () => {
    expect(onCurve(span, 2.5)).toBeCloseTo(5e5, 6)
    expect(backOnCurve(span, 5e5)).toBeCloseTo(2.5, 12)
    expect(onCurve(span, 0.1)).toBeCloseTo(-1e5, 6)
    expect(backOnCurve(span, 2e6)).toBeUndefined()
  })
})
