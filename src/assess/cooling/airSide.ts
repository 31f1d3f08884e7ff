/** Air through the radiator: fan at its solved volts, ram of the road speed, loss of the core. */
import { fanSpeed } from '../../engineering/cooling/fanSpeed.ts'
import { radiatorAirFlow } from '../../engineering/cooling/radiatorAirFlow.ts'
import { ramPressure } from '../../engineering/cooling/ramPressure.ts'
import { combine, type Datum, entered, isKnown, known, type Lacking, lacking, step } from '../chain/chain.ts'
import type { CoolingFacts } from './facts.ts'

/** Louvred fins and tubes, 1.6 to 1.8. Common practice, no published source. */
const CORE_EXPONENT = { value: 1.7, plusMinus: 0.1 } as const
const SHEET_DENSITY = 1.204

export interface AirSide {
  readonly ram: Datum
  /** Fan speed over that of its curve. */
  readonly ratio: Datum
  readonly reckoned: Datum
  readonly flow: Datum
  readonly fanPressure: Datum
}

type Point = readonly [pressure: number, flow: number]

/** A curve that no fan has: told with its likely cause. */
const curveProblem = (points: readonly Point[]): Lacking | undefined => {
  const rising = points.slice(1).some(([pressure, flow], i) => pressure >= points[i]![0] || flow === points[i]![1])
  return rising
    ? {
        missing: [],
        problems: [
          {
            code: 'fan-curve-rises',
            path: 'sheets.cooling.fanCurve',
            says: 'The fan curve gives more pressure at more flow, which no fan does over its working range.',
            todo: 'Look whether pressure and flow are swapped, or a point belongs to another voltage.',
          },
        ],
      }
    : undefined
}

export const airSideOf = (facts: CoolingFacts): AirSide => {
  const { cooling, readings, outsideDensity } = facts
  const ram = step(ramPressure, {
    density: outsideDensity,
    speed: entered(cooling.sustainedRoadSpeed, 'road speed of that climb'),
    share: entered(cooling.ramShare, 'share of the dynamic pressure that reaches the core'),
  }).ram
  const ratio = combine(
    [facts.fan.volts, entered(cooling.fanVoltage, 'voltage of the fan curve')],
    (volts = 0, rated = 1) => volts / rated,
    'Fan speed ratio = solved volts / volts of its curve (common practice, some per cent)',
  )
  const points = (cooling.fanCurve ?? [])
    .map(([pressure, flow]): Point => [pressure.value, flow.value])
    .sort((a, b) => a[1] - b[1])
  const problem = points.length < 2 ? lacking('fan curve: two points of pressure and flow') : curveProblem(points)
  const core = cooling.core
  const at = ([pressure, flow]: Point): { flow: Datum; pressure: Datum } => {
    const { newFlow, newPressure } = step(fanSpeed, {
      flow: known(flow),
      pressure: known(pressure),
      power: 0,
      ratio,
      knownDensity: SHEET_DENSITY,
      density: outsideDensity,
    })
    return { flow: newFlow, pressure: newPressure }
  }
  const coreLoss = combine(
    [entered(core?.loss, 'flow and loss of the radiator core'), outsideDensity],
    (loss = 0, rho = 1) => (loss * rho) / SHEET_DENSITY,
    'Loss of the core, by density',
  )
  const between = (low: Point, high: Point): { flow: Datum; fan: Datum } => {
    const [a, b] = [at(low), at(high)]
    return step(radiatorAirFlow, {
      lesserFlow: a.flow,
      lesserPressure: a.pressure,
      greaterFlow: b.flow,
      greaterPressure: b.pressure,
      coreFlow: entered(core?.flow, 'flow and loss of the radiator core'),
      coreLoss,
      exponent: core?.exponent ? entered(core.exponent, '') : known(CORE_EXPONENT.value, CORE_EXPONENT.plusMinus),
      ram,
    })
  }
  const solved = (): { flow: Datum; fan: Datum } => {
    if (problem) return { flow: problem, fan: problem }
    // The piece of the curve in which its own answer lies; beyond the last point that piece is carried on.
    for (let i = 1; i < points.length; i += 1) {
      const found = between(points[i - 1]!, points[i]!)
      const end = at(points[i]!).flow
      if (!isKnown(found.flow) || !isKnown(end) || found.flow.value <= end.value || i === points.length - 1)
        return found
    }
    return { flow: lacking('fan curve'), fan: lacking('fan curve') }
  }
  const { flow: reckoned, fan: fanPressure } = solved()
  return { ram, ratio, reckoned, flow: readings['radiator-air-flow'] ?? reckoned, fanPressure }
}
