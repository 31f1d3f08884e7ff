/**
 * A thermistor behind a pull-up: what the converter sees, how finely, how wrongly, how warm the sensor makes itself; and
 * the pull-up that suits.
 */
import { refuse } from '../../../units/problem.ts'
import { exactly, type Interval, within } from '../interval.ts'
import { envelopeOf, type InputCircuit } from '../resistanceSwitch/circuit.ts'
import type { Part } from '../resistanceSwitch/design.ts'
import type { Curve } from './curve.ts'

const middle = ({ low, high }: Interval): number => (low + high) / 2

export interface DividerPoint {
  /** K */
  readonly temperature: number
  /** Ω */
  readonly resistance: number
  /** V on the axis (share of full scale × middle of the reference), all quantities in the middle. */
  readonly voltage: number
  /** K for one step of the converter. */
  readonly resolution: number
  /** K that the reading may be off, worst case of circuit and curve; an end is `undefined` where the converter saturates. */
  readonly error: { readonly low: number | undefined; readonly high: number | undefined }
  /** K by which its own current warms the sensor, supply highest, pull-up lowest; `undefined` without a dissipation constant. */
  readonly selfHeating: number | undefined
}

interface Sensor extends Curve {
  /** ± K of the curve at a resistance; `undefined` where not known. */
  plusMinusAt?(resistance: number): number | undefined
}

/** P/δ = V²·R/((Rp + R)²·δ), δ in W/K as the data sheet's dissipation constant states it (mmc.co.jp thermistor guide [read]). */
export const selfHeating = (voltage: number, pullUp: number, resistance: number, dissipation: number): number =>
  (voltage * voltage * resistance) / (pullUp + resistance) ** 2 / dissipation

/** Shares of full scale with every quantity in the middle, which is all that the controller's table knows. */
function nominalDivider(circuit: InputCircuit, sensor: Curve, steps: number) {
  const pullUp = middle(circuit.pullUp)
  const supply = middle(circuit.supply)
  const reference = circuit.reference === 'supply' ? supply : middle(circuit.reference)
  const ratio = supply / reference
  const shareOf = (resistance: number): number => (ratio * resistance) / (pullUp + resistance)
  return {
    reference,
    shareOf,
    temperatureOf(share: number): number | undefined {
      if (share <= 0 || share >= Math.min(1, ratio)) return undefined
      return sensor.temperatureOf((share * pullUp) / (ratio - share))
    },
    resolutionAt(temperature: number): number {
      const small = temperature * 1e-5
      const [colder, warmer] = [temperature - small, temperature + small].map((each) =>
        shareOf(sensor.resistanceOf(each)),
      )
      return (2 * small) / (steps * (colder! - warmer!))
    },
  }
}

/** One point. `contact` Ω is what plugs and wires may add to the sensor. */
export function dividerPoint(
  sensor: Sensor,
  circuit: InputCircuit,
  temperature: number,
  contact = 0,
  dissipation?: number,
): DividerPoint {
  const envelope = envelopeOf(circuit)
  const nominal = nominalDivider(circuit, sensor, envelope.steps)
  const resistance = sensor.resistanceOf(temperature)
  const ofCurve = sensor.plusMinusAt?.(resistance) ?? 0
  const hot = nominal.temperatureOf(envelope.lowest(resistance))
  const cold = nominal.temperatureOf(envelope.highest(resistance + contact))
  return {
    temperature,
    resistance,
    voltage: nominal.shareOf(resistance) * envelope.fullScale,
    resolution: nominal.resolutionAt(temperature),
    error: {
      low: cold === undefined ? undefined : cold - temperature - ofCurve,
      high: hot === undefined ? undefined : hot - temperature + ofCurve,
    },
    selfHeating:
      dissipation === undefined
        ? undefined
        : selfHeating(circuit.supply.high, circuit.pullUp.low, resistance, dissipation),
  }
}

export type PullUpAim = 'resolution' | 'linearity'
export interface DividerChoice {
  readonly pullUp: Part
  /** `resolution`: K a step where it is coarsest. `linearity`: K off the best straight line where it is worst. */
  readonly worst: number
  readonly tried: readonly { readonly pullUp: Part; readonly worst: number }[]
}

const GRID = 121

/**
 * Half the height of the narrowest straight band that holds all points, by halving the slope: the height is convex in it.
 * In units of y.
 */
export function offStraight(points: readonly { readonly x: number; readonly y: number }[]): number {
  const height = (slope: number): number => {
    let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
    for (const { x, y } of points) {
      least = Math.min(least, y - slope * x)
      most = Math.max(most, y - slope * x)
    }
    return most - least
  }
  const slopes = points.slice(1).map((point, i) => (point.y - points[i]!.y) / (point.x - points[i]!.x))
  let [low, high] = [Math.min(...slopes), Math.max(...slopes)]
  for (let turn = 0; turn < 100; turn += 1) {
    const [one, two] = [low + (high - low) / 3, high - (high - low) / 3]
    if (height(one) <= height(two)) high = two
    else low = one
  }
  return height((low + high) / 2) / 2
}

/** The candidate whose worst place over `range` (K) is best; every one is tried on 121 temperatures, ends included. */
export function bestDividerPullUp(
  curve: Curve,
  circuit: Omit<InputCircuit, 'pullUp'>,
  range: Interval,
  candidates: readonly Part[],
  aim: PullUpAim,
): DividerChoice {
  if (!(range.low < range.high) || !(range.low > 0))
    throw refuse(
      'out-of-range',
      `A temperature range from ${range.low} K to ${range.high} K is empty.`,
      'Enter the coldest and the hottest that the sensor must show.',
      'range',
    )
  if (candidates.length === 0)
    throw refuse('missing-input', 'There is no pull-up to choose from.', 'Name a series and its span.', 'pullUps')
  const temperatures = Array.from({ length: GRID }, (_, i) => range.low + ((range.high - range.low) * i) / (GRID - 1))
  const tried = candidates.map((pullUp) => {
    // Tolerances shift resolution by less than themselves; the choice looks at the nominal circuit.
    const full = { ...circuit, pullUp: exactly(pullUp.nominal) }
    const { reference, shareOf, resolutionAt } = nominalDivider(full, curve, envelopeOf(full).steps)
    const worst =
      aim === 'resolution'
        ? Math.max(...temperatures.map(resolutionAt))
        : offStraight(
            temperatures.map((temperature) => ({
              x: shareOf(curve.resistanceOf(temperature)) * reference,
              y: temperature,
            })),
          )
    return { pullUp, worst }
  })
  const best = tried.reduce((a, b) => (b.worst < a.worst ? b : a))
  return { ...best, tried }
}

/** The whole range of a sensor with a chosen pull-up, evenly spaced in temperature. */
export const dividerRange = (
  sensor: Sensor,
  circuit: Omit<InputCircuit, 'pullUp'>,
  pullUp: Part,
  range: Interval,
  count: number,
  contact = 0,
  dissipation?: number,
): DividerPoint[] =>
  Array.from({ length: count }, (_, i) =>
    dividerPoint(
      sensor,
      { ...circuit, pullUp: within(pullUp.nominal, pullUp.tolerance) },
      range.low + ((range.high - range.low) * i) / (count - 1),
      contact,
      dissipation,
    ),
  )
