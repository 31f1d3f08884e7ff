import { describe, expect, it } from 'vitest'
import { Refusal } from '../../units/problem.ts'
import { run } from '../calculation.ts'
import { pipeLoss } from '../fluids/pipeLoss.ts'
import { oilDrain } from './oilDrain.ts'
import { oilFeed } from './oilFeed.ts'
import { oilViscosity } from './oilViscosity.ts'
import { radiantHeat } from './radiantHeat.ts'

const refused = (act: () => unknown): string => {
  try {
    act()
  } catch (error) {
    if (error instanceof Refusal) return error.message
    throw error
  }
  return 'nothing was refused'
}

describe('oil', () => {
  const points = { first: 60e-6, firstTemperature: 313.15, second: 10e-6, secondTemperature: 373.15 }
  it('passes through both points, and thins as it warms', () => {
    const at = (temperature: number) => run(oilViscosity, { ...points, temperature }).outputs.viscosity
    expect(at(313.15)).toBeCloseTo(60e-6, 9)
    expect(at(373.15)).toBeCloseTo(10e-6, 9)
    expect(at(273.15)).toBeGreaterThan(5 * at(313.15))
    expect(refused(() => run(oilViscosity, { ...points, second: 70e-6, temperature: 300 }))).toMatch(/not thinner/)
  })
  const feed = {
    pressure: 3e5,
    bore: 0.003,
    length: 0.5,
    restrictor: 0.001,
    coefficient: 0.62,
    density: 840,
    viscosity: 10e-6,
    roughness: 0,
  }
  it('the losses of pipe and restrictor add up to the pressure, the pipe’s as another calculation has it', () => {
    const { flow, restrictorLoss } = run(oilFeed, feed).outputs
    const { loss } = run(pipeLoss, {
      flow,
      bore: 0.003,
      length: 0.5,
      roughness: 0,
      fittings: 0,
      density: 840,
      viscosity: 10e-6,
    }).outputs
    expect(loss + restrictorLoss).toBeCloseTo(3e5, 0)
  })
  it('a wide, short pipe of thin oil is not laminar, and loses by another law', () => {
    const wide = { ...feed, bore: 0.004, restrictor: 0.004, coefficient: 1 }
    const { flow, restrictorLoss, reynolds } = run(oilFeed, wide).outputs
    expect(reynolds).toBeGreaterThan(4000)
    const pipe = { flow, bore: 0.004, length: 0.5, roughness: 0, fittings: 0, density: 840, viscosity: 10e-6 }
    expect((run(pipeLoss, pipe).outputs.loss + restrictorLoss) / 3e5).toBeCloseTo(1, 9)
  })
  it('a restrictor counts for much when hot and for nothing when cold', () => {
    const ratio = (viscosity: number) =>
      run(oilFeed, { ...feed, viscosity, restrictor: 0.003, coefficient: 1 }).outputs.flow /
      run(oilFeed, { ...feed, viscosity }).outputs.flow
    expect(ratio(20e-6)).toBeGreaterThan(1.5)
    expect(ratio(2e-3)).toBeLessThan(1.01)
    expect(refused(() => run(oilFeed, { ...feed, restrictor: 0.004 }))).toMatch(/wider than the pipe/)
  })
  it('a drain passes more when steeper, wider or hotter', () => {
    const at = (change: object) =>
      run(oilDrain, { bore: 0.016, slope: 0.3, viscosity: 1e-5, roughness: 1.5e-6, ...change }).outputs.flow
    for (const more of [{ slope: 0.6 }, { bore: 0.019 }, { viscosity: 5e-6 }]) expect(at(more)).toBeGreaterThan(at({}))
  })
})

describe('heat beside a pipe', () => {
  const place = {
    radius: 0.03,
    distance: 0.1,
    pipe: 873,
    emissivity: 0.8,
    shields: 0,
    diameter: 0.01,
    absorbs: 0.9,
    surroundings: 333,
  }
  const at = (change: object) => run(radiantHeat, { ...place, ...change }).outputs
  it('lies between air and pipe, the side that faces above the mean', () => {
    const { facing, mean } = at({})
    expect(facing).toBeGreaterThan(mean)
    expect(mean).toBeGreaterThan(333)
    expect(facing).toBeLessThan(873)
  })
  it('falls with distance and with every shield, and nearly to the air far away', () => {
    expect(at({ distance: 0.2 }).facing).toBeLessThan(at({}).facing)
    expect(at({ shields: 1 }).heat).toBeCloseTo(at({}).heat / 2, 9)
    expect(at({ shields: 2 }).facing).toBeLessThan(at({ shields: 1 }).facing)
    expect(at({ distance: 5 }).mean - 333).toBeLessThan(10)
    expect(refused(() => at({ distance: 0.02 }))).toMatch(/nearer to the axis/)
  })
})
