/**
 * The solved network of a case, opened up for fault finding: each wire of interest between the joints at its two ends,
 * each earth stud with the contact that all its rings share. Healthy voltages stay what they were.
 */
import type { Network, NetworkElement } from '../../engineering/electrical/network/network.ts'
import type { Build, Wire } from '../../model/build.ts'
import { BODY, ENGINE } from '../circuit.ts'
import { deviceIdOf, endpointOf, own, restrictedWire } from '../make.ts'
import { batteryPins } from '../pins.ts'
import type { Solved } from '../solveCases.ts'
import { jointResistance } from '../wireData.ts'

/** Ω. As the network takes them where none is entered: common practice, no published source. */
const CRIMP = 1e-3
/** Ω of a clean ring on its stud; the stud's own contact to the metal is entered or common practice. */
const RING_ON_STUD = 0.2e-3
/** Its share of a stud's whole contact resistance: the two together stay what was entered. */
const ringOnStud = (whole: number): number => Math.min(RING_ON_STUD, whole / 2)

export type End = 'from' | 'to'
export const ENDS = ['from', 'to'] as const
export const jointElement = (wire: string, end: End): string => `joint:${wire}/${end}`
export const wireElement = (wire: string): string => `wire:${wire}`
export const wireNode = (wire: Wire, end: End): string => `${wire[end]}/${wire.id}`
export const studElement = (stud: string): string => `${stud}#face`

export interface CarNetwork {
  readonly network: Network
  readonly elements: ReadonlyMap<string, NetworkElement>
  /** Wires that stand between their joints. */
  readonly wires: readonly Wire[]
  /** Node of a point (`device.pin` or `device.pin/wire`); undefined: not in this network. */
  readonly nodeOf: (point: string) => string | undefined
  /** Battery negative, else the body. */
  readonly reference: string
  /** In words: `battery negative`. */
  readonly referenceSays: string
}

export const carNetwork = (build: Build, solved: Solved, isOfInterest: (wire: Wire) => boolean): CarNetwork => {
  const wires: Wire[] = []
  const elements = solved.bound.network.elements.flatMap((element): NetworkElement[] => {
    if (element.type !== 'resistor') return [element]
    const id = element.id.startsWith('wire:') ? element.id.slice(5) : undefined
    const wire = id === undefined ? undefined : own(build.collections.wires, id)
    if (wire) {
      if (restrictedWire(build, wire.id) || !isOfInterest(wire)) return [element]
      wires.push(wire)
      const joints = ENDS.map((end) => (wire.ends?.[end] ? jointResistance(wire.ends[end]) : CRIMP))
      const sum = joints[0]! + joints[1]!
      // A wire whose figures are missing is stood in for by less than its joints would have.
      const share = sum < element.ohm ? 1 : element.ohm / (2 * sum)
      const [a, b] = ENDS.map((end) => wireNode(wire, end)) as [string, string]
      const joint = (end: End, ohm: number, p: string, q: string): NetworkElement => ({
        type: 'resistor',
        id: jointElement(wire.id, end),
        a: p,
        b: q,
        ohm,
      })
      return [
        joint('from', joints[0]! * share, element.a, a),
        { ...element, a, b, ohm: element.ohm - sum * share },
        joint('to', joints[1]! * share, b, element.b),
      ]
    }
    const stud = own(build.collections.devices, deviceIdOf(element.id.replace(/#([^#]*)$/, '.$1')))
    if (stud?.spec.kind === 'earth-stud' && (element.b === BODY || element.b === ENGINE) && !stud.restricted)
      return [{ ...element, b: `${stud.id}.#face`, ohm: ringOnStud(element.ohm) }]
    return [element]
  })
  for (const stud of Object.values(build.collections.devices)) {
    if (stud.spec.kind !== 'earth-stud' || stud.restricted || stud.spec.on === 'isolated') continue
    const face = `${stud.id}.#face`
    const before = solved.bound.network.elements.find(({ id }) => id.startsWith(`${stud.id}#`))
    if (before?.type === 'resistor' && elements.some(({ b }) => b === face))
      elements.push({
        type: 'resistor',
        id: studElement(stud.id),
        a: face,
        b: stud.spec.on === 'body' ? BODY : ENGINE,
        ohm: before.ohm - ringOnStud(before.ohm),
      })
  }
  const nodes = new Set(elements.flatMap(({ a, b }) => [a, b]))
  const battery = Object.values(build.collections.devices).find(({ spec }) => spec.kind === 'battery')
  const negative = battery && batteryPins(battery).negative
  const post = battery && negative !== undefined ? solved.bound.nodeOf(endpointOf(battery.id, negative)) : undefined
  const atPost = post !== undefined && nodes.has(post)
  const reference = atPost ? post : solved.bound.network.reference
  return {
    network: { reference, elements },
    elements: new Map(elements.map((element) => [element.id, element])),
    wires,
    nodeOf: (point) => {
      if (nodes.has(point)) return point
      const node = point.includes('/') ? undefined : solved.bound.nodeOf(point)
      return node !== undefined && nodes.has(node) ? node : undefined
    },
    reference,
    referenceSays: atPost ? 'battery negative' : 'the body',
  }
}
