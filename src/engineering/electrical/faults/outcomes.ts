import { type Belief, type Branch, readingVariance } from './belief.ts'

/** What a search holds possible, laid out for looking ahead: branches with their weight and the part that each blames. */
export interface Suspicion {
  readonly belief: Belief
  /** Place in `belief.branches` of each branch that is likely enough to count. */
  readonly branches: readonly number[]
  readonly weight: Float64Array
  /** Number of the part that each branch blames, 0 … `parts` − 1. */
  readonly part: Int32Array
  readonly parts: number
  /** A reading to come that is taken for granted: the car's spread is narrowed by it. */
  readonly given?: { readonly test: number; readonly volts: number }
}

/** Branches less likely than `least` are left out. */
export const suspicionOf = (belief: Belief, least: number): Suspicion => {
  const branches = belief.branches.flatMap(({ probability }, i) => (probability > least ? [i] : []))
  const weight = Float64Array.from(branches, (i) => belief.branches[i]!.probability)
  return { belief, branches, weight, ...partsOf(belief, branches) }
}

const partsOf = (belief: Belief, branches: readonly number[]): Pick<Suspicion, 'part' | 'parts'> => {
  const numbers = new Map<string, number>()
  const part = Int32Array.from(branches, (i) => {
    const own = belief.hypotheses[belief.branches[i]!.hypothesis]!.part
    const number = numbers.get(own) ?? numbers.size
    numbers.set(own, number)
    return number
  })
  return { part, parts: numbers.size }
}

/** An outcome of a test: how likely it is under each branch, and the reading (V) that stands for it. */
export interface Outcome {
  readonly chance: Float64Array
  readonly volts: number
}

/** What is held possible after an outcome of `test`; branches below `unlikely` of the whole are left out. */
export const after = (
  { belief, branches, weight }: Suspicion,
  test: number,
  { chance, volts }: Outcome,
  unlikely: number,
): Suspicion => {
  const sum = weight.reduce((total, p, i) => total + p * chance[i]!, 0)
  const keep = branches.flatMap((_, i) => (weight[i]! * chance[i]! > unlikely * sum ? [i] : []))
  const kept = keep.map((i) => branches[i]!)
  return {
    belief,
    branches: kept,
    weight: Float64Array.from(keep, (i) => weight[i]! * chance[i]!),
    ...partsOf(belief, kept),
    given: { test, volts },
  }
}

/** Standard deviations over which forecasts are one outcome: the meter and the car's spread cannot tell them apart. */
const ALIKE = 2
/** Outcomes of one test at most; the nearest are joined. */
const MOST = 12

interface Forecast {
  readonly at: number
  readonly share: number
  readonly weight: number
  readonly mean: number
  readonly sigma: number
}

/** Cumulative distribution of the standard normal: Abramowitz and Stegun 26.2.17, error below 7.5e-8. */
export const normalCdf = (x: number): number => {
  const t = 1 / (1 + 0.2316419 * Math.abs(x))
  const poly = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  const tail = (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) * poly
  return x > 0 ? 1 - tail : tail
}

/** Mean and variance of what a branch foretells at test point `t`, by the reading that is taken for granted. */
const foretold = ({ belief, given }: Suspicion, branch: Branch, t: number): readonly [number, number] => {
  const { mean, variance, spread, rank, healthy } = branch
  if (!given || healthy || variance[given.test] === 0) return [mean[t]!, variance[t]!]
  let product = 0
  for (let k = 0; k < rank; k++) product += spread[t * rank + k]! * spread[given.test * rank + k]!
  const expected = mean[given.test]!
  const gain = product / (variance[given.test]! + readingVariance(belief.problem.meter, expected))
  return [mean[t]! + gain * (given.volts - expected), Math.max(0, variance[t]! - gain * product)]
}

/** The outcomes of reading test point `t`, volts cut between groups of forecasts that stand apart; chances add up to 1. */
export const outcomesAt = (suspicion: Suspicion, t: number): readonly Outcome[] => {
  const { belief, branches, weight } = suspicion
  const { meter } = belief.problem
  const forecasts: Forecast[] = []
  branches.forEach((i, at) => {
    const branch = belief.branches[i]!
    const { healthy } = branch
    const add = (volts: number, spread: number, share: number): void => {
      const sigma = Math.sqrt(spread + readingVariance(meter, volts))
      forecasts.push({ at, share, weight: weight[at]! * share, mean: volts, sigma })
    }
    const [mean, variance] = foretold(suspicion, branch, t)
    add(mean, variance, healthy ? 0.5 : 1)
    if (healthy) add(healthy.mean[t]!, healthy.variance[t]!, 0.5)
  })
  const groups = groupsOf(forecasts)
  const cuts = groups.slice(1).map(({ first }, k) => (first + groups[k]!.last) / 2)
  const outcomes = groups.map(({ centre }) => ({ chance: new Float64Array(branches.length), volts: centre }))
  for (const { at, share, mean, sigma } of forecasts) {
    let below = 0
    outcomes.forEach(({ chance }, k) => {
      const z = k < cuts.length ? (cuts[k]! - mean) / sigma : 9
      const up = z > 6 ? 1 : z < -6 ? 0 : normalCdf(z)
      chance[at]! += share * Math.max(0, up - below)
      below = up
    })
  }
  return outcomes
}

interface Group {
  readonly first: number
  last: number
  readonly sigma: number
  centre: number
  weight: number
}

const groupsOf = (forecasts: Forecast[]): readonly Group[] => {
  forecasts.sort((p, q) => p.mean - q.mean)
  const groups: Group[] = []
  for (const { mean, sigma, weight } of forecasts) {
    const group = groups[groups.length - 1]
    if (group && mean - group.first < ALIKE * Math.min(sigma, group.sigma)) {
      group.centre = (group.centre * group.weight + mean * weight) / (group.weight + weight)
      group.weight += weight
      group.last = mean
    } else groups.push({ first: mean, last: mean, sigma, centre: mean, weight })
  }
  while (groups.length > MOST) {
    let nearest = 1
    for (let k = 2; k < groups.length; k++)
      if (groups[k]!.centre - groups[k - 1]!.centre < groups[nearest]!.centre - groups[nearest - 1]!.centre) nearest = k
    const [a, b] = [groups[nearest - 1]!, groups[nearest]!]
    const weight = a.weight + b.weight
    groups.splice(nearest - 1, 2, {
      first: a.first,
      last: b.last,
      sigma: a.sigma,
      centre: (a.centre * a.weight + b.centre * b.weight) / weight,
      weight,
    })
  }
  return groups
}

/** Entropy (bits) of which part is to blame, `weight` adding up to `sum`. */
export const partEntropy = (weight: Float64Array, part: Int32Array, parts: number, sum: number): number => {
  const byPart = new Float64Array(parts)
  for (let i = 0; i < weight.length; i++) byPart[part[i]!]! += weight[i]!
  let bits = 0
  for (const p of byPart) if (p > 0) bits -= (p / sum) * Math.log2(p / sum)
  return bits
}
