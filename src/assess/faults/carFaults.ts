/** Every single fault of the parts concerned, with who is to blame and what it is called. */
import type { Hypothesis } from '../../engineering/electrical/faults/hypothesis.ts'
import { PRIOR_WEIGHTS } from '../../engineering/electrical/faults/hypothesis.ts'
import { HELD_FAST, type Part, singleFaults, type Turning } from '../../engineering/electrical/faults/parts.ts'
import type { NetworkElement } from '../../engineering/electrical/network/network.ts'
import type { Build, Device, Wire } from '../../model/build.ts'
import { BODY, ENGINE } from '../circuit.ts'
import { deviceName, deviceZone, own, restrictedDevice, restrictedWire } from '../make.ts'
import type { Solved } from '../solveCases.ts'
import { wireZones } from '../wireData.ts'
import { type CarNetwork, ENDS, jointElement, studElement, wireElement } from './carNetwork.ts'
import type { Concerned } from './concerned.ts'
import { jointKind, jointPart } from './jointKind.ts'
import type { PartKind } from './remarks.ts'
import type { Suspect } from './types.ts'
import { wireRuns } from './words.ts'

export type NamedPart = Omit<Suspect, 'probability' | 'modes'> & { readonly kind: PartKind }

/** Share of a part's prior that a broken strand or a winding comes and goes; joints and contacts have their own. */
const INTERMITTENT = 0.1
/** Prior of a contact that sticks or a driver that stays on. Common practice, no published source. */
const STUCK = 0.5
const STUCK_OHM = 0.02
/** Neighbours in a bundle that a wire may touch: so many different nets, the longest beside it first. */
const NEIGHBOURS = 4
/** V between a wire and its neighbour below which touching changes nothing that a meter shows. */
const ALIKE = 1

export interface CarFaults {
  readonly hypotheses: Hypothesis[]
  readonly parts: Map<string, NamedPart>
}

