/** Earths, straps, back-feeds and open wires on builds small enough to work out by hand. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../../../demo/index.ts'
import type { Build, Device } from '../../model/build.ts'
import { contextOf } from '../context.ts'
import { sensorReturnFindings } from '../signalRules.ts'
import { small, wire } from '../small.testing.ts'
import { raisedEarthFindings, sensorErrorFindings } from './earthRules.ts'
import { keyOffFindings } from './keyOffRules.ts'
import { earthsOf } from './raised.ts'
import { sensorErrorsOf } from './sensorError.ts'
import { strapFindings } from './strapRules.ts'
import { strapsOf } from './strapsOf.ts'

const named = (...pins: [string, string?][]) =>
  Object.fromEntries(pins.map(([id, name]) => [id, name === undefined ? {} : { name }]))
const add = (build: Build, ...devices: Device[]) => {
  for (const each of devices) build.collections.devices[each.id] = each
}
const wires = (build: Build, ...all: ReturnType<typeof wire>[]) => {
  for (const each of all) build.collections.wires[each.id] = each
}

describe('raised earths', () => {
  it('stand above the negative post by the current times the strap, in a lamp circuit worked by hand', () => {
    const context = contextOf(small())
    const row = earthsOf(context).find(({ earth }) => earth === 'stud')!
    const current = Math.abs(context.cases[0]!.currents['W-5']!)
    const strap = context.cases[0]!.bound.network.elements.find(({ id }) => id === 'wire:W-5')!
    expect(current).toBeGreaterThan(3.5)
    expect(row.raised!).toBeCloseTo(current * (strap.type === 'resistor' ? strap.ohm : 0), 9)
    expect(row.returns).toEqual(['Lamp'])
  })
  it('are told once, of the wire that loses the volts, with its next size', () => {
    const context = contextOf(
      small((build) => {
        build.collections.wires['W-5'] = wire('W-5', 'battery.-', 'stud.S', 0.5e-6, { length: { value: 3 } })
      }),
    )
    const found = raisedEarthFindings(context)
    expect(found).toHaveLength(1)
    expect(found[0]!.subject).toBe('wires/W-5')
    expect(found[0]!.todo).toMatch(/mm² in place of 0\.5 mm² on W-5/)
  })
  it('of the sound build are within limits', () => {
    expect(raisedEarthFindings(contextOf(soundBuild()))).toEqual([])
  })
})

/** Controller earthed at the stud, a 0.5–4.5 V sensor of 0–1000 kPa earthed at a second stud behind a thin strap. */
const sensed = (change?: (build: Build) => void) =>
  small((build) => {
    add(
      build,
      {
        id: 'ecu',
        name: 'Controller',
        pins: named(['P', 'switched supply'], ['E', 'power earth'], ['SE', 'sensor earth'], ['I']),
        spec: { kind: 'controller' },
        loads: [
          {
            id: 'electronics',
            from: 'P',
            to: 'E',
            law: { type: 'current', current: { value: 0.5 }, minimumVoltage: { value: 6.5 } },
          },
        ],
      },
      { id: 'gauge', name: 'Rail sensor', pins: named(['S', 'signal'], ['-', 'return']), spec: { kind: 'sensor' } },
    )
    wires(
      build,
      wire('W-10', 'switch.2', 'ecu.P'),
      // The controller hangs on the battery post; the lamp's current raises the stud.
      wire('W-11', 'ecu.E', 'battery.-'),
      wire('W-12', 'gauge.S', 'ecu.I'),
      wire('W-13', 'gauge.-', 'stud.S'),
    )
    build.collections.inputs.rail = {
      id: 'rail',
      name: 'Rail pressure',
      device: 'ecu',
      pin: 'I',
      signal: 'voltage',
      source: 'gauge',
      configured: true,
      reference: { value: 5 },
    }
    build.collections.sensors.rail = {
      id: 'rail',
      name: 'Rail pressure',
      device: 'gauge',
      input: 'rail',
      quantity: 'pressureGauge',
      unit: 'kPa',
      form: 'voltage',
      curve: [
        [0.5, 0],
        [4.5, 1e6],
      ],
    }
    change?.(build)
  })

