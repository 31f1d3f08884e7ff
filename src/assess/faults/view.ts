/** What the evidence says, from the priors up: who is suspect, what to measure next, where the search stands. */
import {
  type Belief,
  hypothesisProbabilities,
  type Search,
  suspects,
  type Evidence as Weighed,
} from '../../engineering/electrical/faults/belief.ts'
import { pointId } from '../../engineering/electrical/faults/hypothesis.ts'
import { nextTest, standing } from '../../engineering/electrical/faults/nextTest.ts'
import { partEntropy } from '../../engineering/electrical/faults/outcomes.ts'
import { believeWithPairs } from '../../engineering/electrical/faults/pairs.ts'
import { refuse } from '../../units/problem.ts'
import { caseCautions, NO_AIRBAG, NO_NEW_FUSE, PROBING, readingCautions } from '../electricalCautions.ts'
import { deviceIdOf, deviceName, own } from '../make.ts'
import { doubtsOf } from './doubts.ts'
import { placeOf, testId } from './drops.ts'
import { ampLikelihoods, ohmLikelihoods, voltLikelihoods } from './otherReadings.ts'
import { type Look, looksOf, remarkLikelihoods } from './remarkRatios.ts'
import type { ReadySearch } from './start.ts'
import type {
  Evidence,
  LookFirst,
  NextTest,
  Question,
  ReadingEvidence,
  SearchStanding,
  SearchView,
  Suspect,
  Test,
} from './types.ts'
import { leadsSay, pointWire } from './words.ts'

type Readings = ReadySearch['build']['collections']['readings']
/** Share below which a suspect is not worth a line. */
const WORTH_A_LINE = 1e-4
/** Suspects of whom it is said what they would show. */
const EXPECTED = 4
const LOOKED_OVER = 12
const LOOKS = 3
/**
 * Bits below which a look is not worth asking for: on `npm run bench -- fault` 0.05 took three times as many looks and no
 * fewer readings.
 */
const WORTH_A_LOOK = 0.3

/**
 * `readings`: those of the build as it is now, for the meters that the evidence was read with; the search may have been
 * made ready before they were taken. Throws `Refusal` on values that are no numbers and remarks that are none of the list.
 */
export const withEvidence = (
  ready: ReadySearch,
  evidence: readonly Evidence[],
  readings: Readings = ready.build.collections.readings,
): SearchView => {
  for (const entry of evidence)
    if (entry.kind === 'reading' && !Number.isFinite(entry.value))
      throw refuse('bad-reading', `${entry.value} at ${entry.at} is no reading.`, 'Give the value as a number.')
  const questions = doubtsOf(ready, evidence)
  const doubted = new Set(questions.map((question) => question.evidence))
  const weighed = evidence.flatMap((entry, i): Weighed[] =>
    doubted.has(i) ? [] : [weigh(ready, entry, questions, i, readings)].flat(),
  )
  const belief = believeWithPairs(withOpened(ready, evidence), weighed)
  const pairs = belief.hypotheses.length > ready.search.hypotheses.length
  const list = suspectsOf(ready, belief)
  const now = standing(belief)
  const next = now.kind === 'searching' ? now.next : now.kind === 'misfit' ? nextTest(belief) : null
  const asked = next ? nextOf(ready, belief, next, list) : null
  return {
    standing: standingOf(ready, now, questions),
    suspects: list,
    next: asked,
    looks: now.kind === 'found' ? [] : looksFor(ready, belief, remarkedOn(evidence)),
    questions,
    pairs,
    cautions: [
      ...new Set([
        PROBING,
        NO_NEW_FUSE,
        ...caseCautions(ready.solved.kase),
        ...(ready.leftOut.length > 0 ? [NO_AIRBAG] : []),
      ]),
    ],
  }
}

const remarkedOn = (evidence: readonly Evidence[]): ReadonlySet<string> =>
  new Set(evidence.flatMap((entry) => (entry.kind === 'remark' && entry.about ? [entry.about] : [])))

/** Who has moved a wire or felt a joint stands there already: its access is open. */
const withOpened = (ready: ReadySearch, evidence: readonly Evidence[]): Search => {
  const { devices, wires } = ready.build.collections
  const mine = ready.start.complaint.device
  const places = evidence.flatMap((entry) => {
    if (entry.kind !== 'remark' || entry.about === undefined || !AT_THE_PLACE.has(entry.remark)) return []
    if (own(devices, entry.about)) return [entry.about]
    const wire = own(wires, entry.about)
    return wire ? [wire.from, wire.to].map(deviceIdOf).filter((id) => id === mine) : []
  })
  const open = new Set(
    [...ready.points.values()].flatMap(({ endpoint, access }) =>
      access !== undefined && places.includes(deviceIdOf(endpoint)) ? [access] : [],
    ),
  )
  if (open.size === 0) return ready.search
  const { problem } = ready.search
  const testPoints = problem.testPoints.map((point) =>
    point.access !== undefined && open.has(point.access) ? { ...point, accessMinutes: 0 } : point,
  )
  return { ...ready.search, problem: { ...problem, testPoints } }
}
const AT_THE_PLACE: ReadonlySet<string> = new Set(['moves-with-wire', 'hot-joint'])

