/** Earth studs, fuses, switches and relays: what joins, and at what resistance. */
import type { Device } from '../../model/build.ts'
import { BODY, ENGINE } from '../circuit.ts'
import { endpointOf, own } from '../make.ts'
import { relayPins, twoPins } from '../pins.ts'
import { type Binder, STAND_IN } from './binder.ts'

/** Ω. Common practice, no published source. */
const STUD = 0.5e-3
/** Cold resistance of a blade fuse falls about as 1/rating: 7.7 mΩ at 10 A and 1.44 mΩ at 40 A (measured and data sheet, read). */
const FUSE_OHM_AMPERES = 77e-3

type Spec<K extends Device['spec']['kind']> = Extract<Device['spec'], { kind: K }>

export const bindEarthStud = (binder: Binder, device: Device, spec: Spec<'earth-stud'>): void => {
  const { id } = device
  if (spec.on === 'isolated') return
  if (!spec.contactResistance) binder.assume(id, 'stud of 0.5 mΩ')
  for (const pin of Object.keys(device.pins))
    binder.resistor(
      `${id}#${pin}`,
      binder.nodeOf(endpointOf(id, pin)),
      spec.on === 'body' ? BODY : ENGINE,
      spec.contactResistance?.value ?? STUD,
    )
}

export const bindFuse = (binder: Binder, device: Device, spec: Spec<'fuse'>): void => {
  const { id } = device
  const two = twoPins(device)
  if (!two) {
    binder.lack(`devices/${id}`, 'two pins')
    return
  }
  const ohm = spec.coldResistance?.value ?? (spec.rating ? FUSE_OHM_AMPERES / spec.rating.value : undefined)
  if (ohm === undefined) {
    binder.lack(`devices/${id}`, 'rating')
    binder.unsure.add(id)
  }
  const [a, b] = two.map((pin) => binder.nodeOf(endpointOf(id, pin))) as [string, string]
  binder.resistor(id, a, b, ohm ?? STAND_IN)
}

export const bindRelay = (binder: Binder, device: Device, spec: Spec<'relay'>): void => {
  const { lack, lackSwitching, put } = binder
  const { id } = device
  const subject = `devices/${id}`
  const at = (pin: string) => binder.nodeOf(endpointOf(id, pin))
  const { common, make, break: rest, coil } = relayPins(device)
  const [c1, c2] = coil
  if (c1 === undefined || c2 === undefined || common === undefined) {
    lack(subject, 'pins 30, 85 and 86')
    return
  }
  if (!spec.coilResistance) {
    lackSwitching(subject, 'resistance of the coil', [at(c1), at(c2)])
    return
  }
  binder.resistor(`${id}#coil`, at(c1), at(c2), spec.coilResistance.value)
  if (!spec.pullIn) {
    lackSwitching(subject, 'pull-in voltage', [at(c1), at(c2)])
    return
  }
  if (!spec.dropOut) binder.assume(id, 'drop-out at 30 % of pull-in')
  const dropOut = Math.min(spec.dropOut?.value ?? 0.3 * spec.pullIn.value, spec.pullIn.value)
  for (const [pin, normally] of [
    [make, 'open'],
    [rest, 'closed'],
  ] as const)
    if (pin !== undefined)
      put({
        id: `${id}#${pin}`,
        type: 'relayContact',
        a: at(common),
        b: at(pin),
        operatedBy: `${id}#coil`,
        pullIn: spec.pullIn.value,
        dropOut,
        ohm: binder.contact(id, spec.contactResistance),
        normally,
      })
}

export const bindSwitch = (binder: Binder, device: Device, spec: Spec<'switch'>): void => {
  const { id } = device
  const at = (pin: string) => binder.nodeOf(endpointOf(id, pin))
  const position = own(binder.kase.switches, id) ?? spec.rest
  const joined = own(spec.positions, position)
  if (!joined) {
    // A case may name a position that the switch has not: what it would join there is not known.
    const [first, ...others] = Object.keys(device.pins)
    for (const other of others)
      binder.lackSwitching(`devices/${id}`, `contacts of its position “${position}”`, [at(first!), at(other)])
    return
  }
  for (const [index, [a, b]] of joined.entries())
    binder.resistor(`${id}#${index}`, at(a), at(b), binder.contact(id, spec.contactResistance))
}
