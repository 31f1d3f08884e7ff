import { type Belief, type Branch, normal, readingVariance, suspects } from './belief.ts'
import { pointId } from './hypothesis.ts'

/** How an expected gain is summed: width of the bins (V), standard deviations to either side, least share of a branch. */
const FINE = { bin: 0.01, reach: 4, least: 1e-6 }
/** The same, for a look one step further. */
const COARSE = { bin: 0.02, reach: 3, least: 1e-3 }
/** Probability in a bin below which it adds nothing. */
const NOTHING = 1e-12
const LOWEST = -17
const HIGHEST = 34
/** A gain below this (bits) is not worth walking to the car for. */
const WORTHLESS = 0.01
/** Or below this share of what is still unknown. */
const WORTHLESS_SHARE = 0.04
/**
 * Times the minutes of the most telling tests that a test saved later is worth: chosen on `npm run bench -- fault`, where
 * 1 took cheap readings that told little (5 tests, 22 min) and 4 walked further for no fewer (3.6 tests, 17 min); 2 had
 * 3.6 tests in 14 min.
 */
const LATER = 2
/** Tests compared one step further, the tests that may follow each, and the share of outcomes that is looked at. */
const LOOKED_AT = 4
const SECOND_TESTS = 7
const COVERED = 0.97

export interface NextTest {
  readonly testPoint: string
  /** Expected information about which part it is (bits), and what it costs (minutes). */
  readonly bits: number
  readonly minutes: number
  /** Other test points of the same access that are worth reading while it is open, the most telling first. */
  readonly together: readonly string[]
}

/**
 * Expected information (bits) of a reading at each test point about which part is at fault:
 * I(part; reading) = H(part) + Σ_part ∫ d ln d − ∫ D ln D, d the joint density of part and reading, D their sum.
 * Source: Lindley, Ann. Math. Statist. 27 (1956), 986; de Kleer and Williams, Artificial Intelligence 32 (1987), 97
 * (both from memory).
 */
export const expectedBits = (belief: Belief, only?: readonly number[], { bin, reach, least } = FINE): Float64Array => {
  const { problem, hypotheses, modelWrong } = belief
  const points = problem.testPoints.length
  const bits = new Float64Array(points)
  const byPart = new Map<string, Branch[]>()
  for (const branch of belief.branches) {
    if (branch.probability < least) continue
    const { part } = hypotheses[branch.hypothesis]!
    const there = byPart.get(part)
    if (there) there.push(branch)
    else byPart.set(part, [branch])
  }
  const parts = [...byPart.values()]
  let entropy = 0
  for (const list of parts) {
    const p = list.reduce((sum, { probability }) => sum + probability, 0)
    entropy -= p * Math.log(p)
  }
  if (modelWrong > 0) entropy -= modelWrong * Math.log(modelWrong)
  const bins = Math.round((HIGHEST - LOWEST) / bin)
  const all = new Float64Array(bins)
  const own = new Float64Array(bins)
  for (let t = 0; t < points; t++) {
    if (only && !only.includes(t)) continue
    let information = entropy
    let lowest = bins
    let highest = 0
    for (const list of parts) {
      let from = bins
      let to = 0
      for (const branch of list) {
        const mean = branch.mean[t]!
        const variance = branch.variance[t]! + readingVariance(problem.meter, mean)
        const halves: [number, number, number][] = [[branch.probability, mean, variance]]
        if (branch.healthy) {
          const sound = branch.healthy.mean[t]!
          const spread = branch.healthy.variance[t]! + readingVariance(problem.meter, sound)
          halves[0]![0] /= 2
          halves.push([branch.probability / 2, sound, spread])
        }
        for (const [weight, centre, spread] of halves) {
          const sigma = Math.sqrt(spread)
          const low = Math.max(0, Math.floor((centre - reach * sigma - LOWEST) / bin))
          const high = Math.min(bins - 1, Math.ceil((centre + reach * sigma - LOWEST) / bin))
          const scale = (weight * bin) / Math.sqrt(2 * Math.PI * spread)
          // Along even steps a normal density is a product of two geometric rows.
          const x = LOWEST + (low + 0.5) * bin - centre
          let density = scale * Math.exp((-0.5 * x * x) / spread)
          let step = Math.exp((-bin * (x + bin / 2)) / spread)
          const bend = Math.exp((-bin * bin) / spread)
          for (let n = low; n <= high; n++) {
            own[n]! += density
            density *= step
            step *= bend
          }
          if (low < from) from = low
          if (high > to) to = high
        }
      }
      for (let n = from; n <= to; n++) {
        const d = own[n]!
        own[n] = 0
        if (d < NOTHING) continue
        information += d * Math.log(d)
        all[n]! += d
      }
      if (from < lowest) lowest = from
      if (to > highest) highest = to
    }
    const background = modelWrong * (bin / 17)
    if (background > 0) information += modelWrong * Math.log(background)
    for (let n = lowest; n <= highest; n++) {
      const d = all[n]!
      if (d > 0) {
        const sum = d + background
        information -= sum * Math.log(sum) - background * Math.log(background || 1)
        all[n] = 0
      }
    }
    if (background > 0) information -= modelWrong * Math.log(background)
    bits[t] = Math.max(0, information / Math.LN2)
  }
  return bits
}

