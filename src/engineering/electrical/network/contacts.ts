import { type Compiled, setElement } from './compiled.ts'
import type { NetworkElement, RelayContactElement } from './elements.ts'

/** The relay contacts' elements as they stand in this solve, overrides included; `undefined` once removed. */
export type ContactElements = readonly (RelayContactElement | undefined)[]

export interface ContactOutcome {
  /** Energised or not, in the order of `compiled.contacts`. */
  readonly energised: readonly boolean[]
  /** Contacts (by that order) that never come to rest; held at rest (de-energised) in the state given. */
  readonly restless: ReadonlySet<number>
}

export const contactElements = (
  compiled: Compiled,
  elementAt: (index: number) => NetworkElement | undefined,
): ContactElements =>
  compiled.contacts.map(({ element }) => {
    const found = elementAt(element)
    return found?.type === 'relayContact' ? found : undefined
  })

/**
 * Lets the contacts follow their coils until nothing changes. All start at rest; each round all contacts whose coil
 * asks for it change over together. If a state comes back, the contacts that changed since are restless (a relay that
 * breaks its own supply, or two that race each other): they are held at rest and reported, and the others go on.
 * `solve` solves the network with the contacts as they stand (false: not solved); `coilVoltage` then gives the voltage
 * across a coil.
 */
export const followCoils = (
  compiled: Compiled,
  elements: ContactElements,
  solve: (energised: readonly boolean[]) => boolean,
  coilVoltage: (coil: number) => number,
): ContactOutcome => {
  const energised = elements.map(() => false)
  const restless = new Set<number>()
  const apply = (): void => {
    elements.forEach((element, k) => {
      if (element) setElement(compiled, compiled.contacts[k]!.element, element, energised[k]!)
    })
  }
  let history: boolean[][] = [[...energised]]
  apply()
  while (solve(energised)) {
    let changed = false
    const next = elements.map((element, k) => {
      if (!element || restless.has(k)) return false
      const volts = Math.abs(coilVoltage(compiled.contacts[k]!.coil))
      const state = energised[k]! ? volts >= element.dropOut : volts >= element.pullIn
      if (state !== energised[k]) changed = true
      return state
    })
    if (!changed) break
    const seen = history.findIndex((state) => state.every((value, k) => value === next[k]))
    if (seen >= 0) {
      const cycle = history.slice(seen)
      elements.forEach((_, k) => {
        if (cycle.some((state) => state[k] !== cycle[0]![k])) restless.add(k)
      })
      for (const k of restless) next[k] = false
      history = []
    }
    next.forEach((state, k) => {
      energised[k] = state
    })
    history.push([...energised])
    apply()
  }
  return { energised, restless }
}

/**
 * Contacts at rest that would stay pulled in once something had pulled them in: a relay that feeds its own coil through
 * its own contact, or a coil that has less than its pull-in but more than its drop-out. What such a relay does depends on
 * what happened before, which a steady solution cannot know.
 * `voltageWith` solves with the given contacts pulled in, the rest as they stand, and gives the voltage across a coil.
 */
export const latchingContacts = (
  compiled: Compiled,
  elements: ContactElements,
  { energised, restless }: ContactOutcome,
  voltageWith: (energised: readonly boolean[], coil: number) => number,
): number[] => {
  const latching: number[] = []
  const tried = new Map<number, number>()
  elements.forEach((element, k) => {
    if (!element || energised[k] || restless.has(k)) return
    const { coil } = compiled.contacts[k]!
    let volts = tried.get(coil)
    if (volts === undefined) {
      const pulled = energised.map((state, i) => state || (compiled.contacts[i]!.coil === coil && !restless.has(i)))
      elements.forEach((other, i) => {
        if (other) setElement(compiled, compiled.contacts[i]!.element, other, pulled[i]!)
      })
      volts = Math.abs(voltageWith(pulled, coil))
      elements.forEach((other, i) => {
        if (other) setElement(compiled, compiled.contacts[i]!.element, other, energised[i]!)
      })
      tried.set(coil, volts)
    }
    if (volts >= element.dropOut) latching.push(k)
  })
  return latching
}
