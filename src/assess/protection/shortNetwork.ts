/**
 * The car as a fault sees it: sources, wires, fuses, contacts and earths, every switch and relay closed at once, loads
 * away. A bolted short at a place is a switch that the solver closes; the network is prepared once for all of them.
 *   strong: full battery, or at the top of its ±, copper at −20 °C, cold fuses, the alternator at its cold output
 *   weak: flat tired battery, copper as hot as its class allows, hot fuses, no alternator
 */
import { type NetworkElement, prepare } from '../../engineering/electrical/network/network.ts'
import { warmer } from '../../engineering/electrical/sources.ts'
import type { Build } from '../../model/build.ts'
import { Refusal } from '../../units/problem.ts'
import { BODY, ENGINE } from '../circuit.ts'
import { deviceIdOf, deviceName, endpointOf, own } from '../make.ts'
import { alternatorPins, batteryPins, controllerPins, relayPins, starterPins, twoPins } from '../pins.ts'
import { CLASS_TEMPERATURE, conductorFacts, jointResistance, wireLength } from '../wireData.ts'
import { cellsOf, tired } from './tired.ts'

export type Strength = 'strong' | 'weak'
export interface Place {
  readonly id: string
  readonly at: string
  readonly back: string
}
export interface Shorts {
  /** Amperes in an element (`SHORT`: in the short) with the short at that place closed; undefined where none finds its way. */
  readonly close: (place: string) => ((element: string) => number) | undefined
  /** Wires and fuses of unknown resistance: their elements stand in. */
  readonly unsure: ReadonlyMap<string, string>
  /** Data without which there is no figure at all. */
  readonly missing: readonly string[]
}

/** Names the short itself among the elements. */
export const SHORT = 'short:'

/** Ω of a bolted short, of a contact and a bolted case where none is entered. Common practice, no published source. */
const BOLTED = 1e-3
const CONTACT = { strong: 1e-3, weak: 10e-3 } as const
const CASE = 0.2e-3
const INSIDE = 1e-3
const STUD = 0.5e-3
const CRIMP = 1e-3
const STAND_IN = 1e-4
/** Cold fuse: 77 mΩ·A over its rating (measured and data sheet, read). Hot at rated current 1.67 times that (data sheet, computed). */
const FUSE_OHM_AMPERES = 77e-3
const HOT_FUSE = 1.67
/** V a cell of a full battery: AGM 12.80 V or more (read). */
const FULL = 12.8 / 6
/** Hot output is 0.67 to 0.82 of cold (marine engine manual, read, computed). */
const COLD_OUTPUT = 1 / 0.67
const COLD_COPPER = 253.15
const SILICON = 0.7

