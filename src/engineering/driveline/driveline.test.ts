import { describe, expect, it } from 'vitest'
import { Refusal } from '../../units/problem.ts'
import { propagate, run } from '../calculation.ts'
import { DEGREE, G, RPM } from '../exactUnits.ts'
import { clutchTorque } from './clutchTorque.ts'
import { cornerWeights } from './cornerWeights.ts'
import { cruisingRevs } from './cruisingRevs.ts'
import { jointAngle } from './jointAngle.ts'
import { jointLimit } from './jointLimit.ts'
import { jointPair } from './jointPair.ts'
import { mountReaction } from './mountReaction.ts'
import { shaftShear } from './shaftShear.ts'
import { shaftYield } from './shaftYield.ts'
import { swappedLoads } from './swappedLoads.ts'
import { tiltHeight } from './tiltHeight.ts'
import { tyreTorque } from './tyreTorque.ts'
import { whirlingSpeed } from './whirlingSpeed.ts'

const refused = (act: () => unknown): string => {
  try {
    act()
  } catch (error) {
    if (error instanceof Refusal) return error.message
    throw error
  }
  return 'nothing was refused'
}

describe('clutch and tyres', () => {
  it('a worn-in lining passes less than a new one, and both agree on a thin ring', () => {
    const at = (inner: number) =>
      run(clutchTorque, { clamp: 5000, friction: 0.35, outer: 0.24, inner, faces: 2 }).outputs
    expect(at(0.15).worn).toBeLessThan(at(0.15).fresh)
    expect(at(0.238).worn / at(0.238).fresh).toBeCloseTo(1, 4)
    expect(refused(() => at(0.24))).toMatch(/inside is not smaller than its outside/)
  })
  it('load moves to a driven rear axle and off a driven front; with all driven none of it matters', () => {
    const car = { frontMass: 700, rearMass: 600, height: 0.6, wheelbase: 2.5, grip: 0.8, radius: 0.3 }
    const at = (driven: 'front' | 'rear' | 'all') => run(tyreTorque, { ...car, driven }).outputs
    expect(at('all').acceleration).toBeCloseTo(0.8 * G, 9)
    // By moments about the other axle: N·L = m·g·a + m·a·h.
    for (const [driven, mass, sign] of [
      ['rear', 600, 1],
      ['front', 700, -1],
    ] as const) {
      const { force, acceleration } = at(driven)
      expect(force / 0.8).toBeCloseTo(G * mass + (sign * 1300 * acceleration * 0.6) / 2.5, 6)
    }
    expect(refused(() => run(tyreTorque, { ...car, driven: 'rear', height: 2.4, grip: 1.5 }))).toMatch(
      /front wheels would leave the road/,
    )
  })
})

describe('propeller shaft', () => {
  it('at the torque of yield its shear is 0.577 of the strength', () => {
    const tube = { diameter: 0.0762, wall: 0.002 }
    const { torque } = run(shaftYield, { strength: 350e6, ...tube }).outputs
    expect(run(shaftShear, { torque, ...tube }).outputs.shear).toBeCloseTo(350e6 / Math.sqrt(3), -1)
    expect(refused(() => run(shaftShear, { torque, diameter: 0.02, wall: 0.02 }))).toMatch(/thicker than half/)
  })
  it('whirls four times faster at half the length, and hardly otherwise by its wall', () => {
    const at = (length: number, wall: number) =>
      run(whirlingSpeed, { length, diameter: 0.07, wall, modulus: 206e9, density: 7850 }).outputs.critical
    expect(at(0.7, 0.002) / at(1.4, 0.002)).toBeCloseTo(4, 9)
    expect(at(1.4, 0.004)).toBeLessThan(at(1.4, 0.002))
    expect(at(1.4, 0.004) / at(1.4, 0.002)).toBeGreaterThan(0.95)
  })
  it('equal angles in phase leave nothing, a quarter turn out of phase they add', () => {
    const pair = (first: number, second: number, phase: number) =>
      run(jointPair, { first: first * DEGREE, second: second * DEGREE, phase, speed: 300 }).outputs.left / DEGREE
    expect(pair(4, 4, 0)).toBe(0)
    expect(pair(4, 4, 1.5707)).toBeCloseTo(4 * Math.SQRT2, 3)
    expect(pair(5, 4, 0)).toBeCloseTo(3, 9)
  })
  it('an angle does not change when both views are turned alike, and is nothing between lines alike', () => {
    const at = (turn: number) =>
      run(jointAngle, { slopeBefore: 0.05, slopeBehind: 0.02, planBefore: turn, planBehind: turn }).outputs.angle
    expect(at(0)).toBeCloseTo(0.03, 9)
    expect(
      run(jointAngle, { slopeBefore: 0.1, slopeBehind: 0.1, planBefore: -0.2, planBehind: -0.2 }).outputs.angle,
    ).toBe(0)
  })
  it('the angle allowed falls with speed, without a step, and past the table', () => {
    const at = (rpm: number) => run(jointLimit, { speed: rpm * RPM }).outputs.angle / DEGREE
    let before = at(100)
    for (let rpm = 200; rpm <= 9000; rpm += 50) {
      expect(at(rpm)).toBeLessThanOrEqual(before + 1e-12)
      expect(before - at(rpm)).toBeLessThan(0.5)
      before = at(rpm)
    }
    expect(at(10 / RPM)).toBe(11.5)
    expect(at(8000)).toBeCloseTo(2, 9)
  })
})

