/** The test sheet of one circuit in one case: earths and coils while it is dead, then volts from source to load, then amperes. */
import type { Build, Device, OperatingCase, Wire } from '../../model/build.ts'
import { refuse } from '../../units/problem.ts'
import { ENDS } from '../faults/carNetwork.ts'
import { foundCase } from '../faults/found.ts'
import { deviceIdOf, endpointOf, own, restrictedDevice, restrictedWire } from '../make.ts'
import { starterPins } from '../pins.ts'
import { type Solved, solveCase } from '../solveCases.ts'
import { deadSection } from './deadSection.ts'
import { liveSection } from './liveSection.ts'
import { notEntered } from './notKnown.ts'
import type { TestSheet } from './types.ts'

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
  const sections = [
    deadSection(build, solved, wires, devices, notes),
    liveSection(build, solved, wires, devices),
  ].filter(({ lines }) => lines.length > 0)
  if (devices.some(({ loads }) => (loads ?? []).length > 0) && loadsFed(solved, devices) === 0)
    notes.push(
      `Nothing of ${record.name} is on in “${kase.name}”: the volts show what waits at its switches and no more. To prove the rest, enter an operating case in which it is on.`,
    )
  return { id: circuit, title: record.name, case: kase.id, sections, notes: [...notes, ...lacking] }
}