export const shortsOf = (build: Build, strength: Strength, places: readonly Place[]): Shorts => {
  const { devices, wires } = build.collections
  const weak = strength === 'weak'
  const elements: NetworkElement[] = []
  const unsure = new Map<string, string>()
  const missing: string[] = []
  const nodeOf = (endpoint: string): string => {
    const id = deviceIdOf(endpoint)
    return own(devices, id)?.spec.kind === 'splice' ? id : endpoint
  }
  const put = (element: NetworkElement) => {
    if (element.a !== element.b) elements.push(element)
  }
  const resistor = (id: string, a: string, b: string, ohm: number) => put({ id, type: 'resistor', a, b, ohm })
  for (const wire of Object.values(wires)) {
    const facts = conductorFacts(wire)
    const length = wireLength(build, wire)
    const id = `wire:${wire.id}`
    if (!facts || length === undefined || (weak && !wire.insulation)) {
      unsure.set(
        id,
        `${!facts ? 'cross-section and material' : length === undefined ? 'length' : 'insulation class'} of ${wire.id}`,
      )
      resistor(id, nodeOf(wire.from), nodeOf(wire.to), STAND_IN)
      continue
    }
    const joints = (['from', 'to'] as const).reduce((sum, end) => {
      const joint = wire.ends?.[end]
      return sum + (joint ? jointResistance(joint) : CRIMP)
    }, 0)
    const temperature = weak ? CLASS_TEMPERATURE[wire.insulation!] : COLD_COPPER
    resistor(
      id,
      nodeOf(wire.from),
      nodeOf(wire.to),
      facts.resistance * length * warmer(facts.metal, temperature) + joints,
    )
  }
  for (const device of Object.values(devices)) {
    const { spec, id } = device
    const at = (pin: string) => nodeOf(endpointOf(id, pin))
    const contact = (ohm: { readonly value: number } | undefined) => ohm?.value ?? CONTACT[strength]
    switch (spec.kind) {
      case 'battery': {
        const { positive, negative } = batteryPins(device)
        if (positive === undefined || negative === undefined) break
        if (!spec.restedVoltage || !spec.internalResistance) {
          missing.push(
            `${[...(spec.restedVoltage ? [] : ['rested voltage']), ...(spec.internalResistance ? [] : ['internal resistance'])].join(' and ')} of ${deviceName(build, id)}`,
          )
          break
        }
        const { restedVoltage: rested, internalResistance: inner } = spec
        put({
          id,
          type: 'battery',
          a: at(positive),
          b: at(negative),
          ...(weak
            ? tired(rested.value, inner.value)
            : {
                emf: Math.max(rested.value + (rested.plusMinus ?? 0), cellsOf(rested.value) * FULL),
                internalResistance: Math.max(inner.value - (inner.plusMinus ?? 0), inner.value / 2),
              }),
        })
        break
      }
      case 'alternator': {
        const { output, case: pin } = alternatorPins(device)
        const frame = pin === undefined ? `${id}.#case` : at(pin)
        resistor(`${id}#frame`, frame, ENGINE, CASE)
        if (weak || output === undefined) break
        const limit = spec.hotOutputCruise ?? spec.hotOutputIdle
        if (!limit || !spec.setpoint) {
          missing.push(`${limit ? 'set voltage' : 'hot output'} of ${deviceName(build, id)}`)
          break
        }
        put({
          id,
          type: 'alternator',
          a: at(output),
          b: frame,
          setpoint: spec.setpoint.value,
          internalResistance: spec.internalResistance?.value ?? CONTACT.weak,
          limit: limit.value * COLD_OUTPUT,
        })
        break
      }
      case 'starter': {
        const { case: pin } = starterPins(device)
        resistor(`${id}#frame`, pin === undefined ? `${id}.#case` : at(pin), ENGINE, CASE)
        break
      }
      case 'earth-stud':
        if (spec.on !== 'isolated')
          for (const pin of Object.keys(device.pins))
            resistor(`${id}#${pin}`, at(pin), spec.on === 'body' ? BODY : ENGINE, spec.contactResistance?.value ?? STUD)
        break
      case 'fuse': {
        const two = twoPins(device)
        if (!two) break
        const rating = spec.rating && spec.rating.value > 0 ? spec.rating.value : undefined
        const cold = spec.coldResistance?.value ?? (rating === undefined ? undefined : FUSE_OHM_AMPERES / rating)
        if (cold === undefined) unsure.set(id, `rating of ${deviceName(build, id)}`)
        resistor(id, at(two[0]), at(two[1]), (cold ?? STAND_IN) * (weak ? HOT_FUSE : 1))
        break
      }
      case 'relay': {
        const { common, make, break: rest } = relayPins(device)
        for (const pin of [make, rest])
          if (common !== undefined && pin !== undefined)
            resistor(`${id}#${pin}`, at(common), at(pin), contact(spec.contactResistance))
        break
      }
      case 'switch': {
        const pairs = new Set(
          Object.values(spec.positions)
            .flat()
            .map(([a, b]) => (a < b ? `${a} ${b}` : `${b} ${a}`)),
        )
        for (const pair of pairs) {
          const [a, b] = pair.split(' ') as [string, string]
          resistor(`${id}#${pair}`, at(a), at(b), contact(spec.contactResistance))
        }
        break
      }
      case 'diode': {
        const two = twoPins(device)
        if (two)
          put({
            id,
            type: 'diode',
            a: at(two[0]),
            b: at(two[1]),
            forwardVoltage: spec.forwardVoltage?.value ?? SILICON,
            onResistance: CONTACT.weak,
          })
        break
      }
      case 'resistor': {
        const two = twoPins(device)
        if (two && spec.resistance) resistor(id, at(two[0]), at(two[1]), spec.resistance.value)
        break
      }
      case 'controller': {
        const { earths, sensorEarth } = controllerPins(device)
        for (const pin of [...earths, ...sensorEarth]) resistor(`${id}#earth-${pin}`, at(pin), `${id}.#earth`, INSIDE)
        break
      }
      default:
    }
  }
  const battery = elements.find(({ type }) => type === 'battery')
  if (!battery) return { close: () => undefined, unsure, missing }
  const reference = elements.some(({ a, b }) => a === BODY || b === BODY) ? BODY : battery.b
  // Conductors that end at one point have one short there.
  const pairOf = new Map(places.map(({ id, at, back }) => [id, `${nodeOf(at)} ${nodeOf(back)}`]))
  const pairs = [...new Set(pairOf.values())].map((pair) => pair.split(' ') as [string, string])
  const network = trimmed(elements, [reference, ...pairs.flat()], battery)
  const touched = new Set(network.flatMap(({ a, b }) => [a, b]))
  const closable = new Set<string>()
  for (const [a, b] of pairs) {
    if (a === b || !touched.has(a) || !touched.has(b)) continue
    closable.add(`${a} ${b}`)
    network.push({ id: `${SHORT}${a} ${b}`, type: 'switch', a, b, closed: false, ohm: BOLTED })
  }
  const elementOf = new Map(network.map((element) => [element.id, element]))
  const nodes = [...new Set(network.flatMap(({ a, b }) => [a, b]))]
  const placeOf = new Map(nodes.map((node, index) => [node, index]))
  /** Every short at once, on the first question: each is a change of one element, which low-rank re-solution is made for. */
  let solved: ReadonlyMap<string, Float64Array> | undefined
  const solveAll = (): ReadonlyMap<string, Float64Array> => {
    const faults = [...closable]
    try {
      const { volts } = prepare({ reference, elements: network }).signatures(
        faults.map((pair) => ({ set: { [SHORT + pair]: { closed: true } } })),
        nodes,
      )
      return new Map(faults.map((pair, index) => [pair, volts[index]!]))
    } catch (error) {
      if (error instanceof Refusal) return new Map()
      throw error
    }
  }
  const close = (place: string) => {
    const pair = pairOf.get(place)
    if (pair === undefined || !closable.has(pair)) return undefined
    solved ??= solveAll()
    const volts = solved.get(pair)
    if (!volts) return undefined
    const across = (a: string, b: string) => Math.abs(volts[placeOf.get(a)!]! - volts[placeOf.get(b)!]!)
    const [from, to] = pair.split(' ') as [string, string]
    const through = across(from, to) / BOLTED
    // Less than half an ampere into a bolted short, or nothing to be solved: there is no way back to the battery.
    if (!(through >= 0.5)) return undefined
    return (id: string): number => {
      if (id === SHORT) return through
      const element = elementOf.get(id)
      // Asked of wires and fuses; a piece that floats carries nothing.
      if (element?.type !== 'resistor') return 0
      const volt = across(element.a, element.b)
      return Number.isNaN(volt) ? 0 : volt / element.ohm
    }
  }
  return { close, unsure, missing }
}

