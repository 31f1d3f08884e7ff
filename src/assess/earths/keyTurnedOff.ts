/**
 * A running case, and the key is turned off: relays that were closed let go only below their drop-out, a controller
 * drives its outputs as long as it is fed (or senses the key), the alternator still turns. Solved again until nothing
 * changes. What is still fed then is fed by a path that goes round the switch.
 */
import { type NetworkElement, type NetworkSolution, prepare } from '../../engineering/electrical/network/network.ts'
import type { Build, Device } from '../../model/build.ts'
import { Refusal } from '../../units/problem.ts'
import { endpointOf } from '../make.ts'
import { controllerPins } from '../pins.ts'
import type { Solved } from '../solveCases.ts'
import { ignitionSwitches } from './ignition.ts'
import { flywheels } from './resolve.ts'

/** V on its key-sense pin from which a controller takes the key for on. Common practice, no published source. */
export const SENSE_ON = 5
/** V below which a controller whose least voltage is not entered is taken for off. Common practice, no published source. */
const SUPPLY_ON = 6

export interface AfterKey {
  readonly solution: NetworkSolution
  readonly elements: readonly NetworkElement[]
  readonly alive: readonly string[]
}

/** Pins by which a controller tells that the key is on, apart from its supply. */
export const sensePins = (device: Device): string[] =>
  Object.entries(device.pins)
    .filter(([, { name }]) => /(ignition|key) (sense|signal|input)|terminal 15|wake/i.test(name ?? ''))
    .map(([pin]) => pin)

/** Least supply volts of a controller: of the load that draws from its supply pin. */
export const leastSupply = (device: Device, supply: string): number => {
  const law = device.loads?.find(({ from }) => from === supply)?.law
  return law && 'minimumVoltage' in law ? law.minimumVoltage.value : SUPPLY_ON
}

export const controllerAwake = (device: Device, volts: (endpoint: string) => number | null | undefined): boolean => {
  const { supply, earths } = controllerPins(device)
  if (supply === undefined) return false
  const earth = earths[0] === undefined ? 0 : (volts(endpointOf(device.id, earths[0])) ?? 0)
  const above = (pin: string) => (volts(endpointOf(device.id, pin)) ?? 0) - earth
  const senses = sensePins(device)
  return (
    above(supply) >= leastSupply(device, supply) &&
    (senses.length === 0 || senses.some((pin) => above(pin) >= SENSE_ON))
  )
}

export const turnKeyOff = (build: Build, solved: Solved): AfterKey | undefined => {
  const { bound } = solved
  const switched = new Set(ignitionSwitches(build).map(({ id }) => id))
  const controllers = Object.values(build.collections.devices).filter(
    ({ spec, restricted }) => spec.kind === 'controller' && !restricted,
  )
  try {
    const closed = closedContacts(solved)
    // A contact becomes what it is at the moment, so that its own current can hold its coil.
    const elements = [...bound.network.elements, ...flywheels(build, solved)].flatMap((element): NetworkElement[] => {
      const key = element.id.indexOf('#')
      if (key > 0 && switched.has(element.id.slice(0, key)) && /#\d+$/.test(element.id)) return []
      if (element.type !== 'relayContact') return [element]
      return [
        {
          id: element.id,
          type: 'switch',
          a: element.a,
          b: element.b,
          ohm: element.ohm,
          closed: closed.has(element.id),
        },
      ]
    })
    const contacts = bound.network.elements.filter((element) => element.type === 'relayContact')
    const network = prepare({ ...bound.network, elements })
    const dead = new Set<string>()
    for (let round = 0; round < 20; round += 1) {
      const set = Object.fromEntries(contacts.map(({ id }) => [id, { closed: closed.has(id) }]))
      const remove = Object.values(build.collections.outputs)
        .filter(({ device }) => dead.has(device))
        .map(({ id }) => `output:${id}`)
        .filter((id) => elements.some((element) => element.id === id))
      const solution = network.solve({ set, remove, start: solved.nodes })
      if (!solution.converged) return undefined
      let changed = false
      for (const contact of contacts) {
        if (contact.type !== 'relayContact') continue
        const coil = elements.find(({ id }) => id === contact.operatedBy)
        const [a, b] = [coil && solution.voltages.get(coil.a), coil && solution.voltages.get(coil.b)]
        const across = a == null || b == null ? 0 : Math.abs(a - b)
        const energised = closed.has(contact.id) === (contact.normally === 'open')
        const stays = across >= (energised ? contact.dropOut : contact.pullIn)
        if (stays === energised) continue
        changed = true
        if (stays === (contact.normally === 'open')) closed.add(contact.id)
        else closed.delete(contact.id)
      }
      for (const controller of controllers) {
        if (dead.has(controller.id)) continue
        if (controllerAwake(controller, (endpoint) => solution.voltages.get(bound.nodeOf(endpoint)))) continue
        dead.add(controller.id)
        changed = true
      }
      if (!changed) return { solution, elements, alive: controllers.map(({ id }) => id).filter((id) => !dead.has(id)) }
    }
    return undefined
  } catch (error) {
    if (error instanceof Refusal) return undefined
    throw error
  }
}

/** Relay contacts that are closed in a solved case: by their coil, and between drop-out and pull-in by themselves. */
const closedContacts = ({ bound, nodes, elements }: Solved): Set<string> => {
  const byId = new Map(bound.network.elements.map((element) => [element.id, element]))
  const across = (element: NetworkElement | undefined): number =>
    element === undefined ? 0 : Math.abs((nodes.get(element.a) ?? 0) - (nodes.get(element.b) ?? 0))
  const closed = new Set<string>()
  for (const contact of bound.network.elements) {
    if (contact.type !== 'relayContact') continue
    const coil = across(byId.get(contact.operatedBy))
    const energised =
      coil >= contact.pullIn ||
      (coil >= contact.dropOut &&
        // Conducting is energised for a make contact, and not for a break contact.
        across(contact) <= Math.abs(elements.get(contact.id) ?? 0) * contact.ohm * 1.01 + 1e-9 ===
          (contact.normally === 'open'))
    if (energised === (contact.normally === 'open')) closed.add(contact.id)
  }
  return closed
}

/** The way the greatest current takes to a node from what feeds the car: element ids, source first. */
export const pathTo = (
  elements: readonly NetworkElement[],
  solution: Pick<NetworkSolution, 'currents'>,
  node: string,
): string[] => {
  const path: string[] = []
  const seen = new Set([node])
  for (let here: string | undefined = node; here !== undefined; ) {
    let best: { element: NetworkElement; current: number; next: string } | undefined
    for (const element of elements) {
      if (element.a !== here && element.b !== here) continue
      const current = solution.currents.get(element.id)
      if (current == null) continue
      const into = element.b === here ? current : -current
      const next = element.a === here ? element.b : element.a
      if (into > 1e-4 && into > (best?.current ?? 0)) best = { element, current: into, next }
    }
    if (!best) break
    path.push(best.element.id)
    if (best.element.type === 'battery' || best.element.type === 'alternator' || seen.has(best.next)) break
    seen.add(best.next)
    here = best.next
  }
  return path.reverse()
}
