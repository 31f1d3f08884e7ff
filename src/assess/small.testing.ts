/** A small build for the tests: battery, fuse, switch, lamp, body stud. Each test changes what it is about. */
import { type Build, emptyBuild, type Wire } from '../model/build.ts'

export const wire = (id: string, from: string, to: string, area = 2.5e-6, more: Partial<Wire> = {}): Wire => ({
  id,
  from,
  to,
  area: { value: area },
  material: 'copper',
  insulation: 'B',
  length: { value: 1 },
  ends: { from: { method: 'crimped' }, to: { method: 'crimped' } },
  ...more,
})

export const small = (change?: (build: Build) => void): Build => {
  const build = emptyBuild('small')
  const c = build.collections
  const pins = (...ids: string[]) => Object.fromEntries(ids.map((id) => [id, {}]))
  c.zones.bay = { id: 'bay', name: 'Bay', ambient: { value: 333.15 }, wet: 'dry', vibration: 'body' }
  c.devices.battery = {
    id: 'battery',
    name: 'Battery',
    zone: 'bay',
    pins: pins('+', '-'),
    spec: { kind: 'battery', restedVoltage: { value: 12.6 }, internalResistance: { value: 0.006 } },
  }
  c.devices.stud = {
    id: 'stud',
    name: 'Stud',
    zone: 'bay',
    pins: pins('S'),
    spec: { kind: 'earth-stud', on: 'body', contactResistance: { value: 5e-4 } },
  }
  c.devices.fuse = {
    id: 'fuse',
    name: 'Lamp fuse',
    zone: 'bay',
    pins: pins('1', '2'),
    spec: { kind: 'fuse', rating: { value: 10 }, pattern: 'blade', coldResistance: { value: 7.7e-3 } },
  }
  c.devices.switch = {
    id: 'switch',
    name: 'Lamp switch',
    zone: 'bay',
    pins: pins('1', '2'),
    spec: { kind: 'switch', positions: { off: [], on: [['1', '2']] }, rest: 'off', contactResistance: { value: 8e-3 } },
  }
  c.devices.lamp = {
    id: 'lamp',
    name: 'Lamp',
    zone: 'bay',
    pins: pins('+', '-'),
    spec: { kind: 'lamp' },
    loads: [
      {
        id: 'filament',
        from: '+',
        to: '-',
        law: { type: 'resistance', resistance: { value: 3 } },
        needs: { value: 12 },
      },
    ],
  }
  for (const each of [
    wire('W-1', 'battery.+', 'fuse.1', 2.5e-6, { length: { value: 0.1 }, unfusedBecause: 'Link at the terminal.' }),
    wire('W-2', 'fuse.2', 'switch.1'),
    wire('W-3', 'switch.2', 'lamp.+'),
    wire('W-4', 'lamp.-', 'stud.S'),
    wire('W-5', 'battery.-', 'stud.S', 16e-6),
  ])
    c.wires[each.id] = each
  c.cases.lit = {
    id: 'lit',
    name: 'Lit',
    engine: 'off',
    alternator: 'off',
    battery: 'connected',
    switches: { switch: 'on' },
    outputs: {},
  }
  change?.(build)
  return build
}
