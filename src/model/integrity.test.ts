import { describe, expect, it } from 'vitest'
import { emptyBuild } from './build.ts'
import { checkIntegrity } from './integrity.ts'
import { readBuild } from './read.ts'

/** A whole little build; each test breaks one thing in it. */
const whole = () => {
  const build = emptyBuild('bench')
  const collections = {
    ...build.collections,
    zones: { bay: { id: 'bay', name: 'Bay' } },
    branchPoints: Object.fromEntries(['p1', 'p2', 'p3'].map((id) => [id, { id, name: id, zone: 'bay' }])),
    runs: {
      'R-1': { id: 'R-1', from: 'p1', to: 'p2', zone: 'bay' },
      'R-2': { id: 'R-2', from: 'p3', to: 'p2', zone: 'bay' },
    } as Record<string, object>,
    devices: {
      ecu: { id: 'ecu', name: 'Controller', at: 'p1', pins: { A1: {}, A2: {} }, spec: { kind: 'controller' } },
      lamp: {
        id: 'lamp',
        name: 'Lamp',
        at: 'p3',
        pins: { '+': {}, '-': {} },
        spec: { kind: 'lamp' },
        loads: [{ id: 'l', from: '+', to: '-' }],
      },
      joint: { id: 'joint', name: 'Joint', pins: { 1: {}, 2: {} }, spec: { kind: 'splice' } },
      key: {
        id: 'key',
        name: 'Key',
        pins: { 1: {}, 2: {} },
        spec: { kind: 'switch', rest: 'off', positions: { off: [], on: [['1', '2']] } },
      },
    } as Record<string, object>,
    wires: {
      'W-1': { id: 'W-1', from: 'ecu.A1', to: 'lamp.+', path: ['R-1', 'R-2'] },
      'W-2': { id: 'W-2', from: 'joint.1', to: 'lamp.-' },
      'W-3': { id: 'W-3', from: 'joint.2', to: 'key.1' },
    } as Record<string, object>,
    cases: {
      night: {
        id: 'night',
        name: 'Night',
        engine: 'off',
        alternator: 'off',
        battery: 'connected',
        switches: { key: 'on' },
        outputs: { 'out-1': 1 },
      },
    } as Record<string, object>,
    inputs: {} as Record<string, object>,
    outputs: {
      'out-1': {
        id: 'out-1',
        name: 'Lamp',
        device: 'ecu',
        pin: 'A1',
        driver: 'high side',
        drives: 'lamp',
        configured: true,
      },
    } as Record<string, object>,
    jobs: Object.fromEntries(['J-1', 'J-2', 'J-3'].map((id) => [id, { id, title: id, status: 'to do' }])) as Record<
      string,
      object
    >,
    accesses: Object.fromEntries(['a', 'b'].map((id) => [id, { id, name: id }])) as Record<string, object>,
  }
  return { ...build, sheets: {} as Record<string, object>, collections }
}
const broken = (breakIt: (build: ReturnType<typeof whole>) => void) => {
  const build = whole()
  breakIt(build)
  return checkIntegrity(readBuild(build)).map(({ code, path, says }) => ({ code, path, says }))
}

