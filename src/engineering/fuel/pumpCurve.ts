/** A pump's own curve against the system it pumps into: faults of the curve, and the flow at which both agree. */
import type { Problem } from '../../units/problem.ts'
import { run } from '../calculation.ts'
import { pumpFlow } from './pumpFlow.ts'

export interface PumpCurve {
  /** Pa and m³/s at the rated voltage, any order. */
  readonly points: readonly (readonly [pressure: number, flow: number])[]
  readonly ratedVoltage: number
  /** flow ∝ voltage^exponent. */
  readonly exponent: number
}

const bar = (pressure: number): string => `${(pressure / 1e5).toFixed(2)} bar`
const litres = (flow: number): string => `${(flow * 3.6e6).toFixed(1)} l/h`

/** A pump gives less the harder it is pressed: what says otherwise is a slip of the pen, with the likely one named. */
export const curveFaults = (points: PumpCurve['points']): readonly Problem[] => {
  const problems: Problem[] = []
  const sorted = [...points].sort((a, b) => a[0] - b[0])
  sorted.forEach(([pressure, flow], index) => {
    if (pressure < 0 || flow < 0)
      problems.push({
        code: 'negative-point',
        says: `The pump’s curve has a point of ${bar(pressure)} and ${litres(flow)}.`,
        todo: 'Enter pressures across the pump and flows of 0 or more.',
      })
    const before = sorted[index - 1]
    if (!before) return
    if (before[0] === pressure)
      problems.push({
        code: 'doubled-point',
        says: `The pump’s curve has two flows at ${bar(pressure)}.`,
        todo: 'Keep one: they may belong to two voltages.',
      })
    else if (flow > before[1])
      problems.push({
        code: 'rising-curve',
        says: `The pump’s curve rises with pressure: ${litres(before[1])} at ${bar(before[0])}, ${litres(flow)} at ${bar(pressure)}.`,
        todo: 'Look whether two rows are swapped, or come from two voltages or two pumps.',
      })
  })
  return problems
}

export type Delivered =
  | { readonly flow: number; readonly pressure: number; readonly between: readonly [number, number] }
  | { readonly beyond: 'below' | 'above'; readonly pressure: number }

/** Flow at one pressure. Throws what `run` throws. */
const flowAt = ({ points, ratedVoltage, exponent }: PumpCurve, pressure: number, voltage: number) => {
  const sorted = [...points].sort((a, b) => a[0] - b[0])
  const index = Math.max(
    1,
    sorted.findIndex(([each]) => each >= pressure),
  )
  const [low, high] = [sorted[index - 1]!, sorted[index]!]
  return {
    between: [index - 1, index] as const,
    flow: run(pumpFlow, {
      firstPressure: low[0],
      firstFlow: low[1],
      secondPressure: high[0],
      secondFlow: high[1],
      ratedVoltage,
      exponent,
      pressure,
      voltage,
    }).outputs.flow,
  }
}

/**
 * Flow at which the pump gives what the system takes: `system` is the pressure across the pump at a flow, and must not
 * fall with flow. `beyond` where the curve ends before they meet: its `pressure` is the one that would be needed.
 */
export const delivered = (curve: PumpCurve, voltage: number, system: (flow: number) => number): Delivered => {
  const pressures = curve.points.map(([pressure]) => pressure)
  const [least, most] = [Math.min(...pressures), Math.max(...pressures)]
  const still = system(0)
  if (still > most) return { beyond: 'above', pressure: still }
  let low = 0
  let high = flowAt(curve, Math.max(least, Math.min(still, most)), voltage).flow
  // The pump's flow at the pressure of a still system is the most it can give: friction only lowers it.
  for (let step = 0; step < 60 && high - low > 1e-13; step += 1) {
    const middle = (low + high) / 2
    const pressure = system(middle)
    if (pressure > most || (pressure >= least && flowAt(curve, pressure, voltage).flow < middle)) high = middle
    else low = middle
  }
  const flow = (low + high) / 2
  const pressure = system(flow)
  if (pressure < least) return { beyond: 'below', pressure }
  if (pressure > most) return { beyond: 'above', pressure }
  return { flow, pressure, between: flowAt(curve, pressure, voltage).between }
}