export const carFaults = (
  build: Build,
  solved: Solved,
  car: CarNetwork,
  concerned: Concerned,
  priors: Readonly<Record<string, number>>,
): CarFaults => {
  const { devices } = build.collections
  const parts = new Map<string, NamedPart>()
  const hypotheses: Hypothesis[] = []
  const weights = { ...PRIOR_WEIGHTS, ...priors }
  const name = (part: string, kind: PartKind, called: string, of: { devices?: string[]; wires?: string[] }): void => {
    const before = parts.get(part)
    const zone = of.devices?.[0] === undefined ? undefined : deviceZone(build, of.devices[0])
    parts.set(part, {
      part,
      kind,
      name: before?.name ?? called,
      devices: [...new Set([...(before?.devices ?? []), ...(of.devices ?? [])])],
      wires: [...new Set([...(before?.wires ?? []), ...(of.wires ?? [])])],
      ...(before?.zone !== undefined ? { zone: before.zone } : zone === undefined ? {} : { zone }),
    })
  }
  // A builder's prior may be that of a kind or of one part.
  const put = (blamed: string, made: readonly Hypothesis[]): void => {
    const whole = priors[blamed]
    const sum = made.reduce((all, { weight }) => all + weight, 0)
    for (const each of made)
      hypotheses.push({
        ...each,
        part: blamed,
        weight: whole === undefined ? each.weight : (each.weight * whole) / sum,
      })
  }
  const faultsOf = (part: Part): Hypothesis[] => singleFaults([part], weights)
  const comesAndGoes = (id: string, weight: number): Hypothesis => ({
    id: `${id}:comes and goes`,
    part: id,
    mode: 'comes and goes',
    weight: INTERMITTENT * weight,
    effects: [{ kind: 'open', element: id }],
    intermittent: true,
  })

  for (const wire of car.wires) {
    const id = wireElement(wire.id)
    const shorted = concerned.shorts.has(id)
    if (!shorted && !concerned.elements.has(id)) continue
    const blamed = `wire:${wire.id}`
    name(blamed, 'wire', wireRuns(build, wire), { wires: [wire.id] })
    const all = faultsOf({
      kind: 'wire',
      id,
      element: id,
      ...chafes(build, car, wire),
      neighbours: neighboursOf(build, solved, car, wire, concerned.isOff === true),
    })
    put(blamed, shorted ? all.filter(({ mode }) => mode !== 'open') : [...all, comesAndGoes(id, weights.wire!)])
    if (shorted) continue
    for (const end of ENDS) {
      const kind = jointKind(build, wire, end)
      const { part, name: called, devices: of, wires } = jointPart(build, wire, end)
      if (of.some((device) => restrictedDevice(build, device))) continue
      name(part, kind, called, { devices: of, wires })
      const element = jointElement(wire.id, end)
      put(part, faultsOf({ kind, id: element, element }))
    }
  }
  for (const id of [...concerned.elements, ...concerned.shorts]) {
    const element = car.elements.get(id)
    if (!element || id.startsWith('wire:')) continue
    const short = concerned.shorts.has(id)
    const outputId = id.startsWith('output:') ? id.slice(7) : undefined
    const output = outputId === undefined ? undefined : own(build.collections.outputs, outputId)
    const device = own(devices, output?.device ?? id.split('#')[0]!)
    if (!device || device.restricted) continue
    if (output) {
      name(id, 'output', `output ${output.name} of ${device.name}`, { devices: [device.id] })
      if (!short) put(id, faultsOf({ kind: 'switch', id, element: id }))
      continue
    }
    const { spec } = device
    const load =
      solved.bound.loads.has(id) || /#(solenoid|motor)$/.test(id) || spec.kind === 'resistor' || spec.kind === 'diode'
    if (/#coil$/.test(id)) {
      const part = `coil:${device.id}`
      name(part, 'coil', `coil of ${device.name}`, { devices: [device.id] })
      put(part, keepShorts(faultsOf({ kind: 'load', id, element: id, a: element.a, b: element.b }), short))
    } else if (load) {
      name(device.id, 'load', device.name, { devices: [device.id] })
      const turns = turningOf(solved, device, element)
      const made = faultsOf({ kind: 'load', id, element: id, a: element.a, b: element.b, ...(turns ? { turns } : {}) })
      put(device.id, short ? keepShorts(made, true) : [...made, comesAndGoes(id, weights.load!)])
    } else if (spec.kind === 'fuse') {
      name(device.id, 'fuse', device.name, { devices: [device.id] })
      put(device.id, short ? [] : faultsOf({ kind: 'fuse', id, element: id }))
    } else if (spec.kind === 'battery') {
      name(device.id, 'battery', device.name, { devices: [device.id] })
      put(device.id, faultsOf({ kind: 'battery', id, element: id }))
    } else if (!short && (spec.kind === 'switch' || element.type === 'relayContact')) {
      const part = `contact:${device.id}`
      name(part, spec.kind === 'switch' ? 'switch' : 'relay contact', `contacts of ${device.name}`, {
        devices: [device.id],
      })
      put(part, faultsOf({ kind: 'switch', id, element: id }))
    } else if (!short && spec.kind === 'earth-stud' && id === `${device.id}#${Object.keys(device.pins)[0]}`) {
      const face = studElement(device.id)
      if (!car.elements.has(face)) continue
      const part = `stud:${device.id}`
      name(part, 'stud', `${device.name}, where it meets the metal`, { devices: [device.id] })
      const zone = own(build.collections.zones, deviceZone(build, device.id) ?? '')
      put(part, faultsOf({ kind: zone?.wet === 'dry' ? 'crimp' : 'exposed', id: face, element: face }))
    }
  }
  const nodes = new Set(car.network.elements.flatMap(({ a, b }) => [a, b]))
  for (const { id, device, a, b } of concerned.stuck) {
    if (restrictedDevice(build, device) || !nodes.has(a) || !nodes.has(b)) continue
    const isOutput = id.startsWith('stuck:output:')
    const part = isOutput ? id.slice(6) : `contact:${device}`
    name(
      part,
      isOutput ? 'output' : 'switch',
      isOutput
        ? `output ${own(build.collections.outputs, id.slice(13))?.name ?? id} of ${deviceName(build, device)}`
        : `contacts of ${deviceName(build, device)}`,
      { devices: [device] },
    )
    put(part, [{ id, part, mode: 'stays closed', weight: STUCK, effects: [{ kind: 'bridge', a, b, ohm: STUCK_OHM }] }])
  }
  // A wire that is not reached by name stays out: airbag and anti-lock circuits are left to those whose work they are.
  return { hypotheses: hypotheses.map((each) => inZones(build, parts, priors, each)), parts }
}

