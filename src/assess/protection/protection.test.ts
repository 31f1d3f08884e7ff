/** The law of protection over a small build: each sentence of it, one test. */
import { describe, expect, it } from 'vitest'
import { CONDUCTORS } from '../../engineering/electrical/conductorTable.ts'
import type { Build } from '../../model/build.ts'
import { contextOf } from '../context.ts'
import { small, wire } from '../small.testing.ts'
import { fuseFindings } from './fuseAgainstConductor.ts'
import { fuse, motorised, named, rate } from './protection.testing.ts'

const PAIR = 'fuse-against-conductor'
const pair = (build: Parameters<typeof named>[0], id: string) =>
  named(build, PAIR).find(({ subject }) => subject === `wires/${id}`)!

describe('sources', () => {
  it('a second battery', () => {
    const build = small((b) => {
      const c = b.collections
      c.devices.second = { ...structuredClone(c.devices.battery!), id: 'second', name: 'Second battery' }
      c.wires['W-6'] = wire('W-6', 'second.+', 'lamp.+')
    })
    expect(named(build, 'unfused-stretch')).toMatchObject([{ subject: 'wires/W-6', verdict: 'no-go' }])
  })
  const withAlternator = (rows: readonly Parameters<typeof wire>[]) =>
    small((b) => {
      const c = b.collections
      c.devices.alternator = {
        id: 'alternator',
        name: 'Alternator',
        zone: 'bay',
        pins: { 'B+': {} },
        spec: { kind: 'alternator' },
      }
      c.devices.charge = fuse('charge', 125, { pattern: 'bolt-down' })
      for (const row of rows) c.wires[row[0]] = wire(...row)
    })
  it('an alternator, whose cable is protected at its battery end', () => {
    const right = withAlternator([
      ['W-6', 'battery.+', 'charge.1', 35e-6, { length: { value: 0.15 }, unfusedBecause: 'Fuse on the terminal.' }],
      ['W-7', 'charge.2', 'alternator.B+', 35e-6],
    ])
    expect(named(right, 'unfused-stretch')).toEqual([])
  })
  it('an alternator whose fuse sits at the alternator leaves its cable to the battery', () => {
    const wrong = withAlternator([
      ['W-6', 'battery.+', 'charge.1', 35e-6, { length: { value: 2 } }],
      ['W-7', 'charge.2', 'alternator.B+', 35e-6, { length: { value: 0.1 } }],
    ])
    expect(named(wrong, 'unfused-stretch')).toMatchObject([{ subject: 'wires/W-6', verdict: 'no-go' }])
  })
  it('an alternator’s cable is judged behind the fuse at its battery end', () => {
    const rows = (area: number) =>
      withAlternator([
        ['W-6', 'battery.+', 'charge.1', 35e-6, { length: { value: 0.15 }, unfusedBecause: 'Fuse on the terminal.' }],
        ['W-7', 'charge.2', 'alternator.B+', area],
      ])
    expect(pair(rows(35e-6), 'W-7').verdict).toBe('sound')
    expect(pair(rows(6e-6), 'W-7').verdict).toBe('no-go')
  })
  it('an alternator cable with a reason is no exception', () => {
    const documented = withAlternator([
      ['W-6', 'battery.+', 'alternator.B+', 35e-6, { length: { value: 2 }, unfusedBecause: 'As the donor had it.' }],
    ])
    expect(named(documented, 'unfused-stretch')).toMatchObject([
      { subject: 'wires/W-6', verdict: 'no-go', todo: expect.stringContaining('battery end') },
    ])
    expect(named(documented, 'unfused-stretch')[0]!.says).toContain('neither the starter cable')
  })
  const socketed = (limit: number | undefined, area: number) =>
    small((b) => {
      const c = b.collections
      c.devices.socket = {
        id: 'socket',
        name: 'Charging socket',
        zone: 'bay',
        pins: { '+': {} },
        spec: { kind: 'module' },
        supplies: [{ pin: '+', kind: 'charging socket', ...(limit === undefined ? {} : { limit: { value: limit } }) }],
      }
      c.wires['W-6'] = wire('W-6', 'socket.+', 'fuse.2', area)
    })
  it('a charging socket: its wire must carry the charger’s limit', () => {
    const rule = 'supply-against-conductor'
    expect(named(socketed(8, 2.5e-6), rule)).toMatchObject([{ subject: 'devices/socket', verdict: 'sound' }])
    expect(named(socketed(40, 1e-6), rule)).toMatchObject([
      { verdict: 'no-go', todo: expect.stringMatching(/fuse into/) },
    ])
    expect(named(socketed(undefined, 1e-6), rule)).toMatchObject([
      { verdict: 'unknown', missing: 'current limit of the charger in pin + of Charging socket' },
    ])
  })
  const controlled = (limit: number | undefined) =>
    small((b) => {
      const c = b.collections
      c.devices.ecu = {
        id: 'ecu',
        name: 'Controller',
        zone: 'bay',
        pins: { V: { name: 'supply 5 V' }, H: {}, E: { name: 'power earth' } },
        spec: { kind: 'controller' },
        supplies: [{ pin: 'V', kind: 'controller supply', limit: { value: 0.2 } }],
      }
      c.outputs.high = {
        id: 'high',
        name: 'Lamp output',
        device: 'ecu',
        pin: 'H',
        driver: 'high side',
        configured: true,
        ...(limit === undefined ? {} : { limit: { value: limit } }),
      }
      c.wires['W-6'] = wire('W-6', 'ecu.V', 'lamp.-', 0.5e-6)
      c.wires['W-7'] = wire('W-7', 'ecu.H', 'lamp.-', 0.5e-6)
    })
  it('a controller’s sensor supply and high-side output, by their limits', () => {
    const by = (limit: number | undefined) =>
      named(controlled(limit), 'supply-against-conductor').map(({ subject, verdict }) => [subject, verdict])
    expect(by(5)).toContainEqual(['outputs/high', 'sound'])
    expect(by(5)).toContainEqual(['devices/ecu', 'sound'])
    expect(by(50)).toContainEqual(['outputs/high', 'no-go'])
    expect(by(undefined)).toContainEqual(['outputs/high', 'unknown'])
  })
  it('a 5 V pin is a source by its name, and its limit is asked for', () => {
    const build = controlled(5)
    delete build.collections.devices.ecu!.supplies
    expect(named(build, 'supply-against-conductor').find(({ verdict }) => verdict === 'unknown')?.missing).toMatch(
      /current limit of the supply at pin V/,
    )
  })
})

