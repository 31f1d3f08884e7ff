/** The test sheet of one circuit in one case: earths and coils while it is dead, then volts from source to load, then amperes. */
import type { Build, Device, OperatingCase, Wire } from '../../model/build.ts'
import { refuse } from '../../units/problem.ts'
import {
  caseCautions,
  DEAD_CIRCUIT,
  LIVE_BATTERY,
  NO_AIRBAG,
  NO_NEW_FUSE,
  PROBING,
  placeCautions,
  UNPLUGGED,
  whenDead,
} from '../electricalCautions.ts'
import { carNetwork, ENDS, wireElement } from '../faults/carNetwork.ts'
import { testId } from '../faults/drops.ts'
import { foundCase } from '../faults/found.ts'
import { pointsOf, type ReachedPoint } from '../faults/reach.ts'
import { carTolerances } from '../faults/start.ts'
import { leadsSay } from '../faults/words.ts'
import { deviceIdOf, endpointOf, own, restrictedDevice, restrictedWire } from '../make.ts'
import { batteryPins, relayPins, starterPins } from '../pins.ts'
import { type Solved, solveCase } from '../solveCases.ts'
import { expecter, expectOhms } from './expect.ts'
import { notEntered, notKnown } from './notKnown.ts'
import type { Expectation, SheetSection, SheetTest, TestSheet } from './types.ts'

/** A below which an ampere reading on a hand clamp says nothing. */
const WORTH_CLAMPING = 0.5
/** V from which a load counts as fed. */
const FED = 1

export const circuitWires = (build: Build, circuit: string): Wire[] =>
  Object.values(build.collections.wires).filter((wire) => wire.circuit === circuit && !restrictedWire(build, wire.id))

/** Devices of the circuit: its own, and those that its wires end at. */
export const circuitDevices = (build: Build, circuit: string, wires: readonly Wire[]): Device[] => {
  const ids = new Set([
    ...Object.values(build.collections.devices).flatMap((device) => (device.circuit === circuit ? [device.id] : [])),
    ...wires.flatMap((wire) => ENDS.map((end) => deviceIdOf(wire[end]))),
  ])
  return [...ids]
    .flatMap((id) => own(build.collections.devices, id) ?? [])
    .filter(({ id }) => !restrictedDevice(build, id))
}

const loadsFed = (solved: Solved, devices: readonly Device[]): number =>
  devices.reduce(
    (sum, device) =>
      sum +
      (device.loads ?? []).filter((load) => {
        const [a, b] = [load.from, load.to].map((pin) => solved.voltages[endpointOf(device.id, pin)])
        return a != null && b != null && Math.abs(a - b) > FED
      }).length +
      (isCranked(solved, device) ? 1 : 0),
    0,
  )

/** A starter is no load of its own in the model: it is on when its solenoid is fed. */
const isCranked = (solved: Solved, device: Device): boolean => {
  if (device.spec.kind !== 'starter') return false
  const { solenoid } = starterPins(device)
  return solenoid !== undefined && Math.abs(solved.voltages[endpointOf(device.id, solenoid)] ?? 0) > FED
}

/** The case in which most of the circuit is on; of equal ones the quietest. */
export const bestCase = (build: Build, devices: readonly Device[]): OperatingCase => {
  const cases = Object.values(build.collections.cases).filter(
    ({ battery, supply }) => battery === 'connected' && supply === undefined,
  )
  if (cases.length === 0)
    throw refuse('no-case', 'There is no operating case with the battery connected.', 'Enter one, as ignition on.')
  const quiet = ['off', 'idle', 'cruise', 'full load', 'cranking']
  const rated = cases.map((kase) => ({ kase, fed: loadsFed(solveCase(build, kase), devices) }))
  return rated.reduce((p, q) =>
    q.fed > p.fed || (q.fed === p.fed && quiet.indexOf(q.kase.engine) < quiet.indexOf(p.kase.engine)) ? q : p,
  ).kase
}

