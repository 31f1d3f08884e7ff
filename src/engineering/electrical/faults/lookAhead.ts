import { after, outcomesAt, partEntropy, type Suspicion, weigh } from './outcomes.ts'

/**
 * Minutes that a reading is worth on top of its own. Chosen on 800 cars of the demo, as `npm run bench -- fault` makes
 * them: 60 took 3.23 readings in 18 minutes, 150 as many in 22; on 600 of them 25 took 0.15 more than 60 in 2 minutes less.
 */
export const READING = 60
/** Branches less likely than this are left out after an outcome, and outcomes less likely than that are not followed. */
const UNLIKELY = 1e-3
const RARE = 0.01
const FOREGONE = 0.01

/** What reading a test costs (minutes): the reading itself, and the access in front of it, once. */
export interface Cost {
  readonly minutes: number
  readonly access?: string
  readonly accessMinutes: number
}

/**
 * Expected cost (minutes, each reading counted READING more) of a search that reads test `first`, then the best of
 * `second`, and from there one reading for each bit of doubt that is left. The first may end it, by leaving one part surer
 * than `sure`; that the second may end it too is not counted, for it made the search hope for lucky readings. Left off, and
 * Infinity, once it is more than `atMost`.
 */
export const lookAhead = (
  suspicion: Suspicion,
  costs: readonly Cost[],
  opened: ReadonlySet<string>,
  second: readonly number[],
): ((first: number, atMost: number) => number) => {
  const { sure } = suspicion.belief.problem
  const costOf = (t: number, open: string | undefined): number => {
    const { minutes, access, accessMinutes } = costs[t]!
    return READING + minutes + (access === undefined || access === open || opened.has(access) ? 0 : accessMinutes)
  }
  // A reading of which nothing is known yet costs what one of those at hand does, behind what is open by then.
  const usual = READING + second.reduce((sum, t) => sum + costs[t]!.minutes, 0) / Math.max(1, second.length)
  const best = (left: Suspicion, read: number, open: string | undefined): number => {
    const all = left.weight.reduce((sum, p) => sum + p, 0)
    let least = Number.POSITIVE_INFINITY
    for (const t of second) {
      let cost = all * costOf(t, open)
      if (t === read || cost >= least) continue
      const { volts, byPart } = outcomesAt(left, t)
      let foregone = true
      for (let k = 0; k < volts.length && cost < least; k++) {
        const [sum] = weigh(byPart, k, left.parts)
        if (sum > 0) cost += usual * sum * partEntropy(byPart, k * left.parts, left.parts, sum)
        if (sum > FOREGONE * all && sum < (1 - FOREGONE) * all) foregone = false
      }
      // Whose outcome is known beforehand is not worth its cost, however little else there is.
      if (!foregone && cost < least) least = cost
    }
    return least
  }
  const all = suspicion.weight.reduce((sum, p) => sum + p, 0)
  return (first, atMost) => {
    const { access } = costs[first]!
    const outcomes = outcomesAt(suspicion, first)
    const { volts, byPart } = outcomes
    const now = costOf(first, undefined)
    let [cost, followed, open] = [0, 0, 0]
    const going: { readonly k: number; readonly sum: number; readonly doubt: number }[] = []
    for (let k = 0; k < volts.length; k++) {
      const [sum, most] = weigh(byPart, k, suspicion.parts)
      if (sum < RARE * all) continue
      followed += sum
      const doubt = usual * sum * partEntropy(byPart, k * suspicion.parts, suspicion.parts, sum)
      // Surer than asked, the search ends; the doubt that is left is of convicting an innocent part.
      if (most > sure * sum) cost += doubt
      else {
        going.push({ k, sum, doubt })
        open += sum
      }
    }
    for (const { k, sum, doubt } of going) {
      // Whatever comes, each of the others takes one reading at least.
      if (now + (cost + READING * open) / followed > atMost) return Number.POSITIVE_INFINITY
      const further = best(after(suspicion, outcomes, k, UNLIKELY), first, access)
      // Nothing that can be read parts what is left: the doubt stays.
      cost += Number.isFinite(further) ? further : usual * sum + doubt
      open -= sum
    }
    return now + cost / followed
  }
}
