/** Batteries, jump sources and alternators. */
import { coldResistance } from '../../engineering/electrical/coldBattery.ts'
import type { Device } from '../../model/build.ts'
import { ENGINE } from '../circuit.ts'
import { celsius, endpointOf } from '../make.ts'
import { alternatorPins, batteryPins } from '../pins.ts'
import { acceptanceOf } from './acceptance.ts'
import { type Binder, BOLTED_CASE, runs } from './binder.ts'

/** Ω. Common practice, no published source. */
const JUMP_SOURCE = 10e-3
/** Ω. Rotor of an unexcited alternator seen from D+ (from memory). */
const ROTOR = 4

type Spec<K extends Device['spec']['kind']> = Extract<Device['spec'], { kind: K }>

export const bindBattery = (binder: Binder, device: Device, spec: Spec<'battery'>): void => {
  const { kase, nodeOf, put, lack } = binder
  const { id } = device
  const subject = `devices/${id}`
  const at = (pin: string) => nodeOf(endpointOf(id, pin))
  const { positive, negative } = batteryPins(device)
  if (positive === undefined || negative === undefined) {
    lack(subject, 'pins for positive and negative')
    return
  }
  if (kase.supply !== undefined) {
    put({
      id: `${id}#supply`,
      type: 'battery',
      a: at(positive),
      b: at(negative),
      emf: kase.supply.value,
      internalResistance: JUMP_SOURCE,
    })
    binder.assume(id, 'jump source of 10 mΩ with its cables')
  }
  if (kase.battery === 'disconnected') return
  if (!spec.restedVoltage) {
    lack(subject, 'rested voltage')
    return
  }
  if (!spec.internalResistance) {
    lack(subject, 'internal resistance')
    return
  }
  const reversed = kase.battery === 'reversed'
  // What is cranked is as cold as the morning, and so is the battery; the figure entered is that of a warm one.
  const cold = kase.engine === 'cranking' ? kase.ambient?.value : undefined
  const inner =
    cold === undefined
      ? spec.internalResistance.value
      : coldResistance(spec.internalResistance.value, spec.coldCranking?.value, cold, 1)
  if (cold !== undefined && inner > spec.internalResistance.value * 1.01)
    binder.assume(id, `inner resistance of ${Number((inner * 1e3).toPrecision(2))} mΩ at ${celsius(cold)}`)
  const charging = runs(kase) && kase.alternator !== 'off'
  const acceptance = charging ? acceptanceOf(binder, device, spec) : undefined
  put({
    id,
    type: 'battery',
    a: at(reversed ? negative : positive),
    b: at(reversed ? positive : negative),
    emf: spec.restedVoltage.value,
    internalResistance: inner,
    // Without its figure the battery is left to neither take nor mask any current; the case is then unsure.
    ...(charging ? { acceptance: acceptance ?? 0 } : {}),
  })
}

export const bindAlternator = (binder: Binder, device: Device, spec: Spec<'alternator'>): void => {
  const { kase, nodeOf, put, lack, resistor } = binder
  const { id } = device
  const subject = `devices/${id}`
  const at = (pin: string) => nodeOf(endpointOf(id, pin))
  const { output, lamp, case: pin } = alternatorPins(device)
  if (output === undefined) {
    lack(subject, 'an output pin B+')
    return
  }
  const frame = pin === undefined ? `${id}.#case` : at(pin)
  resistor(`${id}#frame`, frame, ENGINE, BOLTED_CASE)
  if (kase.alternator === 'off') {
    if (lamp !== undefined) resistor(`${id}#rotor`, at(lamp), frame, ROTOR)
    return
  }
  // The hot output, for an alternator in a warm engine bay gives less than its plate says.
  const limit = kase.alternator === 'idle' ? spec.hotOutputIdle : spec.hotOutputCruise
  if (!spec.setpoint) lack(subject, 'set voltage')
  if (!spec.internalResistance) lack(subject, 'internal resistance')
  if (!limit) lack(subject, kase.alternator === 'idle' ? 'hot output at idle' : 'hot output at cruise')
  if (lamp !== undefined) resistor(`${id}#lamp`, at(lamp), at(output), 0.1)
  if (!spec.setpoint || !spec.internalResistance || !limit) return
  put({
    id,
    type: 'alternator',
    a: at(output),
    b: frame,
    setpoint: spec.setpoint.value,
    internalResistance: spec.internalResistance.value,
    limit: limit.value,
  })
}
