/** From a thing in a drawing to the search for its fault, and to the test sheet of its circuit. */
import { Link } from 'wouter'
import type { Build, Device, Wire } from '../../model/build.ts'
import { circuitOfDevice, sheetPlace } from '../testSheets/sheetPlace.ts'

interface Props {
  readonly build: Build
  readonly wire: Wire | undefined
  readonly device: Device | undefined
}

export function FaultLinks({ build, wire, device }: Props) {
  const circuit = wire?.circuit ?? (device && circuitOfDevice(build, device.id))
  return (
    <>
      {device && (device.loads ?? []).length > 0 && (
        <Link to={`/faults/new/${encodeURIComponent(device.id)}`}>Find a fault here</Link>
      )}{' '}
      {circuit !== undefined && <Link to={sheetPlace(circuit)}>Test sheet</Link>}
    </>
  )
}
