/** Diodes and resistors that stand in the loom. */
import type { Device } from '../../model/build.ts'
import { endpointOf } from '../make.ts'
import { twoPins } from '../pins.ts'
import { type Binder, CONTACT } from './binder.ts'

/** V. Common practice, no published source. */
const SILICON = 0.7

type Spec<K extends Device['spec']['kind']> = Extract<Device['spec'], { kind: K }>

export const bindDiode = (binder: Binder, device: Device, spec: Spec<'diode'>): void => {
  const { id } = device
  const two = twoPins(device)
  if (!two) {
    binder.lack(`devices/${id}`, 'two pins')
    return
  }
  if (!spec.forwardVoltage) binder.assume(id, 'forward voltage 0.7 V')
  const [a, b] = two.map((pin) => binder.nodeOf(endpointOf(id, pin))) as [string, string]
  binder.put({
    id,
    type: 'diode',
    a,
    b,
    forwardVoltage: spec.forwardVoltage?.value ?? SILICON,
    onResistance: CONTACT,
  })
}

export const bindResistor = (binder: Binder, device: Device, spec: Spec<'resistor'>): void => {
  const { id } = device
  const two = twoPins(device)?.map((pin) => binder.nodeOf(endpointOf(id, pin))) as [string, string] | undefined
  if (!two || !spec.resistance) {
    binder.lack(`devices/${id}`, 'resistance', two)
    return
  }
  binder.resistor(id, two[0], two[1], spec.resistance.value)
}
