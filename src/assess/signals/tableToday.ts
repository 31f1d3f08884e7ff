/** How far the table that the controller has today is from the curve of the sensor, straight between its rows in volts. */
import { interpolate, type Point } from '../../engineering/signals/table/bestRows.ts'
import type { Entity } from '../../model/build.ts'
import { own } from '../make.ts'
import type { Known } from './known.ts'
import { electricalAt, inputVolts, type SensorSheet } from './sensors.ts'

type Calibration = Entity<'calibrations'>

export interface TableToday {
  readonly calibration: Calibration
  /** V at the input, physical SI. */
  readonly rows: readonly Point[]
  /** Table less curve where it is largest, physical SI; signed. */
  readonly worst: number
  /** Physical SI by the curve where it is. */
  readonly at: number
  readonly points: readonly { readonly value: number; readonly error: number }[]
}

const GRID = 61

export const calibrationOf = ({ build }: Known, { input }: Pick<SensorSheet, 'input'>): Calibration | undefined =>
  input?.calibration === undefined ? undefined : own(build.collections.calibrations, input.calibration)

/** Undefined while table, curve or the input's reference and pull-up are missing. */
export const tableToday = (known: Known, sheet: SensorSheet): TableToday | undefined => {
  const { sensor, input, curve, covers } = sheet
  const calibration = calibrationOf(known, sheet)
  if (!calibration?.table || calibration.table.length < 2 || !curve || !covers) return undefined
  const rows: Point[] = []
  for (const [first, second] of calibration.table) {
    const x = calibration.kind === 'thermistor' ? inputVolts(sensor, input, second) : first
    if (x === undefined) return undefined
    rows.push({ x, y: calibration.kind === 'thermistor' ? first : second })
  }
  rows.sort((a, b) => a.x - b.x)
  const ends = [covers.low, covers.high].map((value) => {
    const electrical = curve.electricalOf(value)
    return electrical === undefined ? undefined : inputVolts(sensor, input, electrical)
  })
  if (ends[0] === undefined || ends[1] === undefined) return undefined
  const [from, to] = [ends[0], ends[1]]
  const points: { value: number; error: number }[] = []
  let [worst, at] = [0, covers.low]
  for (let i = 0; i < GRID; i += 1) {
    const volts = from + ((to - from) * i) / (GRID - 1)
    const electrical = electricalAt(sensor, input, volts)
    const value = electrical === undefined ? undefined : curve.valueOf(electrical)
    if (value === undefined || !Number.isFinite(value)) continue
    const error = interpolate(rows, volts) - value
    points.push({ value, error })
    if (Math.abs(error) > Math.abs(worst)) [worst, at] = [error, value]
  }
  // Below a millionth of the span it is rounding.
  if (Math.abs(worst) < 1e-6 * (covers.high - covers.low)) worst = 0
  return points.length === 0 ? undefined : { calibration, rows, worst, at, points }
}
