import { describe, expect, it } from 'vitest'
import { small, wire } from '../small.testing.ts'
import { fuse, named } from './protection.testing.ts'

/** Alternator of `output` A hot behind a bolt-down fuse in a bay of 60 °C, where its rating reads 0.867 of itself. */
const charging = (output: number, rating: number, celsius = 60) =>
  small((b) => {
    const c = b.collections
    c.zones.bay!.ambient = { value: celsius + 273.15 }
    c.devices.alternator = {
      id: 'alternator',
      name: 'Alternator',
      zone: 'bay',
      pins: { 'B+': {}, 31: {} },
      spec: {
        kind: 'alternator',
        setpoint: { value: 14.2 },
        internalResistance: { value: 0.012 },
        hotOutputIdle: { value: output / 2 },
        hotOutputCruise: { value: output },
      },
    }
    c.devices.charge = fuse('charge', rating, { pattern: 'bolt-down' })
    c.wires['W-6'] = wire('W-6', 'battery.+', 'charge.1', 35e-6, { length: { value: 0.1 }, unfusedBecause: 'Link.' })
    c.wires['W-7'] = wire('W-7', 'charge.2', 'alternator.B+', 35e-6)
    c.wires['W-8'] = wire('W-8', 'alternator.31', 'stud.S', 35e-6)
  })

describe('the fuse between alternator and battery', () => {
  it('carries all that the alternator gives', () => {
    expect(named(charging(80, 100), 'charging-fuse')).toEqual([])
  })
  it('may open where its rating is below that, in the place it stands in', () => {
    expect(named(charging(90, 100, 20), 'charging-fuse')).toEqual([])
    // 100 A · (40 − 6·40/45)/40 = 86.7 A at 60 °C.
    expect(named(charging(90, 100), 'charging-fuse')).toMatchObject([
      { subject: 'devices/charge', verdict: 'marginal', todo: expect.stringContaining('125 A') },
    ])
  })
  it('opens for sure from 135 % of its rating on', () => {
    expect(named(charging(134, 100, 20), 'charging-fuse')).toMatchObject([{ verdict: 'marginal' }])
    expect(named(charging(135, 100, 20), 'charging-fuse')).toMatchObject([{ verdict: 'no-go' }])
  })
})
