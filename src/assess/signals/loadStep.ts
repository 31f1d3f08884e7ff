/** By how much each sensor's reading should step when a load is switched, from the solved voltages of its return. */
import type { Build } from '../../model/build.ts'
import { contextOf } from '../context.ts'
import { returnPinOf, sensorErrorsOf } from '../earths/sensorError.ts'
import { endpointOf } from '../make.ts'

export interface SensorStep {
  readonly sensor: string
  readonly name: string
  readonly quantity: string
  /** SI of the difference: reading with the load on, less that with it off. */
  readonly step: number
  /** Where the sensor's return goes, as a person calls it. */
  readonly earth: string | null
}

/** With the engine at idle, else in any running case. Empty where no output fits the load or nothing can be solved. */
export const sensorSteps = (build: Build, load: RegExp): readonly SensorStep[] => {
  const outputs = Object.values(build.collections.outputs).filter(({ name, id }) => load.test(name) || load.test(id))
  const cases = Object.values(build.collections.cases)
  const kase = cases.find(({ engine }) => engine === 'idle') ?? cases.find(({ engine }) => engine === 'cruise')
  if (outputs.length === 0 || !kase) return []
  const errorsWith = (duty: number) => {
    const switched = {
      ...kase,
      outputs: { ...kase.outputs, ...Object.fromEntries(outputs.map(({ id }) => [id, duty])) },
    }
    const context = contextOf({ ...build, collections: { ...build.collections, cases: { [kase.id]: switched } } })
    return { context, rows: sensorErrorsOf(context) }
  }
  const [off, on] = [errorsWith(0), errorsWith(1)]
  return on.rows.flatMap((row): SensorStep[] => {
    const before = off.rows.find(({ sensor }) => sensor === row.sensor)
    const sensor = build.collections.sensors[row.sensor]
    if (!sensor || before?.error == null || row.error === null) return []
    const pin = returnPinOf(on.context, sensor)
    const end = pin === undefined ? undefined : endpointOf(sensor.device, pin)
    const wire = Object.values(build.collections.wires).find(({ from, to }) => from === end || to === end)
    const far = wire && (wire.from === end ? wire.to : wire.from).split('.')[0]!
    return [
      {
        sensor: sensor.id,
        name: sensor.name,
        quantity: sensor.quantity,
        step: row.error - before.error,
        earth: far ? (build.collections.devices[far]?.name ?? far) : null,
      },
    ]
  })
}
