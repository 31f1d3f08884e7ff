import { describe, expect, it } from 'vitest'
import { contextOf } from '../context.ts'
import { small, wire } from '../small.testing.ts'
import { voltageFindings } from '../voltageRules.ts'

/** 60 A alternator, 40 A of load, a 60 Ah battery whose charging current nobody measured. */
const driving = (spec: { rest?: number; charge?: number; acceptance?: number; ambient?: number }) =>
  small((build) => {
    const c = build.collections
    c.devices.battery!.spec = {
      kind: 'battery',
      restedVoltage: { value: spec.rest ?? 12.65 },
      internalResistance: { value: 0.006 },
      capacity: { value: 60 * 3600 },
      ...(spec.charge === undefined ? {} : { stateOfCharge: { value: spec.charge } }),
      ...(spec.acceptance === undefined ? {} : { acceptance: { value: spec.acceptance } }),
    }
    c.devices.engine = {
      id: 'engine',
      name: 'Engine stud',
      zone: 'bay',
      pins: { S: {} },
      spec: { kind: 'earth-stud', on: 'engine', contactResistance: { value: 2e-4 } },
    }
    c.devices.alternator = {
      id: 'alternator',
      name: 'Alternator',
      zone: 'bay',
      pins: { 'B+': {} },
      spec: {
        kind: 'alternator',
        setpoint: { value: 14.2 },
        internalResistance: { value: 0.005 },
        hotOutputIdle: { value: 30 },
        hotOutputCruise: { value: 60 },
      },
    }
    c.wires['W-6'] = wire('W-6', 'alternator.B+', 'battery.+', 50e-6, { unfusedBecause: 'test' })
    c.wires['W-7'] = wire('W-7', 'engine.S', 'stud.S', 50e-6)
    c.wires['W-8'] = wire('W-8', 'battery.+', 'heater.1', 16e-6, { unfusedBecause: 'test' })
    c.wires['W-9'] = wire('W-9', 'heater.2', 'stud.S', 16e-6)
    c.devices.heater = {
      id: 'heater',
      name: 'Heater',
      zone: 'bay',
      pins: { 1: {}, 2: {} },
      spec: { kind: 'heater' },
      loads: [
        {
          id: 'it',
          from: '1',
          to: '2',
          law: { type: 'current', current: { value: 40 }, minimumVoltage: { value: 6 } },
        },
      ],
    }
    Object.assign(c.cases.lit!, {
      engine: 'cruise',
      alternator: 'cruise',
      ambient: { value: spec.ambient ?? 298.15 },
      switches: {},
    })
  })
const solve = (build: ReturnType<typeof small>) => contextOf(build).cases[0]!
const terminals = (build: ReturnType<typeof small>) => {
  const lit = solve(build)
  return lit.voltages['battery.+']! - lit.voltages['battery.-']!
}