export const circuitSheet = (build: Build, circuit: string, caseId?: string): TestSheet => {
  const record = own(build.collections.circuits, circuit)
  if (!record)
    throw refuse(
      'unknown-circuit',
      `There is no circuit ${circuit}.`,
      `Name first-power or one of: ${Object.keys(build.collections.circuits).join(', ') || 'none is entered yet'}.`,
    )
  const wires = circuitWires(build, circuit)
  const devices = circuitDevices(build, circuit, wires)
  const left = Object.values(build.collections.wires).filter(
    (wire) => wire.circuit === circuit && restrictedWire(build, wire.id),
  )
  const notes = left.map(
    ({ id }) => `Wire ${id} belongs to an airbag or anti-lock circuit and is left to those whose work it is.`,
  )
  if (wires.length === 0)
    return {
      id: circuit,
      title: record.name,
      sections: [],
      notes: [...notes, `No wires are entered for ${record.name}: enter them to have a sheet.`],
    }
  const kase = caseId === undefined ? bestCase(build, devices) : foundCase(build, { case: caseId })
  const solved = solveCase(build, kase)
  const lacking = [
    notEntered(
      build,
      solved.missing.filter(
        ({ subject }) =>
          devices.some(({ id }) => subject === `devices/${id}`) || wires.some(({ id }) => subject === `wires/${id}`),
      ),
    ),
  ].filter((note) => note !== undefined)
  if (!solved.solved)
    return {
      id: circuit,
      title: record.name,
      case: kase.id,
      sections: [],
      notes: [
        ...notes,
        ...lacking,
        `Nothing can be expected in “${kase.name}”: ${solved.notes.join(' ') || 'a battery with its rested voltage and internal resistance is missing.'}`,
      ],
    }
  const sections = [deadSection(build, solved, wires, devices), liveSection(build, solved, wires, devices)].filter(
    ({ lines }) => lines.length > 0,
  )
  if (devices.some(({ loads }) => (loads ?? []).length > 0) && loadsFed(solved, devices) === 0)
    notes.push(
      `Nothing of ${record.name} is on in “${kase.name}”: the volts show what waits at its switches and no more. To prove the rest, enter an operating case in which it is on.`,
    )
  return { id: circuit, title: record.name, case: kase.id, sections, notes: [...notes, ...lacking] }
}

