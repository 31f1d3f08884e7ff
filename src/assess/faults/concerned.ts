/**
 * What can have to do with a complaint: the wires and devices that bring current to a load and take it away, those that
 * work the relays on that way, and all that hangs on the fuses there (a short in it takes the load with it). For a load
 * that is on when it should be off: whatever could feed it. A first, generous net; what cannot make the complaint falls
 * out when each fault is put into the model.
 */
import type { NetworkElement } from '../../engineering/electrical/network/network.ts'
import type { Build } from '../../model/build.ts'
import { BODY, ENGINE } from '../circuit.ts'
import { endpointOf, own } from '../make.ts'
import { controllerPins } from '../pins.ts'
import { chain, type Solved } from '../solveCases.ts'

export interface Concerned {
  /** Element ids of the solved network. */
  readonly elements: ReadonlySet<string>
  /** Those that only a short in them concerns. */
  readonly shorts: ReadonlySet<string>
  /** It should be dead: two neighbours of one voltage differ, for the fuse of one may not stand what the other's does. */
  readonly isOff?: true
  /** Open contacts that could have stuck or be bridged: nodes, and what they are. */
  readonly stuck: readonly { readonly id: string; readonly device: string; readonly a: string; readonly b: string }[]
}

const isDraw = (solved: Solved, id: string): boolean =>
  solved.bound.loads.has(id) || /#(coil|solenoid|rotor|motor)$/.test(id)

const byId = (solved: Solved): Map<string, NetworkElement> =>
  new Map(solved.bound.network.elements.map((element) => [element.id, element]))

/** All that is joined to a node without passing a load, a source, an open contact or one of the `walls`. */
const netOf = (
  solved: Solved,
  from: string,
  walls: ReadonlySet<string>,
): { nodes: Set<string>; elements: Set<string> } => {
  const nodes = new Set([from])
  const elements = new Set<string>()
  const queue = [from]
  for (let here = queue.pop(); here !== undefined; here = queue.pop())
    for (const index of solved.at.get(here) ?? []) {
      const element = solved.bound.network.elements[index]!
      if (element.type !== 'resistor' || isDraw(solved, element.id) || walls.has(element.id)) continue
      elements.add(element.id)
      const other = element.a === here ? element.b : element.a
      if (other === BODY || other === ENGINE || nodes.has(other)) continue
      nodes.add(other)
      queue.push(other)
    }
  return { nodes, elements }
}

export const concernedWhenFed = (build: Build, solved: Solved, load: NetworkElement): Concerned => {
  const elements = new Set<string>([load.id])
  const shorts = new Set<string>()
  const all = byId(solved)
  const done = new Set<string>()
  const queue = [load]
  for (let draw = queue.pop(); draw; draw = queue.pop()) {
    if (done.has(draw.id)) continue
    done.add(draw.id)
    elements.add(draw.id)
    const forward = (solved.nodes.get(draw.a) ?? 0) >= (solved.nodes.get(draw.b) ?? 0)
    const [plus, minus] = forward ? [draw.a, draw.b] : [draw.b, draw.a]
    for (const { element: id } of [...chain(solved, plus, 'up'), ...chain(solved, minus, 'down')]) {
      elements.add(id)
      const element = all.get(id)
      if (element?.type !== 'relayContact') continue
      const coil = all.get(element.operatedBy)
      if (coil) queue.push(coil)
    }
  }
  for (const element of solved.bound.network.elements)
    if (element.type === 'battery' && (solved.nodes.get(element.a) ?? 0) !== 0) elements.add(element.id)
  // What hangs on the fuses of that way, as far as the next fuse.
  const fuses = new Set(
    Object.values(build.collections.devices)
      .filter(({ spec }) => spec.kind === 'fuse')
      .map(({ id }) => id),
  )
  for (const id of elements) {
    const fuse = fuses.has(id) ? all.get(id) : undefined
    if (!fuse) continue
    const load = (solved.nodes.get(fuse.a) ?? 0) >= (solved.nodes.get(fuse.b) ?? 0) ? fuse.b : fuse.a
    const behind = netOf(solved, load, fuses)
    for (const each of behind.elements) if (!elements.has(each)) shorts.add(each)
    for (const node of behind.nodes)
      for (const index of solved.at.get(node) ?? []) {
        const element = solved.bound.network.elements[index]!
        if (isDraw(solved, element.id) && !elements.has(element.id)) shorts.add(element.id)
      }
  }
  return { elements, shorts, stuck: [] }
}

