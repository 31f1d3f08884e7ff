import { type NetworkElement, type Overrides, type PreparedNetwork, prepare } from '../network/network.ts'
import { type Effect, firstAlike, overridesOf, withTies } from './effects.ts'
import type { FaultProblem, Hypothesis, Tolerance } from './hypothesis.ts'
import { randomStream } from './random.ts'

/**
 * What a hypothesis foretells at the test points, as jointly normal readings: a mean and the covariance that unknown
 * loads and resistances give it, so that an error shared by all readings convicts nobody. Where relays or fuses may go
 * either way the hypothesis has several forecasts, with their shares.
 */
export interface Forecast {
  readonly hypothesis: number
  /** Those of a hypothesis add up to how likely the complaint is under it: 1 where there is none. */
  readonly share: number
  readonly mean: Float64Array
  /** Square root of the covariance, row by row: test points × `rank`. */
  readonly spread: Float64Array
  readonly rank: number
  /** Variance at each test point (V²): the covariance's diagonal. */
  readonly variance: Float64Array
}

/** A joint that "took 5 Ω" has that within so many times, even on a log scale, where its hypothesis says nothing else. */
const WITHIN = 2
/**
 * Cars are drawn from tolerances so much wider than stated. On `npm run bench -- fault` this took no more readings; where
 * cars were twice as far off as stated, 2.0 % of searches convicted an innocent part instead of 3.3.
 */
const WIDER = 1.5
/**
 * Times as many draws for a hypothesis whose relays or fuses go either way: a handful of members does not tell how they
 * spread. On `npm run bench -- fault` 1 convicted an innocent part in 12 of 300 cars, 3 in 8.
 */
const SPLIT = 3
/** Blown fuses are followed one by one; a car has no more than this many in one fault. */
const MOST_BLOWN = 12

/** One draw of an element's real values. */
const drawElement = (
  element: NetworkElement,
  tolerances: readonly Tolerance[] | undefined,
  random: () => number,
): NetworkElement => {
  if (!tolerances) return element
  const changed: Record<string, number> = {}
  for (const { field, relative, factor, absolute } of tolerances) {
    const value = (element as unknown as Record<string, unknown>)[field]
    const u = WIDER * (2 * random() - 1)
    if (typeof value !== 'number') continue
    if (factor !== undefined) changed[field] = value * factor ** u
    else if (relative !== undefined) changed[field] = value * (1 + relative * u)
    else changed[field] = value + (absolute ?? 0) * u
  }
  return { ...element, ...changed } as NetworkElement
}

/** The fault at the `shift` of its range of ohms, −1 … 1 on a log scale. */
export const spreadFault = (effect: Effect, shift: number): Effect =>
  effect.kind === 'ohm'
    ? { ...effect, ohm: effect.ohm * (effect.within ?? WITHIN) ** shift }
    : effect.kind === 'bridge' && effect.within !== undefined
      ? { ...effect, ohm: effect.ohm * effect.within ** shift }
      : effect

/**
 * Readings (V, without meter error; a floating point reads 0) of all hypotheses at the test points for one draw of the
 * car: contacts follow their coils, then the fuse furthest over its limit opens, one at a time, until nothing changes.
 * `states` tells which contacts are pulled in and which fuses have blown, `load` the volts across the complaint's load.
 */
