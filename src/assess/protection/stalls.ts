/** Each motor held fast, in the lasting case in which it draws most: what every fuse and wire then carries. */
import { type NetworkElement, type NetworkSolution, prepare } from '../../engineering/electrical/network/network.ts'
import { Refusal } from '../../units/problem.ts'
import type { Context } from '../context.ts'
import { restrictedDevice } from '../make.ts'
import type { Solved } from '../solveCases.ts'
import { lastingCases } from './facts.ts'

export interface HeldMotor {
  readonly device: string
  readonly name: string
  /** A by element of the network: `wire:W-1`, a fuse's id. */
  readonly currents: ReadonlyMap<string, number>
  /** A that the motor itself takes. */
  readonly own: number
}

const BARELY = 0.05
/** V. A motor that never turns fast enough to leave its stall in any car: its law is then that of its winding. */
const OUT_OF_REACH = 1000

const known = new WeakMap<Context['circuit'], readonly HeldMotor[]>()

export const heldMotors = (context: Context): readonly HeldMotor[] => {
  const before = known.get(context.circuit)
  if (before) return before
  const held: HeldMotor[] = []
  const lasting = lastingCases(context)
  const prepared = new Map<Solved, ReturnType<typeof prepare>>()
  for (const device of Object.values(context.build.collections.devices)) {
    if (restrictedDevice(context.build, device.id)) continue
    for (const load of device.loads ?? []) {
      if (load.law?.type !== 'motor') continue
      let worst: Solved | undefined
      let most = BARELY
      for (const solved of lasting) {
        const current = Math.abs(solved.elements.get(solved.bound.loadElement(device.id, load.id)) ?? 0)
        if (current > most) [worst, most] = [solved, current]
      }
      if (!worst) continue
      const id = worst.bound.loadElement(device.id, load.id)
      const element = worst.bound.network.elements.find((each) => each.id === id)
      if (element?.type !== 'motor') continue
      let solution: NetworkSolution
      try {
        const network = prepared.get(worst) ?? prepare(worst.bound.network)
        prepared.set(worst, network)
        solution = network.solve({
          set: {
            [id]: {
              // Held whatever its duty: a modulated motor that is stuck is fed at its duty's share of the winding's current.
              ratedVoltage: OUT_OF_REACH,
              runningCurrent: (OUT_OF_REACH / element.stallResistance) * (1 - 1e-6),
              loading: 'constant',
            },
          },
        })
      } catch (error) {
        if (!(error instanceof Refusal)) throw error
        continue
      }
      const own = Math.abs(solution.currents.get(id) ?? 0)
      if (!solution.converged || own <= most) continue
      const base = worst.elements
      const strands = strandsOf(worst.bound.network.elements)
      held.push({
        device: device.id,
        name: device.name,
        own,
        // Only what the held motor adds tells its path; the rest goes on as it was.
        currents: new Map(
          [...solution.currents].flatMap(([key, value]) => {
            if (value === null) return []
            // A strand is judged as if it were alone: with all that it and those beside it carry.
            const group = strands.get(key)
            const now = group ? together(group, solution.currents) : Math.abs(value)
            const rise = now - (group ? together(group, base) : Math.abs(base.get(key) ?? 0))
            return rise > 0.5 * (own - most) ? [[key, now] as const] : []
          }),
        ),
      })
    }
  }
  known.set(context.circuit, held)
  return held
}

interface Strand {
  readonly id: string
  /** 1 or −1: all of a group told in one direction. */
  readonly along: number
}
/** Wires that lie side by side between the same two points, by each of them; none for a wire that lies alone. */
const strandsOf = (elements: readonly NetworkElement[]): Map<string, readonly Strand[]> => {
  const between = new Map<string, Strand[]>()
  for (const { id, a, b } of elements) {
    if (!id.startsWith('wire:')) continue
    const key = a < b ? `${a} ${b}` : `${b} ${a}`
    const strand = { id, along: a < b ? 1 : -1 }
    const here = between.get(key)
    if (here) here.push(strand)
    else between.set(key, [strand])
  }
  return new Map(
    [...between.values()]
      .filter((group) => group.length > 1)
      .flatMap((group) => group.map(({ id }) => [id, group] as const)),
  )
}
const together = (group: readonly Strand[], currents: ReadonlyMap<string, number | null>): number =>
  Math.abs(group.reduce((sum, { id, along }) => sum + along * (currents.get(id) ?? 0), 0))