const deadSection = (
  build: Build,
  solved: Solved,
  wires: readonly Wire[],
  devices: readonly Device[],
): SheetSection => {
  const ids = new Set(wires.map(({ id }) => id))
  const car = carNetwork(build, solved, ({ id }) => ids.has(id))
  const tolerances = carTolerances(build, solved, car.network.elements)
  const lines: SheetTest[] = []
  const ohms = (at: string, against: string | undefined, low: string, high: string, alone?: string): void => {
    const a = car.nodeOf(at)
    const b = against === undefined ? car.reference : car.nodeOf(against)
    if (a === undefined || b === undefined || a === b) return
    // A coil or winding is measured on its own, its plug or socket empty.
    const network =
      alone === undefined
        ? car.network
        : { ...car.network, elements: car.network.elements.filter(({ id }) => id === alone) }
    if (network.elements.length === 0) return
    lines.push({
      id: `ohms:${testId(at, against)}`,
      kind: 'test',
      quantity: 'ohms',
      at,
      ...(against === undefined ? {} : { against }),
      says: `${leadsSay(build, at, against, car.referenceSays)}${alone === undefined ? '' : ', unplugged'}`,
      ...(alone === undefined ? {} : { alone: true as const }),
      expect: expectOhms(network, tolerances, a, b),
      low,
      high,
    })
  }
  for (const device of devices) {
    if (device.spec.kind === 'earth-stud') {
      const pin = Object.keys(device.pins)[0]
      if (pin !== undefined)
        ohms(
          endpointOf(device.id, pin),
          undefined,
          'The meter was not zeroed, or the leads touch.',
          'The stud, its ring or a strap between it and the battery has resistance: clean to bright metal.',
        )
    } else if (device.spec.kind === 'relay') {
      const [c1, c2] = relayPins(device).coil
      if (c1 !== undefined && c2 !== undefined)
        ohms(
          endpointOf(device.id, c1),
          endpointOf(device.id, c2),
          'The coil is shorted in itself, or another relay is fitted.',
          'The coil is open, or the pins are others than thought.',
          `${device.id}#coil`,
        )
    } else if (device.spec.kind === 'fuse') {
      const [one, two] = Object.keys(device.pins)
      if (one !== undefined && two !== undefined)
        ohms(
          endpointOf(device.id, one),
          endpointOf(device.id, two),
          'The meter was not zeroed.',
          'The fuse is blown, or its blades are corroded.',
          device.id,
        )
    }
    for (const load of device.loads ?? []) {
      const id = `${device.id}#${load.id}`
      if (load.law?.type === 'resistance')
        ohms(
          endpointOf(device.id, load.from),
          endpointOf(device.id, load.to),
          'Shorted inside, or another part than entered.',
          'Open inside, or a poor contact.',
          id,
        )
    }
  }
  return {
    id: 'dead',
    title: 'Dead circuit: ohms',
    state: 'battery negative off and insulated; key out; relays and plugs as each line says',
    cautions: [
      LIVE_BATTERY,
      DEAD_CIRCUIT,
      UNPLUGGED,
      NO_AIRBAG,
      ...whenDead(
        placeCautions(
          build,
          devices.map(({ id }) => id),
        ),
      ),
    ],
    lines,
  }
}

