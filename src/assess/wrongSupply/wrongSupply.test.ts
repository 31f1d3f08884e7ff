import { describe, expect, it } from 'vitest'
import type { Build } from '../../model/build.ts'
import { named } from '../protection/protection.testing.ts'
import { small, wire } from '../small.testing.ts'

const module = (more: Partial<Build['collections']['devices'][string]> = {}) => ({
  id: 'radio',
  name: 'Radio',
  zone: 'bay',
  pins: { '+': {}, '-': {} },
  spec: { kind: 'module' as const },
  loads: [
    {
      id: 'set',
      from: '+',
      to: '-',
      law: { type: 'current' as const, current: { value: 1 }, minimumVoltage: { value: 8 } },
    },
  ],
  ...more,
})
const reversed = (change?: (build: Build) => void) =>
  small((b) => {
    b.collections.cases.reversed = {
      ...b.collections.cases.lit!,
      id: 'reversed',
      name: 'Reversed',
      battery: 'reversed',
    }
    change?.(b)
  })

describe('battery reversed', () => {
  it('says nothing of a lamp', () => {
    expect(named(reversed(), 'battery-reversed')).toEqual([])
  })
  const charged = (fused: boolean) =>
    reversed((b) => {
      const c = b.collections
      c.devices.alternator = {
        id: 'alternator',
        name: 'Alternator',
        zone: 'bay',
        pins: { 'B+': {}, 31: {} },
        spec: { kind: 'alternator' },
      }
      c.devices.charge = {
        id: 'charge',
        name: 'Charge fuse',
        zone: 'bay',
        pins: { 1: {}, 2: {} },
        spec: { kind: 'fuse', rating: { value: 125 }, pattern: 'bolt-down' },
      }
      c.wires['W-6'] = wire('W-6', 'battery.+', fused ? 'charge.1' : 'charge.2', 35e-6)
      c.wires['W-7'] = wire('W-7', 'charge.2', 'alternator.B+', 35e-6)
      c.wires['W-8'] = wire('W-8', 'alternator.31', 'stud.S', 35e-6)
    })
  it('finds the rectifier that conducts, and says whether a fuse ends it', () => {
    const [open] = named(charged(false), 'battery-reversed')
    expect(open).toMatchObject({ subject: 'devices/alternator', verdict: 'marginal' })
    expect(open!.says).toContain('no fuse on its way opens')
    expect(named(charged(true), 'battery-reversed')[0]!.says).toMatch(/Charge fuse opens within/)
  })
  it('finds the diode across a coil', () => {
    const build = reversed((b) => {
      const c = b.collections
      c.devices.relay = {
        id: 'relay',
        name: 'Relay',
        zone: 'bay',
        pins: { 85: {}, 86: {} },
        spec: { kind: 'relay', coilResistance: { value: 85 }, pullIn: { value: 7 }, suppression: 'diode' },
      }
      c.devices.relay.pins[30] = {}
      c.wires['W-6'] = wire('W-6', 'switch.2', 'relay.86')
      c.wires['W-7'] = wire('W-7', 'relay.85', 'stud.S')
    })
    const [found] = named(build, 'battery-reversed')
    expect(found).toMatchObject({ subject: 'devices/relay', verdict: 'marginal' })
    expect(found!.says).toContain('Lamp fuse opens within')
  })
  const radio = (more?: Parameters<typeof module>[0]) =>
    reversed((b) => {
      b.collections.devices.radio = module(more)
      b.collections.wires['W-6'] = wire('W-6', 'switch.2', 'radio.+')
      b.collections.wires['W-7'] = wire('W-7', 'radio.-', 'stud.S')
    })
  it('asks whether electronics are protected, names those that are not, passes those that are', () => {
    expect(named(radio(), 'battery-reversed')).toMatchObject([
      { verdict: 'unknown', missing: 'reverse-polarity protection of Radio' },
    ])
    expect(named(radio({ reverseProtected: false }), 'battery-reversed')).toMatchObject([
      { subject: 'devices/radio', verdict: 'marginal', says: expect.stringContaining('electrolytic') },
    ])
    expect(named(radio({ reverseProtected: true }), 'battery-reversed')).toEqual([])
  })
})

describe('jump start', () => {
  const jumped = (change?: (build: Build) => void) =>
    small((b) => {
      b.collections.cases.jump = {
        ...b.collections.cases.lit!,
        id: 'jump',
        name: 'Jump start',
        battery: 'disconnected',
        supply: { value: 24 },
      }
      change?.(b)
    })
  const loaded = (law: NonNullable<NonNullable<Build['collections']['devices'][string]['loads']>[number]['law']>) =>
    jumped((b) => {
      b.collections.devices.lamp!.loads![0]!.law = law
    })
  it('shortens a lamp’s life by the twelfth power', () => {
    const [found] = named(
      loaded({ type: 'lamp', ratedVoltage: { value: 12 }, ratedPower: { value: 21 } }),
      'over-voltage',
    )
    expect(found).toMatchObject({ subject: 'devices/lamp', verdict: 'marginal' })
    const at = Number(/burns at ([\d.]+) V/.exec(found!.says)![1])
    expect(at).toBeGreaterThan(22)
    const faster = Number(/runs (\d+) times/.exec(found!.says)![1])
    expect(faster / (at / 12) ** 12).toBeGreaterThan(0.9)
    expect(faster / (at / 12) ** 12).toBeLessThan(1.1)
  })
  it('names a motor far above its voltage, and the load dump', () => {
    const [found] = named(
      loaded({
        type: 'motor',
        ratedVoltage: { value: 12 },
        runningCurrent: { value: 4 },
        stallCurrent: { value: 18 },
      }),
      'over-voltage',
    )
    expect(found).toMatchObject({ subject: 'devices/lamp', verdict: 'marginal' })
    expect(found!.cautions.join(' ')).toContain('Load dump')
  })
  it('takes the car’s own battery as flat and tired: it holds the source down less', () => {
    const own = jumped((b) => {
      b.collections.cases.jump!.battery = 'connected'
      b.collections.devices.lamp!.loads![0]!.law = {
        type: 'lamp',
        ratedVoltage: { value: 12 },
        ratedPower: { value: 21 },
      }
    })
    // 24 V over 10 mΩ against 11.89 V over 18 mΩ: 19.7 V at the terminals.
    expect(Number(/burns at ([\d.]+) V/.exec(named(own, 'over-voltage')[0]!.says)![1])).toBeCloseTo(19.6, 0)
  })
  const radio = (more?: Parameters<typeof module>[0]) =>
    jumped((b) => {
      b.collections.devices.radio = module(more)
      b.collections.wires['W-6'] = wire('W-6', 'switch.2', 'radio.+')
      b.collections.wires['W-7'] = wire('W-7', 'radio.-', 'stud.S')
    })
  it('holds electronics against what they survive', () => {
    const of = (build: Build) => named(build, 'over-voltage').filter(({ subject }) => subject === 'devices/radio')
    expect(of(radio())).toMatchObject([
      { verdict: 'unknown', missing: 'highest supply voltage that Radio survives for a minute' },
    ])
    expect(of(radio({ withstands: { value: 18 } }))).toMatchObject([{ verdict: 'marginal' }])
    expect(of(radio({ withstands: { value: 26 } }))).toEqual([])
  })
})