const readingsOf = (
  problem: FaultProblem,
  prepared: PreparedNetwork,
  hypotheses: readonly Hypothesis[],
  shift: (h: number) => number,
): { readings: Float64Array[]; states: string[]; load: number[] } => {
  const byId = new Map(prepared.network.elements.map((element) => [element.id, element]))
  const fuses = problem.fuses.flatMap(({ element: id, rating }) => {
    const element = byId.get(id)
    return element?.type === 'resistor' ? [{ id, rating, ohm: element.ohm, a: element.a, b: element.b }] : []
  })
  const points = problem.testPoints.map(({ node }) => node)
  const drops = problem.testPoints.flatMap(({ minus }, t) => (minus === undefined ? [] : [{ t, minus }]))
  const afterPoints = points.length + drops.length
  const { complaint } = problem
  const observed = [
    ...points,
    ...drops.map(({ minus }) => minus),
    ...fuses.flatMap(({ a, b }) => [a, b]),
    ...(complaint ? [complaint.a, complaint.b] : []),
  ]
  const overrides: Overrides[] = hypotheses.map(({ effects }, h) =>
    overridesOf(
      effects.map((effect) => spreadFault(effect, shift(h))),
      byId,
    ),
  )
  const readings: Float64Array[] = []
  const states: string[] = []
  const load: number[] = []
  let open = hypotheses.map((_, h) => h)
  const blown: string[][] = hypotheses.map(() => [])
  for (let round = 0; open.length > 0 && round <= MOST_BLOWN; round++) {
    const { volts, pulledIn } = prepared.signatures(
      open.map((h) => ({ ...overrides[h], remove: [...(overrides[h]!.remove ?? []), ...blown[h]!] })),
      observed,
    )
    const again: number[] = []
    open.forEach((h, i) => {
      const row = volts[i]!
      const shown = row.slice(0, points.length)
      drops.forEach(({ t }, d) => {
        shown[t]! -= row[points.length + d]!
      })
      readings[h] = shown.map((value) => (Number.isNaN(value) ? 0 : value))
      states[h] = `${pulledIn[i]}|${blown[h]!.join()}`
      if (complaint) load[h] = (row.at(-2) || 0) - (row.at(-1) || 0)
      let worst = problem.fuseBlowsAt
      let next: string | undefined
      fuses.forEach(({ id, rating, ohm }, f) => {
        if (blown[h]!.includes(id) || overrides[h]!.remove?.includes(id)) return
        const drop = row[afterPoints + 2 * f]! - row[afterPoints + 2 * f + 1]!
        const set = overrides[h]!.set?.[id]?.ohm
        const over = Math.abs(drop) / (typeof set === 'number' ? set : ohm) / rating
        if (over > worst) {
          worst = over
          next = id
        }
      })
      if (next === undefined) return
      blown[h]!.push(next)
      again.push(h)
    })
    open = again
  }
  return { readings, states, load }
}

/** The prepared draws of a problem: forecasts of its hypotheses, and of any others asked for later (pairs). */
export interface Forecaster {
  forecast(hypotheses: readonly Hypothesis[]): Forecast[][]
  /** Readings of the car as modelled, without spread: many times quicker. */
  nominal(hypotheses: readonly Hypothesis[]): Float64Array[]
}