/** Nets looked at one behind the other: the load's, its relay's coil, that of the relay which feeds the coil. */
const DEEPEST = 4

/** Ids of what leads from a node to the body, shortest first, past no load; undefined: nothing does. */
const wayToEarth = (solved: Solved, from: string): string[] | undefined => {
  const cameBy = new Map<string, { readonly id: string; readonly from: string } | undefined>([[from, undefined]])
  for (const here of cameBy.keys()) {
    if (here === BODY || here === ENGINE || here === solved.bound.network.reference) {
      const way: string[] = []
      for (let step = cameBy.get(here); step; step = cameBy.get(step.from)) way.push(step.id)
      return way
    }
    for (const index of solved.at.get(here) ?? []) {
      const { id, a, b, type } = solved.bound.network.elements[index]!
      const other = a === here ? b : a
      if (type === 'resistor' && !isDraw(solved, id) && !cameBy.has(other)) cameBy.set(other, { id, from: here })
    }
  }
  return undefined
}

/** Whether a point stands on its own: no way from it leads to the body but through a load. */
export const standsAlone = (solved: Solved, node: string): boolean => wayToEarth(solved, node) === undefined

export const concernedWhenOff = (build: Build, solved: Solved, load: NetworkElement): Concerned => {
  const elements = new Set<string>([load.id])
  const shorts = new Set<string>()
  const stuck = new Map<string, Concerned['stuck'][number]>()
  const { devices, outputs } = build.collections
  const { nodeOf } = solved.bound
  const seen = new Set<string>()
  const look = (node: string, depth: number): void => {
    if (depth > DEEPEST || seen.has(node) || node === BODY || node === ENGINE) return
    const net = netOf(solved, node, new Set())
    for (const each of net.nodes) seen.add(each)
    // Where everything meets, a stud or a feed, is not the load's own.
    const isEarth = [...net.nodes].some((each) => each === solved.bound.network.reference)
    const reachesBody = [...net.elements].some((id) => {
      const device = own(devices, id.split('#')[0]!)
      return device?.spec.kind === 'earth-stud'
    })
    if (isEarth || reachesBody) return
    for (const each of net.elements) elements.add(each)
    // What hangs on it can feed it backwards: where its earth opens, which others share, or where it is shorted through.
    for (const each of net.nodes)
      for (const index of solved.at.get(each) ?? []) {
        const element = solved.bound.network.elements[index]!
        if (!isDraw(solved, element.id) && element.type !== 'diode') continue
        const far = element.a === each ? element.b : element.a
        if (net.nodes.has(far)) continue
        const earth = wayToEarth(solved, far)
        for (const id of earth ?? []) elements.add(id)
        if (earth || element.id === load.id) continue
        shorts.add(element.id)
        look(far, depth + 1)
      }
    const put = (id: string, device: string, a: string, b: string): void => {
      if (a !== b && (net.nodes.has(a) || net.nodes.has(b))) stuck.set(id, { id, device, a, b })
    }
    for (const element of solved.bound.network.elements)
      if (element.type === 'relayContact' && (net.nodes.has(element.a) || net.nodes.has(element.b))) {
        put(`stuck:${element.id}`, element.id.split('#')[0]!, element.a, element.b)
        const coil = solved.bound.network.elements.find(({ id }) => id === element.operatedBy)
        if (coil) {
          elements.add(coil.id)
          look(coil.a, depth + 1)
          look(coil.b, depth + 1)
        }
      }
    for (const device of Object.values(devices)) {
      if (device.restricted) continue
      const { spec } = device
      if (spec.kind === 'switch')
        for (const [a, b] of Object.values(spec.positions).flat())
          put(
            `stuck:${device.id}.${a}-${b}`,
            device.id,
            nodeOf(endpointOf(device.id, a)),
            nodeOf(endpointOf(device.id, b)),
          )
      if (spec.kind !== 'controller') continue
      const { supply } = controllerPins(device)
      for (const output of Object.values(outputs)) {
        if (output.device !== device.id || output.driver === 'logic') continue
        const pin = nodeOf(endpointOf(device.id, output.pin))
        if (output.driver !== 'high side') put(`stuck:output:${output.id}`, device.id, pin, `${device.id}.#earth`)
        else if (supply !== undefined)
          put(`stuck:output:${output.id}`, device.id, pin, nodeOf(endpointOf(device.id, supply)))
      }
    }
  }
  look(load.a, 0)
  look(load.b, 0)
  return { elements, shorts, stuck: [...stuck.values()], isOff: true }
}
