/** The rules of the loom: each on a small loom of its own, with its data, without them, and with them wrong. */
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../../../demo/index.ts'
import { type Build, type Entity, emptyBuild, type Wire } from '../../model/build.ts'
import { checkIntegrity } from '../../model/integrity.ts'
import { assess } from '../assess.ts'
import type { Finding } from '../finding.ts'
import { cutOf } from './cut.ts'
import { bundleOf, dressed, loomRuns, strandsThrough } from './loom.ts'

const m = (value: number, plusMinus?: number) => ({ value, ...(plusMinus === undefined ? {} : { plusMinus }) }) as never
const RULES = /^(passage-|sleeve-room|bend-radius|run-|wire-path|wire-too-short)/

/** Box and engine, joined by two runs through the bulkhead; `wires` of 1.5 mm² between them. */
const small = (
  wires: readonly Partial<Wire>[],
  passage: Partial<Entity<'passages'>> = {},
  run: Partial<Entity<'runs'>> = {},
): Build => {
  const build = emptyBuild('small')
  const { zones, branchPoints, runs, passages, devices } = build.collections
  zones.bay = { id: 'bay', name: 'Engine bay' } as never
  for (const [id, x] of [
    ['a', 0],
    ['b', 0.5],
    ['c', 1],
  ] as const)
    branchPoints[id] = { id, name: `Point ${id}`, zone: 'bay', x, y: 0 }
  passages.hole = { id: 'hole', name: 'Bulkhead', hole: m(0.02), grommet: true, bore: m(0.012), ...passage }
  runs['R-1'] = { id: 'R-1', from: 'a', to: 'b', length: m(0.6, 0.03), zone: 'bay', passage: 'hole', ...run }
  runs['R-2'] = { id: 'R-2', from: 'b', to: 'c', length: m(0.7, 0.04), zone: 'bay' }
  for (const [id, at] of [
    ['box', 'a'],
    ['engine', 'c'],
  ] as const)
    devices[id] = {
      id,
      name: id,
      at,
      pins: Object.fromEntries(wires.map((_, index) => [String(index + 1), {}])),
      spec: { kind: 'module' },
    }
  wires.forEach((wire, index) => {
    const id = `W-${index + 1}`
    build.collections.wires[id] = {
      id,
      from: `box.${index + 1}`,
      to: `engine.${index + 1}`,
      area: m(1.5e-6),
      material: 'copper',
      path: ['R-1', 'R-2'],
      ...wire,
    } as Wire
  })
  expect(checkIntegrity(build)).toEqual([])
  return build
}
const found = (build: Build): Finding[] => assess(build).findings.filter(({ rule }) => RULES.test(rule))
const seven = new Array<Partial<Wire>>(7).fill({})

describe('lengths', () => {
  it('are runs, tails and service; ± of the runs together', () => {
    const build = small(seven)
    const { laid, cut, plusMinus, working } = cutOf(build, build.collections.wires['W-1']!)
    expect(laid).toBeCloseTo(0.6 + 0.7 + 2 * 0.15, 12)
    expect(cut).toBeCloseTo(1.7, 12)
    expect(plusMinus).toBeCloseTo(0.05, 12)
    expect(working).toBe('0.60 + 0.70 m of runs + 2 × 0.15 m tails + 2 × 0.05 m service')
  })
  it('follow the loom sheet, and so does the resistance of the wire', () => {
    const build = small(seven)
    build.sheets.loom = { tail: m(0.2), service: m(0) }
    expect(cutOf(build, build.collections.wires['W-1']!).cut).toBeCloseTo(1.7, 12)
  })
  it('are unknown, with the run named, where a run has none', () => {
    const build = small(seven, {}, { length: undefined })
    expect(cutOf(build, build.collections.wires['W-1']!)).toMatchObject({
      cut: undefined,
      missing: 'the length of run R-1',
    })
    const [finding] = found(build)
    expect(finding).toMatchObject({ rule: 'run-length', verdict: 'unknown', missing: 'length of run R-1' })
    expect(finding!.says).toBe(
      'Run R-1, Point a to Point b: its length is not entered, so W-1, W-2, W-3 and 4 more cannot be cut.',
    )
  })
  it('name the shortest path where a wire has none', () => {
    const [finding] = found(small([{ path: undefined } as Partial<Wire>]))
    expect(finding).toMatchObject({ rule: 'wire-path', verdict: 'unknown' })
    expect(finding!.todo).toBe('Enter its path; the shortest leads through R-1, R-2.')
  })
  it('that cannot reach are found, unless the ± leaves it open', () => {
    expect(found(small([{ length: m(1.2) }]))).toMatchObject([{ rule: 'wire-too-short', verdict: 'marginal' }])
    expect(found(small([{ length: m(1.27) }]))).toEqual([])
    expect(found(small([{ length: m(1.2, 0.1) }]))).toEqual([])
  })
  it('shorter than the straight line on the plan are found', () => {
    expect(found(small(seven, {}, { length: m(0.4) }))).toMatchObject([{ rule: 'run-too-short' }])
    expect(found(small(seven, {}, { length: m(0.47, 0.03) }))).toEqual([])
  })
})

