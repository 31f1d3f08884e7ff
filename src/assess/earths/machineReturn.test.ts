import { describe, expect, it } from 'vitest'
import { demoBuild, soundBuild } from '../../../demo/index.ts'
import { assess } from '../assess.ts'
import { contextOf } from '../context.ts'
import { machineReturnFindings } from './machineReturn.ts'

const without = (...wires: string[]) => {
  const build = soundBuild()
  for (const id of wires) delete build.collections.wires[id]
  return build
}

describe('the engine’s way to battery negative', () => {
  it('is there in the demo and in the sound build', () => {
    for (const build of [demoBuild(), soundBuild()]) expect(machineReturnFindings(contextOf(build))).toEqual([])
  })
  it('is missed by starter and alternator when the engine strap is not fitted', () => {
    const found = machineReturnFindings(contextOf(without('W-3')))
    expect(found).toMatchObject([
      {
        subject: 'devices/alternator',
        verdict: 'no-go',
        todo: expect.stringContaining('no thinner than W-5 (16 mm²)'),
      },
      { subject: 'devices/starter', verdict: 'no-go', todo: expect.stringContaining('no thinner than W-1 (25 mm²)') },
    ])
  })
  it('is not made by a throttle cable', () => {
    const build = without('W-3')
    build.collections.devices.cable = {
      id: 'cable',
      name: 'Throttle cable',
      pins: { 1: {}, 2: {} },
      spec: { kind: 'resistor', resistance: { value: 0.06 } },
    }
    const strand = { ...build.collections.wires['W-2']! }
    build.collections.wires['W-80'] = { ...strand, id: 'W-80', from: 'cable.1', to: 'stud-body.S' }
    build.collections.wires['W-81'] = { ...strand, id: 'W-81', from: 'cable.2', to: 'stud-engine.S' }
    expect(machineReturnFindings(contextOf(build))).toHaveLength(2)
  })
  it('is not asked of a machine that nothing feeds', () => {
    expect(machineReturnFindings(contextOf(without('W-3', 'W-1', 'W-4')))).toEqual([])
  })
  it('an alternator without it is not said to keep up', () => {
    const balance = (build: ReturnType<typeof soundBuild>) =>
      assess(build).findings.find(({ rule }) => rule === 'energy-balance')
    expect(balance(soundBuild())).toMatchObject({ verdict: 'sound' })
    expect(balance(without('W-3'))).toMatchObject({
      verdict: 'unknown',
      missing: expect.stringContaining('to the battery and back'),
    })
  })
  it('a starter that its way back starves clicks, and is not told to move its coil', () => {
    const build = demoBuild()
    delete build.collections.wires['W-3']
    const clicks = assess(build).findings.find(
      ({ rule, subject }) => rule === 'relay-restless' && subject === 'devices/starter',
    )
    expect(clicks).toMatchObject({
      says: expect.stringContaining('only clicks in “Cranking on a cold morning”'),
      todo: expect.stringMatching(/^Look at the engine strap/),
    })
  })
})
