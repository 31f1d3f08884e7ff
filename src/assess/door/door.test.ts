/** What is entered and cannot be, or is wired as nobody means it: a clear finding each, no exception, no figure that is no number. */
import { describe, expect, it } from 'vitest'
import { halfBuild, soundBuild } from '../../../demo/index.ts'
import { type Build, buildSchema, emptyBuild } from '../../model/build.ts'
import { assess } from '../assess.ts'
import { small, wire } from '../small.testing.ts'
import { solveCase } from '../solveCases.ts'
import { believed } from './believed.ts'

const said = (build: Build, rule: string) => assess(build).findings.filter((found) => found.rule === rule)

/** Paths of figures and sentences in which a number has been lost. */
const lost = (value: unknown, path = ''): string[] => {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path]
  if (typeof value === 'string') return /NaN|Infinity|undefined/.test(value) ? [`${path}: ${value}`] : []
  return value && typeof value === 'object'
    ? Object.entries(value).flatMap(([key, each]) => lost(each, `${path}/${key}`))
    : []
}

describe('figures that cannot be', () => {
  it.each([0, -1e-6, 1e-12, 5e-324, 2.5, 1e300, Number.NaN])('a cross-section of %d m² is asked for', (area) => {
    const build = small((b) => {
      b.collections.wires['W-2']!.area = { value: area }
    })
    expect(said(build, 'impossible-figure')).toMatchObject([
      { subject: 'wires/W-2', verdict: 'unknown', missing: 'cross-section of W-2' },
    ])
    const result = assess(build)
    expect(result.findings.filter(({ verdict }) => verdict === 'no-go')).toEqual([])
    expect(lost(result)).toEqual([])
    expect(result.cases.lit!.missing).toContainEqual({ subject: 'wires/W-2', datum: 'cross-section' })
  })
  it('every wire of the sound build a million times too thick', () => {
    const build = structuredClone(soundBuild())
    for (const each of Object.values(build.collections.wires)) if (each.area) each.area.value *= 1e6
    const result = assess(build)
    expect(lost(result)).toEqual([])
    expect(result.findings.filter(({ verdict }) => verdict === 'no-go')).toEqual([])
    expect(result.findings.some(({ rule }) => rule === 'impossible-figure')).toBe(true)
  })
  it('what stands at the edge of what cars have is believed', () => {
    for (const area of [0.13e-6, 0.22e-6, 120e-6, 240e-6]) {
      const build = small((b) => {
        b.collections.wires['W-5']!.area = { value: area }
      })
      expect(said(build, 'impossible-figure')).toEqual([])
    }
  })
  it.each([0, 1e-9, 1200, 1e300])('a wire of %d m is asked for', (length) => {
    const build = small((b) => {
      b.collections.wires['W-2']!.length = { value: length }
    })
    expect(said(build, 'impossible-figure')).toMatchObject([{ verdict: 'unknown', missing: 'length of W-2' }])
    expect(lost(assess(build))).toEqual([])
  })
  it('a loop of wires without length or joints', () => {
    const ideal = { method: 'crimped', resistance: { value: 0 } } as const
    const build = small((b) => {
      const c = b.collections
      for (const id of ['s1', 's2', 's3'])
        c.devices[id] = { id, name: id, pins: { a: {}, b: {}, c: {} }, spec: { kind: 'splice' } }
      for (const [id, from, to] of [
        ['L-1', 's1.a', 's2.b'],
        ['L-2', 's2.a', 's3.b'],
        ['L-3', 's3.a', 's1.b'],
      ] as const)
        c.wires[id] = wire(id, from, to, 1e-6, { length: { value: 0 }, ends: { from: ideal, to: ideal } })
      c.wires['W-3']!.to = 's1.c'
      c.wires['W-6'] = wire('W-6', 's2.c', 'lamp.+')
    })
    const result = assess(build)
    expect(result.cases.lit!.solved).toBe(true)
    expect(said(build, 'impossible-figure').map(({ missing }) => missing)).toEqual([
      'length of L-1',
      'resistance of a joint of L-1',
      'length of L-2',
      'resistance of a joint of L-2',
      'length of L-3',
      'resistance of a joint of L-3',
    ])
    expect(lost(result)).toEqual([])
  })
  it('a loop of two ideal batteries', () => {
    const build = small((b) => {
      const c = b.collections
      const battery = c.devices.battery!
      battery.spec = { kind: 'battery', restedVoltage: { value: 12.6 }, internalResistance: { value: 0 } }
      c.devices.second = { ...structuredClone(battery), id: 'second', name: 'Second battery' }
      c.wires['W-6'] = wire('W-6', 'battery.+', 'second.+', 16e-6)
      c.wires['W-7'] = wire('W-7', 'battery.-', 'second.-', 16e-6)
    })
    expect(said(build, 'impossible-figure').map(({ missing }) => missing)).toEqual([
      'internal resistance of Battery',
      'internal resistance of Second battery',
    ])
    expect(said(build, 'missing-data').map(({ subject }) => subject)).toEqual(['devices/battery', 'devices/second'])
  })
  it.each([0, -5])('a fuse of %d A feeds nothing', (rating) => {
    const build = small((b) => {
      b.collections.devices.fuse!.spec = { kind: 'fuse', rating: { value: rating }, pattern: 'blade' }
    })
    expect(said(build, 'fuse-rating')).toMatchObject([{ subject: 'devices/fuse', verdict: 'no-go' }])
    expect(lost(assess(build))).toEqual([])
  })
  it('a fuse of a million amperes is a slip', () => {
    const build = small((b) => {
      b.collections.devices.fuse!.spec = { kind: 'fuse', rating: { value: 1e6 }, pattern: 'blade' }
    })
    expect(said(build, 'impossible-figure')).toMatchObject([{ missing: 'rating of Lamp fuse' }])
  })
  it.each([-10, 0, 100, 5000])('a zone at %d K is asked for', (kelvin) => {
    const build = small((b) => {
      b.collections.zones.bay!.ambient = { value: kelvin }
    })
    expect(said(build, 'impossible-figure')).toMatchObject([
      { subject: 'zones/bay', verdict: 'unknown', missing: 'ambient temperature of Bay' },
    ])
    expect(lost(assess(build))).toEqual([])
  })
  it('a case colder than any winter', () => {
    const build = small((b) => {
      b.collections.cases.lit!.ambient = { value: 0 }
    })
    expect(said(build, 'impossible-figure')).toMatchObject([{ missing: 'temperature of “Lit”' }])
    expect(assess(build).cases.lit!.solved).toBe(true)
  })
  it('a lamp of no watts is a lamp that is not described', () => {
    const build = small((b) => {
      b.collections.devices.lamp!.loads![0]!.law = {
        type: 'lamp',
        ratedVoltage: { value: 12 },
        ratedPower: { value: 0 },
      }
    })
    expect(said(build, 'impossible-figure')).toMatchObject([{ missing: 'what filament draws of Lamp' }])
    expect(said(build, 'missing-data')).toMatchObject([{ subject: 'devices/lamp' }])
  })
  it('says nothing of an airbag’s wire', () => {
    const build = small((b) => {
      b.collections.devices.lamp!.restricted = 'airbag'
      b.collections.wires['W-3']!.area = { value: 2.5 }
    })
    expect(said(build, 'impossible-figure')).toEqual([])
  })
  it('leaves a build without slips as the same object', () => {
    for (const build of [small(), soundBuild(), halfBuild(), emptyBuild('nothing')]) {
      const result = believed(build)
      expect(result.build).toBe(build)
      expect(result.impossible).toEqual([])
    }
  })
  it('a case solved by itself passes the same door', () => {
    const build = small((b) => {
      b.collections.wires['W-2']!.area = { value: 2.5 }
    })
    const solved = solveCase(build, build.collections.cases.lit!)
    expect(solved.solved).toBe(true)
    expect(solved.missing).toContainEqual({ subject: 'wires/W-2', datum: 'cross-section' })
  })
})