/** Away with what no short can draw a current through: other pieces, and ends that nothing is joined to. */
const trimmed = (
  elements: readonly NetworkElement[],
  kept: readonly string[],
  battery: NetworkElement,
): NetworkElement[] => {
  const at = new Map<string, NetworkElement[]>()
  for (const element of elements)
    for (const node of [element.a, element.b]) {
      const here = at.get(node)
      if (here) here.push(element)
      else at.set(node, [element])
    }
  const joined = new Set([battery.a])
  const queue = [battery.a]
  for (let node = queue.pop(); node !== undefined; node = queue.pop())
    for (const { a, b } of at.get(node) ?? [])
      for (const next of [a, b])
        if (!joined.has(next)) {
          joined.add(next)
          queue.push(next)
        }
  const needed = new Set(kept)
  const degree = new Map([...at].map(([node, here]) => [node, here.length]))
  const gone = new Set<NetworkElement>()
  const ends = [...degree].flatMap(([node, count]) => (count === 1 && !needed.has(node) ? [node] : []))
  for (let node = ends.pop(); node !== undefined; node = ends.pop())
    for (const element of at.get(node) ?? []) {
      if (gone.has(element) || element.type === 'battery' || element.type === 'alternator') continue
      gone.add(element)
      const other = element.a === node ? element.b : element.a
      const left = degree.get(other)! - 1
      degree.set(other, left)
      if (left === 1 && !needed.has(other)) ends.push(other)
    }
  return elements.filter((element) => joined.has(element.a) && !gone.has(element))
}
