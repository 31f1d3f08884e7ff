import { describe, expect, it } from 'vitest'
import { type Build, emptyBuild } from '../model/build.ts'
import { assess } from './assess.ts'
import { small, wire } from './small.testing.ts'

const named = (build: Build, rule: string) => assess(build).findings.filter((finding) => finding.rule === rule)
const bad = (build: Build) =>
  assess(build)
    .findings.filter(({ verdict }) => verdict !== 'sound')
    .map(({ key }) => key)

describe('a sound small circuit', () => {
  it('has nothing to report but what is sound', () => {
    expect(bad(small())).toEqual([])
  })
  it('solves to the series circuit worked by hand', () => {
    const { cases } = assess(small())
    // At 20 °C: 7.6 mΩ/m and 2 mΩ of crimps a wire, 1.16 mΩ/m for 16 mm². Both earths share the stud’s pin.
    const metal = { 'W-1': 0.76e-3, 'W-2': 7.6e-3, 'W-3': 7.6e-3, 'W-4': 7.6e-3, 'W-5': 1.16e-3 }
    // Each warmed to the temperature told beside it, α20 of copper 0.00393 1/K; contacts and crimps are not.
    const warm = Object.entries(metal).map(([id, ohm]) => ohm * (1 + 0.00393 * (cases.lit!.temperatures[id]! - 293.15)))
    const line = warm.reduce((sum, ohm) => sum + ohm, 5 * 2e-3 + 7.7e-3 + 8e-3)
    // The last turn may still move a wire by half a kelvin: 0.2 % of it.
    expect(Math.abs(cases.lit!.currents['W-3']! * (3 + line + 0.006) - 12.6)).toBeLessThan(0.002 * line * 4.2)
    expect(cases.lit!.temperatures['W-3']).toBeGreaterThan(293.15 + 0.5)
  })
  it('says the same whichever order the records came in', () => {
    const turned = small((build) => {
      build.collections.wires = Object.fromEntries(Object.entries(build.collections.wires).reverse())
      build.collections.devices = Object.fromEntries(Object.entries(build.collections.devices).reverse())
    })
    expect(assess(turned).findings.map(({ key }) => key)).toEqual(assess(small()).findings.map(({ key }) => key))
  })
})

it('an empty build has no findings and no figures', () => {
  expect(assess(emptyBuild('nothing'))).toEqual({
    findings: [],
    cases: {},
    figures: {},
    earths: [],
    sensorErrors: [],
    energy: [],
  })
})

describe('no-return', () => {
  it('finds a lamp whose earth is missing', () => {
    const [found] = named(
      small((b) => delete b.collections.wires['W-4']),
      'no-return',
    )
    expect(found).toMatchObject({ verdict: 'no-go', subject: 'devices/lamp' })
  })
  it('does not take the way back through a second lamp against its current', () => {
    const build = small((b) => {
      const c = b.collections
      delete c.wires['W-4']
      c.devices.second = { ...structuredClone(c.devices.lamp!), id: 'second', name: 'Second' }
      c.wires['W-6'] = wire('W-6', 'switch.2', 'second.+')
      c.wires['W-7'] = wire('W-7', 'lamp.-', 'second.-')
    })
    expect(named(build, 'no-return').map(({ subject }) => subject)).toEqual(['devices/lamp', 'devices/second'])
  })
})

describe('unfused-stretch', () => {
  it('finds the wire that leaves the battery without a fuse, once, with what lies beyond it', () => {
    const build = small((b) => {
      delete b.collections.wires['W-1']
      b.collections.wires['W-2'] = wire('W-2', 'battery.+', 'switch.1')
    })
    const found = named(build, 'unfused-stretch')
    expect(found.map(({ subject }) => subject)).toEqual(['wires/W-2'])
    expect(found[0]!.says).toContain('W-3')
  })
  it('accepts a documented exception', () => {
    expect(named(small(), 'unfused-stretch')).toEqual([])
  })
})

describe('fuse-against-conductor', () => {
  it('refuses 30 A before 1 mm²', () => {
    const build = small((b) => {
      const { spec } = b.collections.devices.fuse!
      if (spec.kind === 'fuse') spec.rating = { value: 30 }
      b.collections.wires['W-3']!.area = { value: 1e-6 }
    })
    expect(named(build, 'fuse-against-conductor').find(({ subject }) => subject === 'wires/W-3')).toMatchObject({
      verdict: 'no-go',
      todo: expect.stringContaining('in place of 1 mm² on W-3'),
    })
  })
  it('names the datum it lacks', () => {
    const [found] = named(
      small((b) => delete b.collections.wires['W-2']!.insulation),
      'fuse-against-conductor',
    )
    expect(found).toMatchObject({ verdict: 'unknown', missing: 'insulation class of W-2' })
  })
})

