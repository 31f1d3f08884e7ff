/** Fuses at first power: in which order they go in, which side of each is fed, and which stay out. */
import type { NetworkElement } from '../../engineering/electrical/network/network.ts'
import type { Build, Device } from '../../model/build.ts'
import { endpointOf, own } from '../make.ts'

/** Fuses nearer the battery first: those whose feed needs no other fuse, then those behind them. */
export const inOrder = (fuses: readonly Device[], elements: readonly NetworkElement[]): Device[] => {
  const ids = new Set(fuses.map(({ id }) => id))
  const order: Device[] = []
  const source = elements.find(({ type }) => type === 'battery')
  if (!source) return [...fuses]
  const reached = new Set([source.a])
  const spread = (): void => {
    for (let grown = true; grown; ) {
      grown = false
      for (const { id, a, b, type } of elements) {
        if (type !== 'resistor' || (ids.has(id) && !order.some((fuse) => fuse.id === id))) continue
        if (!/^wire:/.test(id) && !ids.has(id)) continue
        if (reached.has(a) !== reached.has(b)) {
          reached.add(a).add(b)
          grown = true
        }
      }
    }
  }
  for (spread(); ; spread()) {
    const next = fuses.find((fuse) => {
      const element = elements.find(({ id }) => id === fuse.id)
      return element && !order.includes(fuse) && (reached.has(element.a) || reached.has(element.b))
    })
    if (!next) break
    order.push(next)
  }
  return [...order, ...fuses.filter((fuse) => !order.includes(fuse))]
}

/** Whether `node` is joined to the source by wires without passing this fuse. */
export const feedSide = (elements: readonly NetworkElement[], fuse: string, node: string, source: string): boolean => {
  const seen = new Set([node])
  const queue = [node]
  for (let here = queue.pop(); here !== undefined; here = queue.pop()) {
    if (here === source) return true
    for (const { id, a, b, type } of elements) {
      if (id === fuse || type === 'lamp' || (a !== here && b !== here) || /#/.test(id)) continue
      const other = a === here ? b : a
      if (!seen.has(other)) {
        seen.add(other)
        queue.push(other)
      }
    }
  }
  return false
}

/** Pumps that move petrol: water and washer pumps hurt nobody. */
export const fuelPumps = (build: Build, pumps: readonly Device[]): Device[] =>
  pumps.filter(({ id, name }) => id === build.sheets.fuel?.pump?.device || /fuel/i.test(`${id} ${name}`))

/** Fuses at the end of a wire that leads to a pump, or to the relay that feeds one. */
export const pumpFuses = (build: Build, pumps: readonly Device[]): Set<string> => {
  const found = new Set<string>()
  const { devices, wires } = build.collections
  const seen = new Set<string>(pumps.map(({ id }) => id))
  const queue = pumps.flatMap((pump) => (pump.loads ?? []).map(({ from }) => endpointOf(pump.id, from)))
  for (let here = queue.pop(); here !== undefined; here = queue.pop())
    for (const wire of Object.values(wires)) {
      const other = wire.from === here ? wire.to : wire.to === here ? wire.from : undefined
      if (other === undefined || seen.has(`${wire.id}`)) continue
      seen.add(wire.id)
      const device = own(devices, other.slice(0, other.lastIndexOf('.')))
      if (!device) continue
      const pin = other.slice(other.lastIndexOf('.') + 1)
      if (device.spec.kind === 'fuse') found.add(device.id)
      else if (device.spec.kind === 'relay' && pin === '87') queue.push(endpointOf(device.id, '30'))
      else if (device.spec.kind === 'connector') queue.push(other)
      else if (device.spec.kind === 'switch')
        for (const each of Object.keys(device.pins)) if (each !== pin) queue.push(endpointOf(device.id, each))
    }
  return found
}