describe('sensor error', () => {
  it('is the offset over 4.0 V of the span, in the builder’s unit, told by the finding on its return', () => {
    const context = contextOf(sensed())
    const row = sensorErrorsOf(context)[0]!
    const { voltages } = context.cases[0]!
    expect(row.offset).toBeCloseTo(voltages['stud.S']! - voltages['ecu.SE']!, 6)
    expect(row.error!).toBeCloseTo((row.offset! / 4) * 1e6, 3)
    expect(row.words).toMatch(/kPa at 500\skPa/)
    const [found] = sensorReturnFindings(context)
    expect(found!.says).toContain(row.words)
    // One cause, one finding.
    expect(sensorErrorFindings(context)).toEqual([])
  })
  it('of a sensor that returns to the sensor earth is nothing', () => {
    const context = contextOf(
      sensed((build) => {
        build.collections.wires['W-13'] = wire('W-13', 'gauge.-', 'ecu.SE')
      }),
    )
    expect(sensorReturnFindings(context)).toEqual([])
    expect(sensorErrorFindings(context)[0]!.verdict).toBe('sound')
  })
  it('without a curve is unknown and names it', () => {
    const context = contextOf(
      sensed((build) => {
        delete build.collections.sensors.rail!.curve
      }),
    )
    expect(sensorErrorFindings(context)[0]).toMatchObject({ verdict: 'unknown', missing: 'curve of Rail pressure' })
  })
  it('asks for a usual reading that lies on the curve', () => {
    const context = contextOf(
      sensed((build) => {
        build.collections.sensors.rail!.usual = 3e6
      }),
    )
    expect(sensorErrorFindings(context)[0]!.missing).toBe('usual reading within its curve of Rail pressure')
  })
  it('has no finding twice where many sensors share one return to a stud', () => {
    const context = contextOf(
      sensed((build) => {
        add(
          build,
          { id: 'joint', name: 'Joint', pins: named(['1'], ['2'], ['3']), spec: { kind: 'splice' } },
          { id: 'other', name: 'Oil sensor', pins: named(['S', 'signal'], ['-', 'return']), spec: { kind: 'sensor' } },
        )
        wires(
          build,
          wire('W-13', 'gauge.-', 'joint.1'),
          wire('W-14', 'other.-', 'joint.2'),
          wire('W-15', 'joint.3', 'stud.S'),
        )
        build.collections.devices.ecu!.pins.J = {}
        build.collections.inputs.oil = { ...build.collections.inputs.rail!, id: 'oil', pin: 'J', source: 'other' }
      }),
    )
    const found = sensorReturnFindings(context)
    expect(found).toHaveLength(1)
    expect(found[0]).toMatchObject({ verdict: 'no-go', subject: 'wires/W-15' })
    expect(found[0]!.says).toMatch(/Rail sensor and Oil sensor return over W-15 to Stud/)
  })
  it('names a power earth that shares the sensors’ splice', () => {
    const context = contextOf(
      sensed((build) => {
        add(build, { id: 'joint', name: 'Joint', pins: named(['1'], ['2'], ['3']), spec: { kind: 'splice' } })
        wires(
          build,
          wire('W-13', 'gauge.-', 'joint.1'),
          wire('W-14', 'joint.2', 'ecu.SE'),
          wire('W-4', 'lamp.-', 'joint.3'),
        )
      }),
    )
    const [found] = sensorReturnFindings(context)
    expect(found).toMatchObject({ verdict: 'marginal', subject: 'wires/W-4' })
    expect(found!.says).toMatch(/Lamp returns over W-4 into the sensor earth that Rail sensor uses/)
    expect(found!.says).toMatch(/kPa/)
  })
  it('of the demo’s fuel pressure is told in kilopascals', () => {
    const found = sensorReturnFindings(contextOf(demoBuild())).find(({ subject }) => subject === 'wires/W-267')
    expect(found!.says).toMatch(/Fuel pressure sensor reads −\d+\skPa at 300\skPa/)
  })
})