describe('conductor-temperature', () => {
  it('finds a wire that its steady current overheats', () => {
    const build = small((b) => {
      b.collections.devices.lamp!.loads![0]!.law = { type: 'resistance', resistance: { value: 0.2 } }
    })
    expect(named(build, 'conductor-temperature').find(({ subject }) => subject === 'wires/W-3')?.verdict).toBe('no-go')
    expect(named(small(), 'conductor-temperature')).toEqual([])
  })
})

describe('insulation-class', () => {
  it('finds insulation in air hotter than its class, though its wire carries next to nothing', () => {
    const build = small((b) => {
      const c = b.collections
      c.zones.hot = {
        id: 'hot',
        name: 'Beside the exhaust',
        ambient: { value: 383.15 },
        wet: 'dry',
        vibration: 'engine',
      }
      c.devices.probe = { id: 'probe', name: 'Probe', zone: 'hot', pins: { S: {} }, spec: { kind: 'sensor' } }
      c.wires['W-9'] = wire('W-9', 'probe.S', 'stud.S', 0.5e-6, { insulation: 'B' })
    })
    expect(named(build, 'insulation-class')).toMatchObject([
      {
        subject: 'wires/W-9',
        verdict: 'marginal',
        zone: 'hot',
        todo: 'Fit insulation of class C or higher on W-9, or take W-9 along a cooler path.',
      },
    ])
  })
})

describe('load-voltage', () => {
  it('finds the thin wire and says what to fit', () => {
    const build = small((b) => {
      b.collections.wires['W-3'] = wire('W-3', 'switch.2', 'lamp.+', 0.5e-6, { length: { value: 6 } })
    })
    const [found] = named(build, 'load-voltage')
    expect(found).toMatchObject({ verdict: 'no-go', subject: 'devices/lamp' })
    expect(found!.todo).toMatch(/in place of 0\.5 mm² on W-3/)
  })
  it('does not judge behind a wire of unknown section', () => {
    const [found] = named(
      small((b) => delete b.collections.wires['W-3']!.area),
      'load-voltage',
    )
    expect(found).toMatchObject({ verdict: 'unknown', missing: 'W-3' })
  })
  it('is unknown behind a relay whose coil is not described', () => {
    const build = small((b) => {
      const c = b.collections
      c.devices.relay = {
        id: 'relay',
        name: 'Relay',
        zone: 'bay',
        pins: { 30: {}, 87: {}, 85: {}, 86: {} },
        spec: { kind: 'relay' },
      }
      c.wires['W-2'] = wire('W-2', 'fuse.2', 'relay.30')
      c.wires['W-6'] = wire('W-6', 'relay.87', 'switch.1')
    })
    expect(named(build, 'load-voltage')[0]).toMatchObject({
      verdict: 'unknown',
      missing: 'resistance of the coil of Relay',
    })
  })
  it('is unknown for the case when the battery is not described', () => {
    const build = small((b) => {
      b.collections.devices.battery!.spec = { kind: 'battery' }
    })
    expect(named(build, 'unsolved-case')).toHaveLength(1)
    expect(named(build, 'missing-data')[0]).toMatchObject({ subject: 'devices/battery', missing: 'rested voltage' })
  })
})