/** One piece of evidence as the engine takes it; a test that was foreseen as such, anything else as likelihoods. */
const weigh = (
  ready: ReadySearch,
  entry: Evidence,
  questions: Question[],
  place: number,
  readings: Readings,
): Weighed[] => {
  const { hypotheses } = ready.search
  const ratios = (says: string, likelihoods: readonly number[]): Weighed[] => [
    { kind: 'remark', says, ratios: Object.fromEntries(hypotheses.map(({ id }, h) => [id, likelihoods[h]!])) },
  ]
  if (entry.kind === 'remark') return ratios(entry.remark, remarkLikelihoods(ready, entry))
  if (entry.quantity === 'volts') {
    const stored = entry.reading === undefined ? undefined : readings[entry.reading]
    const input = stored?.inputResistance?.value
    const foreseen = (at: string, against: string | undefined): string | undefined => {
      const id = testId(at, against)
      return ready.tests.has(id) ? id : undefined
    }
    const straight = foreseen(entry.at, entry.against)
    const turned = entry.against === undefined ? undefined : foreseen(entry.against, entry.at)
    const loads = input !== undefined && input < 1e6
    const read = {
      kind: 'reading' as const,
      ...(entry.step === undefined ? {} : { step: entry.step }),
      ...(stored?.accuracy === undefined ? {} : { limits: stored.accuracy }),
    }
    if (!loads && straight !== undefined) return [{ ...read, testPoint: straight, volts: entry.value }]
    if (!loads && turned !== undefined) return [{ ...read, testPoint: turned, volts: -entry.value }]
    return ratios('volts', voltLikelihoods(ready, entry.at, entry.against, entry.value, input))
  }
  const likelihoods =
    entry.quantity === 'amps' ? ampLikelihoods(ready, pointWire(entry.at)!, entry.value) : ohmLikelihoods(ready, entry)
  if (likelihoods) return ratios(entry.quantity, likelihoods)
  questions.push({
    evidence: place,
    code: 'unknown-point',
    says: `${entry.at} is not in the circuit of this complaint.`,
  })
  return []
}

const nameOf = (ready: ReadySearch, part: string): string =>
  part
    .split(' + ')
    .map((each) => ready.parts.get(each)?.name ?? each)
    .join(', and ')

const suspectsOf = (ready: ReadySearch, belief: Belief): Suspect[] => {
  const byHypothesis = hypothesisProbabilities(belief)
  const modes = new Map<string, { mode: string; probability: number }[]>()
  for (const { id, part, mode } of belief.hypotheses) {
    const probability = byHypothesis.get(id)!
    const list = modes.get(part) ?? []
    modes.set(part, list)
    const same = list.find((each) => each.mode === mode)
    if (same) same.probability += probability
    else list.push({ mode, probability })
  }
  return suspects(belief)
    .filter(({ probability }) => probability > WORTH_A_LINE)
    .map(({ part, probability }) => {
      const named = part.split(' + ').flatMap((each) => ready.parts.get(each) ?? [])
      const zone = named[0]?.zone
      return {
        part,
        name: nameOf(ready, part),
        probability,
        modes: modes
          .get(part)!
          .filter((each) => each.probability > WORTH_A_LINE)
          .sort((p, q) => q.probability - p.probability),
        devices: [...new Set(named.flatMap(({ devices }) => devices))],
        wires: [...new Set(named.flatMap(({ wires }) => wires))],
        ...(zone === undefined ? {} : { zone }),
      }
    })
}

const standingOf = (
  ready: ReadySearch,
  now: ReturnType<typeof standing>,
  questions: readonly Question[],
): SearchStanding => {
  if (questions.length > 0) return { kind: 'asks', questions: questions.map(({ says }) => says) }
  switch (now.kind) {
    case 'found':
      return { kind: 'found', part: now.part, name: nameOf(ready, now.part), probability: now.probability }
    case 'searching':
      return { kind: 'searching' }
    case 'cannot-tell':
      return { kind: 'cannot tell apart', parts: now.parts.map(({ part }) => part) }
    default:
      return { kind: 'the model does not fit', share: now.share }
  }
}

const testOf = (ready: ReadySearch, id: string): Test => {
  const { at, against } = ready.tests.get(id)!
  return {
    quantity: 'volts',
    at,
    ...(against === undefined ? {} : { against }),
    says: leadsSay(ready.build, at, against, ready.car.referenceSays),
  }
}