const liveSection = (
  build: Build,
  solved: Solved,
  wires: readonly Wire[],
  devices: readonly Device[],
): SheetSection => {
  const ids = new Set(wires.map(({ id }) => id))
  const car = carNetwork(build, solved, ({ id }) => ids.has(id))
  const expect = expecter(car.network, carTolerances(build, solved, car.network.elements))
  const points = pointsOf(build, wires)
  const unknown = notKnown(build, solved, car)
  const known = (missing: string | undefined, expected: Expectation): Pick<SheetTest, 'expect' | 'missing'> =>
    missing === undefined ? { expect: expected } : { missing }
  const lines: SheetTest[] = []
  const unsure = new Set([...solved.bound.unsure].map((id) => id))
  const put = (test: Omit<SheetTest, 'kind'>): void => {
    if (!lines.some(({ id }) => id === test.id)) lines.push({ kind: 'test', ...test })
  }
  const battery = Object.values(build.collections.devices).find(({ spec }) => spec.kind === 'battery')
  const plus = battery && batteryPins(battery).positive
  const source = battery && plus !== undefined ? endpointOf(battery.id, plus) : undefined
  const sourceNode = source === undefined ? undefined : car.nodeOf(source)
  /** What the feed loses: two volts that each may lie off by a quarter say little of a drop that is known to a tenth. */
  const dropOnTheWay = (device: Device, load: string, at: string, node: string, isOneOfSeveral: boolean): void => {
    if (source === undefined || sourceNode === undefined || sourceNode === node) return
    const fed = expect.volts(node, car.reference).value
    if (fed === null || Math.abs(fed) < FED) return
    put({
      id: `volts:${testId(source, at)}`,
      quantity: 'volts',
      at: source,
      against: at,
      says: `lost on the way to ${device.name}${isOneOfSeveral ? `, ${load}` : ''}: ${leadsSay(build, source, at, '')}`,
      ...known(unknown.volts(node), expect.volts(sourceNode, node)),
      low: 'The load draws less than it should, or the charge is shared otherwise: compare with the line before.',
      high: 'A joint, fuse, switch or wire on the way has resistance: halve the way with the second lead until the drop is found.',
    })
  }
  // From the source to the load and on to its return: the voltage falls all the way. One point of each joint is enough.
  const order = [...points.values()]
    .flatMap((point) => {
      const node = car.nodeOf(point.id)
      return node === undefined || node === car.reference
        ? []
        : [{ point, node, expect: expect.volts(node, car.reference) }]
    })
    .filter(({ point }) => point.wire === undefined || !points.has(point.endpoint))
    .sort((p, q) => (q.expect.value ?? -1e9) - (p.expect.value ?? -1e9))
  let before: ReachedPoint | undefined
  for (const { point, node, expect: expected } of order) {
    const isReturn = expected.value !== null && Math.abs(expected.value) < FED
    put({
      id: `volts:${point.id}`,
      quantity: 'volts',
      at: point.id,
      says: leadsSay(build, point.id, undefined, car.referenceSays),
      ...known(unknown.volts(node), expected),
      low: isReturn
        ? 'The load before this earth draws less than it should, or nothing.'
        : `Resistance, or a break, on the way here${before ? ` after ${before.says}` : ''}; or the battery is low.`,
      high: isReturn
        ? 'The earth from here to battery negative has resistance: the load stands up from it.'
        : 'The load draws less than it should, or the supply stands higher than the model: read the battery first.',
    })
    before = point
  }
  for (const device of devices)
    for (const load of device.loads ?? []) {
      const [at, against] = [load.from, load.to].map((pin) => endpointOf(device.id, pin)) as [string, string]
      const [a, b] = [car.nodeOf(at), car.nodeOf(against)]
      if (a === undefined || b === undefined || a === b) continue
      put({
        id: `volts:${testId(at, against)}`,
        quantity: 'volts',
        at,
        against,
        says: `across ${device.name}${(device.loads?.length ?? 0) > 1 ? `, ${load.name ?? load.id}` : ''}: ${leadsSay(build, at, against, '')}`,
        ...(load.law
          ? known(unknown.volts(a) ?? unknown.volts(b), expect.volts(a, b))
          : { missing: `what ${load.name ?? load.id} of ${device.name} draws` }),
        low: 'Volts are lost in the supply or in the earth: compare with the lines before.',
        high: 'It draws less than it should: worn, partly open, or another part.',
      })
      dropOnTheWay(device, load.name ?? load.id, at, a, (device.loads?.length ?? 0) > 1)
    }
  for (const device of devices) {
    if (device.spec.kind !== 'fuse') continue
    const wire = wires.find(({ from, to }) => [from, to].some((end) => deviceIdOf(end) === device.id))
    const element = wire && car.elements.get(wireElement(wire.id))
    if (!wire || !element || unsure.has(element.id)) continue
    const hangsOn = unknown.amps(element.id)
    const expected = expect.amps(element.id)
    if (expected.value === null || Math.abs(expected.value) < WORTH_CLAMPING) continue
    const turned = expected.value < 0
    put({
      id: `amps:${wire.id}`,
      quantity: 'amps',
      // The end at the fuse: its other end may be a rail from which half the car is fed.
      at: `${deviceIdOf(wire.from) === device.id ? wire.from : wire.to}/${wire.id}`,
      says: `clamp round wire ${wire.id} at ${device.name}`,
      ...known(
        hangsOn,
        turned ? { ...expected, value: -expected.value, least: -expected.most, most: -expected.least } : expected,
      ),
      low: 'Something behind this fuse is not running.',
      high: 'Something behind this fuse draws too much: a short, a motor that drags, a load that is not entered.',
    })
  }
  return {
    id: 'live',
    title: 'Live: volts and amperes',
    state: solved.kase.name,
    cautions: [
      ...new Set([
        PROBING,
        NO_NEW_FUSE,
        NO_AIRBAG,
        ...caseCautions(solved.kase),
        ...placeCautions(
          build,
          devices.map(({ id }) => id),
        ),
      ]),
    ],
    lines,
  }
}
