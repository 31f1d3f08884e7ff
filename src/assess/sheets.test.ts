import { describe, expect, it } from 'vitest'
import type { Build } from '../model/build.ts'
import { assess } from './assess.ts'
import { small, wire } from './small.testing.ts'

/** The small build with its lamp as a pump of the fuel sheet, at full load on the battery alone. */
const fuelled = (change?: (build: Build) => void): Build =>
  small((b) => {
    b.collections.cases.lit!.engine = 'full load'
    b.sheets.engine = { name: 'Engine', charging: 'none', targetPower: { value: 1e5 } }
    b.sheets.fuel = {
      density: { value: 750 },
      specificConsumption: { value: 300 / 3.6e9 },
      dutyLimit: 0.85,
      railPressure: { value: 3e5 },
      railReference: 'atmosphere',
      injectors: { devices: [], count: 4, flow: { value: 3e-3 }, flowPressure: { value: 3e5 } },
      pump: {
        device: 'lamp',
        ratedVoltage: { value: 12 },
        voltageExponent: 1,
        curve: [
          [{ value: 2e5 }, { value: 2e-5 }],
          [{ value: 4e5 }, { value: 1e-5 }],
        ],
      },
    }
    change?.(b)
  })
const one = (build: Build, rule: string) => assess(build).findings.find((finding) => finding.rule === rule)

describe('pump-supports-power', () => {
  it('takes the solved volts at the pump to a flow and a power', () => {
    const { figures } = assess(fuelled())
    // Half way between the two points: 1.5e-5 m³/s at 12 V; P = V·ρ/b.
    expect(figures.pumpFlow).toBeCloseTo((1.5e-5 * figures.pumpVolts!) / 12, 12)
    expect(figures.powerSupportedByPump).toBeCloseTo((figures.pumpFlow! * 750) / (300 / 3.6e9), 3)
    expect(one(fuelled(), 'pump-supports-power')?.verdict).toBe('sound')
  })
  it('falls when the feed gets thinner, until the power is not fed', () => {
    const thin = fuelled((b) => {
      b.collections.wires['W-3']!.area = { value: 0.5e-6 }
      b.collections.wires['W-3']!.length = { value: 30 }
    })
    expect(assess(thin).figures.pumpVolts).toBeLessThan(assess(fuelled()).figures.pumpVolts! - 1)
    expect(one(thin, 'pump-supports-power')?.verdict).toBe('no-go')
  })
  it('names what is missing', () => {
    expect(
      one(
        fuelled((b) => delete b.sheets.fuel!.pump!.curve),
        'pump-supports-power',
      ),
    ).toMatchObject({
      verdict: 'unknown',
      missing: 'the pump’s flow curve',
    })
  })
})

it('a pump behind a relay whose coil is not described is unknown, not dead', () => {
  const build = fuelled((b) => {
    const c = b.collections
    c.devices.relay = {
      id: 'relay',
      name: 'Relay',
      zone: 'bay',
      pins: { 30: {}, 87: {}, 85: {}, 86: {} },
      spec: { kind: 'relay' },
    }
    c.wires['W-3'] = wire('W-3', 'switch.2', 'relay.30')
    c.wires['W-6'] = wire('W-6', 'switch.2', 'relay.86')
    c.wires['W-7'] = wire('W-7', 'relay.85', 'stud.S')
    c.wires['W-8'] = wire('W-8', 'relay.87', 'lamp.+')
    // Without a path of its own the pump lies at 0 V on both sides.
    c.devices.bleed = {
      id: 'bleed',
      name: 'Bleed',
      zone: 'bay',
      pins: { 1: {}, 2: {} },
      spec: { kind: 'resistor', resistance: { value: 1e4 } },
    }
    c.wires['W-9'] = wire('W-9', 'bleed.1', 'lamp.+')
    c.wires['W-10'] = wire('W-10', 'bleed.2', 'stud.S')
  })
  expect(one(build, 'pump-supports-power')).toMatchObject({
    verdict: 'unknown',
    missing: 'resistance of the coil of Relay',
  })
})

describe('injector-duty', () => {
  it('is P·b / (n·Q), against the limit', () => {
    expect(assess(fuelled()).figures.injectorDuty).toBeCloseTo((1e5 * 300) / 3.6e9 / (4 * 3e-3), 12)
    expect(one(fuelled(), 'injector-duty')?.verdict).toBe('sound')
    const more = fuelled((b) => {
      b.sheets.engine!.targetPower = { value: 1.3e5 }
    })
    expect(one(more, 'injector-duty')?.verdict).toBe('no-go')
  })
  it('names what is missing', () => {
    expect(
      one(
        fuelled((b) => delete b.sheets.fuel!.dutyLimit),
        'injector-duty',
      )?.missing,
    ).toBe('duty limit')
  })
})

describe('charge-temperature', () => {
  const charged = (effectiveness: number, change?: (build: Build) => void) =>
    fuelled((b) => {
      b.sheets.air = {
        compressorEfficiency: { value: 0.7 },
        pressureRatio: { value: 2 },
        intakeTemperature: { value: 300 },
        chargeTemperatureLimit: { value: 335 },
        chargeCooler: { kind: 'air to air', coldReference: 'ambient air', expectedEffectiveness: { value: 0.7 } },
      }
      b.collections.cases.lit!.ambient = { value: 300 }
      b.collections.readings['M-1'] = {
        id: 'M-1',
        subject: 'charge-cooler-effectiveness',
        quantity: 'ratio',
        value: effectiveness,
        plusMinus: 0.02,
      }
      change?.(b)
    })
  it('cools by the measured effectiveness', () => {
    // T2 = 300·(1 + (2^(1/3.5) − 1)/0.7) = 393.87 K; half of the rise taken away leaves 346.9 K.
    expect(assess(charged(0.5)).figures.chargeTemperature).toBeCloseTo(346.9, 1)
    expect(one(charged(0.5), 'charge-temperature')?.verdict).toBe('no-go')
    expect(one(charged(0.5), 'charge-cooler-effectiveness')?.verdict).toBe('marginal')
    expect(one(charged(0.75), 'charge-temperature')?.verdict).toBe('sound')
    expect(one(charged(0.75), 'charge-cooler-effectiveness')?.verdict).toBe('sound')
  })
  it('names what is missing', () => {
    expect(
      one(
        charged(0.7, (b) => delete b.sheets.air!.pressureRatio),
        'charge-temperature',
      )?.missing,
    ).toBe('pressure ratio')
  })
})
