import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../../../demo/index.ts'
import { type Build, emptyBuild } from '../../model/build.ts'
import { airChainOf } from '../air/chain.ts'
import { assess } from '../assess.ts'
import { isKnown, type Known } from '../chain/chain.ts'
import { type FuelChain, fuelChainOf } from './chain.ts'
import { injectorFit } from './injectorFit.ts'
import { gasOver } from './losses.ts'
import { thinnestPumpWires } from './pumpVolts.ts'
import { tankCases, ventWords } from './tankCases.ts'
import { tankSender } from './tankSender.ts'

const changed = (change: (build: Build) => void): Build => {
  const build = structuredClone(demoBuild())
  change(build)
  return build
}
const station = (chain: FuelChain, id: string) => chain.stations.find((each) => each.id === id)!
const value = (chain: FuelChain, id: string, figure: string): Known =>
  station(chain, id).figures.find((each) => each.id === figure)!.datum as Known
const capacity = (chain: FuelChain, id: string): number => (station(chain, id).capacity as Known).value

/** kg/m³ of 748 kg/m³ petrol at 42 °C by table 54B: α15 = (346.4228 + 0.43884·748)/748², 27 K above 15 °C. */
const ALPHA = (346.4228 + 0.43884 * 748) / 748 ** 2
const HOT = 748 * Math.exp(-ALPHA * 27 * (1 + 0.8 * ALPHA * 27))

