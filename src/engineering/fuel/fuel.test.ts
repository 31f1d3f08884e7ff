import { describe, expect, it } from 'vitest'
import { Refusal } from '../../units/problem.ts'
import { run } from '../calculation.ts'
import { colebrook, frictionFactor, haaland } from '../fluids/frictionFactor.ts'
import { pumpHeat } from '../fluids/pumpHeat.ts'
import { sealedSpace } from '../fluids/sealedSpace.ts'
import { suctionMargin } from '../fluids/suctionMargin.ts'
import { benchPulses } from './benchPulses.ts'
import { deadTimeAt, deadTimeFaults } from './deadTime.ts'
import { curveFaults, delivered, type PumpCurve } from './pumpCurve.ts'
import { pumpFlow } from './pumpFlow.ts'

// Python library fluids 1.3.1, friction_factor(Method="Colebrook").
describe('friction factor', () => {
  const LIBRARY = [
    [4000, 0, 0.0399070140556349],
    [1e4, 0, 0.03088295035348769],
    [1e5, 0, 0.01798977308427384],
    [1e6, 0, 0.011645040997991622],
    [1e5, 1e-3, 0.022174535944515097],
    [1e5, 1e-2, 0.03850354352733519],
  ] as const
  it.each(LIBRARY)('at Re %f and ε/d %f is the library’s', (reynolds, roughness, expected) => {
    expect(Math.abs(colebrook(reynolds, roughness) / expected - 1)).toBeLessThan(1e-12)
    // Haaland keeps within 2 % of Colebrook (White).
    expect(Math.abs(haaland(reynolds, roughness) / expected - 1)).toBeLessThan(0.02)
  })
  it('is 64/Re when laminar, and never the smaller where it may be either', () => {
    expect(frictionFactor(1000, 0.01)).toBe(0.064)
    for (const reynolds of [2300, 3000, 3999]) expect(frictionFactor(reynolds, 0)).toBeGreaterThanOrEqual(64 / reynolds)
  })
})

describe('pump against system', () => {
  const curve: PumpCurve = {
    points: [
      [0, 3e-5],
      [4e5, 1e-5],
    ],
    ratedVoltage: 12,
    exponent: 1,
  }
  it('meets a system of no friction at its pressure', () => {
    const met = delivered(curve, 12, () => 2e5)
    expect(met).toMatchObject({ pressure: 2e5 })
    expect('flow' in met && met.flow).toBeCloseTo(2e-5, 10)
  })
  it('meets a quadratic system where both equations hold', () => {
    const system = (flow: number): number => 2e5 + 1e14 * flow * flow
    const met = delivered(curve, 10.8, system)
    if (!('flow' in met)) throw new Error('did not meet')
    expect(met.pressure).toBeCloseTo(system(met.flow), 3)
    expect(met.flow).toBeCloseTo(((3e-5 - (2e-5 * met.pressure) / 4e5) * 10.8) / 12, 10)
  })
  it('says which end of the curve is too short', () => {
    expect(delivered(curve, 12, () => 5e5)).toEqual({ beyond: 'above', pressure: 5e5 })
    expect(
      delivered(
        {
          ...curve,
          points: [
            [2e5, 2e-5],
            [4e5, 1e-5],
          ],
        },
        12,
        () => 1e5,
      ),
    ).toMatchObject({ beyond: 'below' })
  })
  it('names a curve that rises with pressure, with the likely cause', () => {
    expect(
      curveFaults([
        [2e5, 1e-5],
        [3e5, 2e-5],
      ])[0]?.says,
    ).toMatch(/rises with pressure: 36.0 l\/h at 2.00 bar, 72.0/)
    expect(
      curveFaults([
        [2e5, 1e-5],
        [3e5, 2e-5],
      ])[0]?.todo,
    ).toMatch(/swapped/)
    expect(
      curveFaults([
        [2e5, 2e-5],
        [2e5, 1e-5],
      ])[0]?.code,
    ).toBe('doubled-point')
    expect(curveFaults(curve.points)).toEqual([])
  })
})

describe('dead time', () => {
  const table = [
    [14, 0.84e-3],
    [10, 1.62e-3],
    [12, 1.14e-3],
  ] as const
  it('runs straight between two voltages and not beyond them', () => {
    expect(deadTimeAt(table, 13)).toBeCloseTo(0.99e-3, 12)
    expect(deadTimeAt(table, 14)).toBe(0.84e-3)
    expect(deadTimeAt(table, 15)).toBeUndefined()
    expect(deadTimeAt(table, 9)).toBeUndefined()
  })
  it('names a dead time that rises with voltage, and one in the wrong unit', () => {
    expect(
      deadTimeFaults([
        [10, 1e-3],
        [12, 2e-3],
      ])[0]?.says,
    ).toMatch(/rises with voltage: 1.000 ms at 10 V, 2.000 ms at 12 V/)
    expect(deadTimeFaults([[12, 1.1]])[0]?.todo).toMatch(/look at the unit/)
    expect(deadTimeFaults(table)).toEqual([])
  })
})

