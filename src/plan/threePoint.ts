/**
 * Three estimates of a job's time: least, likely, most. Times in seconds.
 *
 * Mean and variance as in PERT: (a + 4m + b)/6 and ((b − a)/6)². Source: Malcolm, Roseboom, Clark and Fazar, Operations
 * Research 7 (1959) 646–669 [from memory]; worked examples in the tests. Where a share of the distribution is wanted (the
 * time kept in 80 of 100 cases) it is the beta distribution on [a, b] with that mean and α + β = 6, usually called
 * beta-PERT [from memory]; its own variance differs a little from ((b − a)/6)².
 */
import { normal, type Random } from './random.ts'

export interface ThreePoint {
  readonly least: number
  readonly likely: number
  readonly most: number
}

export const expectedTime = ({ least, likely, most }: ThreePoint): number => (least + 4 * likely + most) / 6
export const variance = ({ least, most }: ThreePoint): number => ((most - least) / 6) ** 2

const shape = ({ least, likely, most }: ThreePoint): readonly [number, number] => [
  1 + (4 * (likely - least)) / (most - least),
  1 + (4 * (most - likely)) / (most - least),
]

/** Lanczos approximation, g = 7, n = 9 [coefficients from memory; checked in the tests through the beta distribution]. */
const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
]
const logGamma = (x: number): number => {
  const t = x + 6.5
  const sum = LANCZOS.reduce((total, c, i) => (i === 0 ? c : total + c / (x + i - 1)), 0)
  return 0.5 * Math.log(2 * Math.PI) + (x - 0.5) * Math.log(t) - t + Math.log(sum)
}

/** Regularised incomplete beta function by its continued fraction (Lentz). DLMF 8.17.22. */
export const betaShare = (x: number, a: number, b: number): number => {
  if (x <= 0) return 0
  if (x >= 1) return 1
  if (x > (a + 1) / (a + b + 2)) return 1 - betaShare(1 - x, b, a)
  const front = Math.exp(a * Math.log(x) + b * Math.log1p(-x) + logGamma(a + b) - logGamma(a) - logGamma(b)) / a
  const tiny = 1e-300
  let c = 1
  let d = 1 / (1 - ((a + b) * x) / (a + 1))
  let fraction = d
  for (let m = 1; m < 300; m++) {
    let factor = 0
    for (const term of [
      (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m)),
      (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1)),
    ]) {
      d = 1 / (1 + term * d || tiny)
      c = 1 + term / c || tiny
      factor = c * d
      fraction *= factor
    }
    if (Math.abs(factor - 1) < 1e-14) break
  }
  return front * fraction
}

/** Share of jobs with this estimate that take no longer than `time`. */
export const shareWithin = (estimate: ThreePoint, time: number): number => {
  if (estimate.most <= estimate.least) return time >= estimate.most ? 1 : 0
  const [a, b] = shape(estimate)
  return betaShare((time - estimate.least) / (estimate.most - estimate.least), a, b)
}

/** The time kept in `share` of cases (0…1), by halving. */
export const timeAt = (estimate: ThreePoint, share: number): number => {
  let low = estimate.least
  let high = estimate.most
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (shareWithin(estimate, middle) < share) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/**
 * What is left of a job when `spent` has gone into it: the estimate given that it takes longer than that. `undefined`
 * when more was spent than the estimate allows: then nobody knows.
 */
export const remaining = (
  estimate: ThreePoint,
  spent: number,
): { readonly expected: number; readonly mostly: number } | undefined => {
  if (spent <= estimate.least)
    return { expected: expectedTime(estimate) - spent, mostly: timeAt(estimate, 0.8) - spent }
  if (spent >= estimate.most) return undefined
  const gone = shareWithin(estimate, spent)
  // Mean of what is above: the middle of a hundred equal shares of it.
  let sum = 0
  for (let i = 0; i < 100; i++) sum += timeAt(estimate, gone + ((i + 0.5) / 100) * (1 - gone))
  return { expected: sum / 100 - spent, mostly: timeAt(estimate, gone + 0.8 * (1 - gone)) - spent }
}

/** Gamma variate, shape ≥ 1: Marsaglia and Tsang, ACM Trans. Math. Software 26 (2000) 363–372 [from memory]. */
export const gamma = (random: Random, k: number): number => {
  if (k < 1) return gamma(random, k + 1) * random() ** (1 / k)
  const d = k - 1 / 3
  const c = 1 / Math.sqrt(9 * d)
  for (;;) {
    const x = normal(random)
    const v = (1 + c * x) ** 3
    if (v > 0 && Math.log(random()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v
  }
}

/** One time drawn from the estimate. */
export const drawTime = (estimate: ThreePoint, random: Random): number => {
  if (estimate.most <= estimate.least) return estimate.most
  const [a, b] = shape(estimate)
  const x = gamma(random, a)
  return estimate.least + ((estimate.most - estimate.least) * x) / (x + gamma(random, b))
}
