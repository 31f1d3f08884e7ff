import { Refusal } from '../../../units/problem.ts'
import { type BareElement, type ContactMode, toNetworkElement } from './bareElements.ts'
import type { BareNetwork } from './bareNetworkFile.ts'
import type { Network } from './elements.ts'
import { type NetworkSolution, solveNetwork } from './network.ts'

/** The solution object of `car-dc-network/1`, key for key. */
export interface BareSolution {
  readonly id: string
  readonly variant: string
  readonly voltages: Record<string, number | null>
  readonly currents: Record<string, number | null>
  readonly derived: Record<string, number | null>
  readonly collapse: boolean
  readonly notes: string[]
}

/** The file's elements as a variant leaves them; `base` is the file as it stands. Throws `Refusal` on no such variant. */
export const bareVariantElements = (file: BareNetwork, variantId = 'base'): BareElement[] => {
  if (variantId === 'base') return [...file.elements]
  const variant = file.variants.find(({ id }) => id === variantId)
  if (!variant)
    throw new Refusal([
      {
        code: 'unknown-variant',
        path: `variants/${variantId}`,
        says: `Network ${file.id} has no variant ${variantId}.`,
        todo: `Choose one of: ${['base', ...file.variants.map(({ id }) => id)].join(', ')}.`,
      },
    ])
  return file.elements
    .filter(({ id }) => !variant.remove.includes(id))
    .map((element) => ({ ...element, ...variant.set[element.id] }) as BareElement)
}

/** The solver's network for a variant. A removed coil leaves its contact at rest, open. */
export const bareToNetwork = (file: BareNetwork, variantId = 'base', mode: ContactMode = 'as given'): Network => {
  const bare = bareVariantElements(file, variantId)
  const present = new Set(bare.map(({ id }) => id))
  const elements = bare.map((element) => {
    const made = toNetworkElement(element, mode)
    if (made.type !== 'relayContact' || present.has(made.operatedBy)) return made
    return { type: 'switch', id: made.id, a: made.a, b: made.b, closed: false, ohm: made.ohm } as const
  })
  return { reference: file.reference, elements }
}

/** Solves a variant and puts the solution as the format says. */
export const solveBareNetwork = (file: BareNetwork, variantId = 'base', mode: ContactMode = 'as given'): BareSolution =>
  printSolution(file, variantId, solveNetwork(bareToNetwork(file, variantId, mode)))

const printSolution = (file: BareNetwork, variant: string, solution: NetworkSolution): BareSolution => {
  const volts = (node: string): number | null =>
    node === file.reference && solution.converged ? 0 : (solution.voltages.get(node) ?? null)
  return {
    id: file.id,
    variant,
    voltages: Object.fromEntries(file.nodes.map((node) => [node, volts(node)])),
    currents: Object.fromEntries(file.elements.map(({ id }) => [id, solution.currents.get(id) ?? null])),
    derived: Object.fromEntries(
      file.derived.map(({ id, plus, minus }) => {
        const high = volts(plus)
        const low = volts(minus)
        return [id, high === null || low === null ? null : high - low]
      }),
    ),
    collapse: solution.collapse.length > 0,
    notes: solution.notes.map(({ says, todo }) => `${says} ${todo}`),
  }
}
