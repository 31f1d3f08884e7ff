/** The states that brakes are reckoned in: what works, which gains are left, what the servo can add. */
import { servoHelp } from '../../engineering/brakes/servoHelp.ts'
import { vacuumStrokes } from '../../engineering/brakes/vacuumStrokes.ts'
import { combine, type Datum, entered, isKnown, known, lacking, step } from '../chain/chain.ts'
import { AXLES, type Axle, axleBrakes } from './axles.ts'
import { type BrakeFacts, hasServo } from './facts.ts'

export const STATES = [
  'all working',
  'first circuit failed',
  'second circuit failed',
  'servo dead',
  'engine stalled',
  'on boost',
  'at altitude',
] as const
export type State = (typeof STATES)[number]

/** The states that this car can be in. */
export const statesOf = (facts: BrakeFacts): readonly State[] =>
  STATES.filter((state) => {
    if (state === 'all working') return true
    if (state === 'first circuit failed') return facts.brakes.circuits !== 'single'
    if (state === 'second circuit failed')
      return facts.brakes.circuits !== 'single' && facts.brakes.circuits !== 'diagonal'
    // A dead servo stands in for one that is not described yet: the figure asked first is its ratio.
    if (isKnown(facts.servo) && !hasServo(facts)) return false
    return state !== 'on boost' || facts.boosted
  })

/** Circuit by its name on this car. */
export const stateWords = (facts: BrakeFacts, state: State): string => {
  const { circuits } = facts.brakes
  if (state === 'first circuit failed')
    return circuits === 'diagonal' ? 'one diagonal failed' : circuits === undefined ? state : 'front circuit failed'
  if (state === 'second circuit failed') return circuits === undefined ? state : 'rear circuit failed'
  if (state === 'engine stalled') return `engine stalled, after ${strokesOf(facts)} full strokes`
  if (state === 'on boost') return 'straight off boost'
  return state
}

/** Full strokes before the one that counts. */
export const strokesOf = (facts: BrakeFacts): number => facts.yardstick?.strokes ?? 4

/** Whether the deceleration wanted is that of sound brakes, or that of failed ones. */
export const isFailure = (state: State): boolean =>
  state === 'first circuit failed' ||
  state === 'second circuit failed' ||
  state === 'servo dead' ||
  state === 'engine stalled'

/** The share of an axle's gain that is left; undefined where the circuits are not known. */
const leftOf = (facts: BrakeFacts, axle: Axle, state: State): number | undefined => {
  if (state !== 'first circuit failed' && state !== 'second circuit failed') return 1
  const { circuits } = facts.brakes
  if (circuits === undefined) return undefined
  if (circuits === 'diagonal') return 0.5
  return (state === 'first circuit failed') === (axle === 'front') ? 0 : 1
}

const ONE_MEGAPASCAL = known(1e6, 0, 'At 1 MPa (10 bar) of line pressure')

export interface Gains {
  readonly front: Datum
  readonly rear: Datum
}
/** The same for many states and strokes: reckoned once. */
const kept = new WeakMap<BrakeFacts, Map<string, Gains>>()
export const gainsOf = (facts: BrakeFacts, state: State, shift?: -1 | 0 | 1): Gains => {
  const of = kept.get(facts) ?? new Map<string, Gains>()
  kept.set(facts, of)
  const key = `${AXLES.map((axle) => leftOf(facts, axle, state)).join()}/${shift}`
  const found = of.get(key) ?? reckonGains(facts, state, shift)
  of.set(key, found)
  return found
}
const reckonGains = (facts: BrakeFacts, state: State, shift: -1 | 0 | 1 | undefined): Gains => {
  const [front, rear] = AXLES.map((axle): Datum => {
    const left = leftOf(facts, axle, state)
    if (left === undefined) return lacking('how the circuits are split')
    if (left === 0) return known(0, 0, `The ${axle} circuit is thought failed.`)
    const { gain } = axleBrakes(facts, axle, ONE_MEGAPASCAL, shift)
    return left === 1
      ? gain
      : combine([gain], (all = 0) => left * all, 'One of both wheels brakes: half of the axle’s gain')
  }) as [Datum, Datum]
  return { front, rear }
}