describe('exceptions', () => {
  const starter = (reason: string | undefined, to = 'starter.30') =>
    small((b) => {
      const c = b.collections
      c.devices.starter = {
        id: 'starter',
        name: 'Starter',
        zone: 'bay',
        pins: { 30: {}, 50: {} },
        spec: { kind: 'starter' },
      }
      c.wires['W-6'] = wire('W-6', 'battery.+', to, 35e-6, reason === undefined ? {} : { unfusedBecause: reason })
    })
  it('the starter cable, documented', () => {
    expect(named(starter('Starter cable.'), 'unfused-stretch')).toEqual([])
    expect(named(starter(undefined), 'unfused-stretch')).toHaveLength(1)
  })
  it('no other wire, whatever its reason', () => {
    expect(named(starter('It has always been so.', 'lamp.+'), 'unfused-stretch')).toMatchObject([
      { subject: 'wires/W-6', verdict: 'no-go' },
    ])
  })
  const link = (length: number | undefined) =>
    small((b) => {
      const first = b.collections.wires['W-1']!
      if (length === undefined) delete first.length
      else first.length = { value: length }
    })
  it('a link is the place of its fuse up to 0.18 m from the terminal, not beyond', () => {
    expect(named(link(0.17), 'unfused-stretch')).toEqual([])
    expect(named(link(0.19), 'unfused-stretch')).toMatchObject([{ subject: 'wires/W-1', verdict: 'no-go' }])
    expect(named(link(0.19), 'unfused-stretch')[0]!.says).toContain('0.19 m')
  })
  it('a link over a rail is measured along both conductors', () => {
    const rail = (each: number) =>
      small((b) => {
        const c = b.collections
        c.devices.rail = { id: 'rail', name: 'Rail', zone: 'bay', pins: { 1: {}, 2: {} }, spec: { kind: 'splice' } }
        const why = { length: { value: each }, unfusedBecause: 'Bus bar at the terminal.' }
        c.wires['W-1'] = wire('W-1', 'battery.+', 'rail.1', 25e-6, why)
        c.wires['W-6'] = wire('W-6', 'rail.2', 'fuse.1', 25e-6, why)
      })
    expect(named(rail(0.08), 'unfused-stretch')).toEqual([])
    expect(named(rail(0.12), 'unfused-stretch')).toMatchObject([{ subject: 'wires/W-6' }])
  })
  it('a link of unknown length is unknown', () => {
    expect(named(link(undefined), 'unfused-stretch')).toMatchObject([{ verdict: 'unknown', missing: 'length of W-1' }])
  })
})