describe('the demo’s fuel chain', () => {
  const chain = fuelChainOf(demoBuild())
  const air = airChainOf(demoBuild())
  /** Manifold of the air chain less what is outside, Pa. */
  const boost = (air.manifold.pressure as Known).value - (air.intake.outsidePressure as Known).value

  it('has at least five stations of known power, and names the pump as the first to give out', () => {
    const limited = chain.stations.filter((each) => each.capacity && isKnown(each.capacity))
    expect(limited.length).toBeGreaterThanOrEqual(5)
    expect(chain.weakest?.id).toBe('pump')
    for (const each of limited) expect(capacity(chain, each.id)).toBeGreaterThanOrEqual(capacity(chain, 'pump'))
  })

  it('sets the pump against rail, boost, losses and its solved volts, by hand', () => {
    // Curve at 4 and 5 bar, 75 and 59 l/h at 13.5 V, exponent 1.6; rail 3 bar + boost of the air chain + what is lost.
    const volts = value(chain, 'pump', 'volts').value
    const across = value(chain, 'pump', 'across').value
    const flow = value(chain, 'pump', 'flow').value
    const byHand = ((75 - 16 * (across / 1e5 - 4)) / 3.6e6) * (volts / 13.5) ** 1.6
    expect(flow).toBeCloseTo(byHand, 9)
    const losses =
      value(chain, 'filter', 'loss').value + value(chain, 'feed', 'loss').value + value(chain, 'suction', 'loss').value
    expect(across).toBeCloseTo(3e5 + boost + losses, -1)
    // P = V·ρ/b with 748 kg/m³ at 15 °C, 723.4 at 42 °C, and 320 g/(kW·h).
    expect(HOT).toBeCloseTo(723.4, 1)
    expect(capacity(chain, 'pump')).toBeCloseTo((flow * HOT) / (320 / 3.6e9), 0)
  })

  it('takes the boost from the air chain: less than the ratio makes, by what is lost before and after the compressor', () => {
    expect((chain.facts.boost as Known).value).toBeCloseTo(boost, 6)
    // 96.6 kPa outside at its altitude × 1.95, less what filter, pipes and cooler lose: about 81 kPa.
    expect(boost).toBeGreaterThan(75e3)
    expect(boost).toBeLessThan(0.95 * 96.7e3)
    expect((chain.facts.boost as Known).working[0]).toMatch(/manifold pressure of the air chain 177\.\d kPa/)
    const bare = fuelChainOf(
      changed((build) => {
        delete build.sheets.air!.pipes
      }),
    ).facts.boost as Known
    expect(bare.value).toBeCloseTo(0.95 * 101325, 6)
    expect(bare.working.join()).toMatch(/the most it can be, for want of pipes/)
  })

  it('feeds less power with hotter fuel, and says how much is not known where its heat is not', () => {
    const at = (kelvin: number | undefined) =>
      fuelChainOf(
        changed((build) => {
          const fuel = build.sheets.fuel!
          if (kelvin === undefined) delete fuel.hotTemperature
          else fuel.hotTemperature = { value: kelvin }
        }),
      )
    const [cool, hot, unknown] = [at(288.15), at(328.15), at(undefined)]
    expect(capacity(hot, 'pump') / capacity(cool, 'pump')).toBeCloseTo(
      Math.exp(-ALPHA * 40 * (1 + 0.8 * ALPHA * 40)),
      6,
    )
    expect(capacity(unknown, 'pump')).toBeCloseTo(capacity(cool, 'pump'), 6)
    const spread = (chain: FuelChain): number => (station(chain, 'pump').capacity as Known).plusMinus
    expect(spread(unknown)).toBeGreaterThan(1.1 * spread(cool))
  })

  it('returns in the tank where the regulator is there: the line carries what is burnt, and no return is asked for', () => {
    const inTank = fuelChainOf(
      changed((build) => {
        const fuel = build.sheets.fuel!
        fuel.regulator = { place: 'in the tank' }
        fuel.lines = fuel.lines!.filter(({ duty }) => duty !== 'return')
        build.sheets.engine!.targetPower = { value: 40e3 }
      }),
    )
    const burnt = (40e3 * 320) / 3.6e9 / HOT
    expect(value(inTank, 'feed', 'velocity').value).toBeCloseTo(burnt / ((Math.PI / 4) * 0.0075 ** 2), 6)
    expect(station(inTank, 'rail')).toMatchObject({ verdict: 'sound', missing: [] })
    expect(station(inTank, 'rail').figures.some(({ id }) => id === 'back')).toBe(false)
    // Less is lost in the line than with the pump's whole flow through it.
    const onTheWay = ({ delivery, facts }: FuelChain): number =>
      (delivery.across as Known).value - (facts.boost as Known).value
    expect(onTheWay(inTank)).toBeLessThan(onTheWay(chain))
  })
  it('lets a reading stand in place of a computed figure, and shows both', () => {
    const figure = station(chain, 'filter').figures.find(({ id }) => id === 'loss')!
    expect(figure).toMatchObject({ origin: 'measured', reading: 'M-4', datum: { value: 21000, plusMinus: 2000 } })
    // 0.09 bar at 120 l/h, by the square of the flow.
    const flow = value(chain, 'pump', 'flow').value * 3.6e6
    expect((figure.superseded as Known).value).toBeCloseTo(9000 * (flow / 120) ** 2, 0)
    expect(station(chain, 'filter')).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(/blocked or the wrong part/),
    })
    const without = fuelChainOf(changed((build) => delete build.collections.readings['M-4']))
    expect(station(without, 'filter').verdict).toBe('sound')
    expect(capacity(without, 'pump')).toBeGreaterThan(capacity(chain, 'pump'))
  })

  it('feeds more power through 2.5 mm² to the pump than through 0.75 mm²', () => {
    const stored = demoBuild()
    const wires = thinnestPumpWires(stored, chain.facts.full)
    expect(wires).toEqual(['W-302', 'W-305'])
    const thick = changed((build) => {
      for (const id of wires) build.collections.wires[id]!.area = { value: 2.5e-6 }
    })
    const after = fuelChainOf(thick)
    expect(value(after, 'pump', 'volts').value).toBeGreaterThan(value(chain, 'pump', 'volts').value + 1)
    expect(capacity(after, 'pump')).toBeGreaterThan(1.15 * capacity(chain, 'pump'))
    expect(assess(thick).figures.powerSupportedByPump).toBeCloseTo(capacity(after, 'pump'), 6)
  })

  it('takes a measured voltage before the solved one', () => {
    const measured = fuelChainOf(
      changed((build) => {
        build.collections.readings['M-9'] = {
          id: 'M-9',
          subject: 'fuel-pump-volts',
          quantity: 'voltage',
          value: 12.9,
          plusMinus: 0.1,
        }
      }),
    )
    expect(value(measured, 'pump', 'volts').value).toBe(12.9)
    expect(capacity(measured, 'pump')).toBeGreaterThan(capacity(chain, 'pump'))
    // ± of volts goes on to the flow: 1.6 × 0.1/12.9 of it, beside what rail pressure and filter bring.
    expect(value(measured, 'pump', 'flow').plusMinus / value(measured, 'pump', 'flow').value).toBeGreaterThan(
      (1.6 * 0.1) / 12.9,
    )
  })

  it('counts fuel once: lambda makes air of it and never more fuel', () => {
    const lean = fuelChainOf(
      changed((build) => {
        build.sheets.fuel!.lambda = { value: 1 }
      }),
    )
    expect(value(lean, 'engine', 'fuel').value).toBe(value(chain, 'engine', 'fuel').value)
    expect(value(lean, 'engine', 'air').value / value(chain, 'engine', 'air').value).toBeCloseTo(1 / 0.82, 9)
  })

  it('scales another fuel by its heating value: E85 asks for about 1.42 of E10’s mass', () => {
    const e85 = fuelChainOf(
      changed((build) => {
        Object.assign(build.sheets.fuel!, { fuel: 'E85', consumptionFuel: 'E10', density: { value: 786.6 } })
      }),
    )
    // References: blends of 41.46 and 29.13 MJ/kg.
    expect(value(e85, 'engine', 'fuel').value / value(chain, 'engine', 'fuel').value).toBeCloseTo(41.46 / 29.13, 3)
    expect(station(e85, 'suction')).toMatchObject({ verdict: 'unknown' })
    expect(station(e85, 'suction').missing.join()).toMatch(/vapour pressure of E85/)
  })

  it('says that boost takes fuel from a rail referenced to the atmosphere', () => {
    const fixed = fuelChainOf(
      changed((build) => {
        build.sheets.fuel!.railReference = 'atmosphere'
      }),
    )
    // 300 kPa at 81 kPa of boost leave 219 kPa, flow by the root.
    expect(value(fixed, 'injectors', 'flow').value / value(chain, 'injectors', 'flow').value).toBeCloseTo(
      Math.sqrt((3e5 - boost) / 3e5),
      9,
    )
  })

  it('adds the dead time to the duty at the target’s speed', () => {
    // 5600 1/min: one cycle of two turns in 21.43 ms; the dead time between 12 and 14 V of the demo’s table.
    const commanded = value(chain, 'injectors', 'commanded').value
    const dead = (commanded - value(chain, 'injectors', 'duty').value) * (120 / 5600)
    expect(dead).toBeGreaterThan(0.84e-3)
    expect(dead).toBeLessThan(1.14e-3)
    expect(station(chain, 'injectors').says).toMatch(/they never close/)
  })

  it('names a pump curve that rises, with the likely cause', () => {
    const rising = fuelChainOf(
      changed((build) => {
        const curve = build.sheets.fuel!.pump!.curve!
        curve[3]![1] = { value: 3e-5 }
      }),
    )
    expect(station(rising, 'pump').verdict).toBe('unknown')
    expect(station(rising, 'pump').problems.join()).toMatch(/rises with pressure.*swapped/)
  })

  it('tells a pump whose efficiency would be over 1', () => {
    const strange = fuelChainOf(
      changed((build) => {
        const { law } = build.collections.devices['fuel-pump']!.loads![0]!
        if (law?.type === 'motor') law.runningCurrent = { value: 0.3 }
      }),
    )
    expect(station(strange, 'pump').problems.join()).toMatch(/efficiency would be over 1.*unit of flow/)
  })

  it('finds fuel that boils at the pump’s inlet', () => {
    const hot = changed((build) => {
      build.sheets.fuel!.hotTemperature = { value: 328.15 }
      build.sheets.fuel!.reidPressure = { value: 80000 }
    })
    const found = assess(hot).findings.find(({ key }) => key === 'fuel-suction:sheet/fuel')
    expect(found?.verdict).toBe('no-go')
    expect(station(fuelChainOf(hot), 'suction').capacity).toMatchObject({ value: 0 })
  })

  it('never says more than that the arithmetic holds', () => {
    for (const found of assess(demoBuild()).findings.filter(({ system }) => system === 'fuel')) {
      expect(found.cautions.join()).toMatch(/qualified person must inspect/)
      if (found.verdict === 'sound') expect(found.todo).toMatch(/inspect|Give the controller/)
    }
  })
})

