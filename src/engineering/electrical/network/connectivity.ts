import type { Compiled } from './compiled.ts'
import { LAW, PARAMETERS } from './laws.ts'

/** The root of every node (the reference included, as the last) under the elements for which `conducts` holds. */
const components = (compiled: Compiled, conducts: (element: number) => boolean): Int32Array => {
  const { a, b, count, size } = compiled
  const root = new Int32Array(count + 1)
  for (let i = 0; i <= count; i++) root[i] = i
  const find = (node: number): number => {
    let i = node
    while (root[i] !== i) {
      root[i] = root[root[i]!]!
      i = root[i]!
    }
    return i
  }
  for (let e = 0; e < size; e++) {
    if (!conducts(e)) continue
    const i = find(a[e]!)
    const j = find(b[e]!)
    // The higher number becomes the root, so that the reference roots its own component.
    if (i < j) root[i] = j
    else if (j < i) root[j] = i
  }
  for (let i = 0; i <= count; i++) root[i] = find(i)
  return root
}

/** Components of everything present; a blocking diode still joins its two nodes (by its leak). */
export const presentComponents = (compiled: Compiled): Int32Array =>
  components(compiled, (element) => compiled.law[element] !== LAW.absent)

/**
 * Components once solved: a diode without a stated leak joins nothing while it blocks. `voltages` counts the reference
 * as its last.
 */
export const conductingComponents = (compiled: Compiled, voltages: Float64Array): Int32Array =>
  components(compiled, (e) => {
    if (compiled.law[e] !== LAW.diode) return compiled.law[e] !== LAW.absent
    const at = e * PARAMETERS
    const forward = voltages[compiled.a[e]!]! - voltages[compiled.b[e]!]! > compiled.parameters[at]!
    return forward || compiled.parameters[at + 3] === 1
  })
