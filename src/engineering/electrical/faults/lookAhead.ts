import { after, type Outcome, outcomesAt, type Suspicion } from './outcomes.ts'

/**
 * Minutes that a reading is worth on top of its own. The constants here were chosen on 600 cars of `npm run bench --
 * fault`: on the demo 60 took 3.23 readings in 18 minutes, 25 took 0.15 more in 2 minutes less, 150 took 0.03 less in 4
 * minutes more.
 */
export const READING = 60
/** Readings still to come for each bit of doubt above the first. */
const PER_BIT = 0.8
/** Readings that convicting an innocent part costs: it is taken off in vain, and the search goes on. */
const WRONG = 3
/** Outcomes and branches less likely than this are not followed. */
const UNLIKELY = 1e-4
const FOREGONE = 0.01

/** What reading a test costs (minutes): the reading itself, and the access in front of it, once. */
export interface Cost {
  readonly minutes: number
  readonly access?: string
  readonly accessMinutes: number
}

/**
 * Expected cost (minutes, each reading counted READING more) of a search that reads test `first`, then the best of
 * `second`, and from there as many readings as the doubt that is left asks for. The expectation over the outcomes of both
 * readings is exact; a search ends where one part is surer than `sure`, and may then have to come back for being wrong.
 */
export const lookAhead = (
  suspicion: Suspicion,
  costs: readonly Cost[],
  opened: ReadonlySet<string>,
  second: readonly number[],
): ((first: number) => number) => {
  const { sure } = suspicion.belief.problem
  const costOf = (t: number, open: string | undefined): number => {
    const { minutes, access, accessMinutes } = costs[t]!
    return READING + minutes + (access === undefined || access === open || opened.has(access) ? 0 : accessMinutes)
  }
  // A reading of which nothing is known yet costs what one of those at hand does, behind what is open by then.
  const usual = READING + second.reduce((sum, t) => sum + costs[t]!.minutes, 0) / Math.max(1, second.length)
  const byPart = new Float64Array(suspicion.parts)
  /** What is left over after an outcome, by part in `byPart`; returns the sum and the most likely part's share of it. */
  const weigh = ({ weight, part, parts }: Suspicion, { chance }: Outcome): readonly [number, number] => {
    byPart.fill(0, 0, parts)
    let sum = 0
    for (let i = 0; i < weight.length; i++) {
      const p = weight[i]! * chance[i]!
      byPart[part[i]!]! += p
      sum += p
    }
    let most = 0
    for (let k = 0; k < parts; k++) if (byPart[k]! > most) most = byPart[k]!
    return [sum, most]
  }
  const ends = (sum: number, most: number): boolean => most > sure * sum
  const guess = (sum: number, most: number, parts: number): number => {
    if (ends(sum, most)) return usual * WRONG * (sum - most)
    let nats = 0
    for (let k = 0; k < parts; k++) {
      const p = byPart[k]!
      if (p > 0) nats -= p * Math.log(p / sum)
    }
    return usual * (sum + PER_BIT * Math.max(0, nats / Math.LN2 - sum))
  }
  const best = (left: Suspicion, read: number, open: string | undefined, otherwise: number): number => {
    const all = left.weight.reduce((sum, p) => sum + p, 0)
    let least = Number.POSITIVE_INFINITY
    for (const t of second) {
      let cost = all * costOf(t, open)
      if (t === read || cost >= least) continue
      let foregone = true
      for (const outcome of outcomesAt(left, t)) {
        if (cost >= least) break
        const [sum, most] = weigh(left, outcome)
        if (sum > UNLIKELY * all) cost += guess(sum, most, left.parts)
        if (sum > FOREGONE * all && sum < (1 - FOREGONE) * all) foregone = false
      }
      // Whose outcome is known beforehand is not worth its cost, however little else there is.
      if (!foregone && cost < least) least = cost
    }
    return least === Number.POSITIVE_INFINITY ? otherwise : least
  }
  const all = suspicion.weight.reduce((sum, p) => sum + p, 0)
  return (first) => {
    const { access } = costs[first]!
    let cost = all * costOf(first, undefined)
    for (const outcome of outcomesAt(suspicion, first)) {
      const [sum, most] = weigh(suspicion, outcome)
      if (sum <= UNLIKELY * all) continue
      const now = guess(sum, most, suspicion.parts)
      cost += ends(sum, most) ? now : best(after(suspicion, first, outcome, UNLIKELY), first, access, now)
    }
    return cost / all
  }
}
