/** A sensor of the build as a curve: from readings of this very sensor where there are any, else from its sheet. */
import { backOnCurve, onCurve } from '../../engineering/electrical/earthOffset.ts'
import type { Interval } from '../../engineering/signals/interval.ts'
import { linearSensor } from '../../engineering/signals/linear/linearSensor.ts'
import type { InputCircuit } from '../../engineering/signals/resistanceSwitch/circuit.ts'
import type { Part } from '../../engineering/signals/resistanceSwitch/design.ts'
import {
  bestDividerPullUp,
  type DividerChoice,
  type DividerPoint,
  dividerPoint,
} from '../../engineering/signals/thermistor/divider.ts'
import {
  fitBeta,
  fitSteinhartHart,
  type ThermistorFit,
  type ThermistorReading,
} from '../../engineering/signals/thermistor/fit.ts'
import { tableCurve } from '../../engineering/signals/thermistor/tableCurve.ts'
import type { Entity } from '../../model/build.ts'
import { type Problem, Refusal } from '../../units/problem.ts'
import { own } from '../make.ts'
import { AROUND_WORDS, type BoundCircuit, boundCircuit, type Input, returnPinOf } from './inputCircuit.ts'
import type { Known } from './known.ts'

export type Sensor = Entity<'sensors'>

/** Electrical SI ↔ physical SI. */
export interface SensorCurve {
  readonly from: 'readings' | 'sheet'
  /** How it was drawn through its points, in words. */
  readonly by: string
  valueOf(electrical: number): number | undefined
  electricalOf(value: number): number | undefined
  /** ± of the value, where the data can tell. */
  plusMinusAt?(electrical: number): number | undefined
  /** Physical SI, curve less point, in the order entered. */
  readonly residuals: readonly number[]
  /** Physical SI that its points span. */
  readonly span: Interval
  readonly thermistor?: ThermistorFit
}

export interface SensorSheet {
  readonly sensor: Sensor
  readonly input: Input | undefined
  readonly curve: SensorCurve | undefined
  /** Physical SI that the controller must read. */
  readonly covers: Interval | undefined
  readonly bound: BoundCircuit
  readonly missing: readonly string[]
  readonly assumed: readonly string[]
  readonly problems: readonly Problem[]
}

const spanOf = (values: readonly number[]): Interval => ({ low: Math.min(...values), high: Math.max(...values) })

const thermistorCurve = (readings: readonly ThermistorReading[], from: SensorCurve['from']): SensorCurve => {
  const fit = readings.length >= 3 ? fitSteinhartHart(readings) : fitBeta(readings)
  return {
    from,
    by:
      fit.form === 'beta'
        ? 'B form through two readings'
        : readings.length === 3
          ? 'Steinhart–Hart, exactly through three readings'
          : `Steinhart–Hart, least squares through ${readings.length} readings`,
    valueOf: fit.temperatureOf,
    electricalOf: fit.resistanceOf,
    plusMinusAt: fit.plusMinusAt,
    residuals: fit.residuals,
    span: fit.span,
    thermistor: fit,
  }
}

const fromReadings = ({ form, quantity, readings = [] }: Sensor): SensorCurve => {
  if (form === 'resistance' && quantity === 'temperature')
    return thermistorCurve(
      readings.map(({ value, shows, valuePlusMinus, showsPlusMinus }) => ({
        temperature: value,
        resistance: shows,
        ...(valuePlusMinus === undefined ? {} : { temperaturePlusMinus: valuePlusMinus }),
        ...(showsPlusMinus === undefined ? {} : { resistancePlusMinus: showsPlusMinus }),
      })),
      'readings',
    )
  const line = linearSensor(
    readings.map(({ value, shows, valuePlusMinus }) => ({
      input: shows,
      value,
      ...(valuePlusMinus === undefined ? {} : { plusMinus: valuePlusMinus }),
    })),
  )
  return {
    from: 'readings',
    by:
      readings.length === 2
        ? 'straight line through two readings'
        : `straight line through ${readings.length} readings`,
    valueOf: line.valueOf,
    electricalOf: line.inputOf,
    plusMinusAt: line.plusMinusAt,
    residuals: line.residuals,
    span: spanOf(readings.map(({ value }) => value)),
  }
}

const fromSheet = ({ form, quantity, curve = [] }: Sensor): SensorCurve => {
  const span = spanOf(curve.map(([, value]) => value))
  const residuals = curve.map(() => 0)
  if (form === 'resistance' && quantity === 'temperature') {
    const rows = curve.map(([resistance, temperature]) => ({ temperature, resistance }))
    if (rows.length < 3) return thermistorCurve(rows, 'sheet')
    const table = tableCurve(rows)
    return {
      from: 'sheet',
      by: 'through every row of its table, ln R against 1/T',
      valueOf: table.temperatureOf,
      electricalOf: table.resistanceOf,
      residuals,
      span,
    }
  }
  return {
    from: 'sheet',
    by: 'straight between the points of its sheet',
    valueOf: (electrical) => onCurve(curve, electrical),
    electricalOf: (value) => backOnCurve(curve, value),
    residuals,
    span,
  }
}