/** A cranking car: battery to body by W-5, body to engine by W-20, a throttle cable from engine to body beside it. */
const cranking = (change?: (build: Build) => void) =>
  small((build) => {
    add(
      build,
      {
        id: 'starter',
        name: 'Starter',
        pins: named(['30'], ['50'], ['31']),
        spec: {
          kind: 'starter',
          crankingCurrent: { value: 150 },
          solenoidResistance: { value: 1 },
          pullIn: { value: 7 },
        },
      },
      { id: 'block', name: 'Block', pins: named(['S']), spec: { kind: 'earth-stud', on: 'engine' } },
      {
        id: 'cable',
        name: 'Throttle cable',
        pins: named(['1'], ['2']),
        spec: { kind: 'resistor', resistance: { value: 0.02 } },
        notForCurrent: true,
      },
    )
    wires(
      build,
      wire('W-5', 'battery.-', 'stud.S', 35e-6),
      wire('W-20', 'stud.S', 'block.S', 35e-6),
      wire('W-21', 'battery.+', 'starter.30', 35e-6),
      wire('W-22', 'switch.2', 'starter.50'),
      wire('W-23', 'cable.1', 'stud.S', 6e-6, { length: { value: 0.1 } }),
      wire('W-24', 'cable.2', 'block.S', 6e-6, { length: { value: 0.1 } }),
    )
    build.collections.cases.lit!.engine = 'cranking'
    change?.(build)
  })

describe('straps', () => {
  it('are found by what they join', () => {
    expect(strapsOf(contextOf(cranking())).map(({ wire: { id }, joins }) => [id, ...joins])).toEqual([
      ['W-5', 'battery negative', 'body'],
      ['W-20', 'body', 'engine'],
    ])
  })
  it('opened while cranking send the starter’s current through the throttle cable, with amps', () => {
    const found = strapFindings(contextOf(cranking())).find(({ subject }) => subject === 'wires/W-20')!
    expect(found.verdict).toBe('marginal')
    const told = Number(/Throttle cable (\d+(\.\d+)?) A/.exec(found.says)![1])
    expect(told).toBeGreaterThan(140)
    expect(found.todo).toMatch(/Fit a second strap of 35 mm², body to engine, apart from W-20/)
  })
  it('opened with a second strap beside them harm nothing', () => {
    const context = contextOf(
      cranking((build) => {
        wires(build, wire('W-25', 'stud.S', 'block.S', 50e-6, { length: { value: 0.2 } }))
        delete build.collections.devices.cable
        delete build.collections.wires['W-23']
        delete build.collections.wires['W-24']
        // Wide enough for cranking for good.
        build.collections.wires['W-25']!.insulation = 'F'
      }),
    )
    expect(strapFindings(context).find(({ subject }) => subject === 'wires/W-20')!.verdict).toBe('sound')
  })
  it('opened put their current into a screen that is earthed at both ends', () => {
    const context = contextOf(
      cranking((build) => {
        delete build.collections.devices.cable
        delete build.collections.wires['W-23']
        delete build.collections.wires['W-24']
        wires(build, wire('W-30', 'lamp.-', 'stud.S', 1e-6, { screened: true, screenEarths: ['block.S', 'stud.S'] }))
      }),
    )
    const found = strapFindings(context).find(({ subject }) => subject === 'wires/W-20')!
    expect(found.says).toMatch(/the screen of W-30 \d+ A/)
  })
  it('opened put their current into the wires of a sensor that is returned twice', () => {
    const context = contextOf(
      cranking((build) => {
        delete build.collections.devices.cable
        delete build.collections.wires['W-23']
        delete build.collections.wires['W-24']
        add(build, { id: 'gauge', name: 'Rail sensor', pins: named(['-', 'return']), spec: { kind: 'sensor' } })
        wires(build, wire('W-40', 'gauge.-', 'block.S', 1e-6), wire('W-41', 'gauge.-', 'stud.S', 1e-6))
      }),
    )
    const found = strapFindings(context).find(({ subject }) => subject === 'wires/W-20')!
    expect(found.verdict).toBe('marginal')
    expect(found.says).toMatch(/Wire W-40 \(Rail sensor to Block\) \d+ A \(it is not meant to carry any\)/)
  })
  it('without a wire’s insulation class are unknown where that wire bears the current', () => {
    const context = contextOf(
      cranking((build) => {
        delete build.collections.devices.cable
        delete build.collections.wires['W-23']
        delete build.collections.wires['W-24']
        const thin = wire('W-25', 'stud.S', 'block.S', 1e-6)
        delete thin.insulation
        wires(build, thin)
      }),
    )
    const found = strapFindings(context).find(({ subject }) => subject === 'wires/W-20')!
    expect(found.verdict).toBe('unknown')
    expect(found.missing).toMatch(/insulation class of W-25/)
  })
  it('too thin send a part of their current through the throttle cable already: told by the finding on the strap', () => {
    const thin = cranking((build) => {
      build.collections.wires['W-20'] = wire('W-20', 'stud.S', 'block.S', 4e-6)
    })
    const found = raisedEarthFindings(contextOf(thin))
    // One cause, one finding: none of the cable’s own.
    expect(found.map(({ rule }) => rule)).not.toContain('stray-current')
    expect(found.find(({ subject }) => subject === 'wires/W-20')!.says).toMatch(
      /Throttle cable carries \d+(\.\d+)? A of it in “Lit” and is not meant to carry any/,
    )
  })
  it('within their limits, but with a throttle cable that carries amperes, are told of the cable', () => {
    const found = raisedEarthFindings(contextOf(cranking())).find(({ rule }) => rule === 'stray-current')
    expect(found).toMatchObject({ subject: 'devices/cable', verdict: 'marginal' })
    expect(found!.says).toMatch(/because Wire W-20/)
  })
})