describe('each conductor singly', () => {
  it('strands in parallel are judged one by one, each as if alone', () => {
    const build = small((b) => {
      rate(b, 30)
      b.collections.wires['W-3'] = wire('W-3', 'switch.2', 'lamp.+', 1.5e-6)
      b.collections.wires['W-6'] = wire('W-6', 'switch.2', 'lamp.+', 1.5e-6)
    })
    for (const id of ['W-3', 'W-6']) {
      expect(pair(build, id).verdict).toBe('no-go')
      expect(pair(build, id).working.join(' ')).toContain('as if alone')
    }
  })
  it('as far as the next fuse', () => {
    const build = small((b) => {
      const c = b.collections
      rate(b, 30)
      c.wires['W-2'] = wire('W-2', 'fuse.2', 'switch.1', 6e-6)
      c.devices.next = fuse('next', 7.5)
      c.wires['W-3'] = wire('W-3', 'switch.2', 'next.1', 6e-6)
      c.wires['W-6'] = wire('W-6', 'next.2', 'lamp.+', 1e-6)
    })
    expect(pair(build, 'W-6').verdict).toBe('sound')
    expect(pair(build, 'W-3').verdict).toBe('sound')
  })
  it('one finding a pair, with every clause in its working', () => {
    const working = pair(small(), 'W-3').working.join('\n')
    for (const clause of [
      '110 % for good',
      '135 % until',
      'Between and beyond the gates',
      'Bolted short at the far end',
    ])
      expect(working).toContain(clause)
  })
  it('gives the next act: a smaller fuse, or a bigger wire, that holds every clause', () => {
    const build = small((b) => {
      rate(b, 30)
      b.collections.wires['W-3']!.area = { value: 1e-6 }
    })
    const { todo } = pair(build, 'W-3')
    const fit = Number(/^Fit (\d+) A/.exec(todo)![1])
    expect(
      pair(
        small((b) => {
          rate(b, fit)
          b.collections.wires['W-3']!.area = { value: 1e-6 }
        }),
        'W-3',
      ).verdict,
    ).toBe('sound')
    const size = /fit (\S+ mm²) in place/.exec(todo)![1]!
    const area = CONDUCTORS.find((row) => row.size === size)!.area
    expect(
      pair(
        small((b) => {
          rate(b, 30)
          b.collections.wires['W-3']!.area = { value: area }
        }),
        'W-3',
      ).verdict,
    ).toBe('sound')
  })
})

describe('between the gates', () => {
  it('a MAXI’s slow 200 % hurts a wire that stands its 110 and 135 %', () => {
    const build = small((b) => {
      rate(b, 30, 'high-current blade')
      for (const id of ['W-2', 'W-3']) {
        b.collections.wires[id]!.area = { value: 3e-6 }
        b.collections.wires[id]!.insulation = 'C'
      }
    })
    const working = pair(build, 'W-3').working
    expect(working.find((line) => line.includes('for good'))).toMatch(/^holds/)
    const [gate, curve] = ['135 % until', 'Between and beyond'].map((clause) =>
      Number(/leads to (\d+) °C/.exec(working.find((line) => line.includes(clause))!)![1]),
    )
    expect(curve!).toBeGreaterThan(gate!)
  })
  it('the temperature of service is where the heating starts', () => {
    const build = small((b) => {
      b.collections.devices.lamp!.loads![0]!.law = { type: 'resistance', resistance: { value: 1.5 } }
    })
    const start = (id: string, of = build) => Number(/in service (\d+) °C/.exec(pair(of, id).working[0]!)![1])
    expect(start('W-3')).toBeGreaterThan(60)
    expect(start('W-3')).toBeGreaterThan(start('W-3', small()))
  })
})

