/** The starter: its solenoid always, its motor while cranking. */
import type { Device } from '../../model/build.ts'
import { ENGINE } from '../circuit.ts'
import { endpointOf } from '../make.ts'
import { starterPins } from '../pins.ts'
import { type Binder, BOLTED_CASE } from './binder.ts'

/** V at which the stalled current is stated. */
const RATED = 12
/** Stalled over cranking current where no stalled one is entered. Common practice, no published source. */
const STALL = 2

export const bindStarter = (
  binder: Binder,
  device: Device,
  spec: Extract<Device['spec'], { kind: 'starter' }>,
): void => {
  const { kase, nodeOf, put, lack, lackSwitching, resistor } = binder
  const { id } = device
  const subject = `devices/${id}`
  const at = (pin: string) => nodeOf(endpointOf(id, pin))
  const { supply, solenoid, case: pin } = starterPins(device)
  const frame = pin === undefined ? `${id}.#case` : at(pin)
  resistor(`${id}#frame`, frame, ENGINE, BOLTED_CASE)
  if (solenoid === undefined || supply === undefined) {
    lack(subject, 'pins 30 and 50')
    return
  }
  if (!spec.solenoidResistance) {
    lackSwitching(subject, 'resistance of the solenoid', [at(solenoid), frame])
    return
  }
  resistor(`${id}#solenoid`, at(solenoid), frame, spec.solenoidResistance.value)
  if (kase.engine !== 'cranking') return
  if (!spec.pullIn) {
    lackSwitching(subject, 'pull-in voltage of the solenoid', [at(solenoid), frame])
    return
  }
  if (!spec.crankingCurrent) {
    lackSwitching(subject, 'cranking current', [at(solenoid), frame])
    return
  }
  if (spec.stallCurrent && spec.stallCurrent.value <= spec.crankingCurrent.value) {
    lackSwitching(subject, 'a stalled current above the cranking one', [at(solenoid), frame])
    return
  }
  put({
    id: `${id}#contact`,
    type: 'relayContact',
    a: at(supply),
    b: `${id}.#motor`,
    operatedBy: `${id}#solenoid`,
    pullIn: spec.pullIn.value,
    dropOut: spec.pullIn.value / 2,
    ohm: 0.5e-3,
    normally: 'open',
  })
  if (!spec.stallCurrent) binder.assume(id, 'stalled, twice the cranking current at 12 V')
  put({
    id: `${id}#motor`,
    type: 'motor',
    a: `${id}.#motor`,
    b: frame,
    ratedVoltage: RATED,
    runningCurrent: spec.crankingCurrent.value,
    stallResistance: RATED / (spec.stallCurrent?.value ?? STALL * spec.crankingCurrent.value),
    // The engine asks for the same torque however slowly it is turned.
    loading: 'constant',
  })
}