describe('bench test of pulses', () => {
  // NIST StRD Norris, certified: B0 −0.262323073774029 (sd 0.232818234301152), B1 1.00211681802045 (sd 4.29796848199937e-4).
  const x =
    '0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 447.5 11.6 556.0 228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 229.2 669.1 448.9 0.5'
  const y =
    '0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 448.9 10.8 557.7 228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 228.9 668.4 449.2 0.2'
  it('fits NIST’s Norris set where every point lies on the line', () => {
    const xs = x.split(' ').map(Number)
    const ys = y.split(' ').map(Number)
    // Points near zero leave a line by more than 5 % of themselves: the long ones only.
    const points = xs.map((pulse, i) => ({ pulse, mass: ys[i]! })).filter(({ pulse }) => pulse > 100)
    const found = benchPulses(points)
    expect(found.used).toBe(points.length)
    expect(found.bendBelow).toBeUndefined()
    expect(Math.abs(found.slope.value - 1.00211681802045)).toBeLessThan(found.slope.plusMinus)
    expect(Math.abs(found.deadTime.value - 0.262323073774029 / 1.00211681802045)).toBeLessThan(found.deadTime.plusMinus)
  })
  it('leaves bent short pulses out and says below what', () => {
    const mass = (pulse: number): number => 3e-3 * (pulse - 0.9e-3)
    const points = [1.2e-3, 1.6e-3, 2e-3, 4e-3, 6e-3, 8e-3, 10e-3].map((pulse) => ({ pulse, mass: mass(pulse) }))
    const bent = points.map((point, i) => (i === 0 ? { ...point, mass: point.mass * 0.6 } : point))
    const found = benchPulses(bent)
    expect(found.bendBelow).toBe(1.6e-3)
    expect(found.slope.value).toBeCloseTo(3e-3, 12)
    expect(found.deadTime.value).toBeCloseTo(0.9e-3, 12)
  })
  it('covers the truth with its 95 % intervals', () => {
    let state = 77
    const uniform = (): number => {
      state = (state * 48271) % 2147483647
      return state / 2147483647
    }
    const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
    let covered = 0
    const RUNS = 400
    for (let i = 0; i < RUNS; i += 1) {
      const found = benchPulses(
        [3e-3, 4e-3, 5e-3, 7e-3, 9e-3, 11e-3].map((pulse) => ({
          pulse,
          mass: 3e-3 * (pulse - 0.9e-3) + 2e-8 * normal(),
        })),
      )
      if (Math.abs(found.deadTime.value - 0.9e-3) <= found.deadTime.plusMinus) covered += 1
    }
    // 95 % of 400 with binomial spread.
    expect(covered / RUNS).toBeGreaterThan(0.92)
    expect(covered / RUNS).toBeLessThan(0.98)
  })
  it('refuses three points, and mass that does not rise', () => {
    expect(() => benchPulses([{ pulse: 1e-3, mass: 1e-6 }])).toThrow(Refusal)
    expect(() => benchPulses([1, 2, 3, 4].map((n) => ({ pulse: n * 1e-3, mass: 1e-5 / n })))).toThrow(/does not rise/)
  })
})

describe('figures that cannot be', () => {
  const told = (act: () => unknown): string => {
    try {
      act()
    } catch (error) {
      if (error instanceof Refusal) return error.message
      throw error
    }
    return 'nothing was refused'
  }
  it('a pump of two points that gives more against more pressure', () =>
    expect(told(() => run(pumpFlow, { ...pumpFlow.checks[0]!.inputs, firstFlow: 1e-5 }))).toMatch(
      /more flow against more pressure, which none does\. Look whether two rows are swapped/,
    ))
  it('a liquid under less than its vapour pressure', () =>
    expect(
      told(() => run(suctionMargin, { surfacePressure: 5e4, height: 0, loss: 0, vapourPressure: 7.5e4, density: 740 })),
    ).toMatch(/boils in the tank itself\. Look whether the pressure was read as gauge/))
  it('a pump that makes more power than it takes', () =>
    expect(told(() => run(pumpHeat, { power: 50, flow: 1e-4, pressure: 1e6, density: 740, heat: 2080 }))).toMatch(
      /efficiency would be over 1\. Look at the unit/,
    ))
  it('a space that was shut while its liquid boiled', () =>
    expect(told(() => run(sealedSpace, { ...sealedSpace.checks[0]!.inputs, vapour: 1.2e5 }))).toMatch(/boiled then/))
})
