/**
 * From a sensor that is a resistance to the table typed into the controller: best rows over its range, how wrong they are,
 * and the voltages beyond which the wire is shorted or open.
 */
import { type Kind, toUnit } from '../../../units/index.ts'
import { refuse } from '../../../units/problem.ts'
import type { Interval } from '../interval.ts'
import type { InputCircuit } from '../resistanceSwitch/circuit.ts'
import type { Surroundings } from '../resistanceSwitch/levels.ts'
import { bestRows, type Point } from './bestRows.ts'
import { faultThresholds } from './faultThresholds.ts'
import { CONTROLLER_TABLE, type ControllerTable } from './format.ts'

export interface SensorTableQuestion {
  readonly title: string
  /** Of what the sensor shows. */
  readonly name: string
  readonly kind: Kind
  readonly unit: string
  /** SI value at a resistance in Ω. */
  valueOf(resistance: number): number | undefined
  /** Ω: what the healthy sensor shows over the range the table covers. */
  readonly sensor: Interval
  readonly circuit: InputCircuit
  readonly around: Surroundings
  /** Most rows the controller takes. */
  readonly rows: number
  /** Least change of a row's voltage, V, and of its value, in `unit`; left out: any. */
  readonly voltageStep?: number
  readonly valueStep?: number
  readonly source?: string
}

const GRID = 241
const middle = ({ low, high }: Interval): number => (low + high) / 2

/** Largest error is that on the grid: 241 voltages, or every voltage the controller takes. Throws `Refusal` as its parts do. */
export function sensorTable(question: SensorTableQuestion): ControllerTable {
  const { circuit, sensor, voltageStep, valueStep } = question
  const pullUp = middle(circuit.pullUp)
  const supply = middle(circuit.supply)
  const voltageAt = (resistance: number): number => (supply * resistance) / (pullUp + resistance)
  const [low, high] = [voltageAt(sensor.low), voltageAt(sensor.high)]
  const voltages =
    voltageStep === undefined
      ? Array.from({ length: GRID }, (_, i) => low + ((high - low) * i) / (GRID - 1))
      : Array.from({ length: Math.max(0, Math.floor(high / voltageStep) - Math.ceil(low / voltageStep) + 1) }, (_, i) =>
          // Text rounds the product to the double a person would type: 3 × 0.1 is not 0.3.
          Number(((Math.ceil(low / voltageStep) + i) * voltageStep).toPrecision(12)),
        )
  if (voltages.length < 2 || voltages.length > 1100)
    throw refuse(
      'out-of-range',
      `A step of ${voltageStep} V gives ${voltages.length} voltages between ${low.toPrecision(3)} V and ${high.toPrecision(3)} V.`,
      'Enter the step of the controller’s table cells, such as 0.01 V.',
      'voltageStep',
    )
  const curve = voltages.map((x): Point => {
    const resistance = (pullUp * x) / (supply - x)
    const value = question.valueOf(Math.min(sensor.high, Math.max(sensor.low, resistance)))
    if (value === undefined)
      throw refuse(
        'no-value',
        `The sensor’s curve says nothing at ${resistance.toPrecision(4)} Ω.`,
        'Keep the table within the readings, or take more readings.',
        'sensor',
      )
    return { x, y: toUnit(question.kind, question.unit, value) }
  })
  const best = bestRows({
    curve,
    rows: question.rows,
    ...(valueStep === undefined ? {} : { step: valueStep, beyond: 1 }),
  })
  const faults = faultThresholds(circuit, sensor, question.around)
  return {
    format: CONTROLLER_TABLE,
    title: question.title,
    x: { name: 'signal voltage', kind: 'voltage', unit: 'V' },
    y: { name: question.name, kind: question.kind, unit: question.unit },
    rows: best.rows.map(({ x, y }) => ({ x, y: Number(y.toPrecision(12)) })),
    largestError: best.largestError,
    shortBelow: faults.shortBelow.voltage,
    openAbove: faults.openAbove.voltage,
    ...(question.source === undefined ? {} : { source: question.source }),
  }
}