/** Ignition switch 30–15, controller and charge lamp on 15, alternator whose D+ the lamp goes to. */
const charging = (change?: (build: Build) => void) =>
  small((build) => {
    add(
      build,
      {
        id: 'key',
        name: 'Ignition switch',
        pins: named(['30'], ['15']),
        spec: { kind: 'switch', positions: { off: [], on: [['30', '15']] }, rest: 'off' },
      },
      {
        id: 'alternator',
        name: 'Alternator',
        pins: named(['B+'], ['D+'], ['31']),
        spec: {
          kind: 'alternator',
          setpoint: { value: 14.2 },
          internalResistance: { value: 0.01 },
          hotOutputIdle: { value: 40 },
          hotOutputCruise: { value: 60 },
        },
      },
      { id: 'block', name: 'Block', pins: named(['S']), spec: { kind: 'earth-stud', on: 'engine' } },
      {
        id: 'telltale',
        name: 'Charge warning lamp',
        pins: named(['+'], ['-']),
        spec: { kind: 'lamp' },
        loads: [
          {
            id: 'filament',
            from: '+',
            to: '-',
            law: { type: 'lamp', ratedVoltage: { value: 12 }, ratedPower: { value: 3 } },
          },
        ],
      },
      {
        id: 'ecu',
        name: 'Controller',
        pins: named(['P', 'switched supply'], ['E', 'power earth']),
        spec: { kind: 'controller' },
        loads: [
          {
            id: 'electronics',
            from: 'P',
            to: 'E',
            law: { type: 'current', current: { value: 0.15 }, minimumVoltage: { value: 6.5 } },
          },
        ],
      },
    )
    wires(
      build,
      wire('W-30', 'battery.+', 'key.30'),
      wire('W-31', 'key.15', 'ecu.P'),
      wire('W-32', 'ecu.P', 'telltale.+'),
      wire('W-33', 'telltale.-', 'alternator.D+'),
      wire('W-34', 'ecu.E', 'block.S'),
      wire('W-35', 'alternator.B+', 'battery.+', 16e-6),
      wire('W-36', 'block.S', 'battery.-', 16e-6),
      wire('W-37', 'alternator.31', 'block.S', 16e-6),
    )
    const battery = build.collections.devices.battery!.spec
    if (battery.kind === 'battery') battery.acceptance = { value: 3 }
    build.collections.cases.idle = {
      id: 'idle',
      name: 'Idling',
      engine: 'idle',
      alternator: 'idle',
      battery: 'connected',
      switches: { key: 'on' },
      outputs: {},
    }
    change?.(build)
  })

