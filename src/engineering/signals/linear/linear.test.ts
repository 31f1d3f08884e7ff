import { describe, expect, it } from 'vitest'
import { earthShift, linearSensor, twoPointCheck } from './linearSensor.ts'
import { type Track, trackAgreement } from './twoTrack.ts'

// Freescale MPX4250 data sheet, rev 7: at 5.1 V 0.204 V at 0, 4.909 V at 250 kPa, 18.8 mV/kPa.
const sheet = linearSensor([
  { input: 0.204, value: 0 },
  { input: 4.909, value: 250e3 },
])

describe('a straight-line sensor', () => {
  it('has the data sheet’s sensitivity', () => {
    expect(1e3 / sheet.slope).toBeCloseTo(0.0188, 4)
    expect(sheet.inputOf(sheet.valueOf(2.5))).toBeCloseTo(2.5, 12)
    expect(sheet.plusMinusAt(2)).toBeUndefined()
  })
  it('shifts by 2.5 % of span for 0.1 V of earth on 0.5 … 4.5 V', () => {
    const span = linearSensor([
      { input: 0.5, value: 0 },
      { input: 4.5, value: 1 },
    ])
    expect(earthShift(span, 0.1)).toBeCloseTo(0.025, 12)
  })
  // At the middle of the points the ± has a closed form: that of their mean, t·s/√n.
  it('carries the ± of its points, or that of their scatter', () => {
    const known = [1, 2, 3, 4].map((input) => ({ input, value: 10 * input, plusMinus: 0.4 }))
    const fit = linearSensor(known)
    expect(fit.plusMinusAt(2.5)).toBeCloseTo(0.4 / 2, 12)
    const bare = linearSensor([0.1, -0.1, -0.1, 0.1].map((off, i) => ({ input: i, value: 10 * i + off })))
    expect(bare.plusMinusAt(1.5)).toBeCloseTo((4.303 * Math.sqrt(0.04 / 2)) / 2, 9)
  })
  it('is held to two known values', () => {
    const off = (value: number): number => sheet.inputOf(value) + 0.05
    const check = twoPointCheck(
      sheet,
      [
        { input: off(40e3), value: 40e3, plusMinus: 500 },
        { input: off(98e3), value: 98e3, plusMinus: 200 },
      ],
      3500,
    )
    expect(check.gain).toBeCloseTo(1, 9)
    expect(check.zeroError).toBeCloseTo(0.05 * sheet.slope, 6)
    expect(check.agrees).toBe(true)
    expect(
      twoPointCheck(
        sheet,
        [
          { input: 1, value: 40e3 },
          { input: 2, value: 98e3 },
        ],
        0,
      ).agrees,
    ).toBeUndefined()
  })
  it('refuses points without a slope', () => {
    expect(() => linearSensor([{ input: 1, value: 1 }])).toThrow(/two are needed/)
    expect(() =>
      linearSensor([
        { input: 1, value: 1 },
        { input: 1, value: 2 },
      ]),
    ).toThrow(/give no slope/)
    expect(() =>
      linearSensor([
        { input: 1, value: 1 },
        { input: 2, value: 1 },
      ]),
    ).toThrow(/never moves is stuck/)
  })
})

const track = (name: string, closed: number, open: number, tolerance = 0.01): Track => ({
  name,
  points: [
    { share: closed, position: 0 },
    { share: open, position: 1 },
  ],
  tolerance,
})

describe('two tracks', () => {
  it('may disagree by both tolerances over both spans', () => {
    // 0.01/0.7 + 0.01/0.35
    expect(trackAgreement(track('pedal 1', 0.15, 0.85), track('pedal 2', 0.075, 0.425)).largest).toBeCloseTo(
      0.01 / 0.7 + 0.01 / 0.35,
      9,
    )
  })
  it('of opposite slope that cross hide a short at the crossing; at half scale they do not', () => {
    expect(trackAgreement(track('throttle 1', 0.1, 0.9), track('throttle 2', 0.9, 0.1)).shorted).toBe(0)
    // s/2 against s: at share 0.075 one reads −0.107, two 0; at 0.425 one reads 0.393, two 1. Least apart 0.107 less tolerance.
    const half = trackAgreement(track('pedal 1', 0.15, 0.85, 0), track('pedal 2', 0.075, 0.425, 0))
    expect(half.shorted).toBeCloseTo(0.075 / 0.7, 9)
  })
  it('shows what a sweep found, at the worst place', () => {
    const sweep = [0, 0.25, 0.5, 0.75, 1].map((p) => ({
      one: 0.15 + 0.7 * p,
      two: 0.075 + 0.35 * p + (p === 0.5 ? 0.021 : 0),
    }))
    const found = trackAgreement(track('pedal 1', 0.15, 0.85, 0), track('pedal 2', 0.075, 0.425, 0), sweep)
    expect(found.measured).toBeCloseTo(0.06, 9)
    expect(found.at).toBeCloseTo(0.5, 9)
  })
  it('agrees with a search over the box of tolerances on bent maps', () => {
    const one: Track = {
      name: 'a',
      points: [
        { share: 0.1, position: 0 },
        { share: 0.4, position: 0.6 },
        { share: 0.9, position: 1 },
      ],
      tolerance: 0.008,
    }
    const two: Track = {
      name: 'b',
      points: [
        { share: 0.95, position: 0 },
        { share: 0.5, position: 0.3 },
        { share: 0.1, position: 1 },
      ],
      tolerance: 0.012,
    }
    const found = trackAgreement(one, two)
    // Slopes: one 2 then 0.8; two 0.667 then 1.75. Worst where both are steep: between 0.3 and 0.6.
    expect(found.largest).toBeCloseTo(0.008 * 2 + 0.012 * 1.75, 6)
  })
  it('refuses a track that turns back', () =>
    expect(() =>
      trackAgreement(
        {
          ...track('a', 0.1, 0.9),
          points: [
            { share: 0.1, position: 0 },
            { share: 0.6, position: 0.5 },
            { share: 0.5, position: 1 },
          ],
        },
        track('b', 0, 1),
      ),
    ).toThrow(/does not move steadily from position 0.5 to 1/))
})