describe('bundles', () => {
  it('of seven equal wires are three of them wide, laid by hand a tenth more', () => {
    const build = small(seven)
    const [run] = loomRuns(build)
    const { bundle, bend } = dressed(build, run!)
    expect(bundle!.floor).toBeCloseTo(3 * 2.4e-3, 8)
    expect(bundle!.laid).toBeCloseTo(3.3 * 2.4e-3, 8)
    expect(bend!.free).toBeCloseTo(0.024, 12)
  })
  it('take a twisted pair as one round thing, a screened cable as entered, and say what they lack', () => {
    const build = small([
      { twistedWith: 'W-2' },
      { twistedWith: 'W-1' },
      { screened: true, outer: m(0.004) },
      { screened: true },
      { area: m(1.7e-6) },
      { area: undefined },
    ])
    const [run] = loomRuns(build)
    expect(run!.strands.map(({ diameter }) => diameter)).toEqual([0.0048, 0.004, undefined, undefined, undefined])
    expect(run!.missing).toEqual([
      'outer diameter of the screened cable W-4',
      'outer diameter of W-5: no table of thin wall lists 1.7 mm²',
      'cross-section of W-6',
    ])
    expect(bundleOf(build, run!.strands)).toBeUndefined()
  })
  it('wrapped in tape are four layers thicker; in tubing they get the smallest that takes them', () => {
    const taped = small(seven, {}, { sleeve: 'cloth tape' })
    expect(dressed(taped, loomRuns(taped)[0]!).over).toBeCloseTo(3.3 * 2.4e-3 + 4 * 0.3e-3, 8)
    const tubed = small(seven, {}, { sleeve: 'split conduit' })
    expect(dressed(tubed, loomRuns(tubed)[0]!).tubing).toMatchObject({ size: '14' })
  })
})

describe('a passage', () => {
  it('with room is silent', () => {
    expect(found(small(seven))).toEqual([])
  })
  it('that only the tightest packing passes is tight; that not even that passes is too small', () => {
    expect(found(small(seven, { bore: m(0.0075) }))[0]).toMatchObject({ rule: 'passage-room', verdict: 'marginal' })
    expect(found(small(seven, { bore: m(0.0075) }))[0]!.says).toContain('is tight: laid by hand')
    expect(found(small(seven, { bore: m(0.007) }))[0]!.says).toContain('cannot take them: packed as tightly')
    expect(found(small(seven, { bore: m(0.006) }))[0]!.says).toContain('they fill a circle of')
  })
  it('is judged by its known wires alone where these are too many already', () => {
    const build = small([...seven, { area: undefined } as Partial<Wire>], { bore: m(0.006) })
    expect(found(build)[0]).toMatchObject({ verdict: 'marginal' })
    const open = small([...seven, { area: undefined } as Partial<Wire>])
    expect(found(open)[0]).toMatchObject({ verdict: 'unknown', missing: 'cross-section of W-8' })
  })
  it('without its bore is unknown, unless the bare hole is too small already', () => {
    expect(found(small(seven, { bore: undefined }))).toMatchObject([
      { verdict: 'unknown', missing: 'bore of the grommet at Bulkhead' },
    ])
    expect(found(small(seven, { bore: undefined, hole: m(0.007) }))).toMatchObject([{ verdict: 'marginal' }])
  })
  it('without a grommet: in metal no-go, in wood none of our business, in who knows what marginal', () => {
    const bare = { grommet: false, bore: undefined }
    expect(found(small(seven, { ...bare, through: 'metal' }))).toMatchObject([
      { rule: 'passage-edge', verdict: 'no-go' },
    ])
    expect(found(small(seven, { ...bare, through: 'wood' }))).toEqual([])
    expect(found(small(seven, bare))).toMatchObject([{ rule: 'passage-edge', verdict: 'marginal' }])
    expect(found(small(seven, { grommet: undefined }))).toMatchObject([{ verdict: 'unknown' }])
  })
  it('takes each wire once, however many runs name it', () => {
    const build = small(seven)
    build.collections.runs['R-2']!.passage = 'hole'
    expect(strandsThrough('hole', loomRuns(build)).length).toBe(7)
  })
  it('with airbag wiring alone is left to those whose work it is', () => {
    expect(found(small([{ restricted: 'airbag' }], { grommet: false, through: 'metal' }))).toEqual([])
  })
})

describe('a sleeve and a bend', () => {
  it('too small are found', () => {
    expect(found(small(seven, {}, { sleeve: 'split conduit', sleeveBore: m(0.007) }))).toMatchObject([
      { rule: 'sleeve-room', verdict: 'marginal', subject: 'runs/R-1' },
    ])
    expect(found(small(seven, {}, { sleeveBore: m(0.01) }))).toEqual([])
    expect(found(small(seven, {}, { bend: m(0.02) }))[0]!.says).toContain('wants 24 mm, or 7.2 mm where it is held')
    expect(found(small(seven, {}, { bend: m(0.005) }))[0]!.says).toContain('even where it is held')
    expect(found(small(seven, {}, { bend: m(0.03) }))).toEqual([])
  })
})

describe('the three builds', () => {
  it('the demo: the planted bend, nothing else of the loom', () => {
    expect(found(demoBuild()).map(({ key }) => key)).toEqual(['bend-radius:runs/R-22'])
  })
  it('the sound one: nothing; the empty one: nothing; the half one: unknown with its datum, no no-go', () => {
    expect(found(soundBuild())).toEqual([])
    expect(found(emptyBuild('empty'))).toEqual([])
    const half = found(halfBuild()).filter(({ rule }) => rule !== 'bend-radius')
    expect(half.length).toBeGreaterThan(0)
    for (const finding of half) {
      expect(finding.verdict).toBe('unknown')
      expect(finding.missing).toMatch(/(cross-section|outer diameter) of/)
    }
  })
})