describe('circuits that cannot be meant', () => {
  const relay = (contact: '87' | '87a', change?: (b: Build) => void) =>
    small((b) => {
      const c = b.collections
      c.devices.relay = {
        id: 'relay',
        name: 'Relay',
        zone: 'bay',
        pins: { 30: {}, 85: {}, 86: {}, 87: {}, '87a': {} },
        spec: { kind: 'relay', coilResistance: { value: 90 }, pullIn: { value: 8 }, dropOut: { value: 3 } },
      }
      c.wires['W-3']!.from = 'relay.87'
      c.wires['R-1'] = wire('R-1', 'switch.2', 'relay.30')
      c.wires['R-2'] = wire('R-2', `relay.${contact}`, 'relay.86')
      c.wires['R-3'] = wire('R-3', 'relay.85', 'stud.S')
      change?.(b)
    })
  it('a relay that feeds its own coil over its make contact never pulls in', () => {
    expect(said(relay('87'), 'relay-own-coil')).toMatchObject([
      { subject: 'devices/relay', verdict: 'no-go', says: expect.stringContaining('never pull in') },
    ])
  })
  it('a relay that feeds its own coil over its break contact buzzes, and is told so once', () => {
    expect(said(relay('87a'), 'relay-own-coil')).toMatchObject([
      { verdict: 'no-go', says: expect.stringContaining('buzzes') },
    ])
    expect(said(relay('87a'), 'relay-restless')).toMatchObject([{ about: 'Relay', verdict: 'no-go' }])
  })
  it('a relay that holds itself once a push has pulled it in is meant', () => {
    const holding = relay('87', (b) => {
      const c = b.collections
      c.devices.push = {
        id: 'push',
        name: 'Push',
        zone: 'bay',
        pins: { 1: {}, 2: {} },
        spec: { kind: 'switch', positions: { off: [], on: [['1', '2']] }, rest: 'off' },
      }
      c.wires['R-4'] = wire('R-4', 'switch.2', 'push.1')
      c.wires['R-5'] = wire('R-5', 'push.2', 'relay.86')
    })
    expect(said(holding, 'relay-own-coil')).toEqual([])
  })
  it('a coil that a module may feed is left alone', () => {
    const fed = relay('87', (b) => {
      const c = b.collections
      c.devices.alarm = { id: 'alarm', name: 'Alarm', pins: { 1: {} }, spec: { kind: 'module' } }
      c.wires['R-4'] = wire('R-4', 'alarm.1', 'relay.86')
    })
    expect(said(fed, 'relay-own-coil')).toEqual([])
  })
  it('a wire from post to post', () => {
    const shorted = small((b) => {
      b.collections.wires['W-8'] = wire('W-8', 'battery.+', 'stud.S', 16e-6)
    })
    expect(said(shorted, 'dead-short')).toMatchObject([
      { subject: 'devices/battery', verdict: 'no-go', says: expect.stringContaining('W-8') },
    ])
    expect(said(small(), 'dead-short')).toEqual([])
  })
  it('two batteries in series are no short', () => {
    const series = small((b) => {
      const c = b.collections
      c.devices.second = { ...structuredClone(c.devices.battery!), id: 'second', name: 'Second battery' }
      c.wires['W-1']!.from = 'second.+'
      c.wires['W-6'] = wire('W-6', 'battery.+', 'second.-', 16e-6)
    })
    expect(said(series, 'dead-short')).toEqual([])
  })
  it('a splice of a thousand wires', () => {
    const build = small((b) => {
      const c = b.collections
      c.devices.joint = { id: 'joint', name: 'Joint', zone: 'bay', pins: { a: {} }, spec: { kind: 'splice' } }
      c.wires['W-3']!.to = 'joint.a'
      for (let i = 0; i < 999; i += 1) c.wires[`T-${i}`] = wire(`T-${i}`, 'joint.a', 'lamp.+')
    })
    const { findings, cases } = assess(build)
    expect(findings.filter(({ rule }) => rule === 'crowded-splice')).toMatchObject([
      { subject: 'devices/joint', verdict: 'marginal', says: expect.stringContaining('1000 wires') },
    ])
    expect(cases.lit!.solved).toBe(true)
  })
})

