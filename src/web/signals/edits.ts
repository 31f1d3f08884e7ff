/** What the buttons of the Signals screen store. */

import { endpointOf } from '../../assess/make.ts'
import type { Designed } from '../../assess/signals/designOf.ts'
import type { Sensor } from '../../assess/signals/sensors.ts'
import { type ControllerTable, rowsInSi } from '../../engineering/signals/table/format.ts'
import type { Build, Edit, Entity } from '../../model/build.ts'
import { freeId } from '../../model/newId.ts'

export const designEdit = ({ record }: Designed): Edit => ({
  label: `Resistors of ${record.name}`,
  changes: [{ collection: 'resistanceSwitches', id: record.id, value: record }],
})

export const sensorEdit = (sensor: Sensor, label: string): Edit => ({
  label,
  changes: [{ collection: 'sensors', id: sensor.id, value: sensor }],
})

/** The table as what the controller has from now on: a calibration, and the input that names it. */
export const tableEdit = (build: Build, sensor: Sensor, table: ControllerTable, now: string): Edit | undefined => {
  const input = sensor.input === undefined ? undefined : build.collections.inputs[sensor.input]
  if (!input) return undefined
  const id = freeId(`table-${sensor.id}`.slice(0, 44), build.collections.calibrations)
  const calibration: Entity<'calibrations'> = {
    id,
    name: `${sensor.name}, ${table.rows.length} rows`.slice(0, 160),
    kind: 'controller table',
    table: rowsInSi(table).map(({ x, y }): [number, number] => [x, y]),
    source: `Chosen on the Signals bench${table.source === undefined ? '' : `. ${table.source}`}`,
    when: now,
  }
  return {
    label: `Table of ${sensor.name} typed into the controller`,
    changes: [
      { collection: 'calibrations', id, value: calibration },
      { collection: 'inputs', id: input.id, value: { ...input, calibration: id } },
    ],
  }
}

/** A voltage measured at the pin on the car. */
export const checkedEdit = (
  build: Build,
  input: Entity<'inputs'>,
  volts: number,
  plusMinus: number | undefined,
  now: string,
): Edit => {
  const id = freeId(`V-${input.id}`.slice(0, 44), build.collections.readings)
  const reading: Entity<'readings'> = {
    id,
    subject: `inputs/${input.id}`,
    quantity: 'voltage',
    value: volts,
    ...(plusMinus === undefined ? {} : { plusMinus }),
    at: endpointOf(input.device, input.pin),
    when: now,
    provenance: { method: 'measured at the pin, typed on the Signals bench' },
  }
  return {
    label: `Measured at ${reading.at}`,
    changes: [{ collection: 'readings', id, value: reading }],
  }
}
