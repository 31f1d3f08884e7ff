/** The clauses that a fuse and a conductor decide by themselves: hold, 135 %, and the curve between the gates. */
import { run } from '../../calculation.ts'
import { conductorCurrent } from '../conductorCurrent.ts'
import { GATES, holdMultiple, OPENS_FROM } from '../fuseGates.ts'
import { amperes, type Clause, degrees, type JudgedFuse, type JudgedWire, percentOf, seconds } from './clauses.ts'
import { whenOpened } from './overTime.ts'

/** The heat balance differs from safety tables by up to a fifth in current: what fails by less is doubtful. */
export const MODEL_SHARE = 0.8
/** Points looked at between two gates besides the gates: the curve is a straight line of logarithms, its worst lies anywhere. */
const BETWEEN = 2

const capacities = new Map<string, number | undefined>()

/** A that the conductor carries for good at `limit` K; undefined where the air is as hot as that. */
export const carriedAt = (wire: JudgedWire, limit: number): number | undefined => {
  if (limit <= wire.ambient) return undefined
  const { metal, resistance, conductorDiameter, outerDiameter, ambient } = wire
  const key = `${metal} ${resistance} ${conductorDiameter} ${outerDiameter} ${limit} ${ambient}`
  if (capacities.has(key)) return capacities.get(key)
  const { current } = run(conductorCurrent, {
    temperature: limit,
    metal,
    resistance,
    conductorDiameter,
    outerDiameter,
    ambient,
  }).outputs
  if (capacities.size > 5000) capacities.clear()
  capacities.set(key, current)
  return current
}

export const holdClause = ({ type, rating }: JudgedFuse, wire: JudgedWire): Clause => {
  const multiple = holdMultiple(type)
  const current = rating * multiple
  const alone = carriedAt(wire, wire.limit)
  const { share = 1, published } = wire
  const allowed = alone === undefined ? undefined : Math.min(alone * share, published ?? Number.POSITIVE_INFINITY)
  const beside = share < 1 && alone !== undefined ? `, ${amperes(alone * share)} among the wires beside it` : ''
  const table = published === undefined ? '' : `; its table allows ${amperes(published)}`
  return {
    id: 'hold',
    // The lower of heat balance and table decides, as it does in the rule on conductor temperature: one current over one
    // wire has one verdict. The bundle's share alone leaves doubt: the others need not carry what they do all the while
    // that this one is overloaded.
    verdict:
      alone === undefined || current > Math.min(alone, published ?? Number.POSITIVE_INFINITY)
        ? 'failed'
        : current > (allowed ?? 0)
          ? 'doubtful'
          : 'passed',
    current,
    ...(allowed === undefined ? {} : { allowed }),
    multiple,
    limit: wire.limit,
    says: `${percentOf(multiple)} for good: ${amperes(current)}; the conductor carries ${alone === undefined ? 'nothing' : amperes(alone)} at ${degrees(wire.limit)} in ${degrees(wire.ambient)}${beside}${table}.`,
  }
}

const heatClause = (
  id: 'gate' | 'curve',
  { type, rating }: JudgedFuse,
  wire: JudgedWire,
  multiples: readonly number[],
): Clause => {
  let worst = { multiple: 0, time: 0 as number | undefined, temperature: Number.NEGATIVE_INFINITY }
  for (const multiple of multiples) {
    const found = whenOpened(wire, type, rating, multiple * rating)
    if (found.temperature > worst.temperature) worst = found
  }
  const passed = worst.temperature <= wire.shortTermLimit
  const doubtful =
    !passed &&
    multiples.every(
      (multiple) =>
        whenOpened(wire, type, rating, multiple * rating, multiple * rating * MODEL_SHARE).temperature <=
        wire.shortTermLimit,
    )
  return {
    id,
    verdict: passed ? 'passed' : doubtful ? 'doubtful' : 'failed',
    current: worst.multiple * rating,
    multiple: worst.multiple,
    ...(worst.time === undefined ? {} : { time: worst.time }),
    temperature: worst.temperature,
    limit: wire.shortTermLimit,
    says: `${id === 'gate' ? '135 % until the slowest gate' : 'Between and beyond the gates, worst'}: ${percentOf(worst.multiple)}, ${amperes(worst.multiple * rating)} for ${seconds(worst.time ?? 0)} from ${degrees(wire.start)} leads to ${degrees(worst.temperature)}, allowed ${degrees(wire.shortTermLimit)}.`,
  }
}

export const gateClause = (fuse: JudgedFuse, wire: JudgedWire): Clause => heatClause('gate', fuse, wire, [OPENS_FROM])

const pointsOf = (fuse: JudgedFuse): number[] => {
  const gates = GATES[fuse.type].flatMap(({ multiple, longest }) => (longest === undefined ? [] : [multiple]))
  return gates.flatMap((multiple, index) => {
    const before = gates[index - 1]
    return before === undefined
      ? []
      : [
          ...Array.from({ length: BETWEEN }, (_, i) => before * (multiple / before) ** ((i + 1) / (BETWEEN + 1))),
          multiple,
        ]
  })
}
// Beyond the last gate the fuse lets through one Joule integral, and so the last gate speaks for all above it.
export const curveClause = (fuse: JudgedFuse, wire: JudgedWire): Clause =>
  heatClause('curve', fuse, wire, pointsOf(fuse))
