import { describe, expect, it } from 'vitest'
import { Refusal } from '../../units/problem.ts'
import { run } from '../calculation.ts'
import { coolantBoiling } from './coolantBoiling.ts'
import { coolantHeat } from './coolantHeat.ts'
import { coolantProperties } from './coolantProperties.ts'
import { DENSITY_CHECKSUM, DENSITY_FAHRENHEIT, DENSITY_PRINTED } from './glycolTables.ts'
import { pressureHold } from './pressureHold.ts'
import { radiatorAirFlow } from './radiatorAirFlow.ts'

const refused = (act: () => unknown): string => {
  try {
    act()
  } catch (error) {
    if (error instanceof Refusal) return error.message
    throw error
  }
  return 'nothing was refused'
}

describe('the table of densities', () => {
  it('is kept as printed', () => {
    expect(DENSITY_PRINTED.flat().reduce((sum, value) => sum + value, 0)).toBeCloseTo(DENSITY_CHECKSUM, 6)
    expect(DENSITY_PRINTED.length).toBe(DENSITY_FAHRENHEIT.length)
  })
  it('falls with heat and rises with glycol', () => {
    DENSITY_PRINTED.forEach((row, r) => {
      row.forEach((value, c) => {
        if (r > 0) expect(value).toBeLessThanOrEqual(DENSITY_PRINTED[r - 1]![c]!)
        if (c > 0) expect(value).toBeGreaterThan(row[c - 1]!)
      })
    })
  })
  it('is within 1.3 % of CoolProp 8.0.0, INCOMP::MEG', () => {
    // [share by volume, K, kg/m³, J/(kg·K)], mass fraction by 1113 and 998.2 kg/m³.
    for (const [glycol, temperature, density, heat] of [
      [0.4, 363.15, 1011.0183688251849, 3724.8521215397745],
      [0.5, 368.15, 1018.0815839480505, 3589.2636099240785],
      [0.3, 333.15, 1020.1622292385895, 3792.739956612547],
    ] as const) {
      const found = run(coolantProperties, { glycol, temperature }).outputs
      expect(Math.abs(found.density / density - 1)).toBeLessThan(0.013)
      expect(Math.abs(found.specificHeat / heat - 1)).toBeLessThan(3e-3)
    }
  })
})

describe('boiling', () => {
  const at = (outside: number, cap: number, glycol: number) =>
    run(coolantBoiling, { outside, cap, glycol }).outputs.boilingPoint - 273.15
  it('rises with the cap as the steam tables say (IAPWS IF97), not by 3 °F a psi', () => {
    for (const [psi, celsius] of [
      [4, 106.86],
      [7, 111.27],
      [13, 118.75],
      [20, 125.97],
    ] as const)
      expect(at(101325, psi * 6894.757293168361, 0)).toBeCloseTo(celsius, 1)
  })
  it('falls with altitude, rises with glycol', () => {
    expect(at(8e4, 1e5, 0.4)).toBeLessThan(at(101325, 1e5, 0.4) - 2)
    expect(at(101325, 1e5, 0.5)).toBeGreaterThan(at(101325, 1e5, 0.3) + 3)
  })
})

describe('pressure-hold test', () => {
  const test = {
    gasVolume: 1e-3,
    startPressure: 190e3,
    endPressure: 190e3,
    startTemperature: 293.15,
    endTemperature: 293.15,
    contraction: 0,
    hoseGive: 0,
    outside: 100e3,
    time: 600,
  }
  const lost = (change: Partial<typeof test>) => run(pressureHold, { ...test, ...change }).outputs
  it('finds no leak in a system that only cooled, shrank and let its hoses back', () => {
    const moved = { endTemperature: 291.15, contraction: 3e-6, hoseGive: 20e-6 }
    const { withoutLeak } = lost(moved)
    expect(withoutLeak).toBeLessThan(190e3)
    expect(lost({ ...moved, endPressure: withoutLeak }).lost).toBeCloseTo(0, 12)
  })
  it('1 K of cooling at 190 kPa is 0.65 kPa and no leak; liquid gone is liquid found', () => {
    expect(190e3 - lost({ endTemperature: 292.15 }).withoutLeak).toBeCloseTo(190e3 / 293.15, 3)
    // 10 cm³ of liquid gone from beside 1 l of gas: p falls by 1.01.
    expect(lost({ endPressure: 190e3 / 1.01 }).liquidRate * 600).toBeCloseTo(10e-6, 12)
  })
  it('refuses a test without pressure', () => {
    expect(refused(() => run(pressureHold, { ...test, startPressure: 100e3 }))).toMatch(/no pressure over the outside/)
  })
})

describe('what cannot be', () => {
  it('a fan with more flow against more pressure is refused, with the likely cause', () => {
    expect(
      refused(() =>
        run(radiatorAirFlow, {
          lesserFlow: 0.1,
          lesserPressure: 50,
          greaterFlow: 0.5,
          greaterPressure: 150,
          coreFlow: 0.6,
          coreLoss: 120,
          exponent: 1.7,
          ram: 0,
        }),
      ),
    ).toMatch(/swapped between the points, or the curve is that of the core/)
  })
  it('an engine with an efficiency over 1 is refused, with the likely cause', () => {
    expect(
      refused(() => run(coolantHeat, { power: 1e5, specificConsumption: 5e-8, heatingValue: 1.9e7, share: 0.2 })),
    ).toMatch(/efficiency over 1.*g\/\(kW·h\)/s)
  })
})
