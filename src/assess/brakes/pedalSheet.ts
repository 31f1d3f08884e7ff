/** The pedal-force sheet: for each load and state, the force that the wanted deceleration takes, and what the tyres use. */
import { behindValve, brakeBalance } from '../../engineering/brakes/brakeBalance.ts'
import { pedalNeeded } from '../../engineering/brakes/pedalNeeded.ts'
import { G } from '../../engineering/exactUnits.ts'
import { combine, type Datum, isKnown, type Known, known, lacking, step } from '../chain/chain.ts'
import { type BrakeFacts, LOADS, type LoadName } from './facts.ts'
import { type Gains, gainsOf, helpIn, isFailure, type State, statesOf, valveOf } from './states.ts'

export interface PedalRow {
  readonly load: LoadName
  readonly state: State
  /** m/s². */
  readonly wanted: Datum
  /** N. */
  readonly limit: Datum
  readonly vacuum: Datum
  readonly greatest: Datum
  readonly line: Datum
  readonly push: Datum
  readonly help: Datum
  readonly force: Datum
  readonly rearPressure: Datum
  readonly frontForce: Datum
  readonly rearForce: Datum
  readonly frontLoad: Datum
  readonly rearLoad: Datum
  readonly frontUsed: Datum
  readonly rearUsed: Datum
}

/** The yardstick’s, else what the inspection of the place asks. */
export const wantedIn = (facts: BrakeFacts, state: State): Datum => {
  const failed = isFailure(state)
  const { yardstick, brakes } = facts
  if (yardstick) {
    const value = failed ? yardstick.failed : yardstick.service
    return known(
      value,
      0,
      `${value} m/s²: ${yardstick.name}, ${failed ? 'a circuit or the servo failed' : 'service brake, cold'} [from memory, see the sources]`,
    )
  }
  const asked = failed ? brakes.inspection?.failed : brakes.inspection?.service
  return asked === undefined
    ? lacking(`deceleration that the inspection asks${failed ? ' with a circuit failed' : ''}`)
    : known(
        asked.value * G,
        (asked.plusMinus ?? 0) * G,
        `Asked by the inspection: ${(asked.value * 100).toFixed(0)} % of gravity`,
      )
}
export const limitOf = ({ yardstick, brakes }: BrakeFacts): Datum =>
  yardstick
    ? known(yardstick.force, 0, `Greatest pedal force by ${yardstick.name}: ${yardstick.force} N [from memory]`)
    : brakes.inspection?.force === undefined
      ? lacking('greatest pedal force that the inspection allows')
      : known(brakes.inspection.force.value, 0, 'Greatest pedal force that the inspection allows, as entered')

/** Without its ±, where only the figure is wanted. */
const bare = (datum: Datum): Datum => (isKnown(datum) && datum.plusMinus > 0 ? known(datum.value) : datum)

const solve = (
  facts: BrakeFacts,
  laden: boolean,
  road: Datum,
  gains: Gains,
  help: { readonly ratio: Datum; readonly greatest: Datum },
) => {
  const valve = valveOf(facts, laden)
  return step(pedalNeeded, {
    road,
    frontGain: gains.front,
    rearGain: gains.rear,
    split: valve.split,
    slope: valve.slope,
    bore: facts.bore,
    pedal: facts.pedal,
    servo: help.ratio,
    greatest: help.greatest,
  })
}

/**
 * A known figure whose ± also holds the linings’ range, front and rear moving together as heat and water move them; of
 * both ends the farther counts.
 */
const widened = (figure: Datum, still: Datum, ends: readonly Datum[]): Datum => {
  if (!isKnown(figure) || !isKnown(still)) return figure
  const away = Math.max(0, ...ends.flatMap((end) => (isKnown(end) ? [Math.abs(end.value - figure.value)] : [])))
  return wrap(figure, Math.hypot(still.plusMinus, away))
}
const wrap = (figure: Known, plusMinus: number): Known =>
  Object.defineProperty({ value: figure.value, plusMinus }, 'working', {
    get: () => [
      ...figure.working,
      'Its ± holds the linings’ range front and rear together, and the ± of the rest by root sum of squares.',
    ],
    enumerable: true,
  }) as unknown as Known

