import { type Problem, Refusal, refuse } from '../../../units/problem.ts'
import { type Compiled, compile, recompile, removeElement, setElement } from './compiled.ts'
import { presentComponents } from './connectivity.ts'
import { contactElements, followCoils, latchingContacts } from './contacts.ts'
import type { Network, NetworkElement, RelayContactElement } from './elements.ts'
import { LAW } from './laws.ts'
import { workspace } from './newton.ts'
import { NOTHING, type Settled, settle, settleIdle } from './powerRaise.ts'
import { type NetworkSolution, report } from './report.ts'
import {
  type Base,
  hasSagged,
  IDLE_CLOSE,
  isStable,
  linearise,
  resolve,
  sameBranch,
  sameStretches,
  scratchFor,
} from './signatures.ts'
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
  /**
   * Node voltages for each fault (V; row by row, in the order of `observed`; NaN where a node floats or nothing could be
   * solved). By low-rank re-solution where that is sure, in full otherwise: the same figures as `solve`, many times
   * quicker when a network has many faults. `full` counts those solved in full.
   */
  signatures(faults: readonly Overrides[], observed: readonly string[]): Signatures
  /** The same network with other values, prepared without the analysis of its pattern: for many cars of one kind. */
  vary(change: (element: NetworkElement) => NetworkElement): PreparedNetwork
}

export interface Signatures {
  readonly volts: readonly Float64Array[]
  /** For each fault a 1 for every relay contact whose coil has pulled in, in the order of the network's elements. */
  readonly pulledIn: readonly string[]
  readonly full: number
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
  return makePrepared(compile(network))
}

