import { describe, expect, it } from 'vitest'
import { Refusal } from '../../units/problem.ts'
import { run } from '../calculation.ts'
import { ARRANGEMENTS, type Arrangement, effectivenessOf, unitsOf } from './effectiveness.ts'
import { exchangerConductance } from './exchangerConductance.ts'
import { heatExchanger } from './heatExchanger.ts'
import { storedHeat } from './storedHeat.ts'
import { timeToTemperature } from './timeToTemperature.ts'

/**
 * Four digits by Mason's series and by the closed forms of Incropera & DeWitt, table 11.3 [from memory], evaluated with
 * Python; the crossflow column again by SciPy 1.17.1 from Nusselt's Bessel form (0.47622, 0.73241, 0.61425).
 */
const TABLE: readonly (readonly [units: number, ratio: number, ...values: readonly number[]])[] = [
  // counterflow, parallel, cross unmixed, greater mixed, lesser mixed
  [1, 0.5, 0.5647, 0.5179, 0.5475, 0.542, 0.5448],
  [1, 1, 0.5, 0.4323, 0.4762, 0.4685, 0.4685],
  [2, 0.5, 0.7746, 0.6335, 0.7324, 0.702, 0.7175],
  [2, 0.75, 0.7218, 0.5542, 0.6711, 0.6362, 0.6451],
  [2, 1, 0.6667, 0.4908, 0.6142, 0.5788, 0.5788],
  [3, 0.5, 0.8744, 0.6593, 0.8197, 0.7564, 0.7885],
  [3, 1, 0.75, 0.4988, 0.6813, 0.6133, 0.6133],
  [5, 1, 0.8333, 0.5, 0.7509, 0.6296, 0.6296],
]
const COLUMNS: readonly Arrangement[] = [
  'counterflow',
  'parallel flow',
  'crossflow, both unmixed',
  'crossflow, greater mixed',
  'crossflow, lesser mixed',
]

describe('effectiveness by units', () => {
  it.each(COLUMNS.map((name, column) => [name, column] as const))('%s stands as tabled', (name, column) => {
    for (const [units, ratio, ...values] of TABLE)
      expect(Math.abs(effectivenessOf(name, units, ratio) - values[column]!), `${units}, ${ratio}`).toBeLessThan(1e-4)
  })
  it('is the same for all where one stream hardly warms, and 0 with no surface', () => {
    for (const name of ARRANGEMENTS) {
      expect(effectivenessOf(name, 1.5, 0)).toBeCloseTo(1 - Math.exp(-1.5), 12)
      expect(effectivenessOf(name, 1.5, 1e-6)).toBeCloseTo(1 - Math.exp(-1.5), 5)
      expect(effectivenessOf(name, 0, 0.5)).toBe(0)
    }
  })
  it('no arrangement beats counterflow or falls below parallel flow, not even where the usual fit does', () => {
    for (const units of [0.1, 0.5, 1, 2, 5, 12, 30])
      for (const ratio of [0.1, 0.5, 0.9, 1])
        for (const name of ARRANGEMENTS) {
          const value = effectivenessOf(name, units, ratio)
          expect(value).toBeLessThanOrEqual(effectivenessOf('counterflow', units, ratio) + 1e-12)
          expect(value).toBeGreaterThanOrEqual(effectivenessOf('parallel flow', units, ratio) - 1e-12)
        }
    // The fit gives 0.3154 here, the series 0.3263, parallel flow 0.3161.
    expect(effectivenessOf('crossflow, both unmixed', 0.5, 1)).toBeCloseTo(0.3263, 4)
  })
  it('goes back to its units, and has none where no surface is enough', () => {
    for (const name of ARRANGEMENTS)
      for (const units of [0.2, 1, 3])
        expect(unitsOf(name, effectivenessOf(name, units, 0.6), 0.6)).toBeCloseTo(units, 9)
    expect(unitsOf('parallel flow', 0.51, 1)).toBeNaN()
  })
})

const refused = (act: () => unknown): string => {
  try {
    act()
  } catch (error) {
    if (error instanceof Refusal) return error.message
    throw error
  }
  return 'nothing was refused'
}

describe('what cannot be', () => {
  const exchange = { arrangement: 'counterflow', conductance: 100, hotRate: 100, coldRate: 200 } as const
  it('a hot stream colder than the cold one is told with its likely cause', () => {
    expect(refused(() => run(heatExchanger, { ...exchange, hotIn: 300, coldIn: 320 }))).toMatch(
      /temperatures are swapped/,
    )
  })
  it('an effectiveness of 1.05 is refused as swapped or heat-soaked sensors', () => {
    expect(
      refused(() =>
        run(exchangerConductance, { arrangement: 'counterflow', effectiveness: 1.05, hotRate: 1, coldRate: 2 }),
      ),
    ).toMatch(/sensors swapped or heat-soaked/)
  })
  it('more than parallel flow can give has no conductance', () => {
    expect(
      refused(() =>
        run(exchangerConductance, { arrangement: 'parallel flow', effectiveness: 0.8, hotRate: 1, coldRate: 1 }),
      ),
    ).toMatch(/gives no figure for conductance/)
  })
  it('a limit that is never reached is no time', () => {
    const { time: _time, ...rest } = storedHeat.checks[0]!.inputs
    expect(refused(() => run(timeToTemperature, { ...rest, reached: 480 }))).toMatch(/settles before it gets there/)
  })
})

it('energy is kept: what leaves the hot stream enters the cold one', () => {
  for (const arrangement of ARRANGEMENTS) {
    const { heat, hotOut, coldOut } = run(heatExchanger, {
      arrangement,
      conductance: 300,
      hotRate: 150,
      coldRate: 400,
      hotIn: 400,
      coldIn: 310,
    }).outputs
    expect(150 * (400 - hotOut)).toBeCloseTo(heat, 6)
    expect(400 * (coldOut - 310)).toBeCloseTo(heat, 6)
  }
})
