/** Solves every operating case, and walks a solution back from a load to its source and on to its return. */
import type { Build, OperatingCase } from '../model/build.ts'
import { Refusal } from '../units/problem.ts'
import { believed, believedCase } from './door/believed.ts'
import { endpointOf } from './make.ts'
import { type Bound, type Bundle, bindCase, type Missing, warm } from './network.ts'

export interface CaseSolution {
  readonly case: string
  /** V at each wired or loaded endpoint against body; null: floating or not solved. */
  readonly voltages: Readonly<Record<string, number | null>>
  /** A through each wire from its `from` to its `to`; null: not solved. */
  readonly currents: Readonly<Record<string, number | null>>
  /** K of each conductor in the hottest place on its way; in cases that last seconds, that of the air. Absent: not known. */
  readonly temperatures: Readonly<Record<string, number>>
  /** V: the most by which any voltage may be off because a battery's charging current is reckoned and not entered. */
  readonly plusMinus?: number
  readonly solved: boolean
  /** Why a figure of this case may be off or absent. */
  readonly missing: readonly Missing[]
  readonly assumed: readonly string[]
  readonly oscillating: readonly string[]
  readonly notes: readonly string[]
}
export interface Solved extends CaseSolution {
  readonly kase: OperatingCase
  readonly bound: Bound
  readonly nodes: ReadonlyMap<string, number | null>
  readonly elements: ReadonlyMap<string, number | null>
  /** Elements by the node they touch. */
  readonly at: ReadonlyMap<string, readonly number[]>
  /** What the wires of each run do to one another; empty in cases that last seconds. */
  readonly bundles: ReadonlyMap<string, Bundle>
  /** K by which the wires' temperatures still move, where they come to no rest. */
  readonly restless?: number
}

/** As an assessment does: figures that cannot be count as not entered. */
export const solveCase = (build: Build, kase: OperatingCase): Solved =>
  solveBelieved(believed(build).build, believedCase(kase))

/** Of a build that has passed its door. */
export const solveBelieved = (build: Build, kase: OperatingCase): Solved => {
  let bound = bindCase(build, kase)
  const empty = { nodes: new Map<string, number | null>(), elements: new Map<string, number | null>() }
  let { nodes, elements } = empty
  let temperatures: Readonly<Record<string, number>> = {}
  let bundles: ReadonlyMap<string, Bundle> = new Map()
  let more: { readonly restless?: number; readonly plusMinus?: number } = {}
  let solved = false
  let oscillating: readonly string[] = []
  const notes: string[] = []
  // Without a source there is nothing to solve, and every voltage is unknown rather than 0.
  if (bound.network.elements.some(({ type }) => type === 'battery' || type === 'alternator'))
    try {
      const warmed = warm(build, kase, bound)
      const { solution } = warmed
      ;({ temperatures, bundles } = warmed)
      const { restless, plusMinus } = warmed
      more = { ...(restless === undefined ? {} : { restless }), ...(plusMinus === undefined ? {} : { plusMinus }) }
      notes.push(...warmed.notes)
      bound = { ...bound, network: warmed.network, unsure: new Set([...bound.unsure, ...warmed.unsure]) }
      nodes = solution.voltages
      elements = solution.currents
      solved = solution.converged
      oscillating = solution.oscillating
      notes.push(...solution.notes.filter(({ code }) => code !== 'floating').map(({ says }) => says))
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      notes.push(...error.problems.map(({ says }) => says))
    }
  const at = new Map<string, number[]>()
  bound.network.elements.forEach(({ a, b }, index) => {
    for (const node of [a, b]) {
      const here = at.get(node)
      if (here) here.push(index)
      else at.set(node, [index])
    }
  })
  const voltages: Record<string, number | null> = {}
  for (const device of Object.values(build.collections.devices))
    for (const pin of Object.keys(device.pins)) {
      const endpoint = endpointOf(device.id, pin)
      const value = nodes.get(bound.nodeOf(endpoint))
      if (value !== undefined) voltages[endpoint] = value
    }
  const currents: Record<string, number | null> = {}
  for (const id of Object.keys(build.collections.wires)) currents[id] = elements.get(`wire:${id}`) ?? null
  return {
    case: kase.id,
    kase,
    bound,
    nodes,
    elements,
    at,
    voltages,
    currents,
    temperatures,
    bundles,
    ...more,
    solved,
    missing: bound.missing,
    assumed: bound.assumed,
    oscillating,
    notes,
  }
}

/** Volts below which a thing counts as not fed. */
export const FED_VOLTS = 0.5

/**
 * What is fed in this case and would draw or switch current, were its figures entered. Others then get no more than the
 * solved voltage, perhaps less: too little stays too little, and enough is not known to be enough.
 */
export const hiddenDraws = ({ missing, nodes }: Pick<Solved, 'missing' | 'nodes'>): Missing[] =>
  missing.filter(({ across }) => {
    if (across === undefined) return false
    const [a, b] = [nodes.get(across[0]), nodes.get(across[1])]
    return a != null && b != null && Math.abs(a - b) > FED_VOLTS
  })

export interface Step {
  readonly element: string
  readonly drop: number
  readonly current: number
}
const TRICKLE = 1e-4

/** Elements that bring current to a load (`up`) or take it away, as far as the battery or alternator. */
export const chain = (solved: Solved, node: string, direction: 'up' | 'down'): Step[] => {
  const steps: Step[] = []
  const seen = new Set<string>([node])
  const queue = [node]
  const taken = new Set<number>()
  for (let here = queue.pop(); here !== undefined; here = queue.pop())
    for (const index of solved.at.get(here) ?? []) {
      const element = solved.bound.network.elements[index]!
      if (
        taken.has(index) ||
        (element.type !== 'resistor' && element.type !== 'relayContact' && element.type !== 'diode')
      )
        continue
      if (isLoad(element.id)) continue
      const current = solved.elements.get(element.id)
      if (current === null || current === undefined) continue
      // Positive: runs from a to b. Upstream of `here` is what flows into it.
      const into = element.b === here ? current : -current
      if ((direction === 'up' ? into : -into) < TRICKLE) continue
      taken.add(index)
      const other = element.a === here ? element.b : element.a
      const [va, vb] = [solved.nodes.get(element.a), solved.nodes.get(element.b)]
      steps.push({ element: element.id, current: Math.abs(current), drop: Math.abs((va ?? 0) - (vb ?? 0)) })
      if (!seen.has(other)) {
        seen.add(other)
        queue.push(other)
      }
    }
  return steps
  function isLoad(id: string): boolean {
    return /#(coil|solenoid|rotor)$/.test(id) || solved.bound.loads.has(id)
  }
}
