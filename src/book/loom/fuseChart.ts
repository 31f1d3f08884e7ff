/** Each fuse with what it feeds: for the lid of the fuse box. */
import { circuitOf } from '../../assess/circuit.ts'
import { deviceIdOf, deviceName, deviceZone, own, restrictedDevice, restrictedWire } from '../../assess/make.ts'
import { reachOf } from '../../assess/protection/reach.ts'
import type { Build } from '../../model/build.ts'
import { colourText, LIST_NAMES, type List, naturally, once, sizeText } from './list.ts'

export const fuseChart = (build: Build): List => {
  const { devices, wires, zones } = build.collections
  const reach = new Map(reachOf({ build, circuit: circuitOf(build) }).map((each) => [each.fuse, each]))
  const missing: string[] = []
  const notes: string[] = []
  const rows = Object.values(devices)
    .flatMap((device) => (device.spec.kind === 'fuse' && !device.restricted ? [{ device, spec: device.spec }] : []))
    .sort((a, b) => naturally(a.device.name, b.device.name))
    .map(({ device, spec }) => {
      const below = (reach.get(device.id)?.below ?? []).flatMap(({ wire }) => own(wires, wire) ?? [])
      const ends = once(below.flatMap(({ from, to }) => [deviceIdOf(from), deviceIdOf(to)]))
      const feeds = ends.filter((id) => (own(devices, id)?.loads ?? []).length > 0)
      const onward = ends.filter((id) => id !== device.id && own(devices, id)?.spec.kind === 'fuse')
      if (spec.rating === undefined) missing.push(`rating of ${device.name}`)
      if (below.some(({ id }) => restrictedWire(build, id)) || ends.some((id) => restrictedDevice(build, id)))
        notes.push(`${device.name} also feeds an airbag or anti-lock circuit: its rating is left as the maker gave it.`)
      const first = Object.values(wires).filter(
        ({ from, to }) => from === reach.get(device.id)?.load || to === reach.get(device.id)?.load,
      )
      return [
        device.name,
        spec.rating && Number((spec.rating.value as number).toPrecision(3)),
        spec.pattern,
        [...feeds.map((id) => deviceName(build, id)), ...onward.map((id) => `on to ${deviceName(build, id)}`)].join(
          '; ',
        ) || 'nothing yet',
        first.map((wire) => `${wire.id} ${sizeText(wire) ?? ''} ${colourText(wire) ?? ''}`.trim()).join('; '),
        own(zones, deviceZone(build, device.id) ?? '')?.name ?? '',
      ] as const
    })
  return {
    id: 'fuses',
    title: LIST_NAMES.fuses,
    says: 'For the lid of the fuse box: what each fuse feeds. Never fit a larger one than stands here.',
    tables: [
      {
        columns: [
          { name: 'Fuse' },
          { name: 'Rating, A', digits: 1 },
          { name: 'Type' },
          { name: 'Feeds' },
          { name: 'Wire behind it' },
          { name: 'Where' },
        ],
        rows,
      },
    ],
    notes: once(notes),
    missing: once(missing),
    ...(rows.length === 0 ? { empty: 'No fuse is entered yet.' } : {}),
  }
}
