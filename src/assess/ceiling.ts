/**
 * What is fed and not described draws something between nothing and what its fuse lets through: above 135 % of rating a
 * blade fuse opens (ISO 8820-3 [from memory]). With all of it drawn, every voltage is at its lowest; a verdict that still
 * stands then does not wait for the datum. A relay or starter that is not described may switch anything: no bound.
 */
import type { NetworkElement } from '../engineering/electrical/network/network.ts'
import { Refusal } from '../units/problem.ts'
import type { Context } from './context.ts'
import { own } from './make.ts'
import { type Missing, warm } from './network.ts'
import { protectedBy } from './protection.ts'
import { hiddenDraws, type Solved } from './solveCases.ts'

const OPENS = 1.35
/** V. Low, so that the current is drawn in full as long as there is any voltage to speak of. */
const LEAST = 1

export interface Ceiling {
  readonly nodes: ReadonlyMap<string, number | null>
  readonly elements: ReadonlyMap<string, number | null>
}

/** The case with every hidden draw at its most; undefined where one of them has no bound, or the car collapses under it. */
export const ceilingOf = (context: Context, solved: Solved): Ceiling | undefined => {
  const hidden = hiddenDraws(solved)
  const fuses = fusesAbove(context)
  const extra: NetworkElement[] = []
  for (const [index, missing] of hidden.entries()) {
    const most = headroom(context, solved, fuses, missing)
    if (most === undefined || !missing.across) return undefined
    const [a, b] = missing.across
    const upright = (solved.nodes.get(a) ?? 0) >= (solved.nodes.get(b) ?? 0)
    if (most > 0)
      extra.push({
        id: `#hidden-${index}`,
        type: 'constantCurrent',
        a: upright ? a : b,
        b: upright ? b : a,
        current: most,
        minimumVoltage: LEAST,
      })
  }
  const { network } = solved.bound
  try {
    const { solution, unsure, restless } = warm(context.build, solved.kase, {
      ...solved.bound,
      network: { ...network, elements: [...network.elements, ...extra] },
    })
    if (!solution.converged || solution.oscillating.length > 0 || unsure.length > 0 || restless !== undefined)
      return undefined
    return { nodes: solution.voltages, elements: solution.currents }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return undefined
  }
}

/** Fuse above each endpoint of a wire that it protects. */
const fusesAbove = (context: Context): Map<string, string> => {
  const above = new Map<string, string>()
  for (const [fuse, wires] of protectedBy(context))
    for (const id of wires) {
      const wire = own(context.build.collections.wires, id)
      if (!wire) continue
      above.set(wire.from, fuse)
      above.set(wire.to, fuse)
    }
  return above
}

const headroom = (
  { build }: Context,
  { elements }: Solved,
  fuses: ReadonlyMap<string, string>,
  { across, switches }: Missing,
): number | undefined => {
  const id = across && !switches ? (fuses.get(across[0]) ?? fuses.get(across[1])) : undefined
  const spec = id === undefined ? undefined : own(build.collections.devices, id)?.spec
  const rating = spec?.kind === 'fuse' ? spec.rating?.value : undefined
  return rating === undefined ? undefined : Math.max(0, OPENS * rating - Math.abs(elements.get(id!) ?? 0))
}