describe('the car', () => {
  it('mounts carry the weight and the couple', () => {
    const { heavy, light, change } = run(mountReaction, { torque: 900, span: 0.6, weight: 800 }).outputs
    expect([heavy + light, heavy - light]).toEqual([1600, 2 * change])
  })
  it('shaft and engine turn alike in a direct gear', () => {
    const { engine, shaft } = run(cruisingRevs, { speed: 30, gear: 1, finalDrive: 4, radius: 0.3 }).outputs
    expect(engine).toBe(shaft)
  })
  it('equal corners lie in the middle; left and right mirrored change only the side', () => {
    const base = { wheelbase: 2.4, frontTrack: 1.3, rearTrack: 1.4 }
    const even = run(cornerWeights, { frontLeft: 300, frontRight: 300, rearLeft: 300, rearRight: 300, ...base }).outputs
    expect([even.cross, even.left, even.behind, even.aside]).toEqual([0.5, 0.5, 1.2, 0])
    const one = run(cornerWeights, { frontLeft: 320, frontRight: 300, rearLeft: 290, rearRight: 280, ...base }).outputs
    const other = run(cornerWeights, {
      frontLeft: 300,
      frontRight: 320,
      rearLeft: 280,
      rearRight: 290,
      ...base,
    }).outputs
    expect(other.aside).toBeCloseTo(-one.aside, 12)
    expect(other.cross).toBeCloseTo(1 - one.cross, 12)
  })
  it('a tilt finds the height that a rigid car has, from either end', () => {
    // A car drawn as points: masses at height 0.62 m and 1.1 m behind the front axle, wheels of 0.3 m, front raised.
    const [mass, base, rise, behind, high] = [1200, 2.5, 0.7, 1.1, 0.62]
    const tilt = Math.asin(rise / base)
    // Horizontal distance from the front wheel’s middle, front up: along the car and back by the height above the axles.
    const reach = behind * Math.cos(tilt) + (high - 0.3) * Math.sin(tilt)
    const rear = (mass * reach) / (base * Math.cos(tilt))
    const { height } = run(tiltHeight, {
      total: mass,
      level: (mass * behind) / base,
      tilted: rear,
      wheelbase: base,
      rise,
      axleHeight: 0.3,
    }).outputs
    expect(height).toBeCloseTo(high, 9)
    expect(
      refused(() =>
        run(tiltHeight, { total: 1200, level: 600, tilted: 640, wheelbase: 2.5, rise: 1.4, axleHeight: 0.3 }),
      ),
    ).toMatch(/half of the wheelbase/)
  })
  it('carries the scales’ ± into the height: raised twice as much it is about half', () => {
    const spread = (rise: number) => {
      const gain = (1200 * 0.3 * Math.tan(Math.asin(rise / 2.5))) / 2.5
      return propagate(tiltHeight, {
        total: 1200,
        level: { value: 600, plusMinus: 2 },
        tilted: { value: 600 + gain, plusMinus: 2 },
        wheelbase: 2.5,
        rise,
        axleHeight: 0.3,
      }).outputs.height.plusMinus
    }
    expect(spread(0.3) / spread(0.6)).toBeCloseTo(2, 0)
    expect(spread(0.3)).toBeCloseTo((2.5 * Math.SQRT2 * 2) / (1200 * Math.tan(Math.asin(0.3 / 2.5))), 3)
  })
  it('a swap changes the whole by what went and what came, and refuses to take out more than is there', () => {
    const car = { front: 600, rear: 500, wheelbase: 2.5, out: 150, outAt: 0.2, in: 190, inAt: -0.1 }
    const { frontAfter, rearAfter } = run(swappedLoads, car).outputs
    expect(frontAfter + rearAfter).toBeCloseTo(1140, 9)
    // Before the front axle it lifts the rear.
    expect(run(swappedLoads, { ...car, out: 0 }).outputs.rearAfter).toBeLessThan(500)
    expect(refused(() => run(swappedLoads, { ...car, out: 900 }))).toMatch(/More is taken out/)
  })
})
