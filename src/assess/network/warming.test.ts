import { describe, expect, it } from 'vitest'
import { run } from '../../engineering/calculation.ts'
import { conductorCurrent } from '../../engineering/electrical/conductorCurrent.ts'
import { steadyTemperature } from '../../engineering/electrical/steadyTemperature.ts'
import { conductorFindings } from '../conductorRules.ts'
import { contextOf } from '../context.ts'
import { insulationFindings } from '../insulationRules.ts'
import { small, wire } from '../small.testing.ts'
import { conductorFacts, warmed } from '../wireData.ts'
import { bundleOf } from './bundles.ts'
import { airInputs } from './capacity.ts'

/** The lamp's wires on for good with the engine running, so that the bay's 60 °C is about them. */
const running = (change: Parameters<typeof small>[0] = () => {}) =>
  small((build) => {
    const kase = build.collections.cases.lit!
    kase.engine = 'cruise'
    change!(build)
  })
const currentDraw = (build: ReturnType<typeof small>, amperes: number): void => {
  build.collections.devices.lamp!.loads![0]!.law = {
    type: 'current',
    current: { value: amperes },
    minimumVoltage: { value: 6 },
  }
}

describe('warm wires', () => {
  it('stand where heat made and heat given off are equal', () => {
    const build = running((b) => currentDraw(b, 20))
    const [solved] = contextOf(build).cases
    const temperature = solved!.temperatures['W-3']!
    const facts = conductorFacts(build.collections.wires['W-3']!)!
    // The other way round: the current that brings this wire to that temperature is the one it carries.
    const { current } = run(conductorCurrent, airInputs(facts, temperature, 333.15)).outputs
    expect(current).toBeCloseTo(20, 4)
  })
  it('have the resistance of their temperature in the solved network', () => {
    const build = running((b) => currentDraw(b, 20))
    const [solved] = contextOf(build).cases
    const facts = conductorFacts(build.collections.wires['W-3']!)!
    const element = solved!.bound.network.elements.find(({ id }) => id === 'wire:W-3')
    const [a, b] = [element!.a, element!.b].map((node) => solved!.nodes.get(node)!)
    const ohm = (a! - b!) / solved!.currents['W-3']!
    expect(Math.abs(ohm / (warmed(facts, solved!.temperatures['W-3']!) + 2e-3) - 1)).toBeLessThan(0.002)
    expect(ohm).toBeGreaterThan((warmed(facts, 333.15) + 2e-3) * 1.02)
  })
  it('are those of the air in cases that last seconds', () => {
    for (const change of [{ engine: 'cranking' as const }, { supply: { value: 14 } }]) {
      const [solved] = contextOf(
        small((build) => {
          Object.assign(build.collections.cases.lit!, change, { ambient: { value: 268.15 } })
          currentDraw(build, 20)
        }),
      ).cases
      expect(solved!.temperatures['W-3']).toBe(268.15)
      expect(solved!.bundles.size).toBe(0)
    }
  })
  it('that find no steady temperature are said to burn, and no temperature is made up', () => {
    const build = running((b) => {
      currentDraw(b, 40)
      b.collections.wires['W-3'] = wire('W-3', 'switch.2', 'lamp.+', 0.35e-6)
    })
    const context = contextOf(build)
    const [solved] = context.cases
    expect(solved!.temperatures).not.toHaveProperty('W-3')
    expect(solved!.notes.join()).toMatch(/Wire W-3 .* finds no steady temperature in “Lit”/)
    const found = conductorFindings(context).find(({ subject }) => subject === 'wires/W-3')
    expect(found).toMatchObject({ verdict: 'no-go', says: expect.stringMatching(/finds no steady temperature/) })
  })
})