describe('motors stalled', () => {
  it('open the fuse, with its time, above 135 %', () => {
    expect(pair(motorised(4, 18), 'W-3').working.find((line) => line.includes('held fast'))).toMatch(
      /^holds: Motor held fast: .* open after/,
    )
  })
  it('are said to be unprotected below 135 %', () => {
    expect(pair(motorised(4, 11), 'W-3').working.find((line) => line.includes('held fast'))).toMatch(/not protected/)
  })
  it('fail where the wire cannot stand what never opens the fuse', () => {
    const build = motorised(10, 32, (b) => {
      rate(b, 25)
      b.collections.wires['W-3']!.area = { value: 0.75e-6 }
    })
    expect(pair(build, 'W-3').working.find((line) => line.includes('held fast'))).toMatch(/^fails/)
  })
})

describe('a motor fed over strands in parallel', () => {
  const strands = (build: Build) => {
    rate(build, 20)
    for (const id of ['W-3', 'W-6', 'W-7']) build.collections.wires[id] = wire(id, 'switch.2', 'lamp.+', 1e-6)
  }
  it('held fast loads each strand as if it were alone', () => {
    const alone = motorised(5, 24, (build) => {
      rate(build, 20)
      build.collections.wires['W-3'] = wire('W-3', 'switch.2', 'lamp.+', 1e-6)
    })
    const stalled = (build: Build, id: string) =>
      /held fast: ([\d.]+) A in the fuse.* conductor at ([\d.]+) A/.exec(pair(build, id).working.join(' '))!
    const together = motorised(5, 24, strands)
    for (const id of ['W-3', 'W-6', 'W-7']) {
      const [, inFuse, inWire] = stalled(together, id)
      // All of it, and not a third.
      expect(inWire).toBe(inFuse)
      expect(Number(inWire)).toBeGreaterThan(Number(stalled(alone, 'W-3')[2]))
      expect(pair(together, id).verdict).toBe(pair(alone, 'W-3').verdict)
    }
  })
})

describe('a motor entered by its running draw', () => {
  it('is asked for its stalled current', () => {
    const build = small((b) => {
      const lamp = b.collections.devices.lamp!
      lamp.spec = { kind: 'pump' }
      lamp.loads![0]!.law = { type: 'power', power: { value: 50 }, minimumVoltage: { value: 8 } }
    })
    expect(named(build, 'stalled-current')).toMatchObject([{ verdict: 'unknown', missing: 'stalled current of Lamp' }])
    expect(named(motorised(4, 18), 'stalled-current')).toEqual([])
  })
})

describe('what brings a held motor’s current home', () => {
  it('must stand it too', () => {
    const earthed = (area: number) =>
      motorised(10, 32, (b) => {
        rate(b, 25)
        b.collections.wires['W-4']!.area = { value: area }
      })
    expect(named(earthed(4e-6), 'stall-against-return')).toEqual([])
    expect(named(earthed(0.75e-6), 'stall-against-return')).toMatchObject([
      { subject: 'wires/W-4', verdict: 'no-go', todo: expect.stringMatching(/^Fit .* in place of 0.75 mm² on W-4/) },
    ])
  })
})

describe('clearing', () => {
  it('is not reached at the end of a long thin wire behind a big fuse', () => {
    const build = small((b) => {
      rate(b, 20)
      b.collections.wires['W-3'] = wire('W-3', 'switch.2', 'lamp.+', 2.5e-6, { length: { value: 60 } })
    })
    const found = pair(build, 'W-3')
    expect(found).toMatchObject({ verdict: 'no-go', says: expect.stringContaining('not cleared') })
  })
  it('counts the return: a long thin earth wire keeps the fuse whole', () => {
    const build = small((b) => {
      rate(b, 20)
      b.collections.wires['W-4'] = wire('W-4', 'lamp.-', 'stud.S', 0.5e-6, { length: { value: 12 } })
    })
    expect(pair(build, 'W-3').says).toContain('not cleared')
    // The wire before it ends at the switch, where a short goes to the body.
    expect(pair(build, 'W-2').verdict).toBe('sound')
  })
  it('is unknown without the battery’s figures, and without a length that decides', () => {
    const battery = small((b) => {
      b.collections.devices.battery!.spec = { kind: 'battery', restedVoltage: { value: 12.6 } }
    })
    expect(pair(battery, 'W-3')).toMatchObject({ verdict: 'unknown', missing: 'internal resistance of Battery' })
    const length = small((b) => delete b.collections.wires['W-2']!.length)
    expect(pair(length, 'W-3')).toMatchObject({ verdict: 'unknown', missing: 'length of W-2' })
  })
  it('is weaker than the fresh battery by hand: flat, three times the resistance, copper at its class', () => {
    // 11.89 V over 3 × 6 mΩ, W-1 0.1 m, fuse × 1.67, W-2, switch, W-3 and W-4 at 100 °C, W-5, studs cancel at one pin, short 1 mΩ.
    const hot = 1 + 0.00393 * 80
    const ohm =
      0.018 +
      (7.6e-3 * 0.1 * hot + 2e-3) +
      7.7e-3 * 1.67 +
      3 * (7.6e-3 * hot + 2e-3) +
      8e-3 +
      (1.16e-3 * hot + 2e-3) +
      1e-3
    const found = /far end.*?: ([\d.]+) A in the fuse/.exec(pair(small(), 'W-3').working.join('\n'))!
    expect(Number(found[1])).toBeCloseTo(11.89 / ohm, 0)
  })
})

