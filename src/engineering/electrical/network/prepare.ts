import { type Problem, Refusal } from '../../../units/problem.ts'
import { compile, removeElement, setElement } from './compiled.ts'
import { presentComponents } from './connectivity.ts'
import { contactElements, followCoils } from './contacts.ts'
import type { Network, NetworkElement } from './elements.ts'
import { LAW } from './laws.ts'
import { workspace } from './newton.ts'
import { type Settled, settle } from './powerRaise.ts'
import { type NetworkSolution, report } from './report.ts'
import { elementProblems, networkProblems } from './validate.ts'

/** How one solve differs from the network as prepared. */
export interface Overrides {
  /** New values for fields of elements, by id; an element's type and nodes stay what they are. */
  readonly set?: Readonly<Record<string, Readonly<Record<string, number | boolean | string | undefined>>>>
  readonly remove?: readonly string[]
  /** Node voltages to start the first solve from (V): a guess only, the answer does not hang on it; later ones have better. */
  readonly start?: ReadonlyMap<string, number | null>
}

export interface PreparedNetwork {
  readonly network: Network
  solve(overrides?: Overrides): NetworkSolution
}

const OPTIONAL: Partial<Record<NetworkElement['type'], string>> = { battery: 'acceptance', diode: 'reverseLeak' }
const FIXED = new Set(['id', 'type', 'a', 'b', 'operatedBy'])

/**
 * Checks and compiles a network once, to be solved many times: operating cases, single faults, what-ifs. Each solve
 * starts from the solution of the network as prepared, so its result does not depend on what was solved before.
 * A connection that only some cases have (a chafed wire's short) goes in as an open switch, to be closed by override.
 * Throws `Refusal` with every problem found.
 */
export const prepare = (network: Network): PreparedNetwork => {
  const problems = networkProblems(network)
  if (problems.length > 0) throw new Refusal(problems)
  const compiled = compile(network)
  const work = workspace(compiled)
  let home: Settled | undefined
  /** The states that the network as prepared went through while its contacts settled: the nearest starts there are. */
  const stages = new Map<string, Settled>()

  const initial = (start?: ReadonlyMap<string, number | null>): Settled => {
    const voltages = new Float64Array(compiled.count + 1)
    compiled.nodes.forEach((node, i) => {
      voltages[i] = start?.get(node) ?? 0
    })
    return {
      voltages,
      stretches: new Uint8Array(compiled.size),
      unloaded: new Float64Array(compiled.powers.length),
      converged: false,
    }
  }

  const run = (elementAt: (i: number) => NetworkElement | undefined, from: Settled): [Settled, NetworkSolution] => {
    const contacts = contactElements(compiled, elementAt)
    let state = from
    const asPrepared = home === undefined
    const outcome = followCoils(
      compiled,
      contacts,
      (energised) => {
        const pattern = energised.map(Number).join('')
        state = stages.get(pattern) ?? state
        const roots = presentComponents(compiled)
        for (let i = 0; i < compiled.count; i++) work.anchor[i] = roots[i] === i ? 1 : 0
        state = settle(compiled, work, state, state.converged)
        if (asPrepared && state.converged) stages.set(pattern, state)
        return state.converged
      },
      // A coil that is removed or switched off has no voltage of its own, whatever its terminals have.
      (coil) =>
        compiled.law[coil] === LAW.absent ? 0 : state.voltages[compiled.a[coil]!]! - state.voltages[compiled.b[coil]!]!,
    )
    return [state, report(compiled, work, state, contacts, outcome)]
  }

  const solve = (overrides: Overrides = {}): NetworkSolution => {
    const changed = overriddenElements(network, compiled.indexOf, overrides)
    const elementAt = (i: number): NetworkElement | undefined => (changed.has(i) ? changed.get(i) : network.elements[i])
    if (!home) {
      const [state, solution] = run((i) => network.elements[i], initial(overrides.start))
      home = state
      if (changed.size === 0) return solution
    }
    for (const [i, element] of changed) {
      if (element) setElement(compiled, i, element)
      else removeElement(compiled, i)
    }
    try {
      return run(elementAt, home)[1]
    } finally {
      for (const i of changed.keys()) setElement(compiled, i, network.elements[i]!)
    }
  }
  return { network, solve }
}

/** The elements that the overrides change, by number; `undefined` where one is removed. */
const overriddenElements = (
  network: Network,
  indexOf: ReadonlyMap<string, number>,
  { set = {}, remove = [] }: Overrides,
): Map<number, NetworkElement | undefined> => {
  const changed = new Map<number, NetworkElement | undefined>()
  const problems: Problem[] = []
  const unknown = (id: string): void => {
    problems.push({
      code: 'unknown-element',
      path: `elements/${id}`,
      says: `There is no element ${id} to change or remove.`,
      todo: 'Name an element of this network.',
    })
  }
  for (const [id, fields] of Object.entries(set)) {
    const index = indexOf.get(id)
    if (index === undefined) {
      unknown(id)
      continue
    }
    const element = network.elements[index]!
    for (const field of Object.keys(fields))
      if (FIXED.has(field) || !(field in element || OPTIONAL[element.type] === field))
        problems.push({
          code: 'unknown-field',
          path: `elements/${id}/${field}`,
          says: `${field} of ${element.type} ${id} cannot be changed.`,
          todo: `Change one of: ${Object.keys(element)
            .filter((name) => !FIXED.has(name))
            .join(', ')}.`,
        })
    const altered = { ...element, ...fields } as NetworkElement
    problems.push(...elementProblems(altered))
    changed.set(index, altered)
  }
  for (const id of remove) {
    const index = indexOf.get(id)
    if (index === undefined) unknown(id)
    else changed.set(index, undefined)
  }
  if (problems.length > 0) throw new Refusal(problems)
  return changed
}