const nextOf = (
  ready: ReadySearch,
  belief: Belief,
  next: NonNullable<ReturnType<typeof nextTest>>,
  list: readonly Suspect[],
): NextTest => {
  const test = testOf(ready, next.testPoint)
  const t = belief.problem.testPoints.findIndex((point) => pointId(point) === next.testPoint)
  const access = ready.points.get(placeOf(ready.build, test.at, test.against))?.access
  return {
    ...test,
    bits: next.bits,
    time: next.minutes * 60,
    ...(access === undefined ? {} : { access }),
    together: next.together.map((id) => testOf(ready, id)),
    expects: expectsOf(belief, t, list),
    cautions: readingCautions(ready.build, test, ready.solved.kase),
  }
}

/** What they would show, those that a meter cannot tell apart as one. */
const expectsOf = (belief: Belief, t: number, list: readonly Suspect[]): NextTest['expects'] => {
  const rows: { part: string; name: string; value: number; others: number }[] = []
  for (const { part, name } of list.slice(0, LOOKED_OVER)) {
    const branches = belief.branches.filter(({ hypothesis }) => belief.hypotheses[hypothesis]!.part === part)
    if (branches.length === 0) continue
    const value = branches.reduce((p, q) => (q.probability > p.probability ? q : p)).mean[t]!
    const same = rows.find((row) => Math.abs(row.value - value) < 0.05 + 0.01 * Math.abs(value))
    if (same) same.others += 1
    else if (rows.length < EXPECTED) rows.push({ part, name, value, others: 0 })
  }
  return rows
}

const SAYS: Readonly<Record<Look['asks'], (name: string) => string>> = {
  works: (name) => `Does ${name} work?`,
  clicks: (name) => `Does ${name} click when it is switched on?`,
  whole: (name) => `Is ${name} whole, as far as you see?`,
}
const ANSWER_SAYS: Readonly<Record<string, string>> = {
  works: 'Yes',
  'weak-too': 'Weakly',
  'dead-too': 'No',
  'relay-clicks': 'Yes',
  'relay-silent': 'No',
  'fuse-whole': 'Yes',
  'fuse-blown': 'No',
}

/** Expected information (bits) of the answers about the fault: H(answer) − Σ p · H(answer | fault). */
const bitsOf = ({ answers }: Look, probabilities: readonly number[]): number => {
  const doubt = (chanceOf: (chances: readonly number[]) => number): number =>
    partEntropy(
      Float64Array.from(answers, ({ chances }) => chanceOf(chances)),
      0,
      answers.length,
      1,
    )
  const before = doubt((chances) => probabilities.reduce((sum, p, h) => sum + p * chances[h]!, 0))
  return probabilities.reduce((bits, p, h) => bits - p * doubt((chances) => chances[h]!), before)
}

/** Two looks that differ by less would be answered alike: the second is no news after the first. */
const SAME_NEWS = 0.1

/** Expected difference between the chances of their first answers. */
const apart = (one: Look, other: Look, probabilities: readonly number[]): number =>
  probabilities.reduce(
    (sum, p, h) => sum + p * Math.abs(one.answers[0]!.chances[h]! - other.answers[0]!.chances[h]!),
    0,
  )

/** What to look at before the next probe, the most telling first, each news beside the others. */
export const looksFor = (ready: ReadySearch, belief: Belief, said: ReadonlySet<string>): LookFirst[] => {
  const byHypothesis = hypothesisProbabilities(belief)
  const each = ready.search.hypotheses.map(({ id }) => byHypothesis.get(id) ?? 0)
  const sum = each.reduce((p, q) => p + q, 0)
  const probabilities = each.map((p) => p / sum)
  const ranked = looksOf(ready)
    .filter(({ about }) => !said.has(about))
    .map((look) => ({ look, bits: bitsOf(look, probabilities) }))
    .filter(({ bits }) => bits > WORTH_A_LOOK)
    .sort((p, q) => q.bits - p.bits)
  const chosen: typeof ranked = []
  for (const each of ranked)
    if (chosen.length < LOOKS && chosen.every(({ look }) => apart(look, each.look, probabilities) > SAME_NEWS))
      chosen.push(each)
  return chosen.map(({ look, bits }): LookFirst => {
    const name = deviceName(ready.build, look.about)
    return {
      about: look.about,
      name,
      says: SAYS[look.asks](name),
      answers: look.answers.map(({ remark }) => ({ says: ANSWER_SAYS[remark]!, remark })),
      bits,
    }
  })
}

/** The reading that answers a test, as evidence. */
export const answerOf = (
  { quantity, at, against }: Test,
  { value, unit, step }: Pick<ReadingEvidence, 'value' | 'unit' | 'step'>,
): ReadingEvidence => ({
  kind: 'reading',
  quantity,
  at,
  ...(against === undefined ? {} : { against }),
  value,
  ...(unit === undefined ? {} : { unit }),
  ...(step === undefined ? {} : { step }),
})
