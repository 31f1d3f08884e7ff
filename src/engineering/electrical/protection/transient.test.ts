/** The transient against its two ends: no loss at once, the steady balance after long; and against a finer division. */
import { describe, expect, it } from 'vitest'
import { run } from '../../calculation.ts'
import { conductorOf } from '../conductorTable.ts'
import { conductorTemperature } from '../conductorTemperature.ts'
import { adiabaticTemperature } from './adiabatic.ts'
import { temperatureAfter } from './transient.ts'

const wire = (size: string) => {
  const row = conductorOf(size)!
  return {
    metal: 'copper' as const,
    area: row.area,
    resistance: row.maximumResistance,
    conductorDiameter: row.conductorDiameter!,
    outerDiameter: row.outerDiameter!,
  }
}

describe('temperatureAfter', () => {
  it.each([
    ['1 mm²', 15],
    ['2.5 mm²', 30],
    ['25 mm²', 120],
  ])('%s at %d A ends where the steady balance stands', (size, current) => {
    const { metal, area: _area, ...rest } = wire(size)
    const steady = run(conductorTemperature, { current, metal, ...rest, ambient: 313.15 }).outputs.temperature
    expect(temperatureAfter(wire(size), current, 2e4, 313.15, 313.15)).toBeCloseTo(steady, 0)
  })
  it.each([
    ['1 mm²', 200, 0.05],
    ['6 mm²', 500, 0.2],
  ])('%s at %d A for %d s is a little cooler than with no loss', (size, current, time) => {
    const it = wire(size)
    // The adiabatic form rests on ρ/A: brought to the same resistance.
    const joule = current ** 2 * time * (it.resistance * it.area * 58e6)
    const closed = adiabaticTemperature('copper', it.area, 313.15, joule) - 313.15
    const found = temperatureAfter(it, current, time, 313.15, 313.15) - 313.15
    expect(found).toBeLessThan(closed)
    expect(found).toBeGreaterThan(0.75 * closed)
  })
  it('grows with time and current, and melts', () => {
    const it = wire('1 mm²')
    const rises = [1, 10, 60, 600].map((time) => temperatureAfter(it, 25, time, 313.15, 313.15))
    expect([...rises].sort((a, b) => a - b)).toEqual(rises)
    expect(temperatureAfter(it, 500, 5, 313.15, 313.15)).toBe(Number.POSITIVE_INFINITY)
  })
  it.each([
    ['2.5 mm²', 40, 50],
    ['1 mm²', 30, 20],
    ['25 mm²', 200, 300],
    ['6 mm²', 140, 7],
  ])('%s at %d A for %d s is right to a kelvin against finer steps', (size, current, time) => {
    const coarse = temperatureAfter(wire(size), current, time, 313.15, 323.15)
    const fine = temperatureAfter(wire(size), current, time, 313.15, 323.15, 1.03)
    expect(Math.abs(coarse - fine)).toBeLessThan(1)
  })
  it('agrees with the two halves of the same time taken one after the other near the steady state', () => {
    const it = wire('10 mm²')
    const once = temperatureAfter(it, 80, 4000, 313.15, 313.15)
    const again = temperatureAfter(it, 80, 2000, 313.15, temperatureAfter(it, 80, 2000, 313.15, 313.15))
    expect(once).toBeCloseTo(again, 0)
  })
})