describe('integrity', () => {
  it('finds nothing in a whole build or an empty one', () => {
    expect(broken(() => {})).toEqual([])
    expect(checkIntegrity(emptyBuild('empty'))).toEqual([])
  })

  it('names a pin that does not exist', () => {
    expect(broken(({ collections: { wires } }) => Object.assign(wires['W-1']!, { from: 'ecu.A9' }))).toEqual([
      { code: 'dangling-pin', path: 'wires/W-1/from', says: 'Wire W-1 uses Controller, pin A9, which does not exist.' },
    ])
  })

  it('names the pin of a screen’s earth and of a sensor’s return that does not exist', () => {
    const found = broken(({ collections }) => {
      Object.assign(collections.wires['W-1']!, { screenEarths: ['ecu.A9'] })
      Object.assign(collections.sensors, {
        oil: { id: 'oil', name: 'Oil', device: 'lamp', returnPin: 'X', quantity: 'pressureGauge', form: 'voltage' },
      })
    })
    expect(found.map(({ code, path }) => [code, path])).toEqual([
      ['dangling-pin', 'wires/W-1/screenEarths/0'],
      ['dangling-pin', 'sensors/oil/returnPin'],
    ])
  })

  it('reads a build that was written before there were sensors', () => {
    const { sensors: _, ...older } = whole().collections
    expect(readBuild({ ...whole(), collections: older }).collections.sensors).toEqual({})
  })

  it('names a device that does not exist once, not also its pin', () => {
    expect(broken(({ collections: { wires } }) => Object.assign(wires['W-3']!, { to: 'gone.1' }))).toEqual([
      {
        code: 'dangling-reference',
        path: 'wires/W-3/to',
        says: 'Wire W-3 refers to device gone, which does not exist.',
      },
    ])
  })

  it.each([
    [
      'zones',
      (b: ReturnType<typeof whole>) => Object.assign(b.collections.devices.lamp!, { zone: 'x' }),
      'devices/lamp/zone',
    ],
    ['circuits', (b) => Object.assign(b.collections.wires['W-1']!, { circuit: 'x' }), 'wires/W-1/circuit'],
    ['runs', (b) => Object.assign(b.collections.wires['W-1']!, { path: ['R-1', 'R-9'] }), 'wires/W-1/path/1'],
    ['twist', (b) => Object.assign(b.collections.wires['W-1']!, { twistedWith: 'W-9' }), 'wires/W-1/twistedWith'],
    ['passages', (b) => Object.assign(b.collections.runs['R-1']!, { passage: 'x' }), 'runs/R-1/passage'],
    [
      'job needs',
      (b) => Object.assign(b.collections.jobs['J-1']!, { needs: { jobs: ['J-9'] } }),
      'jobs/J-1/needs/jobs/0',
    ],
    [
      'job parts',
      (b) => Object.assign(b.collections.jobs['J-1']!, { needs: { parts: ['x'] } }),
      'jobs/J-1/needs/parts/0',
    ],
    ['accesses', (b) => Object.assign(b.collections.jobs['J-1']!, { accesses: ['x'] }), 'jobs/J-1/accesses/0'],
    ['milestones', (b) => Object.assign(b.collections.jobs['J-1']!, { milestone: 'x' }), 'jobs/J-1/milestone'],
    ['excludes', (b) => Object.assign(b.collections.accesses.a!, { excludes: ['x'] }), 'accesses/a/excludes/0'],
    ['case outputs', (b) => Object.assign(b.collections.cases.night!, { outputs: { x: 1 } }), 'cases/night/outputs/0'],
    ['drives', (b) => Object.assign(b.collections.outputs['out-1']!, { drives: 'x' }), 'outputs/out-1/drives'],
    ['sheets', (b) => Object.assign(b.sheets, { cooling: { fans: ['x'] } }), 'sheet/cooling/fans/0'],
    ['intake', (b) => Object.assign(b.sheets, { air: { intakeZone: 'x' } }), 'sheet/air/intakeZone'],
  ] as [string, (b: ReturnType<typeof whole>) => void, string][])('follows references: %s', (_, breakIt, path) => {
    expect(broken(breakIt).map(({ code, path: at }) => [code, at])).toEqual([['dangling-reference', path]])
  })

  it('finds a load and a switch contact on absent pins', () => {
    const found = broken(({ collections: { devices } }) => {
      Object.assign(devices.lamp!, { loads: [{ id: 'l', from: '+', to: '7' }] })
      Object.assign(devices.key!, { spec: { kind: 'switch', rest: 'off', positions: { off: [], on: [['1', '8']] } } })
    })
    expect(found.map(({ path }) => path)).toEqual(['devices/lamp/loads/0/to', 'devices/key/spec/positions/on'])
  })

  it('finds a supply on an absent pin', () => {
    const found = broken(({ collections: { devices } }) => {
      Object.assign(devices.lamp!, { supplies: [{ pin: '7', kind: 'charging socket' }] })
    })
    expect(found.map(({ path }) => path)).toEqual(['devices/lamp/supplies/0/pin'])
  })

  it('finds switches, senders and gauges that name what is not there', () => {
    const found = broken(({ collections: { resistanceSwitches, levelSenders, gauges } }) => {
      resistanceSwitches.pad = {
        id: 'pad',
        name: 'Pad',
        device: 'no-pad',
        topology: 'branches',
        buttons: [{ name: 'up', resistance: { value: 470 } }],
      }
      levelSenders.tank = { id: 'tank', name: 'Tank', device: 'lamp', input: 'no-input' }
      gauges.fuel = { id: 'fuel', name: 'Fuel', shows: 'level', sender: 'no-sender' }
    })
    expect(found.map(({ path, says }) => [path, says])).toEqual([
      ['resistanceSwitches/pad/device', 'Resistance switch pad refers to device no-pad, which does not exist.'],
      ['levelSenders/tank/input', 'Level sender tank refers to input no-input, which does not exist.'],
      ['gauges/fuel/sender', 'Gauge fuel refers to level sender no-sender, which does not exist.'],
    ])
  })

  it('finds two signals on one pin and two wires in one cavity', () => {
    const found = broken(({ collections: { inputs, wires } }) => {
      inputs.i = { id: 'i', name: 'I', device: 'ecu', pin: 'A1', signal: 'voltage', configured: true }
      wires['W-4'] = { id: 'W-4', from: 'ecu.A1', to: 'key.2' }
    })
    expect(found.map(({ code, path, says }) => [code, path, says])).toEqual([
      ['doubled-pin', 'outputs/out-1/pin', 'Output Lamp and input I both claim Controller, pin A1.'],
      ['doubled-pin', 'devices/ecu/pins/A1', 'Controller, pin A1, has 2 wires (W-1, W-4) in a cavity for one.'],
    ])
  })

  it('finds a bare pin that must be wired, and a splice with one wire', () => {
    const found = broken(({ collections: { devices, wires } }) => {
      Object.assign(devices.ecu!, { pins: { A1: {}, A2: { mustBeWired: true } } })
      delete wires['W-3']
    })
    expect(found.map(({ code, path }) => [code, path])).toEqual([
      ['bare-pin', 'devices/ecu/pins/A2'],
      ['loose-splice', 'devices/joint'],
    ])
  })

  it('finds circles of needs and of accesses, each once', () => {
    const found = broken(({ collections: { jobs, accesses } }) => {
      Object.assign(jobs['J-1']!, { needs: { jobs: ['J-2'] } })
      Object.assign(jobs['J-2']!, { needs: { jobs: ['J-3'] } })
      Object.assign(jobs['J-3']!, { needs: { jobs: ['J-1'] } })
      Object.assign(accesses.a!, { requires: ['a'] })
    })
    expect(found.map(({ says }) => says)).toEqual([
      'Jobs J-1 → J-2 → J-3 → J-1 need each other in a circle, so none can be first.',
      'Accesses a → a require each other in a circle, so none can be opened first.',
    ])
  })

  it('finds runs that do not chain, and runs that lead elsewhere', () => {
    expect(
      broken(({ collections: { runs } }) => Object.assign(runs['R-2']!, { to: 'p3' })).map(({ path, says }) => [
        path,
        says,
      ]),
    ).toEqual([['wires/W-1/path/1', 'Wire W-1: run R-1 does not meet run R-2.']])
    expect(
      broken(({ collections: { wires } }) => Object.assign(wires['W-1']!, { path: ['R-1'] })).map(({ says }) => says),
    ).toEqual(['Wire W-1 runs from p1 to p2, but its devices sit at p1 and p3.'])
  })

  it('finds impossible switch settings and a foreign id', () => {
    const found = broken(({ collections: { cases, jobs } }) => {
      Object.assign(cases.night!, { switches: { key: 'half', lamp: 'on' } })
      Object.assign(jobs['J-1']!, { id: 'J-7' })
    })
    expect(found.map(({ code, path }) => [code, path])).toEqual([
      ['id-mismatch', 'jobs/J-1/id'],
      ['no-such-position', 'cases/night/switches/key'],
      ['not-a-switch', 'cases/night/switches/lamp'],
    ])
  })
})
