import { analyseSymmetric, type SymmetricPattern } from '../../numerics/sparseLdl.ts'
import type { Network, NetworkElement } from './elements.ts'
import { LAW, PARAMETERS, packLaw } from './laws.ts'

/**
 * A network on typed arrays, with the factorisation's pattern. The pattern holds every element, open or closed, so it
 * serves all operating cases and faults of the network.
 */
export interface Compiled {
  readonly network: Network
  /** Names of the nodes but the reference; the reference has number `count`. */
  readonly nodes: readonly string[]
  readonly count: number
  readonly size: number
  readonly a: Int32Array
  readonly b: Int32Array
  readonly law: Uint8Array
  readonly parameters: Float64Array
  readonly pattern: SymmetricPattern
  /** Where each element's −slope is added; the place past the end swallows what the reference does not need. */
  readonly offDiagonal: Int32Array
  readonly diagonal: Int32Array
  readonly indexOf: ReadonlyMap<string, number>
  /** Relay contacts: element number and its coil's element number. */
  readonly contacts: readonly { readonly element: number; readonly coil: number }[]
  readonly powers: readonly number[]
}

export const setElement = (compiled: Compiled, index: number, element: NetworkElement, energised = false): void => {
  compiled.law[index] = packLaw(element, compiled.parameters, index * PARAMETERS, energised)
}

export const removeElement = (compiled: Compiled, index: number): void => {
  compiled.law[index] = LAW.absent
}

/** Compiles a network that has no problems. */
export const compile = (network: Network): Compiled => {
  const numbers = new Map<string, number>()
  for (const { a, b } of network.elements)
    for (const node of [a, b]) if (node !== network.reference && !numbers.has(node)) numbers.set(node, numbers.size)
  const count = numbers.size
  const size = network.elements.length
  const a = new Int32Array(size)
  const b = new Int32Array(size)
  const edges: number[] = []
  const edgeOf = new Int32Array(size).fill(-1)
  const indexOf = new Map<string, number>()
  network.elements.forEach((element, i) => {
    a[i] = numbers.get(element.a) ?? count
    b[i] = numbers.get(element.b) ?? count
    indexOf.set(element.id, i)
    if (a[i] === count || b[i] === count) return
    edgeOf[i] = edges.length >> 1
    edges.push(a[i]!, b[i]!)
  })
  const pattern = analyseSymmetric(count, edges)
  const offDiagonal = edgeOf.map((edge) => (edge < 0 ? pattern.size : pattern.edgePlace[edge]!))
  const diagonal = new Int32Array(count + 1)
  diagonal.set(pattern.place)
  diagonal[count] = pattern.size
  const compiled: Compiled = {
    network,
    nodes: [...numbers.keys()],
    count,
    size,
    a,
    b,
    law: new Uint8Array(size),
    parameters: new Float64Array(size * PARAMETERS),
    pattern,
    offDiagonal,
    diagonal,
    indexOf,
    contacts: network.elements.flatMap((element, i) =>
      element.type === 'relayContact' ? [{ element: i, coil: indexOf.get(element.operatedBy)! }] : [],
    ),
    powers: network.elements.flatMap((element, i) => (element.type === 'constantPower' ? [i] : [])),
  }
  network.elements.forEach((element, i) => {
    setElement(compiled, i, element)
  })
  return compiled
}

/** The same network with other values: nodes, ids and types must be those of `compiled`, in the same order. */
export const recompile = (compiled: Compiled, network: Network): Compiled => {
  const made: Compiled = {
    ...compiled,
    network,
    law: new Uint8Array(compiled.size),
    parameters: new Float64Array(compiled.size * PARAMETERS),
  }
  network.elements.forEach((element, i) => {
    setElement(made, i, element)
  })
  return made
}
