import type { Problem } from '../../../units/problem.ts'
import type { Compiled } from './compiled.ts'
import { conductingComponents } from './connectivity.ts'
import type { ContactElements, ContactOutcome } from './contacts.ts'
import { LAW, PARAMETERS } from './laws.ts'
import { evaluate, type Workspace } from './newton.ts'
import type { Settled } from './powerRaise.ts'

export interface NetworkSolution {
  /** Volts of each node against the reference; null: floating, or not solved. */
  readonly voltages: Map<string, number | null>
  /** Amperes from `a` to `b`; 0 through what is open, null where removed or not solved. */
  readonly currents: Map<string, number | null>
  /** Fed constant-power loads below their minimum voltage; the voltages given are the collapsed ones. */
  readonly collapse: { element: string; voltage: number; unloadedVoltage: number }[]
  /** Groups of nodes that no conducting path ties to the reference. */
  readonly islands: string[][]
  readonly relays: { element: string; state: 'open' | 'closed' }[]
  /** Relay contacts that never come to rest; the state given is the one with them at rest. */
  readonly oscillating: string[]
  /** Relay contacts given at rest that would stay pulled in once pulled in; looked for without overrides only. */
  readonly latching: string[]
  readonly notes: Problem[]
  readonly converged: boolean
}

/** A constant-power load counts as fed when, its power all but nil, it has more than a millivolt across it. */
const FED = 1e-3

/** Puts a solved state into names. */
export const report = (
  c: Compiled,
  w: Workspace,
  state: Settled,
  contacts: ContactElements,
  outcome: ContactOutcome,
  latchingContacts: readonly number[],
): NetworkSolution => {
  const { voltages: v } = state
  const elements = c.network.elements
  evaluate(c, w, v, 1)
  // Figures near the ends of what a number can hold overflow within a law: that is no solution.
  const converged = state.converged && v.every(Number.isFinite) && w.current.every(Number.isFinite)
  const roots = conductingComponents(c, v)
  const voltages = new Map<string, number | null>([[c.network.reference, converged ? 0 : null]])
  const floating = new Map<number, string[]>()
  for (let i = 0; i < c.count; i++) {
    const tied = roots[i] === c.count
    voltages.set(c.nodes[i]!, converged && tied ? v[i]! : null)
    if (tied) continue
    const island = floating.get(roots[i]!)
    if (island) island.push(c.nodes[i]!)
    else floating.set(roots[i]!, [c.nodes[i]!])
  }
  const currents = new Map<string, number | null>()
  for (let e = 0; e < c.size; e++) {
    const element = elements[e]!
    const open = element.type === 'switch' || element.type === 'relayContact'
    const known = converged && (c.law[e] !== LAW.absent || open)
    // A diode that alone joins two islands carries nothing, whatever its stand-in leak says.
    const joins = roots[c.a[e]!] === roots[c.b[e]!]
    currents.set(element.id, known ? (joins ? w.current[e]! : 0) : null)
  }
  const collapse: NetworkSolution['collapse'] = []
  c.powers.forEach((e, k) => {
    if (!converged || c.law[e] === LAW.absent) return
    const voltage = v[c.a[e]!]! - v[c.b[e]!]!
    const unloadedVoltage = state.unloaded[k]!
    if (
      c.parameters[e * PARAMETERS]! > 0 &&
      unloadedVoltage > FED &&
      voltage < c.parameters[e * PARAMETERS + 1]! * (1 - 1e-9)
    )
      collapse.push({ element: elements[e]!.id, voltage, unloadedVoltage })
  })
  const islands = [...floating.values()]
  const oscillating = [...outcome.restless].map((k) => elements[c.contacts[k]!.element]!.id)
  const latching = latchingContacts.map((k) => elements[c.contacts[k]!.element]!.id)
  const relays = contacts.flatMap((element, k) =>
    element
      ? [
          {
            element: element.id,
            state: outcome.energised[k] === (element.normally === 'open') ? ('closed' as const) : ('open' as const),
          },
        ]
      : [],
  )
  const notes = notesOn(c, w, { collapse, islands, oscillating, latching, converged })
  return { voltages, currents, collapse, islands, relays, oscillating, latching, notes, converged }
}

const notesOn = (
  c: Compiled,
  w: Workspace,
  {
    collapse,
    islands,
    oscillating,
    latching,
    converged,
  }: Pick<NetworkSolution, 'collapse' | 'islands' | 'oscillating' | 'latching' | 'converged'>,
): Problem[] => {
  const notes: Problem[] = []
  if (!converged) {
    let worst = 0
    for (let i = 1; i < c.count; i++) if (Math.abs(w.residual[i]!) > Math.abs(w.residual[worst]!)) worst = i
    notes.push({
      code: 'not-converged',
      path: `nodes/${c.nodes[worst]}`,
      says: `The network could not be solved: the currents at node ${c.nodes[worst]} do not balance.`,
      todo: 'Look for resistances there that differ by more than eleven powers of ten, or figures in the wrong unit.',
    })
  }
  for (const { element, voltage, unloadedVoltage } of collapse)
    notes.push({
      code: 'collapse',
      path: `elements/${element}`,
      says: `${element} cannot draw its power here: ${unloadedVoltage.toFixed(2)} V without load falls to ${voltage.toFixed(2)} V, below its minimum.`,
      todo: 'Lower the resistance of its supply and return, or its power; the voltages given are the collapsed ones.',
    })
  for (const island of islands)
    notes.push({
      code: 'floating',
      path: `nodes/${island[0]}`,
      says: `${island.join(', ')} ${island.length > 1 ? 'are' : 'is'} tied to the reference by no conducting path.`,
      todo: 'Nothing, if this is meant to be switched off; otherwise look for the missing connection.',
    })
  for (const id of oscillating)
    notes.push({
      code: 'oscillating',
      path: `elements/${id}`,
      says: `Relay contact ${id} never comes to rest: each time it changes over, its coil asks for the other state.`,
      todo: 'Feed its coil from a point that its own contact does not change; the state given has it at rest.',
    })
  for (const id of latching)
    notes.push({
      code: 'latching',
      path: `elements/${id}`,
      says: `Relay contact ${id} would stay pulled in once pulled in: which of its two states it is in depends on what went before.`,
      todo: 'The state given has it at rest. If it is meant to hold itself, solve it with the contact as a closed switch too.',
    })
  return notes
}
