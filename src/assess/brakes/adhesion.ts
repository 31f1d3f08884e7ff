/** Adhesion that each axle uses against braking rate: which locks first, and whether the yardstick's lines are kept. */
import { behindValve, brakeBalance } from '../../engineering/brakes/brakeBalance.ts'
import { DRY_ROAD } from '../../engineering/brakes/yardsticks.ts'
import { run } from '../../engineering/calculation.ts'
import { G } from '../../engineering/exactUnits.ts'
import { Refusal } from '../../units/problem.ts'
import { type Datum, isKnown, type Lacking, lackOf } from '../chain/chain.ts'
import type { BrakeFacts, LoadName } from './facts.ts'
import { type Gains, gainsOf, type State, valveOf } from './states.ts'

export interface AdhesionPoint {
  readonly rate: number
  readonly front: number
  readonly rear: number
}
export interface Adhesion {
  readonly load: LoadName
  readonly state: State
  readonly points: readonly AdhesionPoint[]
  /** Friction of the linings at the ends of its ±: front low with rear high, the worse for the rear; and the other way. */
  readonly rearMost: readonly AdhesionPoint[]
  readonly frontMost: readonly AdhesionPoint[]
  /** Braking rates from and to which the rear locks first, as entered and at the worse end; undefined where it never does. */
  readonly rearFirst: readonly [number, number] | undefined
  readonly rearFirstAtWorst: readonly [number, number] | undefined
}

const HIGHEST = 1
const STEPS = 50

type Given = Omit<Parameters<typeof brakeBalance.compute>[0], 'line'>
const curve = (given: Given): AdhesionPoint[] => {
  const points: AdhesionPoint[] = []
  const mass = given.frontMass + given.rearMass
  const forceAt = (line: number): number =>
    given.frontGain * line + given.rearGain * behindValve(line, given.split, given.slope)
  // Line pressure that a rate takes: straight up to the valve, straight beyond it.
  const lineFor = (force: number): number => {
    const atSplit = forceAt(given.split)
    return force <= atSplit
      ? force / (given.frontGain + given.rearGain)
      : given.split + (force - atSplit) / (given.frontGain + given.rearGain * given.slope)
  }
  for (let index = 1; index <= STEPS; index += 1) {
    const rate = (HIGHEST * index) / STEPS
    const line = lineFor(rate * G * mass)
    if (!(line <= 3e7)) break
    const { frontUsed, rearUsed, rearLoad } = brakeBalance.compute({ ...given, line })
    // Rear wheels off the road: the curve ends there.
    if (rearLoad <= 0) break
    points.push({ rate, front: frontUsed, rear: rearUsed })
  }
  return points
}

/** First and last rate at which the rear uses more, within what a dry road can give. */
const rearFirstIn = (points: readonly AdhesionPoint[]): readonly [number, number] | undefined => {
  const over = points.filter(({ front, rear }) => rear > front && Math.min(front, rear) <= DRY_ROAD)
  return over.length === 0 ? undefined : [over[0]!.rate, over.at(-1)!.rate]
}

/** Lacking with the data named, or a refusal kept. */
export const adhesionOf = (facts: BrakeFacts, load: LoadName, state: State = 'all working'): Adhesion | Lacking => {
  const { front, rear, height } = facts.loads[load]
  const valve = valveOf(facts, load === 'laden')
  const ends = {
    middle: gainsOf(facts, state, 0),
    low: gainsOf(facts, state, -1),
    high: gainsOf(facts, state, 1),
  }
  const fixed = [front, rear, height, facts.wheelbase, valve.split, valve.slope]
  const lack = lackOf([...fixed, ...Object.values(ends).flatMap((gains) => [gains.front, gains.rear])])
  if (lack) return lack
  const value = (datum: Datum): number => (isKnown(datum) ? datum.value : Number.NaN)
  const given = (frontGains: Gains, rearGains: Gains): Given => ({
    frontGain: value(frontGains.front),
    rearGain: value(rearGains.rear),
    split: value(valve.split),
    slope: value(valve.slope),
    frontMass: value(front),
    rearMass: value(rear),
    height: value(height),
    wheelbase: value(facts.wheelbase),
  })
  try {
    // One run looks at all ranges; the curve itself is reckoned without looking again.
    run(brakeBalance, { ...given(ends.middle, ends.middle), line: 0 })
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return { missing: [], problems: error.problems }
  }
  const of = (frontGains: Gains, rearGains: Gains): AdhesionPoint[] => curve(given(frontGains, rearGains))
  const points = of(ends.middle, ends.middle)
  const rearMost = of(ends.low, ends.high)
  return {
    load,
    state,
    points,
    rearMost,
    frontMost: of(ends.high, ends.low),
    rearFirst: rearFirstIn(points),
    rearFirstAtWorst: rearFirstIn(rearMost),
  }
}

export const isAdhesion = (found: Adhesion | Lacking): found is Adhesion => 'points' in found

export interface Lines {
  /** Rates at which the rear curve lies above the front's within the yardstick's range. */
  readonly rearAbove: boolean
  /** Least rate reached at an adhesion k against 0.1 + share·(k − 0.2): where it fails, the k. */
  readonly shortAt: number | undefined
}
/** Rates of everyday braking: where no yardstick counts, those in which R13 lets no van's rear lock first. */
const EVERYDAY = [0.15, 0.5] as const

/** Against the yardstick's two conditions; without one the first alone, for everyday rates. */
export const linesOf = (adhesion: Adhesion, { yardstick }: BrakeFacts): Lines => {
  const [from, to] = yardstick?.rearBelow ?? EVERYDAY
  const short = adhesion.points.find(({ rate, front, rear }) => {
    if (!yardstick) return false
    const k = Math.max(front, rear)
    return k >= 0.2 && k <= 0.8 && rate < 0.1 + yardstick.share * (k - 0.2)
  })
  return {
    rearAbove: adhesion.points.some(({ rate, front, rear }) => rate >= from && rate <= to && rear > front),
    shortAt: short && Math.max(short.front, short.rear),
  }
}