interface RowOptions {
  /** m/s², in place of the yardstick’s. */
  readonly wanted?: Datum
}

export const pedalRow = (facts: BrakeFacts, load: LoadName, state: State, options: RowOptions = {}): PedalRow => {
  const { front, rear, total, height } = facts.loads[load]
  const laden = load === 'laden'
  const wanted = options.wanted ?? wantedIn(facts, state)
  const road = combine([total, wanted], (m = 0, a = 0) => m * a, 'Brake force = mass × deceleration')
  const help = helpIn(facts, state)
  const gains = gainsOf(facts, state)
  const centre = solve(facts, laden, road, gains, help)
  const still = solve(facts, laden, road, gainsOf(facts, state, 0), help)
  const bareHelp = { ratio: bare(help.ratio), greatest: bare(help.greatest) }
  const ends = ([-1, 1] as const).map((shift) => {
    const { front: ahead, rear: behind } = gainsOf(facts, state, shift)
    return solve(facts, laden, bare(road), { front: bare(ahead), rear: bare(behind) }, bareHelp)
  })
  const wide = (name: 'line' | 'push' | 'help' | 'force'): Datum =>
    widened(
      centre[name],
      still[name],
      ends.map((end) => end[name]),
    )
  const valve = valveOf(facts, laden)
  // The line pressure that gives this deceleration is what it is by the gains: their ± is in the gains, not once more in it.
  const line = isKnown(centre.line) ? known(centre.line.value, 0, ...centre.line.working) : centre.line
  const balance = step(brakeBalance, {
    line,
    frontGain: gains.front,
    rearGain: gains.rear,
    split: valve.split,
    slope: valve.slope,
    frontMass: front,
    rearMass: rear,
    height,
    wheelbase: facts.wheelbase,
  })
  return {
    load,
    state,
    wanted,
    limit: limitOf(facts),
    vacuum: help.vacuum,
    greatest: help.greatest,
    line: wide('line'),
    push: wide('push'),
    help: wide('help'),
    force: wide('force'),
    rearPressure: combine(
      [wide('line'), valve.split, valve.slope],
      (at = 0, split = 0, slope = 1) => behindValve(at, split, slope),
      'Pressure at the rear = line pressure up to the valve, then by its slope',
    ),
    frontForce: balance.frontForce,
    rearForce: balance.rearForce,
    frontLoad: balance.frontLoad,
    rearLoad: balance.rearLoad,
    frontUsed: balance.frontUsed,
    rearUsed: balance.rearUsed,
  }
}

export const pedalSheet = (facts: BrakeFacts): readonly PedalRow[] =>
  LOADS.flatMap((load) => statesOf(facts).map((state) => pedalRow(facts, load, state)))

export interface StalledStop {
  /** Firm stops made before it. */
  readonly after: number
  readonly vacuum: Datum
  readonly force: Datum
}
/** Pedal force for the failed deceleration, stop after stop with the engine stalled; friction as entered. */
export const stalledStops = (facts: BrakeFacts, load: LoadName, most = 8): readonly StalledStop[] => {
  const wanted = wantedIn(facts, 'engine stalled')
  const road = combine([facts.loads[load].total, wanted], (m = 0, a = 0) => m * a, 'Brake force = mass × deceleration')
  const { front, rear } = gainsOf(facts, 'engine stalled', 0)
  const gains = { front: bare(front), rear: bare(rear) }
  return Array.from({ length: most + 1 }, (_, after) => {
    const help = helpIn(facts, 'engine stalled', after)
    const bareHelp = { ratio: bare(help.ratio), greatest: bare(help.greatest) }
    return { after, vacuum: help.vacuum, force: solve(facts, load === 'laden', bare(road), gains, bareHelp).force }
  })
}
