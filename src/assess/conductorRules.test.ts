import { describe, expect, it } from 'vitest'
import { demoBuild } from '../../demo/index.ts'
import { run } from '../engineering/calculation.ts'
import { conductorCurrent } from '../engineering/electrical/conductorCurrent.ts'
import { publishedRating } from '../engineering/electrical/publishedRating.ts'
import type { Build, Wire } from '../model/build.ts'
import { awgArea } from '../units/awg.ts'
import { assess } from './assess.ts'
import { conductorFindings } from './conductorRules.ts'
import { contextOf } from './context.ts'
import { allowance } from './network/allowance.ts'
import { airInputs } from './network/capacity.ts'
import { small, wire } from './small.testing.ts'
import { CLASS_TEMPERATURE, conductorFacts } from './wireData.ts'

const BAY = 333.15
/** The small circuit with W-3 of that section under that current for good, everything else thick enough. */
const carrying = (amperes: number, area: number, more: Partial<Wire> = {}, change?: (build: Build) => void): Build =>
  small((build) => {
    const c = build.collections
    // A fuse that lets it pass: what blows one at once heats no wire for good.
    c.devices.fuse!.spec = { kind: 'fuse', rating: { value: 200 }, pattern: 'bolt-down' }
    for (const id of ['W-1', 'W-2', 'W-4', 'W-5']) c.wires[id]!.area = { value: 95e-6 }
    c.wires['W-3'] = wire('W-3', 'switch.2', 'lamp.+', area, more)
    c.devices.lamp!.loads![0]!.law = {
      type: 'current',
      current: { value: amperes },
      minimumVoltage: { value: 1 },
    }
    change?.(build)
  })
const found = (build: Build) => conductorFindings(contextOf(build)).find(({ subject }) => subject === 'wires/W-3')
const facts = (area: number, material: Wire['material'] = 'copper') =>
  conductorFacts({ area: { value: area }, material })!

describe('the lower of heat balance and published rating decides', () => {
  it('the table, where the balance would allow more', () => {
    // 35 mm², class B, 60 °C: DIN VDE 0298-4 gives 158 A·√(40/40).
    const may = allowance(facts(35e-6), CLASS_TEMPERATURE.B, BAY)
    const published = run(publishedRating, { size: '35 mm²', temperature: 373.15, ambient: BAY, wires: 1 }).outputs
    expect(published.current).toBeCloseTo(158, 9)
    expect(may.balance).toBeGreaterThan(158)
    expect(may.allowed).toBe(published.current)
    expect(found(carrying(165, 35e-6))).toMatchObject({
      verdict: 'no-go',
      says: expect.stringMatching(/35 mm², carries 165 A in “Lit” and may carry 158 A, as its table has it, in Bay\./),
    })
  })
  it('the balance, where the table would allow more', () => {
    const may = allowance(facts(1e-6), CLASS_TEMPERATURE.B, BAY)
    const { current } = run(conductorCurrent, airInputs(facts(1e-6), CLASS_TEMPERATURE.B, BAY)).outputs
    expect(may.published).toBeCloseTo(19, 9)
    expect(may.allowed).toBe(Math.min(current, 19))
    expect(may.balance).toBe(current)
  })
  it('the balance alone for a size that no table lists', () => {
    const may = allowance(facts(0.75e-6), CLASS_TEMPERATURE.B, BAY)
    expect(may.published).toBeUndefined()
    expect(may.allowed).toBe(may.balance)
  })
  it('and neither where the air is as hot as the insulation', () => {
    expect(allowance(facts(1e-6), 333.15, BAY).allowed).toBeUndefined()
    const hot = (b: Build) => {
      b.collections.zones.bay!.ambient = { value: 380 }
    }
    expect(found(carrying(5, 1e-6, {}, hot))).toMatchObject({
      verdict: 'no-go',
      says: expect.stringMatching(/may carry nothing at 107 °C/),
      todo: 'Fit insulation of class C on W-3.',
    })
  })
})

