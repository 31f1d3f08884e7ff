/** Voltages below and above which a sensor's wire is shorted or open, in the middle of the worst-case gaps. */
import { refuse } from '../../../units/problem.ts'
import type { Interval } from '../interval.ts'
import { readLevels } from '../resistanceSwitch/bands.ts'
import type { InputCircuit } from '../resistanceSwitch/circuit.ts'
import { OPEN, SHORT, type Surroundings } from '../resistanceSwitch/levels.ts'

export interface FaultThresholds {
  /** V, and the first code above. */
  readonly shortBelow: { readonly voltage: number; readonly code: number }
  readonly openAbove: { readonly voltage: number; readonly code: number }
  /** V, the narrower of the two gaps. */
  readonly gap: number
}

/** `sensor` Ω: least and greatest the healthy sensor shows. Throws `Refusal` `no-threshold` where a fault looks like a healthy sensor. */
export function faultThresholds(circuit: InputCircuit, sensor: Interval, around: Surroundings): FaultThresholds {
  const { thresholds } = readLevels(circuit, [
    { name: SHORT, kind: 'short', resistance: { low: 0, high: around.short } },
    { name: 'sensor', kind: 'button', resistance: { low: sensor.low, high: sensor.high + around.contact } },
    { name: OPEN, kind: 'open', resistance: { low: around.insulation, high: Number.POSITIVE_INFINITY } },
  ])
  const [short, open] = [thresholds[0]!, thresholds[1]!]
  const blind = [short, open].find(({ gap }) => gap <= 0)
  if (blind)
    throw refuse(
      'no-threshold',
      `In the worst case “${blind.below}” and “${blind.above}” read alike, so no threshold can tell them apart.`,
      'Narrow the range the sensor must show, or take another pull-up.',
      'range',
    )
  return {
    shortBelow: { voltage: short.voltage, code: short.code },
    openAbove: { voltage: open.voltage, code: open.code },
    gap: Math.min(short.gap, open.gap),
  }
}