/** Key of a prior that says how many times as often as elsewhere what stands in a zone fails. */
export const zonePrior = (zone: string): string => `zone:${zone}`

/** A fault weighed by the zone of its part; a wire by the worst zone that it passes. */
const inZones = (
  build: Build,
  parts: ReadonlyMap<string, NamedPart>,
  priors: Readonly<Record<string, number>>,
  fault: Hypothesis,
): Hypothesis => {
  const part = parts.get(fault.part)
  const zones =
    part?.kind === 'wire'
      ? part.wires.flatMap((id) => {
          const wire = own(build.collections.wires, id)
          return wire ? wireZones(build, wire) : []
        })
      : [part?.zone ?? '']
  const given = zones.flatMap((zone) => own(priors, zonePrior(zone)) ?? [])
  return given.length === 0 ? fault : { ...fault, weight: fault.weight * Math.max(...given) }
}

const keepShorts = (made: readonly Hypothesis[], short: boolean): Hypothesis[] =>
  // What blows the fuse that others share: a short, and a motor that is held.
  short ? made.filter(({ mode }) => mode === 'shorted' || mode.startsWith(HELD_FAST)) : [...made]

/** Times its running current that a motor takes which is held, where it is not entered. Common practice, no published source. */
const STALLED = 4

/** Of a fan, a blower, a pump, a wiper or a starter that runs in this case. */
const turningOf = (solved: Solved, { spec, loads }: Device, element: NetworkElement): Turning | undefined => {
  const law = loads?.find(({ id }) => element.id.endsWith(`#${id}`))?.law
  if (element.type !== 'motor' && spec.kind !== 'motor' && spec.kind !== 'pump' && law?.type !== 'motor')
    return undefined
  const volts = Math.abs((solved.nodes.get(element.a) ?? 0) - (solved.nodes.get(element.b) ?? 0))
  const current = Math.abs(solved.elements.get(element.id) ?? 0)
  if (volts < 1 || current < 0.01) return undefined
  const stalled = element.type === 'motor' ? element.stallResistance : volts / current / STALLED
  return { volts, current, stalled }
}

const chafes = (build: Build, car: CarNetwork, wire: Wire): { readonly chafesOn?: string } => {
  const onEngine = wireZones(build, wire).some((id) => own(build.collections.zones, id)?.vibration === 'engine')
  const metal = [...(onEngine ? [ENGINE] : []), BODY].find((node) =>
    car.network.elements.some(({ a, b }) => a === node || b === node),
  )
  return metal === undefined ? {} : { chafesOn: metal }
}

const neighboursOf = (
  build: Build,
  solved: Solved,
  car: CarNetwork,
  wire: Wire,
  isOff: boolean,
): { readonly node: string; readonly name: string }[] => {
  const runs = new Set(wire.path ?? [])
  if (runs.size === 0) return []
  const mine = solved.nodes.get(solved.bound.nodeOf(wire.to)) ?? 0
  const beside = Object.values(build.collections.wires)
    .filter((other) => other.id !== wire.id && !restrictedWire(build, other.id))
    .map((other) => ({ other, shared: (other.path ?? []).filter((run) => runs.has(run)).length }))
    .filter(({ shared }) => shared > 0)
    .sort((p, q) => q.shared - p.shared || (p.other.id < q.other.id ? -1 : 1))
  const found: { node: string; name: string }[] = []
  const nets = new Set<string>()
  for (const { other } of beside) {
    if (found.length >= NEIGHBOURS) break
    const node = car.nodeOf(other.to)
    const volts = solved.nodes.get(solved.bound.nodeOf(other.to))
    if (node === undefined || volts == null || Math.abs(volts - mine) < ALIKE) continue
    // Nets of one voltage are one neighbour to a meter.
    const net = isOff ? solved.bound.nodeOf(other.to) : volts.toFixed(1)
    if (nets.has(net)) continue
    nets.add(net)
    found.push({ node, name: `wire ${other.id}` })
  }
  return found
}