export interface Valve {
  readonly split: Datum
  readonly slope: Datum
}
/** Beyond any line pressure: no valve. */
const NEVER = 3e7

export const valveOf = ({ brakes: { valve } }: BrakeFacts, laden: boolean): Valve => {
  const kind = valve?.kind
  if (kind === undefined) {
    const gap = lacking('whether a valve limits the rear pressure')
    return { split: gap, slope: gap }
  }
  if (kind === 'none')
    return { split: known(NEVER, 0, 'No valve at the rear'), slope: known(1, 0, 'No valve at the rear') }
  const byLoad = kind === 'by load' && laden
  return {
    split: entered(
      byLoad ? valve?.ladenSplit : valve?.split,
      `line pressure at which the rear valve begins${kind === 'by load' ? `, ${laden ? 'laden' : 'driver only'}` : ''}`,
    ),
    slope: entered(valve?.slope, 'slope of the rear valve'),
  }
}

/** Vacuum that helps while the pedal is down, in a state; with the engine stalled after full strokes, or after so many firm stops. */
export const vacuumIn = (facts: BrakeFacts, state: State, firmStops?: number): Datum => {
  const outside = state === 'at altitude' ? facts.high : facts.seaLevel
  if (state === 'servo dead') return known(0, 0, 'Servo thought dead: no vacuum')
  const stored = state === 'engine stalled' || state === 'on boost'
  if (!stored)
    return combine(
      [outside, facts.source],
      (air = 0, manifold = 0) => air - manifold,
      'Vacuum = outside pressure − pressure of manifold or pump at hot idle',
    )
  const servo = facts.brakes.servo
  const user = facts.vacuum.users?.find(({ kind }) => kind === 'servo')
  const check = user?.checkValve
  if (facts.vacuum.pump && state === 'on boost') return vacuumIn(facts, 'all working')
  if (!user) return lacking('which vacuum user is the servo')
  if (check === undefined) return lacking('whether the servo has a check valve')
  if (!check) return known(0, 0, 'No check valve: the servo loses its vacuum with the manifold’s')
  const sweptBy = (stroke: Datum, which: string): Datum =>
    combine([facts.diaphragm, stroke], (area = 0, way = 0) => area * way, `Swept by ${which} = diaphragm area × stroke`)
  const full = sweptBy(entered(servo?.stroke, 'stroke of the servo'), 'a full stroke')
  const firm = servo?.firmStroke ? sweptBy(entered(servo.firmStroke, 'stroke of a firm stop'), 'a firm stop') : full
  return step(vacuumStrokes, {
    start: facts.source,
    outside,
    front: entered(servo?.frontVolume, 'front chamber of the servo'),
    rear: entered(servo?.rearVolume, 'rear chamber of the servo'),
    reservoir: facts.vacuum.reservoir
      ? entered(facts.vacuum.reservoir, 'vacuum reservoir')
      : known(0, 0, 'No reservoir entered'),
    swept: firmStops === undefined ? full : firm,
    used: firm,
    strokes: known(state === 'on boost' ? 0 : (firmStops ?? strokesOf(facts))),
  }).vacuum
}

/** Greatest help in a state, and the ratio that counts there: 1 without a servo. */
export const helpIn = (
  facts: BrakeFacts,
  state: State,
  firmStops?: number,
): { readonly ratio: Datum; readonly greatest: Datum; readonly vacuum: Datum } => {
  const vacuum = vacuumIn(facts, state, firmStops)
  if (state === 'servo dead')
    return { ratio: known(1, 0, 'Servo thought dead: ratio 1'), greatest: known(0, 0, 'Servo thought dead'), vacuum }
  if (!isKnown(facts.servo)) return { ratio: facts.servo, greatest: facts.servo, vacuum }
  if (facts.servo.value <= 1)
    return {
      ratio: known(1, 0, 'No servo: ratio 1'),
      greatest: known(0, 0, 'No servo'),
      vacuum: known(0, 0, 'No servo'),
    }
  const { greatest } = step(servoHelp, { force: 0, ratio: facts.servo, area: facts.diaphragm, vacuum })
  return { ratio: facts.servo, greatest, vacuum }
}
