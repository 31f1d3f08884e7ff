/** Back-feeds and single open wires, on circuits that can be followed with a finger. */
import { describe, expect, it } from 'vitest'
import { demoBuild, soundBuild } from '../../../demo/index.ts'
import type { Build, Device } from '../../model/build.ts'
import { contextOf } from '../context.ts'
import { small, wire } from '../small.testing.ts'
import { backFeedFindings } from './backFeedRules.ts'
import { openWireFindings } from './openWireRules.ts'

const pins = (...ids: string[]) => Object.fromEntries(ids.map((id) => [id, {}]))
const filament = (id: string, from: string, to: string, power: number) => ({
  id,
  from,
  to,
  law: { type: 'lamp' as const, ratedVoltage: { value: 12 }, ratedPower: { value: power } },
})
const headlamp = (id: string, name: string): Device => ({
  id,
  name,
  pins: pins('56a', '56b', '31'),
  spec: { kind: 'lamp' },
  loads: [filament('main', '56a', '31', 60), filament('dip', '56b', '31', 55)],
})
const put = (build: Build, devices: Device[], wires: ReturnType<typeof wire>[]) => {
  for (const each of devices) build.collections.devices[each.id] = each
  for (const each of wires) build.collections.wires[each.id] = each
}

/** Two headlamps, dipped beam fed, main beams joined and unfed. */
const headlamps = (leftEarth: boolean) =>
  small((build) =>
    put(
      build,
      [headlamp('left', 'Left headlamp'), headlamp('right', 'Right headlamp')],
      [
        wire('W-10', 'switch.2', 'left.56b'),
        wire('W-11', 'switch.2', 'right.56b'),
        wire('W-12', 'left.56a', 'right.56a'),
        wire('W-13', 'right.31', 'stud.S'),
        ...(leftEarth ? [wire('W-14', 'left.31', 'stud.S')] : []),
      ],
    ),
  )

describe('back-feed', () => {
  it('through a headlamp that has lost its earth lights both main beams dimly: one finding, with the way', () => {
    const found = backFeedFindings(contextOf(headlamps(false)))
    expect(found).toHaveLength(1)
    expect(found[0]!.says).toMatch(/Left headlamp \(\d\.\d\d V\) and Right headlamp \(\d\.\d\d V\) are fed/)
    expect(found[0]!.says).toMatch(/comes through Left headlamp, by Battery → W-1 → Lamp fuse/)
  })
  it('is not seen with both earths whole, in the sound build, or in the demo', () => {
    for (const build of [headlamps(true), soundBuild(), demoBuild()])
      expect(backFeedFindings(contextOf(build)).map(({ says }) => says)).toEqual([])
  })
})

/** Pump relay whose coil shares an earth wire with a lamp; its other end hangs on a switched rail with a heater. */
const pump = (own: boolean) =>
  small((build) => {
    put(
      build,
      [
        { id: 'joint', name: 'Joint', pins: pins('1', '2', '3'), spec: { kind: 'splice' } },
        {
          id: 'relay',
          name: 'Pump relay',
          pins: pins('30', '87', '85', '86'),
          spec: { kind: 'relay', coilResistance: { value: 85 }, pullIn: { value: 7 }, dropOut: { value: 2 } },
        },
        {
          id: 'pump',
          name: 'Fuel pump',
          pins: pins('+', '-'),
          spec: { kind: 'pump' },
          loads: [{ id: 'motor', from: '+', to: '-', law: { type: 'resistance', resistance: { value: 2 } } }],
        },
        {
          id: 'heater',
          name: 'Screen heater',
          pins: pins('+', '-'),
          spec: { kind: 'heater' },
          loads: [{ id: 'wires', from: '+', to: '-', law: { type: 'resistance', resistance: { value: 3 } } }],
        },
      ],
      [
        wire('W-4', 'lamp.-', 'joint.1'),
        wire('W-20', 'joint.2', 'stud.S'),
        wire('W-21', 'relay.85', own ? 'stud.S' : 'joint.3'),
        wire('W-22', 'relay.86', 'heater.+'),
        wire('W-23', 'heater.-', 'stud.S'),
        wire('W-24', 'battery.+', 'relay.30'),
        wire('W-25', 'relay.87', 'pump.+'),
        wire('W-26', 'pump.-', 'stud.S'),
      ],
    )
    build.sheets.fuel = { pump: { device: 'pump' } }
  })

describe('one open wire', () => {
  it('in an earth shared by a lamp and the pump relay’s coil leaves the pump on', () => {
    const [found] = openWireFindings(contextOf(pump(false)))
    expect(found).toMatchObject({ verdict: 'no-go', subject: 'devices/pump' })
    expect(found!.says).toMatch(/With Wire W-20 \(Joint to Stud\) open, Fuel pump gets 1\d\.\d\d V in “Lit” by Battery/)
  })
  it('leaves it off where the coil has an earth of its own', () => {
    expect(openWireFindings(contextOf(pump(true)))[0]!.verdict).toBe('sound')
  })
  it('is not needed where the pump is fed without being asked for', () => {
    const build = pump(true)
    build.collections.wires['W-25'] = wire('W-25', 'relay.30', 'pump.+')
    const [found] = openWireFindings(contextOf(build))
    expect(found!.verdict).toBe('no-go')
    expect(found!.says).toMatch(
      /where nothing asks for it, by Battery → W-24 → Pump relay → W-25|by Battery → W-24 → W-25/,
    )
  })
  it('nor by a second earth on its relay’s coil, though no case has the key on and the pump off', () => {
    const build = soundBuild()
    const { wires } = build.collections
    expect(openWireFindings(contextOf(build)).map(({ verdict }) => verdict)).not.toContain('no-go')
    wires['W-99'] = { ...structuredClone(wires['W-25']!), id: 'W-99', from: 'pump-relay.85', to: 'stud-body.S' }
    const found = openWireFindings(contextOf(build)).find(({ subject }) => subject === 'devices/fuel-pump')
    expect(found).toMatchObject({ verdict: 'no-go', says: expect.stringContaining('with the pump not asked for') })
  })
})
