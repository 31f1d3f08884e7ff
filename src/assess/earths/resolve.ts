/**
 * A solved case solved again with something opened. Prepared once a case, and only when a rule asks. Screens that are
 * earthed at both ends are conductors here: they are what carries a strap's current when the strap has gone.
 */
import {
  type NetworkElement,
  type NetworkSolution,
  type Overrides,
  type PreparedNetwork,
  prepare,
} from '../../engineering/electrical/network/network.ts'
import type { Build } from '../../model/build.ts'
import { Refusal } from '../../units/problem.ts'
import { endpointOf, own } from '../make.ts'
import { controllerPins } from '../pins.ts'
import type { Solved } from '../solveCases.ts'
import { wireLength } from '../wireData.ts'

const prepared = new WeakMap<Solved, PreparedNetwork>()

/** Ω/m of a braided screen round one or two small wires; common practice, no published source. */
const SCREEN = 20e-3

export const screenElement = (wire: string): string => `screen:${wire}`

/** Undefined where the case has no solution of its own, or none without these elements. */
export const withOpen = (build: Build, solved: Solved, remove: readonly string[]): NetworkSolution | undefined =>
  solveAgain(build, solved, { remove })

/** The same for any change to the elements. */
export const solveAgain = (build: Build, solved: Solved, change: Overrides): NetworkSolution | undefined => {
  if (!solved.solved) return undefined
  try {
    let network = prepared.get(solved)
    if (!network) {
      network = prepare({
        ...solved.bound.network,
        elements: [...solved.bound.network.elements, ...screensOf(build, solved), ...flywheels(build, solved)],
      })
      prepared.set(solved, network)
    }
    const solution = network.solve({ start: solved.nodes, ...change })
    return solution.converged ? solution : undefined
  } catch (error) {
    if (error instanceof Refusal) return undefined
    throw error
  }
}

const screensOf = (build: Build, { bound }: Solved) =>
  Object.values(build.collections.wires).flatMap((wire) => {
    const [a, b] = (wire.screenEarths ?? []).map((endpoint) => bound.nodeOf(endpoint))
    if (a === undefined || b === undefined || a === b) return []
    const ohm = SCREEN * (wireLength(build, wire) ?? 1)
    return [{ id: screenElement(wire.id), type: 'resistor' as const, a, b, ohm }]
  })

/** A silicon diode inside a controller, from memory. */
const FLYWHEEL = { forwardVoltage: 0.7, onResistance: 0.1 }

/** Diodes inside controllers by which an output's pin feeds the controller's supply. */
export const flywheels = (build: Build, { bound }: Solved): NetworkElement[] =>
  Object.values(build.collections.outputs).flatMap((output): NetworkElement[] => {
    const controller = own(build.collections.devices, output.device)
    const supply = controller && controllerPins(controller).supply
    if (!output.feedsBack || supply === undefined) return []
    const [a, b] = [output.pin, supply].map((pin) => bound.nodeOf(endpointOf(output.device, pin))) as [string, string]
    return a === b ? [] : [{ id: `output-diode:${output.id}`, type: 'diode', a, b, ...FLYWHEEL }]
  })
