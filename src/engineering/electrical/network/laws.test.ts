import { describe, expect, test } from 'vitest'
import type { NetworkElement } from './elements.ts'
import { applyLaw, lawResult, packLaw } from './laws.ts'

const at = (element: NetworkElement, v: number): [current: number, slope: number] => {
  const packed = new Float64Array(4)
  applyLaw(packLaw(element, packed, 0, false), packed, 0, v, 1)
  return [lawResult[0]!, lawResult[1]!]
}
const ends = { id: 'e', a: 'a', b: 'b' }
const lamp: NetworkElement = {
  ...ends,
  type: 'lamp',
  ratedVoltage: 12,
  ratedPower: 21,
  exponent: 0.55,
  coldResistance: 0.5,
}
const fan: NetworkElement = {
  ...ends,
  type: 'motor',
  ratedVoltage: 13,
  runningCurrent: 18,
  stallResistance: 0.15,
  loading: 'fan',
}
const pump: NetworkElement = { ...fan, loading: 'constant' }
const all: NetworkElement[] = [
  { ...ends, type: 'resistor', ohm: 2 },
  { ...ends, type: 'battery', emf: 12, internalResistance: 0.02 },
  { ...ends, type: 'battery', emf: 12, internalResistance: 0.02, acceptance: 5 },
  { ...ends, type: 'alternator', setpoint: 14, internalResistance: 0.02, limit: 60 },
  lamp,
  { ...ends, type: 'constantCurrent', current: 3, minimumVoltage: 8 },
  { ...ends, type: 'constantPower', power: 100, minimumVoltage: 6 },
  { ...ends, type: 'diode', forwardVoltage: 0.7, onResistance: 0.02, reverseLeak: 1e-6 },
  fan,
  pump,
]

describe('laws of the elements', () => {
  test.each(all)('$type: the slope is the derivative, and the law is continuous', (element) => {
    for (let v = -20.0037; v < 20; v += 0.0931) {
      const [low, slopeLow] = at(element, v - 1e-6)
      const [high, slopeHigh] = at(element, v + 1e-6)
      const steepest = Math.max(Math.abs(slopeLow), Math.abs(slopeHigh))
      expect(Math.abs(high - low)).toBeLessThanOrEqual(2e-6 * steepest * 1.01 + 1e-9)
      if (Math.abs(slopeLow - slopeHigh) < 1e-3 * steepest)
        expect((high - low) / 2e-6).toBeCloseTo((slopeLow + slopeHigh) / 2, 2)
    }
  })

  test.each(all.filter(({ type }) => type !== 'constantPower'))('$type never falls as the voltage rises', (element) => {
    let last = Number.NEGATIVE_INFINITY
    for (let v = -20; v < 20; v += 0.01) {
      const [current] = at(element, v)
      expect(current).toBeGreaterThanOrEqual(last - 1e-12)
      last = current
    }
  })

  test('a lamp takes its rated power at rated voltage; at 14 V the exponent 0.55 gives (14/12)^1.55 of it', () => {
    expect(12 * at(lamp, 12)[0]).toBeCloseTo(21, 10)
    expect(14 * at(lamp, 14)[0]).toBeCloseTo(21 * (14 / 12) ** 1.55, 10)
    expect(at(lamp, -12)[0]).toBeCloseTo(-1.75, 10)
  })

  test('a lamp is never less than its cold resistance', () => {
    for (let v = 0.001; v < 15; v += 0.01) expect(v / at(lamp, v)[0]).toBeGreaterThanOrEqual(0.5 * (1 - 1e-12))
    expect(at(lamp, 0.02)[0]).toBeCloseTo(0.04, 12)
  })

  test('motors draw their running current at rated voltage, stalled current where they cannot turn', () => {
    // The fan carries its stray load besides: 13 V/(1000 · 0.15 Ω) = 87 mA.
    expect(at(fan, 13)[0]).toBeCloseTo(18 + 13 / 150, 9)
    expect(at(pump, 13)[0]).toBe(18)
    expect(at(pump, 9)[0]).toBe(18)
    expect(at(pump, 1.5)[0]).toBeCloseTo(10, 12)
  })

  test('mechanical power of the fan never exceeds what it is fed, and follows speed cubed', () => {
    const back = (v: number): number => v - (at(fan, v)[0] - v / 150) * 0.15
    const power = (v: number): number => back(v) * (at(fan, v)[0] - v / 150)
    expect(power(13) / power(8)).toBeCloseTo((back(13) / back(8)) ** 3, 9)
    expect(power(13)).toBeLessThan(13 * at(fan, 13)[0])
  })
})
