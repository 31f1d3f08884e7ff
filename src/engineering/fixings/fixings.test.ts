import { describe, expect, it } from 'vitest'
import { Refusal } from '../../units/problem.ts'
import { propagate, run } from '../calculation.ts'
import { INCH } from '../exactUnits.ts'
import { boltPreload } from './boltPreload.ts'
import { boltTorque } from './boltTorque.ts'
import { cableBend } from './cableBend.ts'
import { clearanceHole } from './clearanceHole.ts'
import { flareSize } from './flareSize.ts'
import { flareTorque } from './flareTorque.ts'
import { passageClearance } from './passageClearance.ts'
import { rivetNut } from './rivetNut.ts'
import { rivetNutTorque } from './rivetNutTorque.ts'
import { stressArea } from './stressArea.ts'

const refused = (act: () => unknown): string => {
  try {
    act()
  } catch (error) {
    if (error instanceof Refusal) return error.message
    throw error
  }
  return 'nothing was refused'
}
const M8 = { grade: '8.8', diameter: 0.008, pitch: 0.00125 } as const

describe('bolts', () => {
  it('torque and clamping force undo each other', () => {
    const { force, torque } = run(boltTorque, { ...M8, share: 0.75, factor: 0.18 }).outputs
    const back = run(boltPreload, { ...M8, torque, factor: 0.18 }).outputs
    expect(back.force).toBeCloseTo(force, 6)
    expect(back.share).toBeCloseTo(0.75, 9)
  })
  it('carries the range of the nut factor to the force: a quarter of K is more than a quarter of the force', () => {
    const { value, plusMinus } = propagate(boltPreload, {
      ...M8,
      torque: 25,
      factor: { value: 0.2, plusMinus: 0.05 },
    }).outputs.force
    expect(plusMinus! / value).toBeGreaterThanOrEqual(0.249)
  })
  it('lies by Dubbel’s table for class 8.8 at K 0.17 to 0.20 and 75 % of proof', () => {
    // Dubbel, 18th edition, p. G175, as quoted in a machine manual: M6 9.5, M8 23, M10 46, M12 79 N·m.
    for (const [mm, pitch, table] of [
      [6, 1, 9.5],
      [8, 1.25, 23],
      [10, 1.5, 46],
      [12, 1.75, 79],
    ] as const) {
      const at = (factor: number) =>
        run(boltTorque, { grade: '8.8', diameter: mm / 1e3, pitch: pitch / 1e3, share: 0.75, factor }).outputs.torque
      expect(at(0.17)).toBeLessThan(table)
      expect(at(0.2)).toBeGreaterThan(table * 0.98)
    }
  })
  it('a finer pitch leaves more metal, and no pitch is a third of the thread', () => {
    const at = (pitch: number) => run(stressArea, { diameter: 0.01, pitch }).outputs.area
    expect(at(0.00125)).toBeGreaterThan(at(0.0015))
    expect(refused(() => at(0.0035))).toMatch(/no metric thread/)
  })
  it('holes grow with the thread and the fit', () => {
    const at = (fit: 'fine' | 'medium' | 'coarse') => run(clearanceHole, { thread: 'M8', fit }).outputs.play
    expect(at('fine')).toBeLessThan(at('medium'))
    expect(at('medium')).toBeLessThan(at('coarse'))
  })
})

describe('rivet nuts', () => {
  it('takes the shortest that grips, and refuses what none grips', () => {
    const at = (sheet: number) => run(rivetNut, { kind: 'wide grip', thread: 'M8', sheet }).outputs.long
    expect([at(0.002), at(0.007), at(0.01), at(0.012)]).toEqual([0.0205, 0.023, 0.026, 0.028])
    expect(refused(() => run(rivetNut, { kind: 'thin sheet', thread: 'M10', sheet: 0.001 }))).toMatch(/None of these/)
    expect(refused(() => run(rivetNut, { kind: 'thin sheet', thread: 'M6', sheet: 0.004 }))).toMatch(/None of these/)
  })
  it('turns in the sheet long before a bolt is tight', () => {
    const { turns, breaks } = run(rivetNutTorque, { thread: 'M8', material: 'steel' }).outputs
    expect(turns).toBeLessThan(breaks)
    expect(turns).toBeLessThan(run(boltTorque, { ...M8, share: 0.75, factor: 0.15 }).outputs.torque / 2)
    expect(refused(() => run(rivetNutTorque, { thread: 'M12', material: 'aluminium' }))).toMatch(/no figure/)
  })
})

describe('pipes and cables', () => {
  it('a flare’s bore is the narrowest, its thread goes over the tube', () => {
    for (const dash of ['3', '4', '6', '8', '10', '12', '16', '20'] as const) {
      const { tube, thread, bore } = run(flareSize, { dash }).outputs
      expect(bore).toBeLessThan(tube)
      expect(thread).toBeGreaterThan(tube)
    }
    expect(run(flareSize, { dash: '6' }).outputs.tube).toBeCloseTo(0.375 * INCH, 12)
  })
  it('lies in the range of an engine maker’s manual or beside it as its limits say', () => {
    // Workshop Manual TSD3450E, nuts of 37° flares, high pressure, steel: -4 16 ± 4 N·m, -8 50 ± 7 N·m.
    const at = (dash: '4' | '8') => run(flareTorque, { dash, line: 'steel tube' }).outputs
    expect(at('4').least).toBeGreaterThan(12)
    expect(at('4').most).toBeLessThan(20)
    expect(at('8').most).toBeGreaterThan(43)
    expect(at('8').most).toBeLessThan(57)
  })
  it('bends wider where it moves, and never tighter for being thicker', () => {
    let before = 0
    for (let mm = 1; mm < 30; mm += 0.5) {
      const fixed = run(cableBend, { cable: mm / 1e3, use: 'fixed' }).outputs.radius
      expect(fixed).toBeGreaterThan(before)
      expect(run(cableBend, { cable: mm / 1e3, use: 'moving' }).outputs.radius).toBeGreaterThanOrEqual(fixed)
      before = fixed
    }
  })
  it('a bundle off the middle has that much less room', () => {
    const at = (off: number) => run(passageClearance, { hole: 0.04, bundle: 0.016, off }).outputs.clearance
    expect(at(0) - at(0.005)).toBeCloseTo(0.005, 12)
    expect(refused(() => at(0.013))).toMatch(/does not pass/)
  })
})