describe('breaking capacity', () => {
  const strong = (change?: Parameters<typeof small>[0]) =>
    small((b) => {
      b.collections.devices.battery!.spec = {
        kind: 'battery',
        restedVoltage: { value: 12.8 },
        internalResistance: { value: 0.003 },
      }
      b.collections.wires['W-1']!.area = { value: 25e-6 }
      b.collections.wires['W-5']!.area = { value: 50e-6 }
      b.collections.wires['W-1']!.ends = { from: { method: 'ring' }, to: { method: 'ring' } }
      b.collections.wires['W-5']!.ends = { from: { method: 'ring' }, to: { method: 'ring' } }
      rate(b, 40)
      change?.(b)
    })
  it('is exceeded by a strong battery close to a blade fuse', () => {
    expect(named(strong(), 'fuse-breaking')).toMatchObject([
      { subject: 'devices/fuse', verdict: 'no-go', todo: expect.stringContaining('bolt-down') },
    ])
    expect(named(small(), 'fuse-breaking')).toEqual([])
  })
  it('is the maker’s where it is entered', () => {
    const entered = strong((b) => {
      const { spec } = b.collections.devices.fuse!
      if (spec.kind === 'fuse') spec.breakingCapacity = { value: 2500 }
    })
    expect(named(entered, 'fuse-breaking')).toEqual([])
  })
  it('counts the alternator’s limit with the battery', () => {
    const of = (withAlternator: boolean) => {
      const build = strong((b) => {
        const c = b.collections
        if (!withAlternator) return
        c.devices.alternator = {
          id: 'alternator',
          name: 'Alternator',
          zone: 'bay',
          pins: { 'B+': {}, 31: {} },
          spec: {
            kind: 'alternator',
            setpoint: { value: 14.4 },
            internalResistance: { value: 0.01 },
            hotOutputCruise: { value: 120 },
          },
        }
        c.wires['W-6'] = wire('W-6', 'battery.+', 'alternator.B+', 35e-6)
        c.wires['W-7'] = wire('W-7', 'alternator.31', 'stud.S', 35e-6)
      })
      return Number(/: (\d+) A;/.exec(named(build, 'fuse-breaking')[0]!.says)![1])
    }
    expect(of(true)).toBeGreaterThan(of(false))
  })
})

describe('figures beyond what is known', () => {
  it('a cross-section that no car has is asked for, not judged', () => {
    const build = small((b) => {
      b.collections.wires['W-3']!.area = { value: 2.5 }
    })
    const found = fuseFindings(contextOf(build)).find(({ subject }) => subject === 'wires/W-3')
    expect(found).toMatchObject({ verdict: 'unknown', missing: expect.stringContaining('cross-section') })
  })
  it('a fuse below the gates’ 3 A is judged by those of its type', () => {
    const build = small((b) => {
      rate(b, 2)
      b.collections.wires['W-3'] = wire('W-3', 'switch.2', 'lamp.+', 0.35e-6, { length: { value: 99 } })
    })
    expect(pair(build, 'W-3')).toMatchObject({ verdict: 'no-go' })
  })
  it('what the strongest short hangs on is asked for once', () => {
    const build = small((b) => {
      b.collections.devices.battery!.spec = { kind: 'battery', restedVoltage: { value: 12.6 } }
    })
    expect(named(build, 'fuse-breaking')).toMatchObject([
      { verdict: 'unknown', missing: 'internal resistance of Battery' },
    ])
  })
})