const makePrepared = (compiled: Compiled, near?: Settled): PreparedNetwork => {
  const { network } = compiled
  const work = workspace(compiled)
  let home: Settled | undefined
  /** The states that the network as prepared went through while its contacts settled: the nearest starts there are. */
  const stages = new Map<string, Settled>()

  const initial = (start?: ReadonlyMap<string, number | null>): Settled => {
    const voltages = near ? near.voltages.slice() : new Float64Array(compiled.count + 1)
    if (start || !near)
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
    const settleWith = (energised: readonly boolean[], start: Settled): Settled => {
      const pattern = energised.map(Number).join('')
      const near = stages.get(pattern) ?? start
      const roots = presentComponents(compiled)
      for (let i = 0; i < compiled.count; i++) work.anchor[i] = roots[i] === i ? 1 : 0
      const settled = settle(compiled, work, near, near.converged)
      if (asPrepared && settled.converged) stages.set(pattern, settled)
      return settled
    }
    // A coil that is removed or switched off has no voltage of its own, whatever its terminals have.
    const coilVoltage = (coil: number, { voltages }: Settled): number =>
      compiled.law[coil] === LAW.absent ? 0 : voltages[compiled.a[coil]!]! - voltages[compiled.b[coil]!]!
    const outcome = followCoils(
      compiled,
      contacts,
      (energised) => {
        state = settleWith(energised, state)
        return state.converged
      },
      (coil) => coilVoltage(coil, state),
    )
    // Only of the network as prepared: what-ifs and faults are solved by the hundred and ask about voltages.
    const latching =
      asPrepared && state.converged
        ? latchingContacts(compiled, contacts, outcome, (energised, coil) => {
            const pulled = settleWith(energised, state)
            return pulled.converged ? coilVoltage(coil, pulled) : 0
          })
        : []
    return [state, report(compiled, work, state, contacts, outcome, latching)]
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

  const bases = new Map<string, Base | undefined>()
  const idleBases = new Map<Base, Base | undefined>()
  const idle = new Float64Array(compiled.count + 1)
  /** The same contacts with all constant powers next to nothing, for those faults whose branch is in doubt. */
  const idleBase = (base: Base): Base | undefined => {
    const settled = settleIdle(compiled, work, base.state)
    return settled && linearise(compiled, work, settled, NOTHING)
  }
  const scratch = scratchFor(compiled)
  const placeOf = new Map(compiled.nodes.map((node, i) => [node, i]))
  const solved = new Float64Array(compiled.count + 1)
  /** Linearises all stages of the healthy network, so that no fault is in place while that is done. */
  const makeBases = (): void => {
    if (!home) solve()
    for (const [pattern, stage] of stages) {
      if (bases.has(pattern)) continue
      setContacts(
        compiled,
        network.elements,
        [...pattern].map((state) => state === '1'),
      )
      const roots = presentComponents(compiled)
      for (let i = 0; i < compiled.count; i++) work.anchor[i] = roots[i] === i ? 1 : 0
      bases.set(pattern, linearise(compiled, work, stage))
    }
  }

  const contactState = (element: number, energised: readonly boolean[]): boolean => {
    const contact = compiled.contacts.findIndex((entry) => entry.element === element)
    return contact >= 0 && energised[contact]!
  }

  const put = (changed: ReadonlyMap<number, NetworkElement | undefined>, energised: readonly boolean[]): void => {
    for (const [i, element] of changed) {
      if (element) setElement(compiled, i, element, contactState(i, energised))
      else removeElement(compiled, i)
    }
  }

  /** Follows the coils from rest as `solve` does, by the low-rank way; leaves the voltages in `solved`. */
  const quick = (
    changed: ReadonlyMap<number, NetworkElement | undefined>,
  ): { base: Base; pattern: string } | undefined => {
    const numbers = [...changed.keys()]
    const contactOf = (k: number): RelayContactElement | undefined => {
      const index = compiled.contacts[k]!.element
      const element = changed.has(index) ? changed.get(index) : network.elements[index]
      return element?.type === 'relayContact' ? element : undefined
    }
    let energised = compiled.contacts.map(() => false)
    for (let rounds = 0; rounds <= compiled.contacts.length + 1; rounds++) {
      const base = bases.get(energised.map(Number).join(''))
      if (!base) return undefined
      if (compiled.contacts.length > 0) setContacts(compiled, network.elements, energised)
      put(changed, energised)
      if (!resolve(compiled, base, scratch, numbers, solved)) return undefined
      if (!sameBranch(compiled, base, solved, numbers)) {
        if (!isStable(compiled, work, base, scratch, numbers)) return undefined
        if (!idleBases.has(base)) {
          // The healthy elements back in their places while it is made.
          for (const e of numbers) setElement(compiled, e, network.elements[e]!, contactState(e, energised))
          idleBases.set(base, idleBase(base))
          put(changed, energised)
        }
        const unloaded = idleBases.get(base)
        if (!unloaded || !resolve(compiled, unloaded, scratch, numbers, idle, IDLE_CLOSE / 10)) return undefined
        if (!sameStretches(compiled, base, solved, idle)) return undefined
      } else if (hasSagged(compiled, base, solved) && !isStable(compiled, work, base, scratch, numbers))
        return undefined
      let sure = true
      const next = energised.map((state, k) => {
        const element = contactOf(k)
        if (!element) return false
        const { coil } = compiled.contacts[k]!
        const volts =
          compiled.law[coil] === LAW.absent ? 0 : Math.abs(solved[compiled.a[coil]!]! - solved[compiled.b[coil]!]!)
        const threshold = state ? element.dropOut : element.pullIn
        if (Math.abs(volts - threshold) < 1e-6 || (state && volts < threshold)) sure = false
        return volts >= threshold
      })
      if (!sure) return undefined
      if (next.every((state, k) => state === energised[k])) return { base, pattern: energised.map(Number).join('') }
      energised = next
    }
    return undefined
  }

  const signatures = (faults: readonly Overrides[], observed: readonly string[]): Signatures => {
    makeBases()
    const places = Int32Array.from(observed, (node) => {
      const place = node === network.reference ? compiled.count : placeOf.get(node)
      if (place === undefined)
        throw refuse('unknown-node', `There is no node ${node} to observe.`, 'Name a node of this network.')
      return place
    })
    let full = 0
    const pulledIn: string[] = []
    // One piece of memory for all rows: a piece for each takes longer to get than to fill.
    const rows = new Float64Array(faults.length * places.length)
    const volts = faults.map((fault, index) => {
      const changed = overriddenElements(network, compiled.indexOf, fault)
      const row = rows.subarray(index * places.length, (index + 1) * places.length)
      let found: ReturnType<typeof quick>
      try {
        found = quick(changed)
      } finally {
        for (const i of changed.keys()) setElement(compiled, i, network.elements[i]!)
      }
      if (found) {
        const { base, pattern } = found
        pulledIn.push(pattern)
        if (!base.loose) for (let k = 0; k < row.length; k++) row[k] = solved[places[k]!]!
        else
          for (let k = 0; k < row.length; k++)
            row[k] = base.conducting[places[k]!] === compiled.count ? solved[places[k]!]! : Number.NaN
        return row
      }
      full++
      const { voltages, relays } = solve(fault)
      const closed = new Map(relays.map(({ element, state }) => [element, state === 'closed']))
      pulledIn.push(
        compiled.contacts
          .map(({ element }) => {
            const contact = network.elements[element]
            const open = contact?.type === 'relayContact' && contact.normally === 'open'
            return closed.get(contact!.id) === open ? '1' : '0'
          })
          .join(''),
      )
      observed.forEach((node, k) => {
        row[k] = voltages.get(node) ?? Number.NaN
      })
      return row
    })
    return { volts, pulledIn, full }
  }
  const vary = (change: (element: NetworkElement) => NetworkElement): PreparedNetwork => {
    if (!home) solve()
    const elements = network.elements.map((element) => {
      const { id, type, a, b } = element
      return { ...change(element), id, type, a, b } as NetworkElement
    })
    const problems = elements.flatMap((element) => elementProblems(element))
    if (problems.length > 0) throw new Refusal(problems)
    return makePrepared(recompile(compiled, { ...network, elements }), home)
  }
  return { network, solve, signatures, vary }
}

const setContacts = (compiled: Compiled, elements: readonly NetworkElement[], energised: readonly boolean[]): void => {
  compiled.contacts.forEach(({ element }, k) => {
    setElement(compiled, element, elements[element]!, energised[k]!)
  })
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
