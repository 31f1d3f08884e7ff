/** What the earth under each sensor does to its reading, case by case, in the sensor's own unit. */
import { backOnCurve, misread, onCurve } from '../../engineering/electrical/earthOffset.ts'
import type { Entity } from '../../model/build.ts'
import { formatQuantity, type Kind } from '../../units/index.ts'
import type { Context } from '../context.ts'
import { endpointOf, own } from '../make.ts'
import { controllerPins } from '../pins.ts'

export type Sensor = Entity<'sensors'>

export interface SensorErrorRow {
  readonly sensor: string
  readonly device: string
  readonly case: string
  readonly caseName: string
  /** V of the sensor's return above the controller's sensor earth; null: not solved. */
  readonly offset: number | null
  /** SI of the difference, signed: read minus true; null where it cannot be told. */
  readonly error: number | null
  /** Physical SI at which the error was taken. */
  readonly at: number
  /** `+ 41 kPa at 400 kPa`. */
  readonly words: string
}

/** Below this the solver's figures for the pins of unloaded sensors are rounding. */
const NOTHING = 1e-6

const DIFFERENCE: Partial<Record<Kind, Kind>> = {
  pressureAbsolute: 'pressureDifference',
  pressureGauge: 'pressureDifference',
  temperature: 'temperatureDifference',
}

/** An error in the unit the builder reads the sensor in. A temperature difference is in kelvin and printed as such. */
export const errorWords = (sensor: Sensor, error: number): string => {
  const kind = DIFFERENCE[sensor.quantity] ?? sensor.quantity
  const size = formatQuantity(kind, Math.abs(error), {
    digits: 2,
    ...(sensor.unit === undefined || kind === 'temperatureDifference' ? {} : { unit: sensor.unit }),
  })
  return `${error < 0 ? '−' : '+'}${size}`
}
export const readingWords = (sensor: Sensor, value: number): string =>
  formatQuantity(sensor.quantity, value, sensor.unit === undefined ? {} : { unit: sensor.unit })

/** Pin that the sensor returns by: as entered, else by number or name. */
export const returnPinOf = (context: Context, sensor: Sensor): string | undefined => {
  const device = own(context.build.collections.devices, sensor.device)
  if (!device) return undefined
  return (
    sensor.returnPin ??
    Object.entries(device.pins).find(
      ([pin, { name }]) => pin === '-' || pin === '31' || /return|sensor earth/i.test(name ?? ''),
    )?.[0]
  )
}

/** Pin against which a controller reads: its sensor earth, else its power earth. */
const zeroPinOf = ({ build }: Context, controller: string): string | undefined => {
  const device = own(build.collections.devices, controller)
  if (!device) return undefined
  const { sensorEarth, earths } = controllerPins(device)
  return sensorEarth[0] ?? earths[0]
}

type Curve = NonNullable<Sensor['curve']>
/** Where its error is told: the usual reading as entered, else the middle of its curve. */
const readingAt = (sensor: Sensor, curve: Curve): number => {
  const physical = curve.map(([, y]) => y)
  return sensor.usual ?? (Math.min(...physical) + Math.max(...physical)) / 2
}
const electricalAt = (sensor: Sensor, curve: Curve): number | undefined => backOnCurve(curve, readingAt(sensor, curve))

/** What a sensor lacks before its error can be told. */
export const sensorGaps = (context: Context, sensor: Sensor): string[] => {
  const input = sensor.input === undefined ? undefined : own(context.build.collections.inputs, sensor.input)
  return [
    ...(sensor.curve ? [] : ['curve']),
    ...(input ? [] : ['controller input that reads it']),
    ...(input && sensor.form !== 'voltage' && !input.reference ? ['reference voltage of its input'] : []),
    ...(input && sensor.form === 'resistance' && !input.pullUp ? ['pull-up of its input'] : []),
    ...(returnPinOf(context, sensor) === undefined ? ['pin it returns by'] : []),
    ...(input && zeroPinOf(context, input.device) === undefined ? ['sensor earth pin of its controller'] : []),
    ...(sensor.curve && electricalAt(sensor, sensor.curve) === undefined ? ['usual reading within its curve'] : []),
  ]
}

/** Every sensor with a whole curve, in every solved case that powers the car, largest error first. */
export const sensorErrorsOf = (context: Context): SensorErrorRow[] => {
  const { build, cases } = context
  const rows: SensorErrorRow[] = []
  for (const sensor of Object.values(build.collections.sensors)) {
    const { curve, form } = sensor
    const input = sensor.input === undefined ? undefined : own(build.collections.inputs, sensor.input)
    const pin = returnPinOf(context, sensor)
    const controller = input && own(build.collections.devices, input.device)
    if (!curve || !input || pin === undefined || !controller || sensorGaps(context, sensor).length > 0) continue
    const zeroPin = zeroPinOf(context, controller.id)
    const at = readingAt(sensor, curve)
    const electrical = electricalAt(sensor, curve)
    if (zeroPin === undefined || electrical === undefined) continue
    for (const solved of cases) {
      const { kase } = solved
      // A jump start at over-voltage lasts seconds, and nobody tunes by it.
      if (!solved.solved || kase.battery === 'reversed' || kase.supply) continue
      const [there, here] = [
        solved.voltages[endpointOf(sensor.device, pin)],
        solved.voltages[endpointOf(controller.id, zeroPin)],
      ]
      const offset = there == null || here == null ? null : there - here
      let error: number | null = null
      if (offset !== null) {
        const taken = misread(form, electrical, offset, input.reference?.value ?? 1, input.pullUp?.value ?? 0)
        error = Math.abs(offset) < NOTHING ? 0 : Number.isFinite(taken) ? onCurve(curve, taken) - at : null
      }
      rows.push({
        sensor: sensor.id,
        device: sensor.device,
        case: solved.case,
        caseName: kase.name,
        offset,
        error,
        at,
        words: error === null ? 'not known' : `${errorWords(sensor, error)} at ${readingWords(sensor, at)}`,
      })
    }
  }
  return rows.sort((a, b) => Math.abs(b.error ?? 0) - Math.abs(a.error ?? 0))
}

/** Share of the curve's span that counts; common practice, no published source. */
const MARGINAL_SHARE = 0.01
const NO_GO_SHARE = 0.05

export interface SensorLimit {
  readonly marginal: number
  readonly noGo: number
  readonly from: string
}
export const limitsOf = (sensor: Sensor): SensorLimit => {
  const physical = (sensor.curve ?? []).map(([, y]) => y)
  const span = Math.max(...physical) - Math.min(...physical)
  return sensor.allowedError === undefined
    ? {
        marginal: MARGINAL_SHARE * span,
        noGo: NO_GO_SHARE * span,
        from: 'marginal from 1 %, no-go from 5 % of the span of its curve: common practice, no published source',
      }
    : {
        marginal: sensor.allowedError / 2,
        noGo: sensor.allowedError,
        from: 'marginal from half the error entered as allowed, no-go from all of it',
      }
}