it('a wire that draws less as it heats is followed to its balance, though its first current would burn it', () => {
  const build = running((b) => {
    b.collections.devices.lamp!.loads![0]!.law = { type: 'resistance', resistance: { value: 0.17 } }
    b.collections.wires['W-3'] = wire('W-3', 'switch.2', 'lamp.+', 0.35e-6, { length: { value: 4 } })
  })
  const [solved] = contextOf(build).cases
  const temperature = solved!.temperatures['W-3']!
  const facts = conductorFacts(build.collections.wires['W-3']!)!
  const cold = 12.6 / (0.17 + warmed(facts, 333.15) * 4 + 0.05)
  expect(steadyTemperature(facts, cold, 333.15)).toBeUndefined()
  const { current } = run(conductorCurrent, airInputs(facts, temperature, 333.15)).outputs
  expect(Math.abs(current / solved!.currents['W-3']! - 1)).toBeLessThan(0.003)
})

describe('a relay that its own hot feed lets go', () => {
  /** The lamp over a relay whose coil hangs on the lamp's feed. */
  const chattering = (dropOut: number) =>
    running((build) => {
      const c = build.collections
      currentDraw(build, 15)
      c.wires['W-2'] = wire('W-2', 'fuse.2', 'switch.1', 0.75e-6, { length: { value: 3 } })
      c.devices.relay = {
        id: 'relay',
        name: 'Relay',
        zone: 'bay',
        pins: { 30: {}, 87: {}, 85: {}, 86: {} },
        spec: {
          kind: 'relay',
          coilResistance: { value: 90 },
          pullIn: { value: 11.5 },
          dropOut: { value: dropOut },
          contactResistance: { value: 5e-3 },
        },
      }
      c.wires['W-3'] = wire('W-3', 'relay.87', 'lamp.+')
      c.wires['W-6'] = wire('W-6', 'switch.2', 'relay.30')
      c.wires['W-7'] = wire('W-7', 'switch.2', 'relay.86')
      c.wires['W-8'] = wire('W-8', 'relay.85', 'stud.S')
    })
  it('comes to rest where it holds at any heat', () => {
    const [solved] = contextOf(chattering(5)).cases
    expect(solved!.restless).toBeUndefined()
    expect(solved!.currents['W-3']).toBeCloseTo(15, 6)
  })
  it('comes to no rest where it holds cold and lets go hot: told, and no temperature passed off as steady', () => {
    const cold = chattering(5)
    cold.collections.cases.lit!.engine = 'cranking'
    cold.collections.cases.lit!.ambient = { value: 333.15 }
    const coil = (build: ReturnType<typeof small>) => {
      const { voltages } = contextOf(build).cases[0]!
      return voltages['relay.86']! - voltages['relay.85']!
    }
    const between = (coil(cold) + coil(chattering(5))) / 2
    const context = contextOf(chattering(between))
    expect(context.cases[0]!.restless).toBeGreaterThan(0.5)
    expect(context.cases[0]!.temperatures).not.toHaveProperty('W-2')
    expect(context.cases[0]!.bound.unsure).toContain('wire:W-2')
    expect(conductorFindings(context)).toContainEqual(
      expect.objectContaining({ verdict: 'unknown', subject: 'cases/lit', missing: 'a steady state of “Lit”' }),
    )
  })
})

describe('a bundle', () => {
  const members = (count: number, free: number) => Array.from({ length: count }, (_, n) => ({ wire: `W-${n}`, free }))
  // FAA AC 43.13-1B, page 11-27, worked chain: 8 wires at 60 % loading, factor 0.6 (47 A × 0.91 × 0.6 = 25.7 A each).
  it('of eight at 60 % leaves each six tenths', () => {
    const each = 0.6 * 0.6 * 47
    const { factor, loading, wires } = bundleOf('R', members(8, 47), () => each)
    expect(wires).toHaveLength(8)
    expect(loading).toBeCloseTo(0.6, 1)
    expect(factor).toBeCloseTo(0.6, 1.5)
  })
  // IEC 60364-5-52, clause 523.5 [from memory].
  it('does not count wires below 30 % of what they may carry', () => {
    const { factor, wires } = bundleOf('R', members(30, 10), (id) => (id === 'W-0' ? 9 : 0.5))
    expect([factor, wires]).toEqual([1, ['W-0']])
  })
  it('is beyond its figure with more than sixty', () => {
    expect(bundleOf('R', members(61, 10), () => 9).factor).toBeUndefined()
  })
  it('counts a wire of unknown section as full, and names it', () => {
    const some = [...members(1, 20), { wire: 'W-x', free: undefined }]
    expect(bundleOf('R', some, () => 15)).toMatchObject({ wires: ['W-0', 'W-x'], unknown: ['W-x'] })
  })
})