it('is content with what it may carry, and marginal from four fifths of the balance on', () => {
  const { balance } = allowance(facts(2.5e-6), CLASS_TEMPERATURE.B, BAY)
  expect(found(carrying(0.78 * balance!, 2.5e-6))).toBeUndefined()
  expect(found(carrying(0.83 * balance!, 2.5e-6))).toMatchObject({ verdict: 'marginal' })
})

it('names gauge sizes as such and goes on in gauge sizes', () => {
  expect(found(carrying(16, awgArea(18)))).toMatchObject({
    verdict: 'no-go',
    says: expect.stringMatching(/, AWG 18, carries 16 A/),
    todo: expect.stringMatching(/^Fit AWG 1\d in place of AWG 18 on W-3\.$/),
  })
})

it('judges by the worst of the places on the way', () => {
  const build = carrying(18, 2.5e-6, {}, (b) => {
    const c = b.collections
    c.zones.hot = { id: 'hot', name: 'Beside the exhaust', ambient: { value: 366.15 }, wet: 'dry', vibration: 'engine' }
    c.branchPoints.A = { id: 'A', name: 'A', zone: 'bay' }
    c.branchPoints.B = { id: 'B', name: 'B', zone: 'bay' }
    c.runs.past = { id: 'past', from: 'A', to: 'B', zone: 'hot', length: { value: 0.3 } }
    c.wires['W-3']!.path = ['past']
  })
  expect(found(carrying(18, 2.5e-6))).toBeUndefined()
  expect(found(build)).toMatchObject({
    verdict: 'no-go',
    zone: 'hot',
    says: expect.stringMatching(/Beside the exhaust/),
  })
})

it('gives copper-clad aluminium less than copper of its section, and more than aluminium', () => {
  const [copper, clad, aluminium] = (['copper', 'copper-clad aluminium', 'aluminium'] as const).map(
    (material) => allowance(facts(2.5e-6, material), CLASS_TEMPERATURE.B, BAY).allowed!,
  )
  expect(clad! / copper!).toBeLessThan(0.9)
  expect(clad).toBeGreaterThan(aluminium!)
})

it('does not blame a wire for neighbours of unknown section, and asks for it', () => {
  const build = carrying(8, 0.75e-6, {}, (b) => {
    const c = b.collections
    c.branchPoints.A = { id: 'A', name: 'A', zone: 'bay' }
    c.branchPoints.B = { id: 'B', name: 'B', zone: 'bay' }
    c.runs.shared = { id: 'shared', from: 'A', to: 'B', zone: 'bay', length: { value: 0.7 } }
    c.wires['W-3']!.path = ['shared']
    for (let n = 0; n < 9; n += 1) {
      const id = `heater-${n}`
      c.devices[id] = { ...structuredClone(c.devices.lamp!), id, name: `Heater ${n}` }
      const { area: _, ...unknown } = wire(`W-1${n}`, 'switch.2', `${id}.+`, 1e-6, { path: ['shared'] })
      c.wires[unknown.id] = unknown
      c.wires[`W-2${n}`] = wire(`W-2${n}`, `${id}.-`, 'stud.S', 2.5e-6)
    }
  })
  const judged = found(build)
  expect(judged).toMatchObject({
    verdict: 'unknown',
    missing: expect.stringMatching(/^cross-section and material of W-10/),
  })
})

it('a wire too thin for its current is told once, not by every wire beside it', () => {
  const build = demoBuild()
  delete build.collections.wires['W-2']
  const { findings } = assess(build)
  expect(
    findings.filter(({ rule, subject }) => rule === 'conductor-temperature' && subject === 'wires/W-33'),
  ).toHaveLength(1)
  expect(findings.filter(({ rule, says }) => rule === 'insulation-class' && says.includes('beside W-33'))).toEqual([])
})

it('a wire across the battery is a short to find, not one to lead along a cooler path', () => {
  const build = small((b) => {
    b.collections.wires['W-9'] = wire('W-9', 'battery.+', 'battery.-', 6e-6)
  })
  const told = conductorFindings(contextOf(build)).find(({ subject }) => subject === 'wires/W-9')
  expect(told).toMatchObject({ verdict: 'no-go', todo: expect.stringMatching(/^Find what draws \d+ A over W-9/) })
})
