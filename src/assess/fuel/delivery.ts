/** The pump against rail pressure, boost and the losses on the way: what flows, at which pressure across the pump. */

import { working, workingLines } from '../../engineering/calculation.ts'
import { curveFaults, delivered, type PumpCurve } from '../../engineering/fuel/pumpCurve.ts'
import { pumpFlow } from '../../engineering/fuel/pumpFlow.ts'
import { Refusal } from '../../units/problem.ts'
import { combine, type Datum, isKnown, type Known, known, lacking, lackOf } from '../chain/chain.ts'
import type { FuelFacts } from './facts.ts'
import { filterLoss, type Loss, linesOf } from './losses.ts'

export interface Delivery {
  readonly flow: Datum
  readonly across: Datum
  readonly losses: { readonly suction: Loss; readonly filter: Loss; readonly feed: Loss; readonly return: Loss }
  /** Losses left out because something is not entered, each with its datum. */
  readonly notCounted: readonly string[]
}
/** Below this no pump runs: the range of `pump-flow`. */
export const LEAST_VOLTS = 3

export const regulatedInTank = ({ fuel }: FuelFacts): boolean => fuel.regulator?.place === 'in the tank'

export const deliveryOf = (facts: FuelFacts): Delivery => {
  const { pump } = facts.fuel
  const losses = {
    suction: linesOf(facts, 'suction'),
    filter: filterLoss(facts),
    feed: linesOf(facts, 'pressure'),
    return: linesOf(facts, 'return'),
  }
  const measuredFilter = facts.readings['fuel-filter-loss']
  const counted = [losses.suction, losses.feed, ...(measuredFilter ? [] : [losses.filter])]
  const notCounted = counted.flatMap(({ gaps }) => gaps)
  const points = (pump?.curve ?? []).map(([pressure, flow]) => [pressure.value, flow.value] as const)
  const problems = curveFaults(points)
  const gaps = lackOf([
    facts.volts,
    points.length < 2 ? lacking('the pump’s flow curve') : known(0),
    pump?.ratedVoltage ? known(0) : lacking('the voltage of that curve'),
    pump?.voltageExponent === undefined ? lacking('how its flow goes with voltage (exponent)') : known(0),
    facts.railAcrossPump,
  ])
  const without = (flow: Datum): Delivery => ({ flow, across: flow, losses, notCounted })
  if (gaps || problems.length > 0)
    return without({ missing: gaps?.missing ?? [], problems: [...(gaps?.problems ?? []), ...problems] })
  const [volts, rail] = [facts.volts, facts.railAcrossPump] as [Known, Known]
  const curve: PumpCurve = { points, ratedVoltage: pump!.ratedVoltage!.value, exponent: pump!.voltageExponent! }
  if (volts.value < LEAST_VOLTS)
    return without(known(0, 0, `Below ${LEAST_VOLTS} V no pump runs: ${volts.value.toFixed(2)} V.`))
  // With the regulator in the tank the line to the rail carries only what is burnt.
  const burnt = [facts.target, facts.consumption, facts.hotDensity]
  const [power, consumption, density] = burnt.filter(isKnown).map(({ value }) => value)
  const inFeed = (flow: number): number =>
    regulatedInTank(facts) && power !== undefined && consumption !== undefined && density !== undefined
      ? Math.min(flow, (power * consumption) / density)
      : flow
  const solve = (at: number, railThere: number, filterThere: number) =>
    delivered(
      curve,
      at,
      (flow) =>
        railThere +
        filterThere +
        counted.reduce((sum, loss) => {
          if (loss.gaps.length > 0) return sum
          return sum + loss.pressure(loss === losses.feed ? inFeed(flow) : flow)
        }, 0),
    )
  try {
    const filter: Known = measuredFilter ?? known(0)
    const met = solve(volts.value, rail.value, filter.value)
    if ('beyond' in met)
      return without(
        lacking(
          `a point of the pump’s curve at or ${met.beyond === 'above' ? 'beyond' : 'below'} ${(met.pressure / 1e5).toFixed(2)} bar`,
        ),
      )
    const sorted = [...points].sort((a, b) => a[0] - b[0])
    const [low, high] = [sorted[met.between[0]]!, sorted[met.between[1]]!]
    const given = {
      firstPressure: low[0],
      firstFlow: low[1],
      secondPressure: high[0],
      secondFlow: high[1],
      ratedVoltage: curve.ratedVoltage,
      pressure: met.pressure,
      voltage: volts.value,
      exponent: curve.exponent,
    }
    const part = (read: (met: { flow: number; pressure: number }) => number) => {
      const datum = combine(
        [volts, rail, filter],
        (a = 0, b = 0, c = 0) => {
          const there = solve(a, b, c)
          return 'beyond' in there ? Number.NaN : read(there)
        },
        '',
      )
      return isKnown(datum) && Number.isFinite(datum.plusMinus) ? datum.plusMinus : 0
    }
    const lines = () => [
      ...workingLines(working(pumpFlow, given)),
      `Pressure across the pump ${(met.pressure / 1e5).toFixed(3)} bar: rail${facts.fuel.railReference === 'manifold' ? ' and boost' : ''} ${(rail.value / 1e5).toFixed(2)} bar, losses on the way ${((met.pressure - rail.value) / 1e5).toFixed(3)} bar at the flow where pump and system agree.`,
      ...(notCounted.length > 0 ? [`Losses not counted, for want of ${[...new Set(notCounted)].join(', ')}.`] : []),
      ...(rail.working ?? []),
      ...volts.working,
    ]
    const lazily = (value: number, plusMinus: number): Datum =>
      Object.defineProperty({ value, plusMinus }, 'working', { get: lines, enumerable: true }) as unknown as Known
    return {
      flow: lazily(
        met.flow,
        part(({ flow }) => flow),
      ),
      across: lazily(
        met.pressure,
        part(({ pressure }) => pressure),
      ),
      losses,
      notCounted,
    }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return without({ missing: [], problems: error.problems })
  }
}