describe('a battery while the engine runs', () => {
  it('when rested and full takes little: the car stands near the set voltage, not at 12.8 V for ever', () => {
    expect(terminals(driving({}))).toBeGreaterThan(13.7)
  })
  it('when discharged pulls the voltage down at first, and less and less as it fills', () => {
    const volts = [0.2, 0.5, 0.7, 0.85, 1].map((charge) => terminals(driving({ rest: 12.2, charge })))
    expect(volts[0]).toBeLessThan(12.6)
    for (let n = 1; n < volts.length; n += 1) expect(volts[n]!).toBeGreaterThanOrEqual(volts[n - 1]! - 1e-9)
    expect(volts.at(-1)).toBeGreaterThan(13.7)
  })
  it('when cold takes less', () => {
    const [warm, cold] = [298.15, 263.15].map((ambient) => terminals(driving({ rest: 12.2, charge: 0.4, ambient })))
    expect(cold!).toBeGreaterThan(warm! + 0.5)
  })
  it('takes what the builder measured before what the curve says', () => {
    const lit = solve(driving({ charge: 0.2, acceptance: 2 }))
    expect(lit.voltages['battery.+']! - lit.voltages['battery.-']!).toBeGreaterThan(13.7)
    expect(lit).not.toHaveProperty('plusMinus')
  })
  it('carries the ± of a reckoned current into the voltages, and says where it comes from', () => {
    const lit = solve(driving({ rest: 12.45 }))
    expect(lit.assumed.join()).toMatch(/battery: takes 16\.2 A ± [\d.]+ A at 75 % charge \(from its rested voltage/)
    // 16 ± 12 A with 20 A to spare: at the upper end the alternator is at its limit.
    expect(lit.plusMinus).toBeGreaterThan(0.5)
  })
  it('whose reckoned current might take the volts that a load needs leaves the load unknown, and asks for it', () => {
    const of = (build: ReturnType<typeof small>) => {
      build.collections.devices.heater!.loads![0]!.needs = { value: 13 }
      return voltageFindings(contextOf(build)).find(({ subject }) => subject === 'devices/heater')
    }
    expect(of(driving({ rest: 12.45 }))).toMatchObject({
      verdict: 'unknown',
      missing: 'charging current taken after twenty minutes of Battery',
    })
    expect(of(driving({ rest: 12.45, acceptance: 16 }))).toMatchObject({ verdict: 'sound' })
  })
  it('of which neither charging current nor capacity is known leaves the case unknown', () => {
    const build = driving({})
    const { spec } = build.collections.devices.battery!
    if (spec.kind === 'battery') delete spec.capacity
    expect(solve(build).missing.map(({ datum }) => datum)).toContainEqual(
      'charging current taken after twenty minutes, or capacity and state of charge',
    )
  })
})

it('an alternator gives its hot output at idle and no more', () => {
  const build = driving({ acceptance: 1 })
  build.collections.cases.lit!.alternator = 'idle'
  build.collections.cases.lit!.engine = 'idle'
  expect(solve(build).currents['W-6']).toBeCloseTo(30, 6)
})

describe('a starter', () => {
  const cranking = (stall?: number, resistance = 0.006) =>
    small((build) => {
      const c = build.collections
      c.devices.battery!.spec = {
        kind: 'battery',
        restedVoltage: { value: 12.6 },
        internalResistance: { value: resistance },
      }
      c.devices.starter = {
        id: 'starter',
        name: 'Starter',
        zone: 'bay',
        pins: { 30: {}, 50: {}, 31: {} },
        spec: {
          kind: 'starter',
          crankingCurrent: { value: 180 },
          solenoidResistance: { value: 1 },
          pullIn: { value: 7 },
          ...(stall === undefined ? {} : { stallCurrent: { value: stall } }),
        },
      }
      c.wires['W-6'] = wire('W-6', 'battery.+', 'starter.30', 25e-6, { unfusedBecause: 'starter cable' })
      c.wires['W-7'] = wire('W-7', 'starter.31', 'stud.S', 25e-6)
      c.wires['W-8'] = wire('W-8', 'switch.2', 'starter.50', 2.5e-6)
      c.wires['W-5'] = wire('W-5', 'battery.-', 'stud.S', 25e-6)
      c.cases.lit!.engine = 'cranking'
    })
  it('is a motor that asks for its cranking current while it turns', () => {
    expect(solve(cranking(500)).currents['W-6']).toBeCloseTo(180, 6)
  })
  it('that stalls on a weak battery draws by its winding', () => {
    const { currents, voltages } = solve(cranking(240, 0.025))
    const across = voltages['starter.30']! - voltages['starter.31']!
    // 12 V / 240 A = 50 mΩ and the contact’s 0.5 mΩ.
    expect(currents['W-6']! * 50.5e-3).toBeCloseTo(across, 3)
    expect(currents['W-6']).toBeLessThan(180)
  })
  it('whose stalled current is below its cranking one is not solved with a guess', () => {
    expect(solve(cranking(150)).missing.map(({ datum }) => datum)).toContain('a stalled current above the cranking one')
  })
  it('is fed by a battery as cold as the morning, where it is cranked', () => {
    const [warm, cold] = [undefined, 255.15].map((ambient) => {
      const build = cranking(500)
      const { spec } = build.collections.devices.battery!
      if (spec.kind === 'battery') spec.coldCranking = { value: 510 }
      if (ambient !== undefined) build.collections.cases.lit!.ambient = { value: ambient }
      const { voltages, currents } = solve(build)
      return { across: voltages['battery.+']! - voltages['battery.-']!, current: Math.abs(currents['W-5']!) }
    })
    // 6 mΩ as entered; 5.1 V / 510 A = 10 mΩ at −18 °C.
    expect((12.6 - warm!.across) / warm!.current).toBeCloseTo(6e-3, 4)
    expect((12.6 - cold!.across) / cold!.current).toBeCloseTo(10e-3, 4)
  })
})