describe('in service', () => {
  const drawing = (ohm: number, celsius?: number) =>
    small((b) => {
      b.collections.devices.lamp!.loads![0]!.law = { type: 'resistance', resistance: { value: ohm } }
      if (celsius !== undefined) b.collections.zones.bay!.ambient = { value: celsius + 273.15 }
    })
  it('75 % of the rating re-read at its ambient, then the rating itself', () => {
    expect(named(drawing(2), 'fuse-in-service')).toEqual([])
    // 7.8 A on 10 A: within 8.67 A at 60 °C, beyond 75 % of it.
    expect(named(drawing(1.55), 'fuse-in-service')).toMatchObject([{ verdict: 'marginal' }])
    expect(named(drawing(1.3), 'fuse-in-service')).toMatchObject([{ verdict: 'no-go' }])
    expect(named(drawing(2, 85), 'fuse-in-service')).toMatchObject([{ verdict: 'marginal' }])
  })
  it('asks for the ambient where it decides', () => {
    const build = drawing(1.9)
    delete build.collections.devices.fuse!.zone
    expect(named(build, 'fuse-in-service')).toMatchObject([
      { verdict: 'unknown', missing: 'ambient temperature where Lamp fuse stands' },
    ])
  })
})

describe('inrush', () => {
  const lamps = (watts: number, rating: number) =>
    small((b) => {
      rate(b, rating)
      b.collections.devices.lamp!.loads![0]!.law = {
        type: 'lamp',
        ratedVoltage: { value: 12 },
        ratedPower: { value: watts },
      }
    })
  it('cold lamps do not open a fuse that suits them, and may open one that does not', () => {
    expect(named(lamps(55, 10), 'fuse-inrush')).toEqual([])
    expect(named(lamps(110, 5), 'fuse-inrush')).toMatchObject([{ subject: 'devices/fuse', verdict: 'marginal' }])
    // There is no high-current blade fuse of 5 A: the first blade that stands the start is named, and what its wires say.
    const [found] = named(lamps(110, 5), 'fuse-inrush')
    const rating = Number(/^Fit (\S+) A in place of 5 A at Lamp fuse, which its wires stand;/.exec(found!.todo)![1])
    expect(named(lamps(110, rating), 'fuse-inrush')).toEqual([])
  })
  it('a motor that starts slowly may open its fuse', () => {
    const starting = (time: number | undefined) =>
      motorised(5, 25, (b) => {
        const { law } = b.collections.devices.lamp!.loads![0]!
        if (law?.type === 'motor' && time !== undefined) law.startTime = { value: time }
      })
    expect(named(starting(undefined), 'fuse-inrush')).toEqual([])
    expect(named(starting(2), 'fuse-inrush')).toMatchObject([{ verdict: 'marginal' }])
  })
})

describe('what no fuse does', () => {
  it('is said once', () => {
    expect(named(small(), 'below-fuse-gates')).toMatchObject([
      { verdict: 'sound', says: expect.stringMatching(/arcing.*less than 135 %/) },
    ])
  })
})

describe('bad inputs', () => {
  it('a fuse of 0 A', () => {
    const build = small((b) => {
      const { spec } = b.collections.devices.fuse!
      if (spec.kind === 'fuse') spec.rating = { value: 0 }
    })
    expect(named(build, 'fuse-rating')).toMatchObject([{ subject: 'devices/fuse', verdict: 'no-go' }])
  })
  it('a fuse bypassed by a wire', () => {
    const build = small((b) => {
      b.collections.wires['W-6'] = wire('W-6', 'fuse.1', 'switch.1')
    })
    const [found] = named(build, 'fuse-bypassed')
    expect(found).toMatchObject({ subject: 'devices/fuse', verdict: 'no-go' })
    expect(found!.says).toMatch(/W-6 and W-2|W-2 and W-6/)
  })
  it('two fuses in parallel', () => {
    const build = small((b) => {
      const c = b.collections
      c.devices.twin = fuse('twin', 15)
      c.wires['W-6'] = wire('W-6', 'fuse.1', 'twin.1', 2.5e-6, { length: { value: 0.05 }, unfusedBecause: 'Strip.' })
      c.wires['W-7'] = wire('W-7', 'twin.2', 'switch.1')
    })
    const found = named(build, 'fuses-in-parallel')
    expect(found).toMatchObject([{ verdict: 'no-go', says: expect.stringContaining('25 A') }])
    expect(named(build, 'fuse-bypassed')).toEqual([])
  })
})