describe('whatever the schema lets in', () => {
  // A small generator of its own: every case is the same on every machine.
  const random = (seed: number) => () => {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0
    return seed / 2 ** 32
  }
  const leaves = (value: unknown, out: [Record<string, unknown>, string][] = []): typeof out => {
    if (value && typeof value === 'object')
      for (const [key, each] of Object.entries(value)) {
        out.push([value as Record<string, unknown>, key])
        leaves(each, out)
      }
    return out
  }
  it('is judged without an exception and without a figure that is no number', () => {
    const next = random(20)
    let tried = 0
    for (let round = 0; round < 16; round += 1) {
      const build: unknown = structuredClone(round % 2 === 0 ? soundBuild() : small())
      const places = leaves(build)
      for (let change = 0; change < 10; change += 1) {
        const [record, key] = places[Math.floor(next() * places.length)]!
        const before = record[key]
        if (typeof before === 'number')
          record[key] = [0, 1e-12, 1e-6, 1e-3, 1, 1e3, 1e6, 1e12, -1, before * 1e3, before / 1e3][
            Math.floor(next() * 11)
          ]
        else if (next() < 0.5) delete record[key]
        if (!buildSchema.safeParse(build).success) record[key] = before
      }
      const read = buildSchema.safeParse(build)
      if (!read.success) continue
      tried += 1
      expect(lost(assess(read.data as Build))).toEqual([])
    }
    expect(tried).toBeGreaterThan(12)
  })
})
