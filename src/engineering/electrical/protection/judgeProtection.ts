/**
 * Judges one fuse over one conductor in its place: every clause of the law of protection for which the figures are given,
 * in the order of `CLAUSES`. Parallel strands are judged one by one, each as if alone, by calling this for each.
 *   hold      110 % of rating without end within the insulation class (bolt-down 100 %)     ISO 8820-3, -5
 *   gate      135 % until the slowest gate within the class's short-term limit
 *   curve     every multiple between gates at its slowest (log–log); transient up to 350 %, no heat lost above
 *   stall     each motor held fast
 *   clearing  a bolted short at the far end from the weakest source
 *   breaking  the highest short-circuit current below the breaking capacity
 *   service   continuous load against 75 % of the rating re-read at the fuse's ambient
 *   inrush    cold lamps and starting motors against the quickest good fuse
 * Pure. SI: A, K, s. A clause whose figures are not given is absent, save `service`, which says what it lacks.
 * Limits: arcing, and shorts through a resistance that draw less than 135 %, are protected by no fuse and judged nowhere.
 */
import type { Clause, JudgedFuse, JudgedWire, Pulse, Short, Stall } from './clauses.ts'
import { clearingClause, stallClause } from './eventClauses.ts'
import { breakingClause, inrushClause, serviceClause } from './fuseClauses.ts'
import { curveClause, gateClause, holdClause } from './wireClauses.ts'

export type { Clause, ClauseId, JudgedFuse, JudgedWire, Pulse, Short, Stall } from './clauses.ts'

export interface Protection {
  readonly fuse: JudgedFuse
  readonly wire?: JudgedWire
  readonly stalls?: readonly Stall[]
  /** Bolted short at the far end, from the weakest source. */
  readonly farShort?: Short
  /** A at the fuse's load side, from the strongest source. */
  readonly highestShort?: number
  /** A in the fuse in the worst case that lasts. */
  readonly load?: number
  readonly pulses?: readonly Pulse[]
}

/** Clause by clause, so that who asks only whether all hold need not have the rest worked out. */
function* clausesOf({
  fuse,
  wire,
  stalls = [],
  farShort,
  highestShort,
  load,
  pulses = [],
}: Protection): Generator<Clause> {
  if (wire !== undefined) {
    yield holdClause(fuse, wire)
    yield gateClause(fuse, wire)
    yield curveClause(fuse, wire)
    for (const stall of stalls) yield stallClause(fuse, wire, stall)
    if (farShort !== undefined) yield clearingClause(fuse, wire, farShort)
  }
  if (highestShort !== undefined) yield breakingClause(fuse, highestShort)
  if (load !== undefined) yield serviceClause(fuse, load)
  for (const pulse of pulses) yield inrushClause(fuse, pulse)
}

export const judgeProtection = (question: Protection): Clause[] => [...clausesOf(question)]

/** The first clause that does not hold, looked for no further; undefined where all hold. */
export const firstBroken = (question: Protection): Clause | undefined => {
  for (const clause of clausesOf(question)) if (clause.verdict !== 'passed') return clause
  return undefined
}
