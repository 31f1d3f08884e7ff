import { type Belief, readingVariance } from './belief.ts'

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
  readonly given?: Given
}
interface Given {
  readonly test: number
  readonly volts: number
  readonly covariance: Covariance
}
/** Covariance (V²) of a test with one and the same other test, by branch of the belief. */
type Covariance = (t: number) => Float64Array

const covarianceWith = ({ branches }: Belief, test: number): Covariance => {
  const known = new Map<number, Float64Array>()
  return (t) => {
    const there = known.get(t)
    if (there) return there
    const found = Float64Array.from(branches, ({ spread, rank }) => {
      let product = 0
      for (let k = 0; k < rank; k++) product += spread[t * rank + k]! * spread[test * rank + k]!
      return product
    })
    known.set(t, found)
    return found
  }
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

/** The outcomes of a test, by rising volts. */
export interface Outcomes {
  /** Readings (V) that stand for them. */
  readonly volts: readonly number[]
  /** Weight that each leaves to each part: outcomes × `parts`, adding up to the weight of all. */
  readonly byPart: Float64Array
  /** How likely outcome `k` is under each branch. */
  readonly chance: (k: number) => Float64Array
  readonly test: number
  /** With the others. */
  readonly covariance: Covariance
}

/** What is held possible after outcome `k`; branches below `unlikely` of the whole are left out. */
export const after = (
  { belief, branches, weight }: Suspicion,
  { test, volts, chance: chanceOf, covariance }: Outcomes,
  k: number,
  unlikely: number,
): Suspicion => {
  const chance = chanceOf(k)
  const sum = weight.reduce((total, p, i) => total + p * chance[i]!, 0)
  const keep = branches.flatMap((_, i) => (weight[i]! * chance[i]! > unlikely * sum ? [i] : []))
  const kept = keep.map((i) => branches[i]!)
  return {
    belief,
    branches: kept,
    weight: Float64Array.from(keep, (i) => weight[i]! * chance[i]!),
    ...partsOf(belief, kept),
    given: { test, volts: volts[k]!, covariance },
  }
}

/** Standard deviations over which forecasts are one outcome. */
const ALIKE = 1
/** Outcomes of one test at most; where there are more, forecasts are taken as alike over so many times as much. */
const MOST = 16
const COARSER = 1.5

/** Cumulative distribution of the standard normal: Abramowitz and Stegun 26.2.17, error below 7.5e-8. */
export const normalCdf = (x: number): number => {
  const t = 1 / (1 + 0.2316419 * Math.abs(x))
  const poly = t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))))
  const tail = (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) * poly
  return x > 0 ? 1 - tail : tail
}

/** Mean and variance of what branch `i` foretells at test point `t`, by the reading that is taken for granted. */
const foretold = ({ belief, given }: Suspicion, i: number, t: number): readonly [number, number] => {
  const { mean, variance, healthy } = belief.branches[i]!
  if (!given || healthy || variance[given.test] === 0) return [mean[t]!, variance[t]!]
  const covariance = given.covariance(t)[i]!
  const expected = mean[given.test]!
  const gain = covariance / (variance[given.test]! + readingVariance(belief.problem.meter, expected))
  return [mean[t]! + gain * (given.volts - expected), Math.max(0, variance[t]! - gain * covariance)]
}

/** Standard deviations beyond which nothing is left of a forecast. */
const BEYOND = 6

/** The outcomes of reading test point `t`: volts cut between groups of forecasts that stand apart. */
export const outcomesAt = (suspicion: Suspicion, t: number): Outcomes => {
  const { belief, branches, weight, part, parts } = suspicion
  const { meter } = belief.problem
  // What comes and goes foretells two things: its fault, and the healthy car.
  const of: number[] = []
  const mean: number[] = []
  const sigma: number[] = []
  const share: number[] = []
  const add = (i: number, volts: number, variance: number, half: number): void => {
    of.push(i)
    mean.push(volts)
    sigma.push(Math.sqrt(variance + readingVariance(meter, volts)))
    share.push(half)
  }
  for (let i = 0; i < branches.length; i++) {
    const branch = belief.branches[branches[i]!]!
    const [volts, variance] = foretold(suspicion, branches[i]!, t)
    add(i, volts, variance, branch.healthy ? 0.5 : 1)
    if (branch.healthy) add(i, branch.healthy.mean[t]!, branch.healthy.variance[t]!, 0.5)
  }
  const rising = mean.map((_, f) => f).sort((p, q) => mean[p]! - mean[q]!)
  const groups = groupsOf(rising, mean, sigma, (f) => weight[of[f]!]! * share[f]!)
  const cuts = groups.slice(1).map(({ first }, k) => (first + groups[k]!.last) / 2)
  /** Gives each outcome that is not out of the question its share of a forecast. */
  const spread = (f: number, give: (k: number, share: number) => void): void => {
    let below = 0
    for (let k = 0; k < cuts.length; k++) {
      const z = (cuts[k]! - mean[f]!) / sigma[f]!
      if (z < -BEYOND) continue
      if (z > BEYOND) {
        give(k, share[f]! * (1 - below))
        return
      }
      const up = normalCdf(z)
      give(k, share[f]! * Math.max(0, up - below))
      below = up
    }
    give(cuts.length, share[f]! * (1 - below))
  }
  const byPart = new Float64Array(groups.length * parts)
  for (let f = 0; f < mean.length; f++)
    spread(f, (k, p) => {
      byPart[k * parts + part[of[f]!]!]! += weight[of[f]!]! * p
    })
  return {
    test: t,
    covariance: covarianceWith(belief, t),
    volts: groups.map(({ centre }) => centre),
    byPart,
    chance: (outcome) => {
      const chance = new Float64Array(branches.length)
      for (let f = 0; f < mean.length; f++)
        spread(f, (k, p) => {
          if (k === outcome) chance[of[f]!]! += p
        })
      return chance
    },
  }
}

interface Group {
  readonly first: number
  last: number
  readonly sigma: number
  centre: number
  weight: number
}

const groupsOf = (
  rising: readonly number[],
  mean: readonly number[],
  sigma: readonly number[],
  weightOf: (forecast: number) => number,
): readonly Group[] => {
  for (let alike = ALIKE; ; alike *= COARSER) {
    const groups: Group[] = []
    let group: Group | undefined
    for (const f of rising) {
      const volts = mean[f]!
      const weight = weightOf(f)
      if (group && volts - group.first < alike * Math.min(sigma[f]!, group.sigma)) {
        group.centre += ((volts - group.centre) * weight) / (group.weight + weight)
        group.weight += weight
        group.last = volts
      } else {
        group = { first: volts, last: volts, sigma: sigma[f]!, centre: volts, weight }
        groups.push(group)
      }
    }
    if (groups.length <= MOST) return groups
  }
}

/** Doubt (bits) about which of `parts` it is, from weights at `from` that add up to `sum`. */
export const partEntropy = (weights: Float64Array, from: number, parts: number, sum: number): number => {
  let nats = 0
  for (let k = from; k < from + parts; k++) {
    const p = weights[k]! / sum
    if (p > 0) nats -= p * Math.log(p)
  }
  return nats / Math.LN2
}

/** Weight of outcome `k`, and of the part that is likeliest in it. */
export const weigh = (byPart: Float64Array, k: number, parts: number): readonly [sum: number, most: number] => {
  let [sum, most] = [0, 0]
  for (let i = k * parts; i < (k + 1) * parts; i++) {
    sum += byPart[i]!
    if (byPart[i]! > most) most = byPart[i]!
  }
  return [sum, most]
}
