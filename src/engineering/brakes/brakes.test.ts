import { describe, expect, it } from 'vitest'
import { Refusal } from '../../units/problem.ts'
import { run } from '../calculation.ts'
import { brakeBalance } from './brakeBalance.ts'
import { brakeHeat } from './brakeHeat.ts'
import { pedalNeeded } from './pedalNeeded.ts'
import { pedalPressure } from './pedalPressure.ts'
import { servoHelp } from './servoHelp.ts'
import { shoeFactors } from './shoeFactors.ts'
import { stoppingDistance } from './stoppingDistance.ts'
import { vacuumStrokes } from './vacuumStrokes.ts'
import { YARDSTICKS } from './yardsticks.ts'

const refused = (act: () => unknown): string => {
  try {
    act()
  } catch (error) {
    if (error instanceof Refusal) return error.message
    throw error
  }
  return 'nothing was refused'
}

describe('yardsticks', () => {
  it('have distances and decelerations that say the same: 25.92·s = v²/d, v in km/h', () => {
    // R13-H: 0.0060·v² and 0.0158·v²; R13, N1: v²/130 and 2·v²/115.
    for (const [deceleration, perSquare] of [
      [YARDSTICKS.car.service, 0.006],
      [YARDSTICKS.car.failed, 0.0158],
      [YARDSTICKS.van.service, 1 / 130],
      [YARDSTICKS.van.failed, 2 / 115],
    ] as const)
      expect(Math.abs(1 / (25.92 * perSquare) / deceleration - 1)).toBeLessThan(0.009)
  })
  it('give the way that R13 asks of a van from 80 km/h: 0.15·80 + 80²/130', () => {
    const { van } = YARDSTICKS
    const { distance } = run(stoppingDistance, {
      speed: van.speed,
      deceleration: van.service,
      delay: van.delay,
      mass: 2000,
    }).outputs
    expect(distance).toBeCloseTo(0.15 * 80 + 6400 / 130, 0)
  })
})

describe('pedal and servo', () => {
  const car = {
    frontGain: 1.2e-3,
    rearGain: 4e-4,
    split: 2e6,
    slope: 0.3,
    bore: 0.0222,
    pedal: 4,
    servo: 3,
    greatest: 2e3,
  }
  it('needed and given are each other’s way back, below and beyond run-out and valve', () => {
    for (const line of [5e5, 1.9e6, 4e6, 1.2e7]) {
      const rear = line <= 2e6 ? line : 2e6 + 0.3 * (line - 2e6)
      const needed = run(pedalNeeded, { ...car, road: 1.2e-3 * line + 4e-4 * rear }).outputs
      expect(needed.line).toBeCloseTo(line, 3)
      const { help } = run(servoHelp, { force: needed.force * 4, ratio: 3, area: 0.04, vacuum: 5e4 }).outputs
      expect(help).toBeCloseTo(needed.help, 6)
      const { pressure } = run(pedalPressure, { force: needed.force, ratio: 4, help, bore: 0.0222 }).outputs
      expect(pressure).toBeCloseTo(line, 3)
    }
  })
  it('beyond run-out a newton of the foot is a newton', () => {
    const at = (road: number) => run(pedalNeeded, { ...car, road }).outputs
    const [a, b] = [at(2e4), at(2.1e4)]
    expect(b.help).toBe(a.help)
    expect((b.force - a.force) * 4).toBeCloseTo(b.push - a.push, 6)
  })
  it('refuses a car without brakes, and a servo that adds nothing', () => {
    expect(refused(() => run(pedalNeeded, { ...car, frontGain: 0, rearGain: 0, road: 100 }))).toMatch(/No axle brakes/)
    expect(refused(() => run(servoHelp, { force: 1, ratio: 1, area: 0.02, vacuum: 5e4 }))).toMatch(/adds nothing/)
  })
})

describe('drums and loads', () => {
  it('a shoe’s factor grows faster than friction when leading, slower when trailing', () => {
    const at = (friction: number) =>
      run(shoeFactors, { friction, drum: 0.114, pivot: 0.09, arm: 0.172, start: 0.3, end: 2.2 }).outputs
    const [low, high] = [at(0.3), at(0.4)]
    expect(high.leading / low.leading).toBeGreaterThan(4 / 3)
    expect(high.trailing / low.trailing).toBeLessThan(4 / 3)
  })
  it('refuses a shoe that would lock by itself', () => {
    expect(
      refused(() => run(shoeFactors, { friction: 1, drum: 0.2, pivot: 0.03, arm: 0.3, start: 0.8, end: 2.6 })),
    ).toMatch(/grips by itself/)
  })
  it('with shares as the loads both axles use the same, and refuses a car on its nose', () => {
    const even = { split: 3e7, slope: 1, frontMass: 600, rearMass: 400, height: 0.5, wheelbase: 2.5 }
    // At z = 0.5 the front carries 0.6 + 0.5·0.5/2.5 = 0.7.
    const force = 0.5 * 9.80665 * 1000
    const { frontUsed, rearUsed, rate } = run(brakeBalance, {
      ...even,
      line: 5e6,
      frontGain: (0.7 * force) / 5e6,
      rearGain: (0.3 * force) / 5e6,
    }).outputs
    expect(rate).toBeCloseTo(0.5, 12)
    expect(frontUsed).toBeCloseTo(0.5, 12)
    expect(rearUsed).toBeCloseTo(0.5, 12)
    expect(refused(() => run(brakeBalance, { ...even, line: 3e7, frontGain: 2e-3, rearGain: 0, height: 1.5 }))).toMatch(
      /rear wheels would leave the road/,
    )
  })
})

describe('heat and vacuum', () => {
  it('without an interval every stop adds its rise; with one the row comes to a level', () => {
    const row = {
      mass: 1500,
      turning: 1,
      from: 30,
      to: 0,
      axle: 0.7,
      intoIron: 1,
      iron: 6,
      specificHeat: 500,
      interval: 0,
      cooling: 300,
      start: 300,
      air: 300,
    }
    const flat = run(brakeHeat, { ...row, stops: 5 }).outputs
    expect(flat.end).toBeCloseTo(300 + 5 * flat.rise, 9)
    const cooled = run(brakeHeat, { ...row, stops: 50, interval: 100 }).outputs
    expect(cooled.end).toBeCloseTo(300 + cooled.rise / (1 - Math.exp(-1 / 3)), 3)
    expect(cooled.uncooled).toBeGreaterThan(cooled.end)
  })
  it('strokes let air in until the vacuum is gone, and never past the air outside', () => {
    const servo = { start: 3.5e4, outside: 101325, front: 2.5e-3, rear: 3e-4, reservoir: 0, swept: 8e-4, used: 4e-4 }
    const vacuums = Array.from({ length: 8 }, (_, strokes) => run(vacuumStrokes, { ...servo, strokes }).outputs.vacuum)
    vacuums.slice(1).forEach((vacuum, index) => {
      expect(vacuum).toBeLessThanOrEqual(vacuums[index]!)
    })
    expect(vacuums.at(-1)).toBe(0)
    const kept = run(vacuumStrokes, { ...servo, reservoir: 6e-3, strokes: 2 }).outputs.vacuum
    expect(kept).toBeGreaterThan(vacuums[2]! + 1e4)
    expect(refused(() => run(vacuumStrokes, { ...servo, start: 105000, strokes: 0 }))).toMatch(
      /above the pressure outside/,
    )
  })
})
