import { type Belief, believe, type Evidence, normal, readingVariance, type Search } from './belief.ts'
import { type Hypothesis, pointId } from './hypothesis.ts'
import type { Forecast, Forecaster } from './predict.ts'

/** Single hypotheses that are combined, and how much rarer two faults at once are than one. */
const MOST_SINGLES = 16
const SECOND_FAULT = 0.05
/** Pairs that are foretold in full: those that fit best as the car is modelled. */
const MOST_PAIRS = 16

/** Pairs that were asked for before: the next reading asks for most of them again. */
const foretold = new WeakMap<Forecaster, Map<string, readonly Forecast[]>>()

/** Priors of parts and what the readings say of them one by one: which singles are worth pairing. */
const worthPairing = (search: Search, evidence: readonly Evidence[]): Hypothesis[] => {
  // A single that explains some of the readings, if not all of them, is the best half of a pair: each reading is asked alone.
  const score = new Map<number, number>()
  for (const entry of evidence) {
    if (entry.kind !== 'reading') continue
    for (const { hypothesis, probability } of believe(search, [entry]).branches)
      score.set(hypothesis, (score.get(hypothesis) ?? 0) + probability)
  }
  return [...score]
    .sort((p, q) => q[1] - p[1])
    .slice(0, MOST_SINGLES)
    .map(([h]) => search.hypotheses[h]!)
}

/** Two faults as one, and which two. */
interface Pair {
  readonly both: Hypothesis
  readonly halves: readonly Hypothesis[]
}

/** Those of the pairs that explain the readings best, each by the modelled car and the spread of its two faults. */
const bestFitting = (search: Search, evidence: readonly Evidence[], pairs: readonly Pair[]): Hypothesis[] => {
  if (pairs.length <= MOST_PAIRS) return pairs.map(({ both }) => both)
  const { testPoints, meter } = search.problem
  const spread = new Map<Hypothesis, Float64Array>()
  for (const { hypothesis, variance } of search.forecasts) {
    const single = search.hypotheses[hypothesis]!
    const before = spread.get(single)
    spread.set(single, before ? before.map((each, t) => Math.max(each, variance[t]!)) : variance)
  }
  const read = evidence.flatMap((entry) => {
    const t = entry.kind === 'reading' ? testPoints.findIndex((point) => pointId(point) === entry.testPoint) : -1
    return entry.kind === 'reading' && t >= 0 ? [{ t, volts: entry.volts }] : []
  })
  const rows = search.forecaster.nominal(pairs.map(({ both }) => both))
  return pairs
    .map(({ both, halves }, k) => {
      const fit = read.reduce((sum, { t, volts }) => {
        const mean = rows[k]![t]!
        const own = halves.reduce((most, half) => Math.max(most, spread.get(half)?.[t] ?? 0), 0)
        return sum + Math.log(normal(volts, mean, own + readingVariance(meter, mean)) + 1e-4)
      }, Math.log(both.weight))
      return { both, fit }
    })
    .sort((p, q) => q.fit - p.fit)
    .slice(0, MOST_PAIRS)
    .map(({ both }) => both)
}

/**
 * The search with pairs of faults added, for when no single fault explains all readings. A pair's part is named by both
 * (`plug3 + earth1`); its prior is the product of the two, times the rarity of a second fault.
 */
export const withPairs = (search: Search, evidence: readonly Evidence[]): Search => {
  const singles = worthPairing(search, evidence)
  const total = search.hypotheses.reduce((sum, { weight }) => sum + weight, 0)
  const all: Pair[] = []
  singles.forEach((first, i) => {
    for (const second of singles.slice(i + 1)) {
      if (first.part === second.part) continue
      const [p, q] = [first, second].sort((a, b) => (a.id < b.id ? -1 : 1)) as [Hypothesis, Hypothesis]
      const both = {
        id: `${p.id} + ${q.id}`,
        part: `${p.part} + ${q.part}`,
        mode: `${p.mode}, ${q.mode}`,
        weight: (SECOND_FAULT * p.weight * q.weight) / total,
        effects: [...p.effects, ...q.effects],
      }
      all.push({ both, halves: [p, q] })
    }
  })
  const pairs = bestFitting(search, evidence, all)
  const base = search.hypotheses.length
  const known = foretold.get(search.forecaster) ?? new Map<string, readonly Forecast[]>()
  foretold.set(search.forecaster, known)
  const fresh = pairs.filter(({ id }) => !known.has(id))
  search.forecaster.forecast(fresh).forEach((list, k) => {
    known.set(fresh[k]!.id, list)
  })
  const forecasts = pairs.flatMap(({ id }, k) =>
    known.get(id)!.map((forecast) => ({ ...forecast, hypothesis: base + k })),
  )
  return { ...search, hypotheses: [...search.hypotheses, ...pairs], forecasts: [...search.forecasts, ...forecasts] }
}

/** Beyond this share of misfit the singles explain the readings badly. */
const BADLY = 0.3

/** Belief after the evidence; where single faults explain it badly, pairs are taken in. */
export const believeWithPairs = (search: Search, evidence: readonly Evidence[]): Belief => {
  const belief = believe(search, evidence)
  return belief.misfit > BADLY ? believe(withPairs(search, evidence), evidence) : belief
}