describe('the tank', () => {
  const by = (build: Build, id: string) => tankCases(fuelChainOf(build)).find((each) => each.id === id)!
  it('grows 48.36 l of cold petrol into its space, by the expansion of table 54B', () => {
    // α15 of 748 kg/m³ = (346.4228 + 0.43884·748)/748² = 1.20585e-3; from 8 to 42 °C the correction is 1.0084 / 0.9673.
    const alpha = (346.4228 + 0.43884 * 748) / 748 ** 2
    const share = (rise: number): number => Math.exp(-alpha * rise * (1 + 0.8 * alpha * rise))
    const warm = (52 * 0.93 * share(-7)) / share(27)
    expect((by(demoBuild(), 'warmed').space as Known).value * 1e3).toBeCloseTo(52 - warm, 6)
  })
  it('overflows when filled to the brim', () => {
    const brim = changed((build) => {
      build.sheets.fuel!.tank!.largestFill = { value: 1 }
    })
    expect(by(brim, 'warmed')).toMatchObject({
      verdict: 'no-go',
      says: expect.stringMatching(/more than the tank has/),
    })
    expect(by(brim, 'shut').verdict).toBe('no-go')
  })
  it('holds a shut tank to its relief, and finds the one without', () => {
    expect(by(demoBuild(), 'shut').verdict).toBe('sound')
    const shut = by(
      changed((build) => delete build.sheets.fuel!.tank!.relief),
      'shut',
    )
    expect(shut.verdict).toBe('no-go')
    // (101.325 − pv,cold)·3.64/1.58·315.15/281.15 + pv,hot − 101.325 with pv 25.0 and 75.0 kPa: about 173 kPa.
    expect((shut.pressure as Known).value / 1e3).toBeGreaterThan(150)
    expect((shut.pressure as Known).value / 1e3).toBeLessThan(200)
  })
  it('pushes out what is full of vapour and heavier than air', () => {
    // pv 75.0 kPa at 42 °C: (75.0·66 + 26.3·28.96)/(8.314·315.15) = 2.18 kg/m³, 1.81 times air.
    const { density } = gasOver(75e3, 315.15, 101325)
    expect(density).toBeCloseTo((75 * 66 + 26.325 * 28.9645) / (8.314462618 * 315.15), 4)
    const onlyValve = changed((build) => {
      const line = build.sheets.fuel!.lines!.find(({ duty }) => duty === 'vent')!
      line.length = { value: 1e-3 }
      line.fittings = { value: 0 }
    })
    // Valve and canister lose 0.6 kPa with 30 l/min of air; 35 l/min of what leaves: 0.6·(35/30)²·1.81 kPa.
    const filled = by(onlyValve, 'filled').pressure as Known
    expect(filled.value / (600 * (35 / 30) ** 2 * (density / 1.204))).toBeCloseTo(1, 1)
    // In with the air: as air.
    expect((by(demoBuild(), 'drawn').pressure as Known).value).toBeLessThan(40)
  })
  it('draws air for what is burnt, not for what the pump moves', () => {
    const drawn = by(demoBuild(), 'drawn')
    expect((drawn.flow as Known).value).toBeCloseTo((150e3 * 320) / 3.6e9 / HOT, 10)
    const thin = by(
      changed((build) => {
        Object.assign(build.sheets.fuel!.tank!, { ventLoss: { value: 2e4 }, ventLossFlow: { value: 1e-5 } })
      }),
      'drawn',
    )
    expect(thin.verdict).toBe('no-go')
  })
  it('makes vapour at its boiling point as fast as heat comes in', () => {
    const boiling = by(
      changed((build) => {
        build.sheets.fuel!.hotTemperature = { value: 330 }
        build.sheets.fuel!.reidPressure = { value: 90000 }
      }),
      'vapour',
    )
    expect(boiling).toMatchObject({ verdict: 'no-go', says: expect.stringMatching(/boils/) })
    // U·I = 10.2 V × 11.5 A = 117 W over 305 kJ/kg, as a gas of 66 g/mol at 330 K.
    expect((boiling.flow as Known).value).toBeCloseTo((117.3 / 305e3) * ((8.3145 * 330) / (0.066 * 101325)), 5)
  })
  it('says that an open vent may be unlawful and that one inside the car is no-go', () => {
    const vent = (end: 'open below the car' | 'open inside the car') =>
      ventWords(
        fuelChainOf(
          changed((build) => {
            build.sheets.fuel!.tank!.ventEnd = end
          }),
        ),
      )
    expect(vent('open below the car')).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(/may be unlawful: canister and purge are a choice/),
    })
    expect(vent('open inside the car').verdict).toBe('no-go')
  })
  it('holds the tank against its level sender', () => {
    expect(tankSender(demoBuild())).toMatchObject({
      verdict: 'sound',
      says: expect.stringMatching(/52\.0 l.*50\.0 l.*96 %/),
    })
    const small = changed((build) => {
      build.sheets.fuel!.tank!.volume = { value: 0.045 }
    })
    expect(tankSender(small)).toMatchObject({
      verdict: 'marginal',
      todo: expect.stringMatching(/^One of both is wrong/),
    })
    expect(assess(small).findings.find(({ rule }) => rule === 'tank-sender')?.verdict).toBe('marginal')
    expect(tankSender(soundBuild())).toBeUndefined()
  })
  it('refuses a fill of more than the tank, with the likely cause', () => {
    const over = by(
      changed((build) => {
        build.sheets.fuel!.tank!.largestFill = { value: 93 }
      }),
      'warmed',
    )
    expect(over).toMatchObject({ verdict: 'unknown', says: expect.stringMatching(/9300 %.*per cent/) })
  })
  it('names what is missing', () => {
    const bare = changed((build) => {
      build.sheets.fuel!.tank = { volume: { value: 0.05 } }
    })
    expect(by(bare, 'drawn')).toMatchObject({
      verdict: 'unknown',
      missing: expect.arrayContaining(['vacuum that the tank stands']),
    })
    expect(ventWords(fuelChainOf(bare)).missing).toEqual([
      'where the vent ends',
      'whether the vent has a rollover valve',
    ])
  })
})