describe('key off', () => {
  it('finds the charge lamp that keeps the controller alive from D+, and names the way', () => {
    const [found] = keyOffFindings(contextOf(charging()))
    expect(found).toMatchObject({ verdict: 'no-go', subject: 'devices/ecu' })
    expect(found!.says).toMatch(/Alternator → W-33 → Charge warning lamp → W-32/)
    expect(found!.todo).toMatch(/diode in line with Charge warning lamp/)
  })
  it('is content with a diode in that line', () => {
    const context = contextOf(
      charging((build) => {
        add(build, { id: 'diode', name: 'Diode', pins: named(['A'], ['K']), spec: { kind: 'diode' } })
        wires(build, wire('W-32', 'ecu.P', 'diode.A'), wire('W-38', 'diode.K', 'telltale.+'))
      }),
    )
    expect(keyOffFindings(context)[0]!.verdict).toBe('sound')
  })
  it('finds a relay that its own contact holds in', () => {
    const context = contextOf(
      charging((build) => {
        delete build.collections.wires['W-33']
        add(build, {
          id: 'main',
          name: 'Main relay',
          pins: named(['30'], ['87'], ['85'], ['86']),
          spec: {
            kind: 'relay',
            coilResistance: { value: 85 },
            pullIn: { value: 7 },
            dropOut: { value: 2 },
            contactResistance: { value: 0.005 },
          },
        })
        wires(
          build,
          wire('W-31', 'key.15', 'main.86'),
          wire('W-39', 'main.85', 'block.S'),
          wire('W-40', 'battery.+', 'main.30'),
          wire('W-41', 'main.87', 'ecu.P'),
          // The mistake: the load side joined to the coil's feed.
          wire('W-42', 'main.87', 'main.86'),
        )
      }),
    )
    const [found] = keyOffFindings(context)
    expect(found!.says).toMatch(/Main relay/)
    expect(found!.verdict).toBe('no-go')
  })
  it('finds a fan relay on a permanent feed that wakes the controller through its own output', () => {
    const run = (feedsBack: boolean | undefined) =>
      keyOffFindings(
        contextOf(
          charging((build) => {
            delete build.collections.wires['W-33']
            build.collections.devices.ecu!.pins.O = {}
            add(build, {
              id: 'fan',
              name: 'Fan relay',
              pins: named(['30'], ['87'], ['85'], ['86']),
              spec: { kind: 'relay', coilResistance: { value: 20 }, pullIn: { value: 7 }, dropOut: { value: 2 } },
            })
            wires(build, wire('W-40', 'battery.+', 'fan.86'), wire('W-41', 'fan.85', 'ecu.O'))
            build.collections.outputs.fan = {
              id: 'fan',
              name: 'Fan relay',
              device: 'ecu',
              pin: 'O',
              driver: 'low side',
              drives: 'fan',
              configured: true,
              ...(feedsBack === undefined ? {} : { feedsBack }),
            }
          }),
        ),
      )[0]!
    const bad = run(true)
    expect(bad.verdict).toBe('no-go')
    expect(bad.says).toMatch(/by Alternator → W-35 → W-40 → Fan relay → W-41 → Controller/)
    expect(run(false).verdict).toBe('sound')
    expect(run(undefined)).toMatchObject({
      verdict: 'unknown',
      missing: 'whether output Fan relay feeds back into Controller',
    })
  })
  it('is unknown where relays lack their figures', () => {
    const [found] = keyOffFindings(contextOf(halfBuild()))
    expect(found!.verdict).toBe('unknown')
    expect(found!.missing).toMatch(/relay/)
  })
  it('is content with the sound build and the demo', () => {
    for (const build of [soundBuild(), demoBuild()])
      expect(keyOffFindings(contextOf(build)).map(({ verdict, says }) => [verdict, says])).toEqual([
        ['sound', expect.stringContaining('nothing goes round')],
      ])
  })
})
