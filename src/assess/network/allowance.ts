/**
 * What a wire may carry in a place: the lower of the heat balance, with what its bundle leaves it, and the rating that
 * is published for its size.
 */
import { RATED_SIZES, ratingOf } from '../../engineering/electrical/publishedRating.ts'
import type { ConductorFacts } from '../wireData.ts'
import { capacity } from './capacity.ts'

/** Lowest class that a published rating is for, K: 60 °C. */
const LEAST_RATED = 333.15

export interface Allowance {
  /** A; undefined: the air is as hot as the insulation stands. */
  readonly allowed: number | undefined
  /** A by the heat balance, in the bundle. */
  readonly balance: number | undefined
  /** A by the table, in the bundle; undefined where no table lists the size, or the air leaves nothing. */
  readonly published: number | undefined
}

/** `share` of the free-air current that the bundle leaves; `wires` counted in it, 1 or more; temperatures K. */
export const allowance = (facts: ConductorFacts, limit: number, ambient: number, share = 1, wires = 1): Allowance => {
  const free = capacity(facts, limit, ambient)
  if (free === undefined) return { allowed: undefined, balance: undefined, published: undefined }
  const balance = free * share
  const rated = facts.size !== undefined && RATED_SIZES.includes(facts.size) && limit >= LEAST_RATED
  const published = rated ? ratingOf(facts.size!, limit, ambient, wires) : undefined
  // A gauge table's hottest column may lie below air that the insulation itself still stands: nothing is published there.
  return { allowed: Math.min(balance, published ?? Number.POSITIVE_INFINITY), balance, published }
}
