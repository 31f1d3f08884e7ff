/** The devices of a circuit, their main figure edited in place, the volts at their pins in the chosen case beside. */
import type { Build, Device } from '../../model/build.ts'
import { formatQuantity } from '../../units/index.ts'
import { measureText } from '../parts/quantityText.ts'
import { Cell } from './Cell.tsx'
import { figureOf, MAIN_FIGURE, setDevice, setFigure } from './edits.ts'

interface Props {
  readonly build: Build
  readonly devices: readonly Device[]
  readonly voltages: Readonly<Record<string, number | null>>
  readonly shown: string | undefined
}

const pinVolts = (device: Device, voltages: Props['voltages']): string =>
  Object.keys(device.pins)
    .flatMap((pin) => {
      const volts = voltages[`${device.id}.${pin}`]
      return typeof volts === 'number' ? [`${pin} ${formatQuantity('voltage', volts, { unit: 'V', digits: 4 })}`] : []
    })
    .join(', ') || 'unknown'

export function DeviceTable({ build, devices, voltages, shown }: Props) {
  const zones = Object.values(build.collections.zones)
  return (
    <table className="folds devices">
      <caption>Devices</caption>
      <thead>
        <tr>
          {['Device', 'Kind', 'Zone', 'Figure', 'Volts at its pins'].map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {devices.map((device) => {
          const main = MAIN_FIGURE[device.spec.kind]
          return (
            <tr key={device.id} id={`devices-${device.id}`} className={shown === device.id ? 'shown' : undefined}>
              <th scope="row" data-label="Device">
                {device.restricted === undefined ? (
                  <Cell
                    label={`Name of ${device.id}`}
                    text={device.name}
                    keep={(text) => setDevice(build, device, 'name', text)}
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
                    keep={(text) => setFigure(build, device, text)}
                  />
                )}
              </td>
              <td data-label="Volts">{pinVolts(device, voltages)}</td>
            </tr>
          )
        })}
      </tbody>
    </table>
  )
}
