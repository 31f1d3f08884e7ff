import { describe, expect, test } from 'vitest'
import { believe, prepareSearch, suspects } from './belief.ts'
import { battery, open, problemOf, resistor } from './faults.testing.ts'
import type { Complaint, Hypothesis } from './hypothesis.ts'

const ELEMENTS = [battery, resistor('j1', 'n0', 'n1', 0.01), resistor('load', 'n1', '0', 6)]
/** Somewhere between 0.1 and 10 Ω, even on a log scale. */
const corroded: Hypothesis = {
  id: 'j1:1 Ω',
  part: 'j1',
  mode: '1 Ω',
  weight: 1,
  effects: [{ kind: 'ohm', element: 'j1', ohm: 1, within: 10 }],
}
/** Called weak below three quarters of its volts: where the joint has more than about 2 Ω. */
const weak: Complaint = { a: 'n1', b: '0', likelihood: (_, volts, healthy) => (volts < 0.75 * healthy ? 1 : 0) }
const searchFor = (hypotheses: readonly Hypothesis[], complaint?: Complaint) =>
  prepareSearch(problemOf(ELEMENTS, hypotheses, ['n1'], complaint ? { complaint } : {}), 400)

describe('forecasts where a complaint was made', () => {
  // 6 / (6 + R + 0.01) = 0.75 · 6 / 6.02 at R = 2.017 Ω; of a range even in log R that is ln(10/2.017) / ln(100) = 0.348,
  // and the mean volts there ∫ 12.6·6/(6.01+R) d(ln R) / ∫ d(ln R) = 12.6·6/6.01 · [1 − ln((6.01+10)/(6.01+2.017)) / ln(10/2.017)].
  test('are those of the ohms that could have caused it, and the fault counts by how many could', () => {
    const share = Math.log(10 / 2.017) / Math.log(100)
    const mean = ((12.6 * 6) / 6.01) * (1 - Math.log(16.01 / 8.027) / Math.log(10 / 2.017))
    const { forecasts, healthy } = searchFor([corroded], weak)
    expect(forecasts).toHaveLength(1)
    expect(Math.abs(forecasts[0]!.share - share)).toBeLessThan(0.07)
    expect(Math.abs(forecasts[0]!.mean[0]! - mean)).toBeLessThan(0.25)
    expect(healthy.mean[0]).toBeCloseTo((12.6 * 6) / 6.02, 6)
    const [whole] = searchFor([corroded]).forecasts
    expect(whole!.share).toBe(1)
    expect(whole!.mean[0]! - forecasts[0]!.mean[0]!).toBeGreaterThan(2)
  })

  test('leave out a fault that cannot have caused it', () => {
    const slight = { ...corroded, effects: [{ kind: 'ohm' as const, element: 'j1', ohm: 0.05, within: 1 }] }
    const without = searchFor([slight, open('j1')], weak)
    expect(without.forecasts.map(({ hypothesis }) => hypothesis)).toEqual([1])
    expect(suspects(believe(without, []))).toEqual([{ part: 'j1', probability: expect.closeTo(0.999, 9) }])
  })

  test('weigh cars that are only half as likely to be complained of by half', () => {
    const half: Complaint = { ...weak, likelihood: () => 0.5 }
    const [forecast] = searchFor([corroded], half).forecasts
    const [whole] = searchFor([corroded]).forecasts
    expect(forecast!.share).toBeCloseTo(0.5, 12)
    expect(forecast!.mean[0]).toBeCloseTo(whole!.mean[0]!, 9)
    expect(forecast!.variance[0]).toBeCloseTo(whole!.variance[0]!, 9)
  })
})
