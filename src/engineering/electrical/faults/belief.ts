import { Refusal, refuse } from '../../../units/problem.ts'
import { faultProblems } from './checkProblem.ts'
import { type FaultProblem, type Hypothesis, type Meter, pointId } from './hypothesis.ts'
import { type Forecast, type Forecaster, forecaster, SOUND } from './predict.ts'

/** A reading (V against the reference), or a remark that makes some parts more or less likely than others. */
export type Evidence =
  | {
      readonly kind: 'reading'
      readonly testPoint: string
      readonly volts: number
      /** Last digit that was shown (V), which tells the range of the meter; none: its coarse one. */
      readonly step?: number
      /** Of another meter than that of the problem, on its coarse range. */
      readonly limits?: Pick<Meter, 'relative' | 'absolute'>
    }
  | { readonly kind: 'remark'; readonly says: string; readonly ratios: Readonly<Record<string, number>> }

/** One forecast of one hypothesis, conditioned on the readings so far. */
export interface Branch {
  readonly hypothesis: number
  /** Probability; all branches and `modelWrong` add up to 1. */
  probability: number
  readonly mean: Float64Array
  readonly spread: Float64Array
  readonly rank: number
  readonly variance: Float64Array
  /** Readings that it can only call slips. */
  slips: number
  /** Intermittent: what the healthy car reads instead. */
  readonly healthy?: Forecast
}

export interface Belief {
  readonly problem: FaultProblem
  readonly hypotheses: readonly Hypothesis[]
  readonly branches: readonly Branch[]
  readonly modelWrong: number
  /** Share of the belief that does not explain every reading: "the model is wrong", or a reading called a slip. */
  readonly misfit: number
  readonly evidence: readonly Evidence[]
}

/** A search ready to take evidence: the forecasts of all hypotheses, made once. */
export interface Search {
  readonly problem: FaultProblem
  readonly hypotheses: readonly Hypothesis[]
  readonly forecasts: readonly Forecast[]
  readonly healthy: Forecast
  readonly forecaster: Forecaster
}

/** Cars drawn: fewer where there are very many hypotheses, so that a search starts within a second or so. */
const drawsFor = (hypotheses: number): number => Math.max(12, Math.min(32, Math.round(4000 / hypotheses)))

/** A person misreads, slips off the pin or writes the wrong line once in so many readings. Common practice, no source. */
const SLIP = 0.005
/** Volts over which a slip, or a car that the model does not know, may lie. */
const ANYWHERE = 17
/** What a model leaves out besides its stated tolerances (V). */
const UNMODELLED = 0.004

/** Makes all forecasts of a problem. Throws `Refusal` with everything that is wrong with it. */
export const prepareSearch = (problem: FaultProblem, draws = drawsFor(problem.hypotheses.length), seed = 1): Search => {
  const problems = faultProblems(problem)
  if (problems.length > 0) throw new Refusal(problems)
  const made = forecaster(problem, draws, seed)
  const [healthy, ...forecasts] = made.forecast([SOUND, ...problem.hypotheses])
  return {
    problem,
    hypotheses: problem.hypotheses,
    forecasts: forecasts.flatMap((list, h) => list.map((forecast) => ({ ...forecast, hypothesis: h }))),
    healthy: healthy!.reduce((p, q) => (q.share > p.share ? q : p)),
    forecaster: made,
  }
}

/** Step (V) that the meter shows at this voltage, on the finest of its ranges that holds it. */
export const stepAt = ({ step, finer = [] }: Meter, volts: number): number =>
  finer.reduce((shown, top) => (Math.abs(volts) < top ? shown / 10 : shown), step)

/** Variance (V²) of a reading around a true voltage: limits of a uniform error, plus the `step` shown (V). */
export const readingVariance = (meter: Meter, volts: number, step = stepAt(meter, volts)): number => {
  const limit = meter.relative * Math.abs(volts) + meter.absolute * Math.min(1, step / meter.step)
  return (limit * limit + (step * step) / 4) / 3 + UNMODELLED * UNMODELLED
}

export const normal = (x: number, mean: number, variance: number): number =>
  Math.exp((-0.5 * (x - mean) ** 2) / variance) / Math.sqrt(2 * Math.PI * variance)

