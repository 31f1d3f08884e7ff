/** What each fault does to the car as modelled: volts at chosen nodes, NaN where a node floats, fuses blown one by one. */
import { firstAlike, overridesOf } from '../../engineering/electrical/faults/effects.ts'
import type { Fuse, Hypothesis } from '../../engineering/electrical/faults/hypothesis.ts'
import type { PreparedNetwork } from '../../engineering/electrical/network/network.ts'

const MOST_BLOWN = 12

export const nominalVolts = (
  prepared: PreparedNetwork,
  hypotheses: readonly Pick<Hypothesis, 'effects'>[],
  nodes: readonly string[],
  fuses: readonly Fuse[],
  fuseBlowsAt: number,
): Float64Array[] => {
  const byId = new Map(prepared.network.elements.map((element) => [element.id, element]))
  const holding = fuses.flatMap(({ element: id, rating }) => {
    const element = byId.get(id)
    return element?.type === 'resistor' ? [{ id, rating, ohm: element.ohm, a: element.a, b: element.b }] : []
  })
  const alike = firstAlike(hypotheses)
  const observed = [...nodes, ...holding.flatMap(({ a, b }) => [a, b])]
  const overrides = hypotheses.map(({ effects }) => overridesOf(effects, byId))
  const blown: string[][] = hypotheses.map(() => [])
  const rows: Float64Array[] = []
  let open = hypotheses.map((_, h) => h).filter((h) => alike[h] === h)
  for (let round = 0; open.length > 0 && round <= MOST_BLOWN; round++) {
    const { volts } = prepared.signatures(
      open.map((h) => ({ ...overrides[h], remove: [...(overrides[h]!.remove ?? []), ...blown[h]!] })),
      observed,
    )
    open = open.filter((h, i) => {
      const row = volts[i]!
      rows[h] = row.slice(0, nodes.length)
      let worst = fuseBlowsAt
      let next: string | undefined
      holding.forEach(({ id, rating, ohm }, f) => {
        if (blown[h]!.includes(id) || overrides[h]!.remove?.includes(id)) return
        const drop = row[nodes.length + 2 * f]! - row[nodes.length + 2 * f + 1]!
        const set = overrides[h]!.set?.[id]?.ohm
        const over = Math.abs(drop) / (typeof set === 'number' ? set : ohm) / rating
        if (over > worst) {
          worst = over
          next = id
        }
      })
      if (next !== undefined) blown[h]!.push(next)
      return next !== undefined
    })
  }
  return alike.map((h) => rows[h]!)
}
