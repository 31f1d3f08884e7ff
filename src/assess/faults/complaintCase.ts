/** Whether a complaint can be made in a case: the consumer solved there, on or off as the complaint has it. */
import type { NetworkElement } from '../../engineering/electrical/network/network.ts'
import type { Build, OperatingCase } from '../../model/build.ts'
import { Refusal, refuse } from '../../units/problem.ts'
import { deviceIdOf, deviceName, own, pinName, restrictedDevice } from '../make.ts'
import { type Solved, solveCase } from '../solveCases.ts'
import { foundCase } from './found.ts'
import type { SearchStart } from './types.ts'

/** V that a load gets in the case, below which it is not meant to be on. */
const ON = 1

const loadOf = (build: Build, solved: Solved, { complaint }: SearchStart): NetworkElement => {
  const device = own(build.collections.devices, complaint.device)
  if (!device)
    throw refuse('unknown-device', `There is no device ${complaint.device}.`, 'Name a device that draws current.')
  if (device.restricted)
    throw refuse(
      'restricted',
      `${device.name} belongs to the ${device.restricted} system, which is never fault-searched here.`,
      'Leave it to somebody qualified for that system.',
    )
  const all = new Map(solved.bound.network.elements.map((element) => [element.id, element]))
  const names = device.loads?.map(({ id }) => id) ?? []
  if (complaint.load !== undefined && !names.includes(complaint.load))
    throw refuse(
      'unknown-load',
      `${device.name} has no load ${complaint.load}.`,
      `It has: ${names.join(', ') || 'none'}.`,
    )
  const own1 = (complaint.load === undefined ? names : [complaint.load]).map((id) => `${device.id}#${id}`)
  const candidates = [...own1, `${device.id}#motor`, `${device.id}#solenoid`, `${device.id}#coil`].flatMap(
    (id) => all.get(id) ?? [],
  )
  if (candidates.length === 0)
    throw refuse(
      'no-load',
      `${device.name} draws nothing in “${solved.kase.name}”, as far as is entered.`,
      'Enter what it draws, name the case in which the fault shows, or set the switches and outputs as the car is found.',
    )
  const volts = (element: NetworkElement): number =>
    Math.abs((solved.nodes.get(element.a) ?? 0) - (solved.nodes.get(element.b) ?? 0))
  return candidates.reduce((p, q) => (volts(q) > volts(p) ? q : p))
}

/** A point that is alive: what it stands above the body, as if something hung there. Draws nothing in the network. */
const pointOf = (build: Build, solved: Solved, { complaint }: SearchStart): NetworkElement => {
  const at = complaint.at ?? ''
  const device = own(build.collections.devices, deviceIdOf(at))
  if (!device || !Object.hasOwn(device.pins, at.slice(at.lastIndexOf('.') + 1)))
    throw refuse('unknown-point', `There is no point ${at || 'named'} in this car.`, 'Name a device and its pin.')
  if (restrictedDevice(build, device.id))
    throw refuse(
      'restricted',
      `${pinName(build, at)} belongs to an airbag or anti-lock circuit, which is never fault-searched here.`,
      'Leave it to somebody qualified for that system.',
    )
  const [a, b] = [solved.bound.nodeOf(at), solved.bound.network.reference]
  if (!solved.at.has(a))
    throw refuse('no-wire', `No wire that could feed it ends at ${pinName(build, at)}.`, 'Enter the wire.')
  return { type: 'resistor', id: `point:${at}`, a, b, ohm: 1 }
}

/** Throws `Refusal` where the complaint names what is not there, or the case cannot be solved or does not suit it. */
export const complaintCase = (
  build: Build,
  start: SearchStart,
): {
  readonly kase: OperatingCase
  readonly solved: Solved
  readonly load: NetworkElement
  readonly isOff: boolean
} => {
  const kase = foundCase(build, start)
  const solved = solveCase(build, kase)
  if (own(build.collections.devices, start.complaint.device)?.restricted) loadOf(build, solved, start)
  if (!solved.solved)
    throw refuse(
      'unsolved',
      `“${kase.name}” cannot be solved, so there is nothing to hold a reading against. ${solved.notes.join(' ')}`.trim(),
      solved.missing.length > 0
        ? `Enter: ${solved.missing.map(({ subject, datum }) => `${datum} of ${subject}`).join('; ')}.`
        : 'Enter a battery with its rested voltage and internal resistance.',
    )
  const isPoint = start.complaint.kind === 'alive when it should be dead'
  const load = isPoint ? pointOf(build, solved, start) : loadOf(build, solved, start)
  const across = (solved.nodes.get(load.a) ?? 0) - (solved.nodes.get(load.b) ?? 0)
  const isOff = isPoint || start.complaint.kind === 'on when it should be off'
  if (!isOff && Math.abs(across) < ON)
    throw refuse(
      'not-on',
      `${deviceName(build, start.complaint.device)} is not meant to be on in “${kase.name}”: it gets ${Math.abs(across).toFixed(2)} V.`,
      'Name a case in which it is on, or set the switches and outputs as the car is found.',
    )
  if (isOff && Math.abs(across) > ON)
    throw refuse(
      'not-off',
      `${isPoint ? pinName(build, start.complaint.at!) : deviceName(build, start.complaint.device)} is meant to be ${isPoint ? 'alive' : 'on'} in “${kase.name}”.`,
      `Name a case in which it should be ${isPoint ? 'dead' : 'off'}.`,
    )
  return { kase, solved, load, isOff }
}

/** With the battery on and nothing foreign feeding the car. */
export const isUsable = ({ battery, supply }: OperatingCase): boolean => battery === 'connected' && supply === undefined

const QUIET: readonly OperatingCase['engine'][] = ['off', 'idle', 'cranking', 'cruise', 'full load']

/** Ids of the usable cases in which this complaint makes sense, those in which a meter is held most easily first. */
export const suitedCases = (build: Build, complaint: SearchStart['complaint']): string[] =>
  Object.values(build.collections.cases)
    .filter((kase) => {
      if (!isUsable(kase)) return false
      try {
        complaintCase(build, { complaint, case: kase.id })
        return true
      } catch (error) {
        if (error instanceof Refusal) return false
        throw error
      }
    })
    .sort((p, q) => QUIET.indexOf(p.engine) - QUIET.indexOf(q.engine) || wrong(p) - wrong(q))
    .map(({ id }) => id)

/** A state in which something is broken already is the last choice. */
const wrong = ({ engine, alternator }: OperatingCase): number => (engine !== 'off' && alternator === 'off' ? 1 : 0)