/** Belief after the evidence, from the priors up: evidence can be taken back or mended at any time. */
export const believe = (search: Search, evidence: readonly Evidence[]): Belief => {
  const { problem, hypotheses, forecasts, healthy } = search
  const total = forecasts.reduce((sum, { hypothesis, share }) => sum + hypotheses[hypothesis]!.weight * share, 0)
  const branches: Branch[] = forecasts.map(({ hypothesis, share, mean, spread, rank, variance }) => ({
    hypothesis,
    probability: (((1 - problem.modelWrong) * hypotheses[hypothesis]!.weight) / total) * share,
    mean: mean.slice(),
    spread: spread.slice(),
    rank,
    variance: variance.slice(),
    slips: 0,
    ...(hypotheses[hypothesis]!.intermittent ? { healthy } : {}),
  }))
  let modelWrong = problem.modelWrong
  // Of two readings at one point the later counts: the same meter on the same pin errs the same way.
  const counted = evidence.filter(
    (entry, i) =>
      entry.kind !== 'reading' ||
      !evidence.some((later, j) => j > i && later.kind === 'reading' && later.testPoint === entry.testPoint),
  )
  for (const entry of counted) {
    if (entry.kind === 'remark') {
      for (const branch of branches) {
        const { id, part } = hypotheses[branch.hypothesis]!
        branch.probability *= entry.ratios[id] ?? entry.ratios[part] ?? 1
      }
    } else {
      const t = problem.testPoints.findIndex((point) => pointId(point) === entry.testPoint)
      if (t < 0 || !Number.isFinite(entry.volts))
        throw refuse(
          'bad-reading',
          `${entry.volts} V at ${entry.testPoint} is no reading at a test point of this search.`,
          'Name one of its test points and give the volts as a number.',
        )
      for (const branch of branches) branch.probability *= take(branch, t, entry, { ...problem.meter, ...entry.limits })
      modelWrong /= ANYWHERE
    }
    const sum = branches.reduce((all, { probability }) => all + probability, modelWrong)
    for (const branch of branches) branch.probability /= sum
    modelWrong /= sum
  }
  const misfit = branches.reduce((sum, { slips, probability }) => sum + (slips > 0 ? probability : 0), modelWrong)
  return { problem, hypotheses, branches, modelWrong, misfit, evidence }
}

/** Likelihood of a reading under a branch, whose moments it then conditions. */
const take = (
  branch: Branch,
  t: number,
  { volts, step: shown }: Extract<Evidence, { kind: 'reading' }>,
  meter: Meter,
): number => {
  const step = shown ?? meter.step
  const { mean, spread, rank, variance, healthy } = branch
  const expected = mean[t]!
  const noise = readingVariance(meter, expected, step)
  const total = variance[t]! + noise
  const fits = normal(volts, expected, total)
  const slip = SLIP / ANYWHERE
  if (healthy) {
    const sound = healthy.mean[t]!
    const soundFits = normal(volts, sound, healthy.variance[t]! + readingVariance(meter, sound, step))
    const either = (1 - SLIP) * (0.5 * fits + 0.5 * soundFits)
    if (either <= slip) branch.slips++
    return either + slip
  }
  // A reading far outside is a slip rather than news about the loads.
  if ((1 - SLIP) * fits <= slip) branch.slips++
  else if (variance[t]! > 0) {
    // Potter's square-root form of the Kalman update (Bierman, Factorization Methods, 1977; from memory).
    const row = spread.slice(t * rank, (t + 1) * rank)
    const miss = (volts - expected) / total
    const shrink = 1 / (total + Math.sqrt(noise * total))
    for (let u = 0; u < mean.length; u++) {
      let product = 0
      for (let k = 0; k < rank; k++) product += spread[u * rank + k]! * row[k]!
      if (product === 0) continue
      mean[u]! += product * miss
      variance[u]! -= (product * product) / total
      const part = product * shrink
      for (let k = 0; k < rank; k++) spread[u * rank + k]! -= part * row[k]!
      if (variance[u]! < 0) variance[u] = 0
    }
  }
  return (1 - SLIP) * fits + slip
}

/** Probability of each part, most suspect first. */
export const suspects = (belief: Belief): { part: string; probability: number }[] => {
  const parts = new Map<string, number>()
  for (const { hypothesis, probability } of belief.branches) {
    const { part } = belief.hypotheses[hypothesis]!
    parts.set(part, (parts.get(part) ?? 0) + probability)
  }
  return [...parts].map(([part, probability]) => ({ part, probability })).sort((p, q) => q.probability - p.probability)
}

/** Probability of each hypothesis, by id. */
export const hypothesisProbabilities = (belief: Belief): Map<string, number> => {
  const found = new Map<string, number>(belief.hypotheses.map(({ id }) => [id, 0]))
  for (const { hypothesis, probability } of belief.branches) {
    const { id } = belief.hypotheses[hypothesis]!
    found.set(id, found.get(id)! + probability)
  }
  return found
}