describe('a change of injectors carried through', () => {
  const fitOf = (change: (set: NonNullable<NonNullable<Build['sheets']['fuel']>['injectors']>, build: Build) => void) =>
    injectorFit(fuelChainOf(changed((build) => change(build.sheets.fuel!.injectors!, build))))
  const one = (points: ReturnType<typeof fitOf>, id: string) => points.find((point) => point.id === id)!

  it('finds a coil of 2.4 Ω on a 3 A output, and sizes the resistor', () => {
    const points = fitOf((set) => {
      set.resistance = { value: 2.4 }
    })
    expect(one(points, 'driver')).toMatchObject({
      verdict: 'no-go',
      todo: expect.stringMatching(/resistor of at least [12]\.\d Ω in series/),
    })
  })
  it('holds with resistors, and says their heat', () => {
    const points = fitOf((set) => {
      set.resistance = { value: 2.4 }
      set.seriesResistance = { value: 6.8 }
    })
    expect(one(points, 'driver').verdict).not.toBe('no-go')
    expect(one(points, 'resistor').says).toMatch(/W into heat at full load/)
  })
  it('carries low coils through to the wires and the fuse of their circuit', () => {
    const points = fitOf((set) => {
      set.resistance = { value: 2.4 }
      set.seriesResistance = { value: 3 }
    })
    const circuit = one(points, 'circuit')
    // Four of 5.4 Ω at 11.9 V: 2.2 A each, more than 75 % of the 10 A fuse.
    expect(circuit).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(
        /5\.4 Ω at each, all held on, 1\d\.\d\d V reach.*10 A, then carries 8\.\d A of its 10 A: too much/,
      ),
      // 0.75 mm² of a single injector in the hot bay holds no 15 A fuse.
      todo: expect.stringMatching(/^Fit a fuse of 15 A; W-212.* would not hold 110 % of it: lay 1 mm², or split/),
    })
    expect(one(points, 'driver').verdict).toBe('sound')
    // The circuits as they stand are enough for what they reckon with.
    const same = fitOf((set) => {
      set.resistance = { value: 12.2 }
    })
    expect(one(same, 'circuit')).toMatchObject({ verdict: 'sound', says: expect.stringMatching(/reckon with 12\.2 Ω/) })
  })
  it('finds the wire too thin for the coils, and names the size that would do', () => {
    const points = fitOf((set, build) => {
      set.resistance = { value: 1.2 }
      const { wires } = build.collections
      wires['W-216']!.area = { value: 3.5e-7 as never }
    })
    expect(one(points, 'circuit')).toMatchObject({
      verdict: 'no-go',
      says: expect.stringMatching(/W-2\d\d .*too thin/),
      todo: expect.stringMatching(/^Lay .*mm² at Wire W-2/),
    })
  })
  it('lets a peak-and-hold stage drive them, if the coil reaches its peak', () => {
    const staged = (resistance: number) =>
      fitOf((set, build) => {
        set.resistance = { value: resistance }
        for (const output of Object.values(build.collections.outputs))
          if (output.drives?.startsWith('injector')) {
            output.limit = { value: 6 }
            output.peak = { value: 4 }
            output.hold = { value: 1 }
          }
      })
    const points = staged(2.4)
    expect(one(points, 'driver')).toMatchObject({
      verdict: 'sound',
      says: expect.stringMatching(/let to 4 A and held at 1 A; without the stage they would draw 5\.\d A/),
    })
    // Held at 1 A they ask no more of the circuit than 12 Ω do.
    expect(one(points, 'circuit').verdict).toBe('sound')
    expect(one(staged(4), 'driver')).toMatchObject({
      verdict: 'marginal',
      says: expect.stringMatching(/never reach the stage’s peak of 4 A/),
    })
  })
  it('finds idle below the shortest pulse of large injectors', () => {
    const points = fitOf((set) => {
      set.flow = { value: 0.02 }
      set.shortestPulse = { value: 2e-3 }
    })
    expect(one(points, 'idle')).toMatchObject({ verdict: 'no-go', says: expect.stringMatching(/do not repeat/) })
  })
  it('asks for plugs that differ, and names a table that rises', () => {
    const points = fitOf((set) => {
      set.connector = 'two ways, square'
      set.deadTime = [
        [{ value: 12 }, { value: 1e-3 }],
        [{ value: 14 }, { value: 2e-3 }],
      ]
    })
    expect(one(points, 'plug').verdict).toBe('no-go')
    expect(one(points, 'dead time')).toMatchObject({
      verdict: 'unknown',
      says: expect.stringMatching(/rises with voltage/),
    })
  })
  it('takes slope, fluid and pressure of a card', () => {
    const card = fuelChainOf(
      changed((build) => {
        build.sheets.fuel!.injectors!.card = {
          format: 'injector-card/1',
          name: 'Bench',
          fluid: { name: 'n-heptane', density: { value: 684 } },
          pressure: { value: 2.5e5 },
          slope: { value: 4e-3 },
          deadTime: [[{ value: 12 }, { value: 1e-3 }]],
          coverage: 0.95,
          method: 'bench test',
          provenance: { from: 'own bench' },
        }
      }),
    )
    expect(value(card, 'injectors', 'flow').value).toBeCloseTo(4e-3 * Math.sqrt((HOT * 3) / (684 * 2.5)), 9)
  })
})

describe('three builds, always', () => {
  it('raises no no-go on the sound build', () => {
    expect(
      assess(soundBuild()).findings.filter(({ system, verdict }) => system === 'fuel' && verdict === 'no-go'),
    ).toEqual([])
  })
  it.each([
    ['half', halfBuild],
    ['empty', () => emptyBuild('Empty')],
  ] as const)('names what is missing on the %s build', (_name, build) => {
    const chain = fuelChainOf(build())
    for (const each of chain.stations.filter(({ verdict }) => verdict === 'unknown')) {
      expect(each.missing.length + each.problems.length, each.name).toBeGreaterThan(0)
      expect(each.missing.join()).not.toMatch(/undefined|NaN/)
    }
  })
})
