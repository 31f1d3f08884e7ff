// Kirchhoff's law of currents is the check: what returns to a metal leaves it by its straps.
import { describe, expect, it } from 'vitest'
import { demoBuild, halfBuild, soundBuild } from '../../../demo/index.ts'
import { emptyBuild } from '../../model/build.ts'
import { assess } from '../assess.ts'
import { returnTreeOf } from './returnTree.ts'

describe('the way of the currents home', () => {
  it('balances for the body of the demo in every case', () => {
    const build = demoBuild()
    const { cases } = assess(build)
    expect(Object.keys(cases).length).toBeGreaterThan(5)
    for (const solution of Object.values(cases)) {
      const { points, straps } = returnTreeOf(build, solution)
      const inwards = points.filter(({ metal }) => metal === 'body').reduce((sum, { current }) => sum + current!, 0)
      const outwards = straps
        .filter(({ joins }) => joins.includes('body'))
        .reduce((sum, { current }) => sum + current!, 0)
      // Two of the strap's ends stand on the body; solver's tolerance, amperes.
      expect(Math.abs(Math.abs(inwards) - outwards), solution.case).toBeLessThan(0.01)
    }
  })
  it('names what returns where, raised as the assessment has it', () => {
    const build = demoBuild()
    const { cases, earths } = assess(build)
    const tree = returnTreeOf(build, Object.values(cases)[0]!)
    const engine = tree.points.find(({ device }) => device === 'stud-engine')!
    expect(engine.metal).toBe('engine')
    expect(engine.returns.map(({ name }) => name)).toContain('Alternator, 120 A')
    const row = earths.find((one) => one.earth === 'stud-engine' && one.case === Object.keys(cases)[0])!
    expect(engine.raised).toBeCloseTo(row.raised!, 9)
    expect(tree.straps.map(({ wire }) => wire).sort()).toEqual(['W-2', 'W-3'])
  })
  it('holds for the sound build, one half entered and an empty one', () => {
    const sound = soundBuild()
    expect(returnTreeOf(sound, Object.values(assess(sound).cases)[0]!).straps.length).toBeGreaterThan(0)
    const half = halfBuild()
    for (const solution of Object.values(assess(half).cases)) {
      const { points, bare } = returnTreeOf(half, solution)
      expect(points.length).toBeGreaterThan(0)
      // Neither strap of the half-entered build has its cross-section: nothing is claimed of the earths beyond them.
      expect(bare).toEqual(['W-2', 'W-3'])
      expect(points.every(({ raised }) => raised === null)).toBe(true)
    }
    const nothing = { case: 'none', voltages: {}, currents: {}, temperatures: {}, solved: false } as const
    const none = { ...nothing, missing: [], assumed: [], oscillating: [], notes: [] }
    expect(returnTreeOf(emptyBuild('empty'), none)).toEqual({ points: [], straps: [], bare: [] })
  })
})
