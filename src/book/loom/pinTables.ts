/**
 * For each device that a plug goes on: its pins in order, each with the wire that is pushed in from the wire side. How
 * the cavities lie is moulded on the plug; the build does not know it.
 */

import { isWire } from '../../assess/loom/loom.ts'
import { deviceZone, endpointOf, own, restrictedDevice } from '../../assess/make.ts'
import type { Build, Wire } from '../../model/build.ts'
import { colourText, endName, endText, LIST_NAMES, type List, naturally, once, sizeText, type Table } from './list.ts'

/** Nothing is plugged on these. */
const NO_PLUG: ReadonlySet<string> = new Set(['splice', 'earth-stud', 'battery'])

export const pinTables = (build: Build): List => {
  const at = new Map<string, { wire: Wire; end: 'from' | 'to' }[]>()
  for (const wire of Object.values(build.collections.wires).filter(isWire))
    for (const end of ['from', 'to'] as const) {
      const here = at.get(wire[end])
      if (here) here.push({ wire, end })
      else at.set(wire[end], [{ wire, end }])
    }
  const missing: string[] = []
  const tables = Object.values(build.collections.devices)
    .filter((device) => !NO_PLUG.has(device.spec.kind) && !restrictedDevice(build, device.id))
    .filter((device) => Object.keys(device.pins).some((pin) => at.has(endpointOf(device.id, pin))))
    .sort((a, b) => Object.keys(b.pins).length - Object.keys(a.pins).length || naturally(a.name, b.name))
    .map((device): Table => {
      const zone = own(build.collections.zones, deviceZone(build, device.id) ?? '')?.name
      return {
        title: zone === undefined ? device.name : `${device.name}, ${zone}`,
        columns: ['Pin', 'Is', 'Wire', 'Size', 'Colour', 'Ends in', 'Leads to'].map((name) => ({ name })),
        rows: Object.entries(device.pins)
          .sort(([a], [b]) => naturally(a, b))
          .flatMap(([pin, { name, mustBeWired }]) => {
            const wires = at.get(endpointOf(device.id, pin)) ?? []
            if (wires.length === 0)
              return [[pin, name ?? '', '', '', '', mustBeWired ? 'wire missing' : 'empty', ''] as const]
            return wires.map(({ wire, end }) => {
              const made = endText(wire, end)
              if (made === undefined) missing.push(`how ${wire.id} ends at ${endName(build, wire[end])}`)
              return [
                pin,
                name ?? '',
                wire.id,
                sizeText(wire),
                colourText(wire),
                made,
                endName(build, wire[end === 'from' ? 'to' : 'from']),
              ] as const
            })
          }),
      }
    })
  return {
    id: 'pins',
    title: LIST_NAMES.pins,
    says: 'What is pushed into each cavity. Look at the plug from the side the wires enter; its numbers are moulded there.',
    tables,
    notes: [
      'Two wires in one row’s pin share a terminal: crimp both together, or join them in a splice before it.',
      'Airbag and anti-lock plugs are left out: they are never opened.',
    ],
    missing: once(missing),
    ...(tables.length === 0 ? { empty: 'No device has a wired pin yet.' } : {}),
  }
}
