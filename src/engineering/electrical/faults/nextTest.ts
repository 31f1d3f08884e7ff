import { type Belief, suspects } from './belief.ts'
import { pointId } from './hypothesis.ts'
import { type Cost, lookAhead, READING } from './lookAhead.ts'
import { outcomesAt, partEntropy, type Suspicion, suspicionOf, weigh } from './outcomes.ts'

/** A gain below this (bits) is not worth walking to the car for. */
const WORTHLESS = 0.01
/** Or below this share of what is still unknown. */
const WORTHLESS_SHARE = 0.04
/** Gain (bits) from which another test behind the same access is worth reading while it is open. */
const TOGETHER = 0.05
/** Branches less likely than this are left out when tests are compared. */
const LEAST = 1e-3
/** Tests compared by looking one further, and those that may come after them: the ones that tell most for their cost. */
const FIRST = 8
const SECOND = 20

export interface NextTest {
  readonly testPoint: string
  /** Expected information about which part it is (bits), and what it costs (minutes). */
  readonly bits: number
  readonly minutes: number
  /** Other test points of the same access that are worth reading while it is open, the most telling first. */
  readonly together: readonly string[]
}

/**
 * Expected information (bits) of a reading at each test point about which part is at fault, its outcomes taken as bins
 * between groups of forecasts: I(part; outcome) = H(part) − Σ_outcome p · H(part | outcome), a little below that of the
 * exact volts. Source: Lindley, Ann. Math. Statist. 27 (1956), 986; de Kleer and Williams, Artificial Intelligence 32
 * (1987), 97 (both from memory).
 */
export const expectedBits = (belief: Belief, least = 1e-4): Float64Array => bitsOf(suspicionOf(belief, least))

const bitsOf = (suspicion: Suspicion): Float64Array => {
  const { belief, weight, part, parts } = suspicion
  const byPart = new Float64Array(parts)
  weight.forEach((p, i) => {
    byPart[part[i]!]! += p
  })
  const all = byPart.reduce((sum, p) => sum + p, 0)
  const unknown = partEntropy(byPart, 0, parts, all)
  return Float64Array.from(belief.problem.testPoints, (_, t) => {
    const outcomes = outcomesAt(suspicion, t)
    let left = 0
    for (let k = 0; k < outcomes.volts.length; k++) {
      const [sum] = weigh(outcomes.byPart, k, parts)
      if (sum > 0) left += (sum / all) * partEntropy(outcomes.byPart, k * parts, parts, sum)
    }
    return Math.max(0, unknown - left)
  })
}

/**
 * The test to do next: of those that tell most for their readings and minutes (an access counted once), the one after
 * which the search costs least of both, looked one test further. Null when no test tells enough to be worth the walk.
 */
export const nextTest = (belief: Belief): NextTest | null => {
  const { testPoints } = belief.problem
  const read = new Set<string>()
  const opened = new Set<string>()
  for (const entry of belief.evidence)
    if (entry.kind === 'reading') {
      read.add(entry.testPoint)
      const access = testPoints.find((point) => pointId(point) === entry.testPoint)?.access
      if (access) opened.add(access)
    }
  const suspicion = suspicionOf(belief, LEAST)
  // The same meter on the same pin errs the same way: a second reading there tells nothing.
  const bits = bitsOf(suspicion).map((gain, t) => (read.has(pointId(testPoints[t]!)) ? 0 : gain))
  const costs = testPoints.map(
    ({ minutes = 1, access, accessMinutes = 0 }): Cost => ({ minutes, ...(access ? { access } : {}), accessMinutes }),
  )
  const minutesOf = (t: number): number => {
    const { minutes, access, accessMinutes } = costs[t]!
    return minutes + (access !== undefined && !opened.has(access) ? accessMinutes : 0)
  }
  const parts = Float64Array.from(suspects(belief), ({ probability }) => probability)
  const least = Math.max(WORTHLESS, WORTHLESS_SHARE * partEntropy(parts, 0, parts.length, 1))
  const useful = testPoints.map((_, t) => t).filter((t) => bits[t]! >= least)
  if (useful.length === 0) return null
  const worth = (t: number): number => bits[t]! / (READING + minutesOf(t))
  const ranked = useful.sort((p, q) => worth(q) - worth(p))
  const first = ranked.slice(0, FIRST)
  const costAfter = lookAhead(suspicion, costs, opened, ranked.slice(0, SECOND))
  let best = first[0]!
  let cheapest = Number.POSITIVE_INFINITY
  for (const t of first.length > 1 ? first : []) {
    const cost = costAfter(t, cheapest)
    if (cost < cheapest) {
      cheapest = cost
      best = t
    }
  }
  const { access } = testPoints[best]!
  const together = testPoints
    .flatMap((other, u) => (access && u !== best && other.access === access && bits[u]! >= TOGETHER ? [u] : []))
    .sort((p, q) => bits[q]! - bits[p]!)
    .map((u) => pointId(testPoints[u]!))
  return { testPoint: pointId(testPoints[best]!), bits: bits[best]!, minutes: minutesOf(best), together }
}

export type Standing =
  | { readonly kind: 'found'; readonly part: string; readonly probability: number }
  | { readonly kind: 'searching'; readonly next: NextTest }
  | { readonly kind: 'cannot-tell'; readonly parts: readonly { part: string; probability: number }[] }
  | { readonly kind: 'misfit'; readonly share: number }

/**
 * Where the search stands. `cannot-tell`: these parts read alike at every point that can be reached. `misfit`: what it
 * knows does not explain all readings; measure the odd one again, take in pairs (`believeWithPairs`), or mend the model.
 */
export const standing = (belief: Belief): Standing => {
  if (belief.misfit > 0.5) return { kind: 'misfit', share: belief.misfit }
  const [top] = suspects(belief)
  if (top && top.probability > belief.problem.sure) return { kind: 'found', ...top }
  const next = nextTest(belief)
  if (next) return { kind: 'searching', next }
  return { kind: 'cannot-tell', parts: suspects(belief).filter(({ probability }) => probability > 0.03) }
}
