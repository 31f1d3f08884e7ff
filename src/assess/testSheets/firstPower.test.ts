// First power: its order, its lamp, its cautions, and what it opens.
import { describe, expect, it } from 'vitest'
import { demoBuild } from '../../../demo/index.ts'
import { applyChanges } from '../../model/read.ts'
import { readingCautions } from '../electricalCautions.ts'
import { takeReading, testSheet } from './testSheet.ts'
import type { SheetTest, TestSheet } from './types.ts'

const demo = demoBuild()
const NIGHT = 'idle-hot-wet-night'
const tests = (of: TestSheet): SheetTest[] =>
  of.sections.flatMap(({ lines }) => lines.filter((line): line is SheetTest => line.kind === 'test'))
const lineAt = (of: TestSheet, id: string): SheetTest => {
  const found = tests(of).find((line) => line.id === id)
  if (!found) throw new Error(`no line ${id} among ${tests(of).map((line) => line.id)}`)
  return found
}
const at = (minutes: number) => ({ when: new Date(Date.UTC(2026, 0, 1, 12, minutes)).toISOString() })

describe('first power', () => {
  const first = testSheet(demo, 'first-power')

  it('goes in the order that hurts nothing: unplug, earths, lamp, plugs, outputs', () => {
    expect(first.sections.map(({ id }) => id)).toEqual(['unplug', 'earths', 'lamp', 'plugs', 'outputs'])
    const ids = first.sections.flatMap(({ lines }) => lines.map(({ id }) => id))
    const place = (id: string): number => {
      const found = ids.findIndex((each) => each.startsWith(id))
      if (found < 0) throw new Error(`no ${id} in ${ids}`)
      return found
    }
    const order = [
      'battery-off',
      'airbag',
      'fuses',
      'ohms:',
      'lamp-in',
      'volts:lamp-bare',
      'in:',
      'lamp-out',
      'volts:plug:',
      'load:',
      'plug:',
      'plug-last',
    ]
    expect(order.map(place)).toEqual(order.map(place).sort((p, q) => p - q))
    // No ohms once the battery is on, no volts before.
    const quantity = new Map(tests(first).map(({ id, quantity: each }) => [id, each]))
    const lamp = place('lamp-in')
    ids.forEach((id, i) => {
      const each = quantity.get(id)
      if (each) expect(each).toBe(i < lamp ? 'ohms' : 'volts')
    })
  })

  it('leaves the fuel pump’s fuse out, and puts each other in before it is measured', () => {
    const lines = first.sections.find(({ id }) => id === 'lamp')!.lines
    expect(lines.some(({ id }) => id === 'stays-out:fuse-pump')).toBe(true)
    expect(lines.some(({ id }) => id === 'in:fuse-pump')).toBe(false)
    lines.forEach(({ id }, i) => {
      if (id.startsWith('volts:in:')) expect(lines[i - 1]!.id).toBe(`in:${id.slice('volts:in:'.length)}`)
    })
  })

  it('reckons with the lamp in series: less than the battery where something draws', () => {
    const lamp = tests(first).filter(({ id }) => id.startsWith('volts:in:') && !id.endsWith('fuse-pump'))
    const rested = demo.collections.devices.battery!.spec
    const volts = rested.kind === 'battery' ? rested.restedVoltage!.value : Number.NaN
    for (const { expect: expected, id } of lamp)
      if (expected?.value != null) expect(expected.value, id).toBeLessThanOrEqual(volts + 1e-6)
  })

  it('carries its cautions in every part', () => {
    for (const { id, cautions } of first.sections) {
      expect(cautions.length, id).toBeGreaterThan(0)
      if (id !== 'outputs') expect(cautions.join(' '), id).toMatch(/airbag/i)
    }
    const of = (id: string): string => first.sections.find((section) => section.id === id)!.cautions.join(' ')
    expect(of('earths')).toMatch(/dead circuit/)
    expect(of('lamp')).toMatch(/lamp of 21 W in its place/)
    expect(of('outputs')).toMatch(/petrol vapour/)
    // The battery is on, and anything may start.
    for (const id of ['lamp', 'plugs', 'outputs']) expect(of(id), id).toMatch(/fan may start by itself/)
  })

  it('says beside a reading what its place calls for: no battery off where it must be on, no fan with it off', () => {
    const live = testSheet(demo, 'fan', NIGHT).sections.find(({ id }) => id === 'live')!
    expect(live.cautions.join(' ')).not.toMatch(/Disconnect the battery/)
    const beside = (id: string, engine: 'off' | 'idle' | 'cruise'): string => {
      const line = lineAt(testSheet(demo, 'fuel-pump', NIGHT), id)
      return readingCautions(demo, line, { engine }).join(' ')
    }
    expect(beside('volts:fuel-pump.+/W-303', 'off')).toMatch(/petrol vapour.*car on stands/)
    expect(beside('volts:fuel-pump.+/W-303', 'cruise')).toMatch(/while driving/)
    const ohms = 'ohms:pump-relay.86~pump-relay.85'
    expect(beside(ohms, 'off')).toMatch(/dead circuit/)
    expect(beside(ohms, 'off')).not.toMatch(/fan may start/)
  })

  it('opens a search only where nothing arrives, for behind the lamp little says what it would in the running car', () => {
    const line = tests(first).find(
      ({ id, expect: expected }) => id.startsWith('volts:in:') && (expected?.value ?? 0) > 12,
    )!
    expect(takeReading(demo, first, line, 11.5, at(0)).search).toBeUndefined()
    const dead = takeReading(demo, first, line, 0.01, at(0))
    expect(dead.verdict).toMatchObject({ kind: 'out of tolerance' })
    expect(applyChanges(demo, dead.edit.changes).collections.faultSearches[dead.search!]!.complaint.kind).toBe('dead')
  })
})
