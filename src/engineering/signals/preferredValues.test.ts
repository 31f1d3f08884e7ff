import { describe, expect, it } from 'vitest'
import { Refusal } from '../../units/problem.ts'
import { CUSTOMARY_TOLERANCE, DECADES, nearestPreferred, preferredValues, SERIES } from './preferredValues.ts'

describe('preferred values', () => {
  // Sums of a decade as three-digit numbers, computed from the tables of IEC 60063; a slip of one value moves them.
  it('keep the standard’s sums and counts', () => {
    const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0)
    expect(sum(DECADES.E24)).toBe(901)
    expect([sum(DECADES.E48), sum(DECADES.E96), sum(DECADES.E192)]).toEqual([18313, 37070, 74599])
    for (const series of SERIES) expect(DECADES[series].length).toBe(Number(series.slice(1)))
  })
  it('of E24 leave the formula at eight values, and only there', () => {
    const off = DECADES.E24.flatMap((value, i) => (Math.round(10 * 10 ** (i / 24)) === value ? [] : [value]))
    expect(off).toEqual([27, 30, 33, 36, 39, 43, 47, 82])
  })
  it('of E192 leave the formula once', () => {
    const off = DECADES.E192.flatMap((value, i) => (Math.round(100 * 10 ** (i / 192)) === value ? [] : [value]))
    expect(off).toEqual([920])
  })
  // qsl.net/g4usp and en.wikipedia.org, first dozen of E96 and the last three of E48.
  it('stand as printed', () => {
    expect(DECADES.E3).toEqual([10, 22, 47])
    expect(DECADES.E6).toEqual([10, 15, 22, 33, 47, 68])
    expect(DECADES.E12).toEqual([10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82])
    expect(DECADES.E96.slice(0, 12)).toEqual([100, 102, 105, 107, 110, 113, 115, 118, 121, 124, 127, 130])
    expect(DECADES.E48.slice(-3)).toEqual([866, 909, 953])
    expect(CUSTOMARY_TOLERANCE.E96).toBe(0.01)
  })
  it('span decades without a double or a gap, exactly the doubles a person would type', () => {
    expect(preferredValues('E6', 680, 4700)).toEqual([680, 1000, 1500, 2200, 3300, 4700])
    expect(preferredValues('E24', 1e-9, 9.1e-9)).toContain(4.7e-9)
    expect(preferredValues('E96', 100, 976e3).length).toBe(4 * 96)
    expect(nearestPreferred('E12', 5000)).toBe(4700)
  })
  it('refuse a span that holds nothing', () => {
    expect(() => preferredValues('E24', 0, 100)).toThrow(Refusal)
    expect(() => preferredValues('E24', 100, 10)).toThrow(/least value above 0/)
  })
})