describe('a datum taken away', () => {
  /** A second lamp beside the first, over the same switch. */
  const beside = (change?: (build: Build) => void) =>
    small((b) => {
      const c = b.collections
      c.devices.second = { ...structuredClone(c.devices.lamp!), id: 'second', name: 'Second' }
      c.wires['W-6'] = wire('W-6', 'switch.2', 'second.+')
      c.wires['W-7'] = wire('W-7', 'second.-', 'stud.S')
      // Two lamps draw 8 A: more than 75 % of 10 A.
      if (c.devices.fuse!.spec.kind === 'fuse') c.devices.fuse!.spec.rating = { value: 15 }
      change?.(b)
    })
  it('hides what a neighbour draws, so that enough volts are no longer known to be enough', () => {
    expect(bad(beside())).toEqual([])
    const build = beside((b) => delete b.collections.devices.second!.loads![0]!.law)
    expect(named(build, 'load-voltage')).toMatchObject([
      { subject: 'devices/lamp', verdict: 'unknown', missing: 'what filament draws of Second' },
    ])
  })
  it('is no matter where even all that the fuse lets through would leave enough', () => {
    const build = beside((b) => {
      delete b.collections.devices.second!.loads![0]!.law
      b.collections.devices.lamp!.loads![0]!.needs = { value: 11 }
      if (b.collections.devices.fuse!.spec.kind === 'fuse') b.collections.devices.fuse!.spec.rating = { value: 10 }
    })
    const [found] = named(build, 'load-voltage')
    expect(found).toMatchObject({ subject: 'devices/lamp', verdict: 'sound' })
    // By hand: 13.5 A through the shared 40 mΩ and 4.1 A through its own 19 mΩ leave about 12 V.
    expect(found!.working.join()).toMatch(/what filament draws of Second\. Even with all .* 1[12]\.\d\d V are left/)
  })
  it('of a relay has no such bound: it may switch anything', () => {
    const build = beside((b) => {
      const c = b.collections
      c.devices.lamp!.loads![0]!.needs = { value: 6 }
      c.devices.relay = {
        id: 'relay',
        name: 'Relay',
        zone: 'bay',
        pins: { 30: {}, 87: {}, 85: {}, 86: {} },
        spec: { kind: 'relay', pullIn: { value: 7 } },
      }
      c.wires['W-8'] = wire('W-8', 'switch.2', 'relay.86')
      c.wires['W-9'] = wire('W-9', 'relay.85', 'stud.S')
      c.wires['W-10'] = wire('W-10', 'switch.2', 'relay.30')
    })
    expect(named(build, 'load-voltage').find(({ subject }) => subject === 'devices/lamp')).toMatchObject({
      verdict: 'unknown',
      missing: 'resistance of the coil of Relay',
    })
  })
  it('does not matter where the neighbour is off', () => {
    const build = beside((b) => {
      delete b.collections.devices.second!.loads![0]!.law
      delete b.collections.wires['W-6']
    })
    expect(named(build, 'load-voltage')).toMatchObject([{ subject: 'devices/lamp', verdict: 'sound' }])
  })
  it('takes away no fault: too few volts stay too few', () => {
    const build = beside((b) => {
      delete b.collections.devices.second!.loads![0]!.law
      b.collections.wires['W-3'] = wire('W-3', 'switch.2', 'lamp.+', 0.5e-6, { length: { value: 6 } })
    })
    expect(named(build, 'load-voltage')[0]).toMatchObject({ subject: 'devices/lamp', verdict: 'no-go' })
  })
  it('is asked for where a load’s need, or a lamp’s load, is not entered', () => {
    const build = beside((b) => {
      delete b.collections.devices.lamp!.loads![0]!.needs
      delete b.collections.devices.second!.loads
    })
    expect(named(build, 'load-voltage')).toMatchObject([
      { verdict: 'unknown', missing: 'least voltage at which filament of Lamp does its job' },
    ])
    expect(named(build, 'missing-data')).toMatchObject([
      { subject: 'devices/second', missing: 'what it draws, and between which pins' },
    ])
  })
  it('makes a wire through a zone of unknown heat unknown, and an earth wire too', () => {
    const build = small((b) => {
      b.collections.zones.hot = { id: 'hot', name: 'Hot place', wet: 'dry', vibration: 'body' }
      b.collections.devices.lamp!.zone = 'hot'
    })
    const unknown = { verdict: 'unknown', missing: 'ambient temperature of Hot place' }
    expect(named(build, 'fuse-against-conductor').filter(({ verdict }) => verdict !== 'sound')).toMatchObject([
      { subject: 'wires/W-3', ...unknown },
    ])
    expect(named(build, 'conductor-temperature')).toMatchObject([{ subject: 'wires/W-4', ...unknown }])
  })
  it('is no exception to fusing: a blank reason documents nothing', () => {
    const build = small((b) => {
      b.collections.wires['W-1']!.unfusedBecause = ' '
    })
    expect(named(build, 'unfused-stretch').map(({ subject }) => subject)).toEqual(['wires/W-1'])
  })
})

