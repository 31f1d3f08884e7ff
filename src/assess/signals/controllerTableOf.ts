/** The rows that a controller should have for a sensor: `controller-table/1`, least wrong for the number of rows it takes. */
import { bestRows } from '../../engineering/signals/table/bestRows.ts'
import { CONTROLLER_TABLE, type ControllerTable } from '../../engineering/signals/table/format.ts'
import { sensorTable } from '../../engineering/signals/table/sensorTable.ts'
import { KINDS, type Kind, toUnit } from '../../units/index.ts'
import { refuse } from '../../units/problem.ts'
import { list } from '../make.ts'
import { AROUND } from './inputCircuit.ts'
import { circuitOfSensor, electricalAt, inputVolts, type SensorSheet } from './sensors.ts'

export interface TableWish {
  readonly rows: number
  /** Least change of a row's value in `unit`, such as 1 for whole degrees. */
  readonly valueStep?: number | undefined
  /** V */
  readonly voltageStep?: number | undefined
  readonly unit?: string | undefined
}

const GRID = 241

/** Throws `Refusal`: `missing-input` naming what is not entered, and what `bestRows` and the fault thresholds refuse. */
export const controllerTableOf = (sheet: SensorSheet, wish: TableWish): ControllerTable => {
  const { sensor, input, curve, covers, missing, problems } = sheet
  if (problems[0]) throw refuse(problems[0].code, problems[0].says, problems[0].todo)
  const kind: Kind = sensor.quantity
  const unit = wish.unit ?? sensor.unit ?? KINDS[kind].si
  const lacks = (what: readonly string[]) =>
    refuse('missing-input', `No table for ${sensor.name} without the ${list(what)}.`, `Enter the ${list(what)}.`)
  if (!curve || !covers || !input) throw lacks(missing)
  const common = {
    title: sensor.name,
    name: sensor.name,
    kind,
    unit,
    rows: wish.rows,
    ...(wish.valueStep === undefined ? {} : { valueStep: wish.valueStep }),
    ...(wish.voltageStep === undefined ? {} : { voltageStep: wish.voltageStep }),
    ...(sensor.source === undefined ? {} : { source: sensor.source }),
  }
  if (sensor.form === 'resistance') {
    const circuit = circuitOfSensor(sheet)
    if (!circuit) throw lacks(missing)
    const [one, two] = [curve.electricalOf(covers.low), curve.electricalOf(covers.high)]
    if (one === undefined || two === undefined)
      throw refuse(
        'no-value',
        `The curve of ${sensor.name} does not reach over all that it must cover.`,
        'Take readings at both ends, or narrow what it covers.',
      )
    return sensorTable({
      ...common,
      valueOf: curve.valueOf,
      sensor: { low: Math.min(one, two), high: Math.max(one, two) },
      circuit,
      around: { ...AROUND, contact: sensor.contact?.value ?? 0 },
    })
  }
  const ends = [covers.low, covers.high].map((value) => {
    const electrical = curve.electricalOf(value)
    return electrical === undefined ? undefined : inputVolts(sensor, input, electrical)
  })
  if (ends[0] === undefined || ends[1] === undefined)
    throw lacks(
      input.reference ? [`curve of ${sensor.name} over all that it must cover`] : [`reference of ${input.name}`],
    )
  const [low, high] = [Math.min(ends[0], ends[1]), Math.max(ends[0], ends[1])]
  const step = wish.voltageStep
  // Both ends stay, whatever the step: beyond its last row a table is held.
  const volts =
    step === undefined
      ? Array.from({ length: GRID }, (_, i) => low + ((high - low) * i) / (GRID - 1))
      : [
          ...new Set([
            low,
            ...Array.from({ length: Math.max(0, Math.floor(high / step) - Math.ceil(low / step) + 1) }, (_, i) =>
              Number(((Math.ceil(low / step) + i) * step).toPrecision(12)),
            ),
            high,
          ]),
        ].sort((a, b) => a - b)
  const points = volts.map((x) => ({
    x,
    y: toUnit(kind, unit, curve.valueOf(electricalAt(sensor, input, x) ?? Number.NaN) ?? Number.NaN),
  }))
  // A sheet that is straight between its points is followed without error by as many rows; more say nothing.
  const straight =
    wish.valueStep === undefined ? (sensor.readings ? 2 : (sensor.curve?.length ?? wish.rows)) : wish.rows
  const best = bestRows({
    curve: points,
    rows: Math.min(wish.rows, Math.max(2, straight)),
    ...(wish.valueStep === undefined ? {} : { step: wish.valueStep, beyond: 1 }),
  })
  const size = Math.max(...points.map(({ y }) => Math.abs(y)))
  return {
    format: CONTROLLER_TABLE,
    title: sensor.name,
    x: { name: 'signal voltage', kind: 'voltage', unit: 'V' },
    y: { name: sensor.name, kind, unit },
    rows: best.rows.map(({ x, y }) => ({ x: Number(x.toPrecision(6)), y: Number(y.toPrecision(12)) })),
    // Below a billionth of its size it is rounding.
    largestError: best.largestError < 1e-9 * size ? 0 : best.largestError,
    ...(sensor.source === undefined ? {} : { source: sensor.source }),
  }
}
