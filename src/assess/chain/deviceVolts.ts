/** Volts and amperes of a pump or fan in the solved full-load case, and what makes them doubtful. */
import type { Build } from '../../model/build.ts'
import { deviceName, endpointOf, own } from '../make.ts'
import { chain, hiddenDraws, type Solved, solveCase } from '../solveCases.ts'
import { type Datum, known, lacking } from './chain.ts'

export interface DeviceVolts {
  readonly volts: Datum
  readonly amps: Datum
}

/** `what` names the device to enter where none is. */
export const deviceVolts = (
  build: Build,
  full: Solved | undefined,
  id: string | undefined,
  what: string,
): DeviceVolts => {
  const both = (...missing: readonly string[]): DeviceVolts => ({
    volts: lacking(...missing),
    amps: lacking(...missing),
  })
  if (id === undefined) return both(what)
  const device = own(build.collections.devices, id)
  const load = device?.loads?.[0]
  if (!device) return both(`${id} among the devices`)
  if (!load?.law) return both(`what ${device.name} draws`)
  if (!full) return both('an operating case at full load')
  const [from, to] = [endpointOf(id, load.from), endpointOf(id, load.to)]
  const unsure = [...chain(full, full.bound.nodeOf(from), 'up'), ...chain(full, full.bound.nodeOf(to), 'down')]
    .filter(({ element }) => full.bound.unsure.has(element))
    .map(({ element }) => `cross-section, material or length of ${element.replace('wire:', '')}`)
  const [a, b] = [full.voltages[from], full.voltages[to]]
  const gaps = [...new Set(unsure)]
  if (a == null || b == null) gaps.push(`the solved voltage at ${device.name} in the full-load case`)
  // Dead while a relay or a neighbour is not described: that may be why.
  else if (Math.abs(a - b) < 0.5)
    gaps.push(
      ...hiddenDraws(full).map(({ subject, datum }) => `${datum} of ${deviceName(build, subject.split('/')[1]!)}`),
    )
  if (gaps.length > 0 || a == null || b == null) return both(...gaps)
  const where = `${device.name}, case “${full.kase.name}”, solved with its wires warm`
  const amps = full.elements.get(full.bound.loadElement(id, load.id))
  return {
    volts: known(a - b, full.plusMinus ?? 0, `${where}: ${(a - b).toFixed(2)} V across it`),
    amps:
      amps == null
        ? lacking(`the solved current of ${device.name}`)
        : known(Math.abs(amps), 0, `${where}; counted in the energy balance of that case`),
  }
}

/** The thinnest wires that carry the current of that device alone in the full-load case: where its volts are lost first. */
export const thinnestWires = (build: Build, full: Solved | undefined, id: string | undefined): readonly string[] => {
  const device = own(build.collections.devices, id ?? '')
  const load = device?.loads?.[0]
  if (!full || !device || !load) return []
  const current = full.elements.get(full.bound.loadElement(device.id, load.id))
  if (current == null) return []
  const wires = (['up', 'down'] as const)
    .flatMap((direction) =>
      chain(full, full.bound.nodeOf(endpointOf(device.id, direction === 'up' ? load.from : load.to)), direction),
    )
    // What carries more than the device takes feeds others as well and is not its own.
    .filter(({ element, current: through }) => element.startsWith('wire:') && through < 1.1 * Math.abs(current))
    .map(({ element }) => element.slice('wire:'.length))
  const areas = wires.flatMap((wire) => own(build.collections.wires, wire)?.area?.value ?? [])
  const least = Math.min(...areas)
  return wires.filter((wire) => own(build.collections.wires, wire)?.area?.value === least).sort()
}

/** The same for a screen that has a build and no solution yet. */
export const thinnestWiresOf = (build: Build, id: string | undefined): readonly string[] => {
  const kase = Object.values(build.collections.cases).find(({ engine }) => engine === 'full load')
  return id === undefined || !kase ? [] : thinnestWires(build, solveCase(build, kase), id)
}