describe('airbag and anti-lock', () => {
  it('a fuse that feeds one of them as well is never told to be changed', () => {
    const shared = (restricted: boolean) => {
      const build = small((b) => {
        const c = b.collections
        rate(b, 25)
        c.wires['W-3'] = wire('W-3', 'switch.2', 'lamp.+', 1e-6)
        c.devices.lamp!.loads![0]!.law = { type: 'resistance', resistance: { value: 0.6 } }
        c.devices.unit = { id: 'unit', name: 'Unit', zone: 'bay', pins: { '+': {} }, spec: { kind: 'module' } }
        if (restricted) c.devices.unit.restricted = 'airbag'
        c.wires['W-9'] = wire('W-9', 'fuse.2', 'unit.+')
      })
      return [pair(build, 'W-3').todo, named(build, 'fuse-in-service')[0]!.todo]
    }
    for (const todo of shared(false)) expect(todo).toMatch(/Fit \d+ A in place of 25 A at Lamp fuse/)
    for (const todo of shared(true)) expect(todo).not.toMatch(/A in place of/)
    expect(shared(true)[1]).toMatch(/^Take the other loads off Lamp fuse/)
  })
  it('are left alone by every rule of protection', () => {
    const build = small((b) => {
      rate(b, 40)
      b.collections.devices.fuse!.restricted = 'airbag'
    })
    for (const rule of [PAIR, 'fuse-breaking', 'fuse-in-service', 'fuse-inrush', 'unfused-stretch'])
      expect(named(build, rule).filter(({ subject }) => /fuse|W-[12]$/.test(subject))).toEqual([])
  })
})

describe('the next act for a stretch without a fuse', () => {
  const undocumented = (change: (build: Build) => void) =>
    named(
      small((b) => {
        delete b.collections.wires['W-1']!.unfusedBecause
        change(b)
      }),
      'unfused-stretch',
    )[0]!.todo
  it('is to say so of a short link to its fuse, not to fit the fuse that is there', () => {
    expect(undocumented(() => {})).toMatch(/^Say at W-1 that it is the link to Lamp fuse: 0\.10 m/)
  })
  it('is to bring the fuse near where the link is long', () => {
    const todo = undocumented((b) => {
      b.collections.wires['W-1']!.length = { value: 1 }
    })
    expect(todo).toMatch(/^Bring Lamp fuse to within 0\.18 m of Battery, pin \+/)
  })
  it('is to say why of the starter cable, which alone may go without', () => {
    const todo = undocumented((b) => {
      const c = b.collections
      c.devices.fuse = { id: 'fuse', name: 'Starter', zone: 'bay', pins: { 30: {}, 50: {} }, spec: { kind: 'starter' } }
      c.wires['W-1']!.to = 'fuse.30'
      delete c.wires['W-2']
    })
    expect(todo).toMatch(/^Say at W-1 why it has no fuse/)
  })
})

describe('a stall that no fuse ends', () => {
  // 12 A held on a 10 A fuse: 120 %, for good. 0.75 mm² of class A in 60 °C carries about 10 A at 85 °C.
  const stalled = (area: number) =>
    motorised(5, 12.2, (b) => {
      for (const id of ['W-2', 'W-3'])
        Object.assign(b.collections.wires[id]!, { area: { value: area }, insulation: 'A' })
    })
  it('is held against what the class stands for good, not against its limit for hours', () => {
    const clause = pair(stalled(0.75e-6), 'W-3').working.find((line) => line.includes('held fast'))
    expect(clause).toMatch(/^doubtful.*allowed 85 °C for good/)
    const thick = pair(stalled(2.5e-6), 'W-3')
    expect(thick.working.find((line) => line.includes('held fast'))).toMatch(/^holds/)
  })
})

describe('what is asked for', () => {
  it('is the air of the zone by its name', () => {
    const build = small((b) => {
      delete b.collections.zones.bay!.ambient
    })
    expect(pair(build, 'W-3')).toMatchObject({ verdict: 'unknown', missing: 'ambient temperature of Bay' })
  })
})
