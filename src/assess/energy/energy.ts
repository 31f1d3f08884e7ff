/** What the alternator can give and what the car takes, case by case. For screens as well as rules. */
import type { Context } from '../context.ts'
import { joinedPosts } from '../door/joinedPosts.ts'
import { joined, machineOf } from '../earths/machineReturn.ts'
import { deviceIdOf, endpointOf, own } from '../make.ts'
import { hiddenDraws, type Solved } from '../solveCases.ts'

export interface EnergyRow {
  readonly case: string
  readonly caseName: string
  /** A that the alternators give hot at this speed; 0 with none turning; null: not entered. */
  readonly available: number | null
  /** ± of `available`, A. */
  readonly availablePlusMinus: number
  /** A that the car takes, each load averaged over its duty; charging the battery not included. */
  readonly load: number
  /** A by circuit name, largest first; a load in series with another counts in both. */
  readonly byCircuit: readonly { readonly circuit: string; readonly current: number }[]
  /** available − load; null: not known. */
  readonly balance: number | null
  /** A out of the batteries (negative: into them). */
  readonly battery: number
  /** Data that a load lacks, so that it draws nothing here. */
  readonly missing: readonly string[]
}

const isCoil = (id: string): boolean => /#(coil|solenoid|rotor)$/.test(id)

const alternators = (
  { build, circuit }: Context,
  { kase }: Solved,
): { available: number | null; plusMinus: number } => {
  let [sum, square]: [number | null, number] = [0, 0]
  if (kase.alternator === 'off') return { available: 0, plusMinus: 0 }
  for (const device of Object.values(build.collections.devices)) {
    const { spec } = device
    if (spec.kind !== 'alternator') continue
    // One that no cable joins to the battery, there and back, gives the car nothing.
    if (!joined(machineOf({ build, circuit }, device))) {
      sum = null
      continue
    }
    const output = kase.alternator === 'idle' ? spec.hotOutputIdle : spec.hotOutputCruise
    if (!output) sum = null
    else if (sum !== null) sum += output.value
    square += (output?.plusMinus ?? 0) ** 2
  }
  return { available: sum, plusMinus: Math.sqrt(square) }
}

/** Name of the circuit a device’s current is counted to: its own, else that of the wire at the pin that feeds it. */
const circuitName = ({ build, circuit }: Context, device: string, node: string): string => {
  const { circuits, devices, wires } = build.collections
  const ids = [
    own(devices, device)?.circuit,
    ...(circuit.wiresAt.get(node) ?? []).map((id) => own(wires, id)?.circuit),
    ...Object.keys(own(devices, device)?.pins ?? {}).flatMap((pin) =>
      (circuit.wiresAt.get(endpointOf(device, pin)) ?? []).map((id) => own(wires, id)?.circuit),
    ),
  ]
  const id = ids.find((each) => each !== undefined)
  return (id === undefined ? undefined : own(circuits, id)?.name) ?? own(devices, device)?.name ?? device
}

/** No rows at all where a battery's posts are joined: the short takes what every other figure is measured by. */
export const energyOf = (context: Context): EnergyRow[] => {
  if (joinedPosts(context).length > 0) return []
  return context.cases.flatMap((solved): EnergyRow[] => {
    const { kase, bound, elements } = solved
    if (!solved.solved || kase.battery !== 'connected' || kase.supply || kase.engine === 'cranking') return []
    const by = new Map<string, number>()
    let [load, battery] = [0, 0]
    for (const element of bound.network.elements) {
      const current = elements.get(element.id)
      if (current == null) continue
      if (element.type === 'battery') battery -= current
      // What the sources give is what the car takes; loads in series would be counted twice.
      if (element.type === 'battery' || element.type === 'alternator') load -= current
      if (!bound.loads.has(element.id) && !isCoil(element.id)) continue
      const drawn = Math.abs(current)
      if (drawn < 1e-9) continue
      const name = circuitName(context, deviceIdOf(element.id.replace('#', '.')), element.a)
      by.set(name, (by.get(name) ?? 0) + drawn)
    }
    const { available, plusMinus } = alternators(context, solved)
    return [
      {
        case: solved.case,
        caseName: kase.name,
        available,
        availablePlusMinus: plusMinus,
        load,
        byCircuit: [...by]
          .map(([circuit, current]) => ({ circuit, current }))
          .sort((a, b) => b.current - a.current || (a.circuit < b.circuit ? -1 : 1)),
        balance: available === null ? null : available - load,
        battery,
        missing: hiddenDraws(solved).map(({ subject, datum }) => `${datum} of ${nameOf(context, subject)}`),
      },
    ]
  })
}

const nameOf = ({ build }: Context, subject: string): string => {
  const id = subject.slice(subject.indexOf('/') + 1)
  return own(build.collections.devices, id)?.name ?? id
}