/**
 * The test to do next: of those with most expected information per minute (an access counted once and shared by the tests
 * behind it) and those with most information at all, the one with the fewest minutes now and expected later, looked one
 * step further. Null when no test tells enough to be worth the walk.
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
  // The same meter on the same pin errs the same way: a second reading there tells nothing.
  const bits = expectedBits(belief).map((gain, t) => (read.has(pointId(testPoints[t]!)) ? 0 : gain))
  const rates = testPoints.map((point, t) => {
    const own = point.minutes ?? 1
    const toOpen = point.access && !opened.has(point.access) ? (point.accessMinutes ?? 0) : 0
    // Behind an access that has to be opened first the tests are taken together: each next one counts half as much.
    let gain = bits[t]!
    let minutes = own + toOpen
    if (toOpen > 0) {
      const beside = testPoints
        .flatMap((other, u) =>
          u !== t && other.access === point.access ? [{ gain: bits[u]!, minutes: other.minutes ?? 1 }] : [],
        )
        .sort((p, q) => q.gain - p.gain)
        .slice(0, 3)
      beside.forEach((other, n) => {
        const more = other.gain / 2 ** (n + 1)
        if ((gain + more) / (minutes + other.minutes) <= gain / minutes) return
        gain += more
        minutes += other.minutes
      })
    }
    return { t, rate: gain / minutes, minutes: own + toOpen }
  })
  const parts = suspects(belief).map(({ probability }) => probability)
  const least = Math.max(WORTHLESS, WORTHLESS_SHARE * entropyOf(parts))
  const useful = rates.filter(({ t }) => bits[t]! >= least).sort((p, q) => q.rate - p.rate)
  let best = useful[0]
  if (!best) return null
  if (useful.length > 1) {
    const telling = [...useful].sort((p, q) => bits[q.t]! - bits[p.t]!)
    const looked = [...new Set([...useful.slice(0, LOOKED_AT), ...telling.slice(0, LOOKED_AT)])]
    const second = [...new Set([...useful.slice(0, SECOND_TESTS), ...telling.slice(0, SECOND_TESTS)])].map(({ t }) => t)
    // What a later test will take, as one of those that tell most takes now.
    const later =
      (LATER * telling.slice(0, SECOND_TESTS).reduce((sum, entry) => sum + entry.minutes, 0)) /
      Math.min(SECOND_TESTS, telling.length)
    const expected = looked.map((entry) => entry.minutes + later * remaining(belief, entry.t, second))
    best = looked[expected.indexOf(Math.min(...expected))]!
  }
  const { t, minutes } = best
  const { access } = testPoints[t]!
  const together = testPoints
    .flatMap((other, u) => (access && u !== t && other.access === access && bits[u]! >= 0.05 ? [u] : []))
    .sort((p, q) => bits[q]! - bits[p]!)
    .map((u) => pointId(testPoints[u]!))
  return { testPoint: pointId(testPoints[t]!), bits: bits[t]!, minutes, together }
}

/** Outcomes of a test that the meter can tell apart: a voltage each, and how likely it is. */
const outcomesOf = (belief: Belief, t: number): { volts: number; probability: number }[] => {
  const sorted = belief.branches
    .filter(({ probability }) => probability > 1e-4)
    .map(({ mean, variance, probability }) => {
      const volts = mean[t]!
      return {
        volts,
        probability,
        sigma: Math.sqrt(variance[t]! + readingVariance(belief.problem.meter, volts)),
      }
    })
    .sort((p, q) => p.volts - q.volts)
  const outcomes: { volts: number; probability: number; from: number }[] = []
  for (const { volts, probability, sigma } of sorted) {
    const last = outcomes[outcomes.length - 1]
    if (last && volts - last.from < 2 * sigma) {
      last.volts = (last.volts * last.probability + volts * probability) / (last.probability + probability)
      last.probability += probability
    } else outcomes.push({ volts, probability, from: volts })
  }
  return outcomes.sort((p, q) => q.probability - p.probability)
}

const entropyOf = (probabilities: Iterable<number>): number => {
  let bits = 0
  for (const p of probabilities) if (p > 0) bits -= p * Math.log2(p)
  return bits
}

/** Tests expected to remain after reading point t: none where one part is sure enough, else one and what it leaves over. */
const remaining = (belief: Belief, t: number, second: readonly number[]): number => {
  const { problem, hypotheses } = belief
  const others = second.filter((other) => other !== t)
  let expected = 0
  let covered = 0
  for (const { volts, probability } of outcomesOf(belief, t)) {
    if (covered > COVERED) break
    covered += probability
    let sum = 0
    const after = belief.branches.map((branch) => {
      const mean = branch.mean[t]!
      const variance = branch.variance[t]! + readingVariance(problem.meter, mean)
      const p = branch.probability * (normal(volts, mean, variance) + 1e-4)
      sum += p
      return p
    })
    const parts = new Map<string, number>()
    belief.branches.forEach(({ hypothesis }, i) => {
      const { part } = hypotheses[hypothesis]!
      parts.set(part, (parts.get(part) ?? 0) + after[i]! / sum)
    })
    if (Math.max(...parts.values()) > problem.sure) continue
    const branches = belief.branches.flatMap((branch, i) =>
      after[i]! > 1e-4 * sum ? [{ ...branch, probability: after[i]! / sum }] : [],
    )
    const most = Math.max(0, ...expectedBits({ ...belief, modelWrong: 0, branches }, others, COARSE))
    expected += probability * (1 + Math.max(0, entropyOf(parts.values()) - most))
  }
  return expected / covered
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
