/**
 * Which load a point of the car has to do with, and how: on the way of its current there and back, or in the coil that
 * switches it. A load of the circuit that is being read goes before others that share a stud or a feed with it.
 */
import type { NetworkElement } from '../../engineering/electrical/network/network.ts'
import type { Build } from '../../model/build.ts'
import { concernedWhenFed } from '../faults/concerned.ts'
import { pointEndpoint, pointWire } from '../faults/words.ts'
import { deviceIdOf, endpointOf } from '../make.ts'
import { chain, type Solved } from '../solveCases.ts'

/** V from which a load counts as fed. */
const FED = 1

export interface LoadBehind {
  readonly device: string
  /** None: a starter. */
  readonly load?: string
  readonly element: NetworkElement
  /** The point is not on the load's own way: it works the relay that feeds it. The coil that it belongs to. */
  readonly coil?: NetworkElement
}

interface Draw {
  readonly device: string
  readonly load?: string
  readonly element: NetworkElement
  readonly pins: readonly string[]
}

const drawsOf = (build: Build, solved: Solved): Draw[] => {
  const all = new Map(solved.bound.network.elements.map((element) => [element.id, element]))
  return Object.values(build.collections.devices).flatMap((device): Draw[] => {
    if (device.restricted) return []
    const loads = (device.loads ?? []).flatMap(({ id, from, to }): Draw[] => {
      const element = all.get(solved.bound.loadElement(device.id, id))
      return element ? [{ device: device.id, load: id, element, pins: [from, to] }] : []
    })
    const machine = ['motor', 'solenoid'].flatMap((part) => all.get(`${device.id}#${part}`) ?? [])[0]
    return device.spec.kind === 'starter' && machine && loads.length === 0
      ? [{ device: device.id, element: machine, pins: Object.keys(device.pins) }]
      : loads
  })
}

const voltsAcross = (solved: Solved, { a, b }: NetworkElement): number =>
  Math.abs((solved.nodes.get(a) ?? 0) - (solved.nodes.get(b) ?? 0))

export const loadBehind = (
  build: Build,
  solved: Solved,
  points: readonly string[],
  /** Whose sheet is read; undefined: that of no circuit, and the load that draws most goes first. */
  circuit: string | undefined,
): LoadBehind | undefined => {
  const wires = Object.values(build.collections.wires)
  const belongs = ({ device, pins }: Draw): boolean =>
    build.collections.devices[device]?.circuit === circuit ||
    wires.some(
      (wire) =>
        wire.circuit === circuit &&
        [wire.from, wire.to].some((end) => pins.some((pin) => end === endpointOf(device, pin))),
    )
  const devices = new Set(points.map((point) => deviceIdOf(pointEndpoint(point))))
  const touching = new Set(
    points.flatMap((point) => {
      const wire = pointWire(point)
      if (wire !== undefined && solved.elements.has(`wire:${wire}`)) return [`wire:${wire}`]
      const here = solved.at.get(solved.bound.nodeOf(pointEndpoint(point))) ?? []
      return here.map((index) => solved.bound.network.elements[index]!.id)
    }),
  )
  let best: { readonly found: LoadBehind; readonly rank: number } | undefined
  for (const draw of drawsOf(build, solved)) {
    const { device, load, element } = draw
    if (voltsAcross(solved, element) < FED) continue
    const [plus, minus] =
      (solved.nodes.get(element.a) ?? 0) >= (solved.nodes.get(element.b) ?? 0)
        ? [element.a, element.b]
        : [element.b, element.a]
    const way = [...chain(solved, plus, 'up'), ...chain(solved, minus, 'down')].map((step) => step.element)
    const isOwn = devices.has(device) && (touching.has(element.id) || way.some((each) => touching.has(each)))
    const onWay = isOwn || way.some((each) => touching.has(each))
    const coil = onWay ? undefined : coilTouched(build, solved, element, way, touching)
    if (!onWay && !coil) continue
    const rank =
      (isOwn ? 0 : 1e6) +
      (circuit !== undefined && belongs(draw) ? 0 : 1e5) +
      (onWay ? 0 : 1e4) +
      (circuit === undefined ? -Math.abs(solved.elements.get(element.id) ?? 0) : way.length)
    if (best && best.rank <= rank) continue
    best = {
      rank,
      found: { device, element, ...(load === undefined ? {} : { load }), ...(coil ? { coil } : {}) },
    }
  }
  return best?.found
}

/** The coil of a relay on the load's way whose own way passes there; of several the first. */
const coilTouched = (
  build: Build,
  solved: Solved,
  load: NetworkElement,
  way: readonly string[],
  touching: ReadonlySet<string>,
): NetworkElement | undefined => {
  const mine = new Set([...way, load.id])
  const { elements } = concernedWhenFed(build, solved, load)
  if (![...elements].some((each) => touching.has(each) && !mine.has(each))) return undefined
  return solved.bound.network.elements.find((element) => {
    if (!elements.has(element.id) || mine.has(element.id) || !/#(coil|solenoid)$/.test(element.id)) return false
    if (touching.has(element.id)) return true
    return [
      ...chain(solved, element.a, 'up'),
      ...chain(solved, element.b, 'down'),
      ...chain(solved, element.b, 'up'),
      ...chain(solved, element.a, 'down'),
    ].some((step) => touching.has(step.element))
  })
}