/** From readings where there are any, else from the sheet. Throws `Refusal` as its fits do. */
export const curveOf = (sensor: Sensor): SensorCurve => {
  const curve = sensor.readings ? fromReadings(sensor) : fromSheet(sensor)
  // A curve drawn exactly through its points misses them by rounding alone.
  const nothing = 1e-9 * (curve.span.high - curve.span.low)
  return { ...curve, residuals: curve.residuals.map((each) => (Math.abs(each) <= nothing ? 0 : each)) }
}

export const sensorSheet = (known: Known, sensor: Sensor): SensorSheet => {
  const input = sensor.input === undefined ? undefined : own(known.build.collections.inputs, sensor.input)
  const bound = boundCircuit(
    known,
    sensor.name,
    input,
    { ratiometric: true },
    { device: sensor.device, pin: returnPinOf(known, sensor.device, sensor.returnPin, input) },
  )
  const base = {
    sensor,
    input,
    bound,
    assumed:
      sensor.form === 'resistance'
        ? ['The pull-up is fed from the converter’s own reference, as in most controllers.', AROUND_WORDS]
        : [],
  }
  // Only a resistance stands behind a pull-up; the others ask less of the input.
  const ofCircuit =
    sensor.form === 'resistance'
      ? bound.missing
      : bound.missing.filter(
          (datum) => !/^(pull-up|tolerance of the pull-up|supply of the pull-up|leakage) of /.test(datum),
        )
  if (!sensor.readings && !sensor.curve)
    return {
      ...base,
      curve: undefined,
      covers: sensor.covers && { low: sensor.covers[0], high: sensor.covers[1] },
      missing: [`curve or readings of ${sensor.name}`, ...ofCircuit],
      problems: [],
    }
  try {
    const curve = curveOf(sensor)
    const covers = sensor.covers ? { low: sensor.covers[0], high: sensor.covers[1] } : curve.span
    return { ...base, curve, covers, missing: ofCircuit, problems: [] }
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    return { ...base, curve: undefined, covers: undefined, missing: ofCircuit, problems: error.problems }
  }
}

/** Nominal V at the input for an electrical figure of the sensor; undefined without pull-up or reference. */
export const inputVolts = (sensor: Sensor, input: Input | undefined, electrical: number): number | undefined => {
  if (sensor.form === 'voltage') return electrical
  const reference = input?.reference?.value
  if (reference === undefined) return undefined
  if (sensor.form === 'ratio of supply') return electrical * reference
  const pullUp = input?.pullUp?.value
  return pullUp === undefined ? undefined : (reference * electrical) / (pullUp + electrical)
}
/** And back. */
export const electricalAt = (sensor: Sensor, input: Input | undefined, volts: number): number | undefined => {
  if (sensor.form === 'voltage') return volts
  const reference = input?.reference?.value
  if (reference === undefined) return undefined
  if (sensor.form === 'ratio of supply') return volts / reference
  const pullUp = input?.pullUp?.value
  return pullUp === undefined || volts >= reference ? undefined : (pullUp * volts) / (reference - volts)
}

/** Whole worst-case circuit of a sensor; the earth offset must be known. */
export const circuitOfSensor = ({ bound }: SensorSheet): InputCircuit | undefined =>
  bound.circuit && bound.offset && { ...bound.circuit, earthOffset: bound.offset.interval }

const wholeCurve = (curve: SensorCurve) => ({
  temperatureOf: (resistance: number) => curve.valueOf(resistance) ?? Number.NaN,
  resistanceOf: (temperature: number) => curve.electricalOf(temperature) ?? Number.NaN,
  ...(curve.plusMinusAt ? { plusMinusAt: curve.plusMinusAt } : {}),
})

/** A thermistor's errors and resolution, evenly over what it covers; empty while a figure is missing. */
export const thermistorRange = (sheet: SensorSheet, count: number): DividerPoint[] => {
  const { curve, covers, sensor } = sheet
  const circuit = circuitOfSensor(sheet)
  if (!curve || !covers || !circuit || sensor.form !== 'resistance' || sensor.quantity !== 'temperature') return []
  const whole = wholeCurve(curve)
  return Array.from({ length: count }, (_, i) =>
    dividerPoint(
      whole,
      circuit,
      covers.low + ((covers.high - covers.low) * i) / (count - 1),
      sensor.contact?.value ?? 0,
      sensor.dissipation,
    ),
  )
}

/** The pull-up with which the coarsest step over the range is finest; undefined while a figure is missing. */
export const finestPullUp = (sheet: SensorSheet, candidates: readonly Part[]): DividerChoice | undefined => {
  const { curve, covers, sensor } = sheet
  const circuit = circuitOfSensor(sheet)
  if (!curve || !covers || !circuit || sensor.form !== 'resistance' || sensor.quantity !== 'temperature')
    return undefined
  const { pullUp: _there, ...rest } = circuit
  return bestDividerPullUp(wholeCurve(curve), rest, covers, candidates, 'resolution')
}
