/** What a load draws at a voltage, and what it draws before it runs: for sizing, not for the network, which solves it. */
import type { Device } from '../../model/build.ts'

export type Law = NonNullable<NonNullable<Device['loads']>[number]['law']>

/** Filament: current ∝ voltage^0.55 (Fink & Beaty by way of an encyclopaedia, read). */
const LAMP_EXPONENT = 0.55
/** Cold filament: about ten times the current for some 5 ms (lamp-driver note, read). */
const LAMP_INRUSH = { times: 10, time: 0.005 }
/** A small motor draws its stalled current until it turns: 0.1 s, common practice, no published source. */
const MOTOR_START = 0.1

/** A, continuous at `volts`. */
export const loadCurrent = (law: Law, volts: number): number => {
  switch (law.type) {
    case 'resistance':
      return volts / law.resistance.value
    case 'lamp':
      return (law.ratedPower.value / law.ratedVoltage.value) * (volts / law.ratedVoltage.value) ** LAMP_EXPONENT
    case 'current':
      return law.current.value
    case 'power':
      // Draws most at the least voltage it still works at.
      return law.power.value / law.minimumVoltage.value
    case 'motor':
      return law.runningCurrent.value
  }
}
/** Peak current at `volts`, A, and its time, s; undefined for a load that starts as it runs. */
export const loadInrush = (law: Law, volts: number): { current: number; time: number } | undefined =>
  law.type === 'lamp'
    ? { current: LAMP_INRUSH.times * loadCurrent(law, volts), time: LAMP_INRUSH.time }
    : law.type === 'motor'
      ? { current: law.stallCurrent.value, time: MOTOR_START }
      : undefined
