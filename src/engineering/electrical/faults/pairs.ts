import { type Belief, believe, type Evidence, type Search } from './belief.ts'
import type { Hypothesis } from './hypothesis.ts'

/** Single hypotheses that are combined, and how much rarer two faults at once are than one. */
const MOST_SINGLES = 16
const SECOND_FAULT = 0.05

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

/**
 * The search with pairs of faults added, for when no single fault explains all readings. A pair's part is named by both (`plug3 + earth1`); its prior is the product of the two, times the
 * rarity of a second fault.
 */
export const withPairs = (search: Search, evidence: readonly Evidence[]): Search => {
  const singles = worthPairing(search, evidence)
  const total = search.hypotheses.reduce((sum, { weight }) => sum + weight, 0)
  const pairs: Hypothesis[] = []
  singles.forEach((first, i) => {
    for (const second of singles.slice(i + 1)) {
      if (first.part === second.part) continue
      const [p, q] = [first, second].sort((a, b) => (a.id < b.id ? -1 : 1)) as [Hypothesis, Hypothesis]
      pairs.push({
        id: `${p.id} + ${q.id}`,
        part: `${p.part} + ${q.part}`,
        mode: `${p.mode}, ${q.mode}`,
        weight: (SECOND_FAULT * p.weight * q.weight) / total,
        effects: [...p.effects, ...q.effects],
      })
    }
  })
  const base = search.hypotheses.length
  const forecasts = search.forecaster
    .forecast(pairs)
    .flatMap((list, k) => list.map((forecast) => ({ ...forecast, hypothesis: base + k })))
  return { ...search, hypotheses: [...search.hypotheses, ...pairs], forecasts: [...search.forecasts, ...forecasts] }
}

/** Beyond this share of misfit the singles explain the readings badly. */
const BADLY = 0.3

/** Belief after the evidence; where single faults explain it badly, pairs are taken in. */
export const believeWithPairs = (search: Search, evidence: readonly Evidence[]): Belief => {
  const belief = believe(search, evidence)
  return belief.misfit > BADLY ? believe(withPairs(search, evidence), evidence) : belief
}
