/** A fuse that opens ends what is solved: nothing downstream is to be made thicker for it. */
import { describe, expect, it } from 'vitest'
import { soundBuild } from '../../../demo/index.ts'
import { assess } from '../assess.ts'
import { small, wire } from '../small.testing.ts'
import { named } from './protection.testing.ts'

describe('a feed joined to earth behind its fuse', () => {
  const shorted = () => {
    const build = soundBuild()
    const { wires } = build.collections
    wires['W-200'] = { ...structuredClone(wires['W-27']!), id: 'W-200', from: 'lamp-switch.2', to: 'stud-body.S' }
    return assess(build).findings
  }
  it('is told by the fuse that opens first, with the short to look for', () => {
    const found = shorted().filter(({ rule }) => rule === 'fuse-in-service')
    expect(found.find(({ subject }) => subject === 'devices/fuse-lamp')).toMatchObject({
      verdict: 'no-go',
      todo: expect.stringMatching(/^Look for the short behind Work lamp fuse/),
    })
    expect(found.find(({ subject }) => subject === 'devices/fuse-main')).toMatchObject({
      todo: expect.stringMatching(/^Mend what opens Work lamp fuse, 7\.5 A first/),
    })
  })
  it('asks for no thicker wire and no larger alternator', () => {
    const found = shorted()
    expect(found.filter(({ rule }) => rule === 'conductor-temperature')).toEqual([])
    expect(found.filter(({ rule, verdict }) => rule === 'energy-balance' && verdict === 'no-go')).toEqual([])
  })
  it('leaves a wire on another fuse judged by its own current', () => {
    const build = soundBuild()
    const { wires } = build.collections
    wires['W-200'] = { ...structuredClone(wires['W-27']!), id: 'W-200', from: 'lamp-switch.2', to: 'stud-body.S' }
    // The alternator's cable carries its 42 A all the same, in air that leaves it nothing.
    build.collections.zones.cover!.ambient = { value: 421.15 }
    const hot = assess(build).findings.filter(({ rule }) => rule === 'conductor-temperature')
    expect(hot.map(({ subject }) => subject)).toContain('wires/W-5')
    expect(hot.map(({ subject }) => subject)).not.toContain('wires/W-26')
  })
})

describe('a larger fuse for a load that lasts', () => {
  // 7.8 A on a 10 A fuse in 60 °C: 15 A is the next that keeps it.
  const loaded = (area: number) =>
    named(
      small((b) => {
        b.collections.devices.lamp!.loads![0]!.law = { type: 'resistance', resistance: { value: 1.55 } }
        b.collections.wires['W-3'] = wire('W-3', 'switch.2', 'lamp.+', area)
      }),
      'fuse-in-service',
    )[0]!.todo
  it('is named with what its wires say to it', () => {
    expect(loaded(2.5e-6)).toMatch(/^Fit 15 A in place of 10 A at Lamp fuse, which its wires stand;/)
    expect(loaded(0.75e-6)).toMatch(/^Fit 15 A in place of 10 A at Lamp fuse, once W-3 is thick enough for it;/)
  })
})