describe('materials and places', () => {
  it('finds copper-clad aluminium, solder on the engine and an open plug in the wet', () => {
    const build = small((b) => {
      const c = b.collections
      c.wires['W-3']!.material = 'copper-clad aluminium'
      c.zones.engine = { id: 'engine', name: 'Engine', ambient: { value: 333.15 }, wet: 'wet', vibration: 'engine' }
      c.devices.lamp!.zone = 'engine'
      c.wires['W-3']!.ends = { from: { method: 'crimped' }, to: { method: 'soldered' } }
      c.devices.plug = {
        id: 'plug',
        name: 'Plug',
        zone: 'engine',
        pins: { 1: {} },
        spec: { kind: 'connector', sealed: false },
      }
    })
    expect(bad(build)).toEqual([
      'material:wires/W-3',
      'solder-in-vibration:wires/W-3.to',
      'unsealed-in-wet:devices/plug',
    ])
  })
})

describe('restricted circuits', () => {
  it('are never judged, only said whose work they are', () => {
    const build = small((b) => {
      b.collections.devices.lamp!.restricted = 'airbag'
      delete b.collections.wires['W-4']
      delete b.collections.wires['W-3']!.area
    })
    const about = assess(build).findings.filter(({ subject }) => ['devices/lamp', 'wires/W-3'].includes(subject))
    expect(about.map(({ rule }) => rule)).toEqual(['restricted'])
  })
})

describe('the controller', () => {
  const controlled = (change?: (build: Build) => void) =>
    small((b) => {
      const c = b.collections
      c.devices.ecu = {
        id: 'ecu',
        name: 'Controller',
        zone: 'bay',
        pins: {
          A1: { name: 'switched supply' },
          A2: { name: 'power earth' },
          B1: {},
          B2: {},
          B9: { name: 'sensor earth' },
        },
        spec: { kind: 'controller' },
      }
      c.devices.sensor = {
        id: 'sensor',
        name: 'Sensor',
        zone: 'bay',
        pins: { S: { name: 'signal' }, '-': { name: 'return' } },
        spec: { kind: 'sensor' },
      }
      c.inputs.in = {
        id: 'in',
        name: 'Reading',
        device: 'ecu',
        pin: 'B1',
        signal: 'voltage',
        source: 'sensor',
        configured: true,
      }
      c.wires['W-10'] = wire('W-10', 'ecu.A2', 'stud.S')
      c.wires['W-11'] = wire('W-11', 'sensor.S', 'ecu.B1')
      c.wires['W-12'] = wire('W-12', 'sensor.-', 'ecu.B9')
      change?.(b)
    })
  it('is content with a sensor returned to its sensor earth', () => {
    expect(bad(controlled())).toEqual([])
  })
  it('finds a return taken to a body stud', () => {
    const build = controlled((b) => {
      b.collections.wires['W-12'] = wire('W-12', 'sensor.-', 'stud.S')
    })
    expect(bad(build)).toEqual(['sensor-return:wires/W-12'])
  })
  it('finds inputs unwired or unconfigured, and outputs likewise', () => {
    expect(bad(controlled((b) => delete b.collections.wires['W-11']))).toEqual(['input-unwired:inputs/in'])
    const build = controlled((b) => {
      b.collections.inputs.in!.configured = false
      b.collections.outputs.out = {
        id: 'out',
        name: 'Out',
        device: 'ecu',
        pin: 'B2',
        driver: 'low side',
        configured: true,
      }
    })
    expect(bad(build)).toEqual(['output-unwired:outputs/out', 'input-unconfigured:inputs/in'])
    const wired = controlled((b) => {
      b.collections.outputs.out = {
        id: 'out',
        name: 'Out',
        device: 'ecu',
        pin: 'B2',
        driver: 'low side',
        configured: false,
      }
      b.collections.wires['W-13'] = wire('W-13', 'ecu.B2', 'lamp.-')
    })
    expect(bad(wired)).toEqual(['output-unconfigured:outputs/out'])
  })
  it('finds two wires in one cavity and a pin that does not exist', () => {
    const build = controlled((b) => {
      b.collections.wires['W-13'] = wire('W-13', 'sensor.S', 'ecu.B1')
      b.collections.wires['W-14'] = wire('W-14', 'sensor.S', 'ecu.B77')
    })
    expect(bad(build)).toEqual(['dangling-pin:wires/W-14.to', 'doubled-pin:devices/ecu.pins.B1'])
  })
})
