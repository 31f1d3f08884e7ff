/**
 * Charging current of a battery while the engine runs: what the builder measured, else reckoned from charge and
 * temperature with its ±. Never (V − rested voltage)/R, which no battery takes for longer than moments.
 */
import { propagate } from '../../engineering/calculation.ts'
import { ACCEPTANCE_SPREAD, chargeAcceptance } from '../../engineering/electrical/chargeAcceptance.ts'
import { bci, CHARGE_SPREAD, chargeAtRest } from '../../engineering/electrical/restedVoltage.ts'
import type { Device } from '../../model/build.ts'
import { Refusal } from '../../units/problem.ts'
import { amps, celsius, percent } from '../make.ts'
import type { Binder } from './binder.ts'

/** K. Of a battery whose case states no ambient temperature. */
const WARM = 298.15
/** V. A rested voltage outside it is no 12 V battery's, and the table says nothing of others. */
const TWELVE_VOLT = [10, 14] as const
const DATUM = 'charging current taken after twenty minutes, or capacity and state of charge'

/** A; undefined where it cannot be told, which is told as missing. */
export const acceptanceOf = (
  binder: Binder,
  device: Device,
  spec: Extract<Device['spec'], { kind: 'battery' }>,
): number | undefined => {
  if (spec.acceptance) return spec.acceptance.value
  const subject = `devices/${device.id}`
  const { restedVoltage: rest, capacity, stateOfCharge: stated } = spec
  const twelve = rest !== undefined && rest.value >= TWELVE_VOLT[0] && rest.value <= TWELVE_VOLT[1]
  const charge = stated ?? (twelve ? { value: chargeAtRest(rest.value), plusMinus: CHARGE_SPREAD } : undefined)
  if (!capacity || !charge) {
    binder.lack(subject, DATUM)
    return undefined
  }
  const temperature = binder.kase.ambient?.value ?? WARM
  try {
    const { current } = propagate(chargeAcceptance, {
      capacity: { value: capacity.value, plusMinus: capacity.plusMinus ?? 0 },
      charge: { value: charge.value, plusMinus: charge.plusMinus ?? 0 },
      temperature,
    }).outputs
    const plusMinus = Math.hypot(current!.plusMinus, ACCEPTANCE_SPREAD * current!.value)
    binder.reckoned.push({ element: device.id, acceptance: current!.value, plusMinus })
    binder.assume(
      device.id,
      `takes ${amps(current!.value)} ± ${amps(plusMinus)} at ${percent(charge.value)} charge${stated ? '' : ` (from its rested voltage, ${bci.title})`} and ${celsius(temperature)}`,
    )
    return current!.value
  } catch (error) {
    if (!(error instanceof Refusal)) throw error
    // Beyond the curve: a frozen battery, a charge above 1, a capacity in the wrong unit.
    binder.lack(subject, DATUM)
    return undefined
  }
}