describe('wires that share a run', () => {
  /** Twelve lamps, each on its own wire through one run. */
  const loom = (amperes: number) =>
    running((build) => {
      const c = build.collections
      const pins = (...ids: string[]) => Object.fromEntries(ids.map((id) => [id, {}]))
      c.devices.fuse!.spec = { kind: 'fuse', rating: { value: 200 }, pattern: 'bolt-down' }
      c.zones.wall = { id: 'wall', name: 'Bulkhead', ambient: { value: 333.15 }, wet: 'dry', vibration: 'body' }
      c.branchPoints.A = { id: 'A', name: 'A', zone: 'bay' }
      c.branchPoints.B = { id: 'B', name: 'B', zone: 'bay' }
      c.runs.hole = { id: 'hole', from: 'A', to: 'B', zone: 'wall', length: { value: 0.7 } }
      for (let n = 0; n < 12; n += 1) {
        c.devices[`lamp-${n}`] = {
          id: `lamp-${n}`,
          name: `Lamp ${n}`,
          zone: 'bay',
          pins: pins('+', '-'),
          spec: { kind: 'lamp' },
          loads: [
            {
              id: 'it',
              from: '+',
              to: '-',
              law: { type: 'current', current: { value: amperes }, minimumVoltage: { value: 6 } },
            },
          ],
        }
        const [feed, back] = [`W-${100 + n}`, `W-${200 + n}`]
        const { length: _, ...through } = wire(feed, 'switch.2', `lamp-${n}.+`, 0.75e-6, { path: ['hole'] })
        c.wires[feed] = through
        c.wires[back] = wire(back, `lamp-${n}.-`, 'stud.S')
      }
    })
  it('warm one another: what suits one alone is too much among twelve, and the way out is said', () => {
    const found = conductorFindings(contextOf(loom(7))).find(({ key }) => key === 'conductor-temperature:wires/W-104')
    expect(found).toMatchObject({ verdict: 'no-go', zone: 'wall' })
    expect(found!.says).toMatch(/0\.75 mm², carries 7 A .* among 12 loaded wires in Bulkhead/)
    expect(found!.todo).toMatch(
      /^Fit [\d.]+ mm² in place of 0\.75 mm² on W-104, or move it out of the bundle through the bulkhead\.$/,
    )
    expect(found!.working.join()).toMatch(/AS50881/)
  })
  it('spoil a neighbour of a lower class that carries nothing at all', () => {
    const build = loom(9)
    const c = build.collections
    for (const each of Object.values(c.wires)) if (/^W-1\d\d$/.test(each.id)) each.insulation = 'D'
    const { length: _, ...through } = wire('W-300', 'lamp-0.+', 'stud.S', 0.5e-6, { path: ['hole'], insulation: 'A' })
    c.devices['lamp-0']!.pins.S = {}
    c.wires['W-300'] = { ...through, from: 'lamp-0.S', to: 'lamp-1.S' }
    c.devices['lamp-1']!.pins.S = {}
    const found = insulationFindings(contextOf(build)).find(({ subject }) => subject === 'wires/W-300')
    expect(found).toMatchObject({
      zone: 'wall',
      says: expect.stringMatching(/class A \(85 °C\), lies beside W-1\d\d in Bulkhead/),
      todo: expect.stringMatching(/^Move W-1\d\d out of the bundle, or make W-1\d\d thicker, or fit insulation/),
    })
    // What warms it is judged by its own class, and its surface is cooler than its metal.
    const [solved] = contextOf(build).cases
    const outside = Number(/at (\d+) °C outside/.exec(found!.says)![1])
    expect(outside).toBeGreaterThan(85)
    expect(outside).toBeLessThan(solved!.temperatures['W-100']! - 273.15)
  })
  it('are left alone while they carry little', () => {
    expect(conductorFindings(contextOf(loom(1.5))).filter(({ subject }) => /W-1\d\d/.test(subject))).toEqual([])
  })
})
