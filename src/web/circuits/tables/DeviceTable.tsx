/** The devices of a circuit, their main figure edited in place, the volts at their pins in the chosen case beside. */
import { useState } from 'react'
import type { Build, Device, Wire } from '../../../model/build.ts'
import { measureText } from '../../parts/quantityText.ts'
import { type Live, voltsAtText } from '../drawing/live.ts'
import { deviceColumns, figureOf, keptFor, MAIN_FIGURE, removeDevice, setDevice, setFigure, write } from '../edits.ts'
import { Cell } from './Cell.tsx'
import { moveByKey } from './moveByKey.ts'
import { PasteNote } from './PasteNote.tsx'
import { type Pasted, planPaste } from './paste.ts'

interface Props {
  readonly build: Build
  readonly devices: readonly Device[]
  readonly wires: readonly Wire[]
  readonly live: Live | undefined
  readonly shown: string | undefined
}

/** Of the pins that this circuit reaches: a controller has dozens of others. All pins of a splice are one point. */
const pinVolts = (device: Device, wires: readonly Wire[], live: Live | undefined): string => {
  const here = new Set(wires.flatMap(({ from, to }) => [from, to]))
  const pins = Object.keys(device.pins).filter((pin) => here.has(`${device.id}.${pin}`))
  if (device.spec.kind === 'splice' && pins[0] !== undefined && live)
    return voltsAtText(live, `${device.id}.${pins[0]}`)
  return pins.map((pin) => `${pin}\u00a0${live ? voltsAtText(live, `${device.id}.${pin}`) : 'unknown'}`).join(', ')
}

export function DeviceTable({ build, devices, wires, live, shown }: Props) {
  const [waiting, setWaiting] = useState<Pasted>()
  const zones = Object.values(build.collections.zones)
  const take = (pasted: Pasted): void => {
    const cells = `${pasted.taken} pasted ${pasted.taken === 1 ? 'cell' : 'cells'}`
    if (pasted.changes.length > 0) write(build, `Devices: ${cells}`, () => pasted.changes)
    setWaiting(undefined)
  }
  const paste = (row: number, column: number, block: readonly (readonly string[])[]): void => {
    const pasted = planPaste(build, block, {
      collection: 'devices',
      items: devices,
      columns: deviceColumns(build),
      row,
      column,
    })
    if (pasted.bad.length > 0) setWaiting(pasted)
    else take(pasted)
  }
  return (
    <>
      {waiting && <PasteNote pasted={waiting} take={() => take(waiting)} leave={() => setWaiting(undefined)} />}
      <table className="folds devices" onKeyDown={moveByKey}>
        <caption>Devices</caption>
        <thead>
          <tr>
            {['Device', 'Kind', 'Zone', 'Figure', 'Volts at its pins'].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
            <th scope="col">
              <span className="out-of-sight">Remove</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {devices.map((device, row) => {
            const main = MAIN_FIGURE[device.spec.kind]
            return (
              <tr key={device.id} id={`devices-${device.id}`} className={shown === device.id ? 'shown' : undefined}>
                <th scope="row" data-label="Device">
                  {device.restricted === undefined ? (
                    <Cell
                      label={`Name of ${device.id}`}
                      text={device.name}
                      row={row}
                      column={0}
                      keep={(text) => setDevice(build, device, 'name', text)}
                      paste={(block) => paste(row, 0, block)}
                    />
                  ) : (
                    `${device.name} (${device.restricted}: never altered here)`
                  )}
                </th>
                <td data-label="Kind">{device.spec.kind}</td>
                <td data-label="Zone">
                  <select
                    aria-label={`Zone of ${device.name}`}
                    className="cell"
                    data-cell={`${row}:1`}
                    value={device.zone ?? ''}
                    disabled={device.restricted !== undefined}
                    onChange={(event) => setDevice(build, device, 'zone', event.target.value)}
                  >
                    <option value="">not said</option>
                    {zones.map((zone) => (
                      <option key={zone.id} value={zone.id}>
                        {zone.name}
                      </option>
                    ))}
                  </select>
                </td>
                <td data-label={main?.word ?? 'Figure'}>
                  {main === undefined || device.restricted !== undefined ? (
                    ''
                  ) : (
                    <Cell
                      label={`${device.name}, ${main.word}`}
                      text={measureText(main.kind, figureOf(device))}
                      row={row}
                      column={2}
                      keep={(text) => setFigure(build, device, text)}
                      paste={(block) => paste(row, 2, block)}
                    />
                  )}
                </td>
                <td data-label="Volts">{pinVolts(device, wires, live)}</td>
                <td data-label="">
                  {keptFor(build, device) === undefined ? (
                    <button
                      type="button"
                      aria-label={`Remove ${device.name} with its wires`}
                      onClick={() => removeDevice(build, device)}
                    >
                      Remove
                    </button>
                  ) : (
                    `${keptFor(build, device)}: never altered here`
                  )}
                </td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </>
  )
}