/** `draws`: how many cars are drawn from the tolerances; more is smoother and slower. */
export const forecaster = (problem: FaultProblem, draws: number, seed = 1): Forecaster => {
  const effects = problem.hypotheses.flatMap((hypothesis) => hypothesis.effects)
  const tolerances = new Map<string, Tolerance[]>()
  for (const tolerance of problem.tolerances)
    tolerances.set(tolerance.element, [...(tolerances.get(tolerance.element) ?? []), tolerance])
  const points = problem.testPoints.length
  const model = prepare(withTies(problem.network, effects))
  const cars: PreparedNetwork[] = []
  const carOf = (k: number): PreparedNetwork => {
    const random = randomStream(seed * 1000 + k)
    cars[k] ??= k === 0 ? model : model.vary((element) => drawElement(element, tolerances.get(element.id), random))
    return cars[k]
  }
  const healthyLoad: number[] = []
  /** How likely the complaint is under a fault of car `k` that leaves so many volts to the load. */
  const complains = (k: number, fault: Hypothesis, volts: number): number => {
    const { complaint } = problem
    if (!complaint || fault.effects.length === 0) return 1
    healthyLoad[k] ??= readingsOf(problem, carOf(k), [SOUND], () => 0).load[0]!
    return complaint.likelihood(fault, volts, healthyLoad[k])
  }
  const forecast = (hypotheses: readonly Hypothesis[]): Forecast[][] => {
    const byState = hypotheses.map(() => new Map<string, Drawn[]>())
    const drawn = new Float64Array(hypotheses.length)
    const alike = firstAlike(hypotheses)
    const draw = (k: number, which: readonly number[]): void => {
      const random = randomStream(seed * 1000 + 500 + k)
      const shifts = hypotheses.map(() => 2 * random() - 1)
      const asked = [...new Set(which.map((h) => alike[h]!))]
      const place = new Map(asked.map((h, i) => [h, i]))
      const shift = (i: number): number => (k === 0 ? 0 : shifts[asked[i]!]!)
      const { readings, states, load } = readingsOf(
        problem,
        carOf(k),
        asked.map((h) => hypotheses[h]!),
        shift,
      )
      which.forEach((h) => {
        drawn[h]!++
        const i = place.get(alike[h]!)!
        const weight = complains(k, hypotheses[h]!, load[i]!)
        if (weight === 0) return
        const one = { row: readings[i]!, weight }
        const there = byState[h]!.get(states[i]!)
        if (there) there.push(one)
        else byState[h]!.set(states[i]!, [one])
      })
    }
    const all = hypotheses.map((_, h) => h)
    for (let k = 0; k <= draws; k++) draw(k, all)
    // Where a relay or a fuse may go either way the draws are shared out: those hypotheses get more of them.
    const split = all.filter((h) => byState[h]!.size > 1)
    if (draws > 1 && split.length > 0) for (let k = draws + 1; k <= SPLIT * draws; k++) draw(k, split)
    return byState.map((groups, h) => {
      if (groups.size === 0) return []
      const largest = [...groups.values()].reduce((p, q) => (weightOf(q) > weightOf(p) ? q : p))
      const pooled = spreadOf(largest, meanOf(largest, points))
      return [...groups.values()].map((members) => {
        const mean = meanOf(members, points)
        return {
          hypothesis: h,
          share: weightOf(members) / drawn[h]!,
          mean,
          // A handful of members tell their mean, but not how they spread.
          ...(members.length >= 8 ? spreadOf(members, mean) : pooled),
        }
      })
    })
  }
  const nominal = (hypotheses: readonly Hypothesis[]): Float64Array[] =>
    readingsOf(problem, model, hypotheses, () => 0).readings
  return { forecast, nominal }
}

/** What one car reads, and how likely the complaint is in it. */
interface Drawn {
  readonly row: Float64Array
  readonly weight: number
}

/** The car without a fault. */
export const SOUND: Hypothesis = { id: 'none', part: 'none', mode: 'sound', weight: 0, effects: [] }

const weightOf = (members: readonly Drawn[]): number => members.reduce((sum, { weight }) => sum + weight, 0)

const meanOf = (members: readonly Drawn[], points: number): Float64Array => {
  const mean = new Float64Array(points)
  const all = weightOf(members)
  for (const { row, weight } of members) for (let t = 0; t < points; t++) mean[t]! += (row[t]! * weight) / all
  return mean
}

/** Deviations from the mean as columns: their products are the covariance, and a search of many points stays small. */
const spreadOf = (
  members: readonly Drawn[],
  mean: Float64Array,
): { spread: Float64Array; rank: number; variance: Float64Array } => {
  const rank = members.length > 1 ? members.length : 0
  const spread = new Float64Array(mean.length * rank)
  const variance = new Float64Array(mean.length)
  // Of weighed members, so that equal weights give the usual n − 1.
  const all = weightOf(members)
  const squares = members.reduce((sum, { weight }) => sum + weight * weight, 0)
  const scales = members.map(({ weight }) => Math.sqrt(weight / (all - squares / all)))
  for (let t = 0; t < mean.length; t++)
    for (let k = 0; k < rank; k++) {
      const deviation = (members[k]!.row[t]! - mean[t]!) * scales[k]!
      spread[t * rank + k] = deviation
      variance[t]! += deviation * deviation
    }
  return { spread, rank, variance }
}
