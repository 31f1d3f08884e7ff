/** Which wires stand behind which fuse where contacts choose between two feeds. */
import { describe, expect, it } from 'vitest'
import type { Build } from '../../model/build.ts'
import { contextOf } from '../context.ts'
import { small, wire } from '../small.testing.ts'
import { fuse, named, rate } from './protection.testing.ts'
import { protectedBy } from './reach.ts'

/** 5 A over 0.5 mm² on one throw, 30 A over 4 mm² on the other, 4 mm² from the common contact on. */
const twoFeeds = (change: (build: Build) => void): Build =>
  small((b) => {
    const c = b.collections
    rate(b, 5)
    c.devices.large = fuse('large', 30)
    c.wires['W-2'] = wire('W-2', 'fuse.2', 'chooser.87a', 0.5e-6)
    c.wires['W-3'] = wire('W-3', 'switch.2', 'lamp.+', 4e-6)
    c.wires['W-10'] = wire('W-10', 'battery.+', 'large.1', 6e-6, { length: { value: 0.1 }, unfusedBecause: 'Link.' })
    c.wires['W-11'] = wire('W-11', 'large.2', 'chooser.87', 4e-6)
    c.wires['W-12'] = wire('W-12', 'chooser.30', 'switch.1', 4e-6)
    change(b)
  })
const relay = (b: Build) => {
  b.collections.devices.chooser = {
    id: 'chooser',
    name: 'Changeover relay',
    zone: 'bay',
    pins: { 30: {}, 87: {}, '87a': {}, 85: {}, 86: {} },
    spec: { kind: 'relay', coilResistance: { value: 85 }, pullIn: { value: 7.2 }, dropOut: { value: 2 } },
  }
}
const positions = (of: Record<string, [string, string][]>) => (b: Build) => {
  b.collections.devices.chooser = {
    id: 'chooser',
    name: 'Change-over switch',
    zone: 'bay',
    pins: { 30: {}, 87: {}, '87a': {} },
    spec: { kind: 'switch', positions: of, rest: Object.keys(of)[0]!, contactResistance: { value: 8e-3 } },
  }
}
const verdicts = (build: Build) =>
  Object.fromEntries(named(build, 'fuse-against-conductor').map(({ subject, verdict }) => [subject.slice(6), verdict]))

describe('two feeds on a changeover', () => {
  it('the wire on one throw is not judged behind the fuse on the other', () => {
    const build = twoFeeds(relay)
    expect(verdicts(build)).toEqual({ 'W-2': 'sound', 'W-3': 'sound', 'W-11': 'sound', 'W-12': 'sound' })
    const behind = protectedBy(contextOf(build))
    expect(new Set(behind.get('large'))).toEqual(new Set(['W-11', 'W-12', 'W-3']))
    expect(new Set(behind.get('fuse'))).toEqual(new Set(['W-2', 'W-12', 'W-3']))
  })
  it('nor in the positions of a switch, unless one of them closes both contacts', () => {
    const apart = positions({ a: [['30', '87']], b: [['30', '87a']] })
    expect(verdicts(twoFeeds(apart))['W-2']).toBe('sound')
    const both = positions({
      a: [['30', '87']],
      both: [
        ['30', '87'],
        ['30', '87a'],
      ],
    })
    expect(verdicts(twoFeeds(both))['W-2']).toBe('no-go')
  })
  it('a wire behind the common contact is as ill protected as by the larger fuse, and told once', () => {
    const build = twoFeeds((b) => {
      relay(b)
      b.collections.wires['W-12']!.area = { value: 0.75e-6 }
    })
    const told = named(build, 'fuse-against-conductor').filter(({ subject }) => subject === 'wires/W-12')
    expect(told).toMatchObject([{ verdict: 'no-go', says: expect.stringContaining('30 A') }])
    expect(told[0]!.working.join()).toContain('Another fuse can feed it as well')
  })
  it('a splice of a thousand wires is gone through in no time', () => {
    const build = small((b) => {
      const c = b.collections
      c.devices.star = {
        id: 'star',
        name: 'Star',
        zone: 'bay',
        pins: Object.fromEntries(Array.from({ length: 1000 }, (_, i) => [`${i}`, {}])),
        spec: { kind: 'splice' },
      }
      c.wires['W-2'] = wire('W-2', 'fuse.2', 'star.0')
      for (let i = 1; i < 1000; i += 1) c.wires[`S-${i}`] = wire(`S-${i}`, `star.${i}`, 'switch.1')
    })
    const context = contextOf(build)
    expect(protectedBy(context).get('fuse')).toHaveLength(1001)
  })
})
