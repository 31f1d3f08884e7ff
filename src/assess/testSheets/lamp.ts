/** A lamp in series with the battery, or in a fuse's place: it lets through what it is rated for and no more. */
import type { NetworkElement } from '../../engineering/electrical/network/network.ts'

/** 12 V, 55 W: a headlamp bulb. Lights fully on a short, and drops little at what a parked car draws. */
export const LIMITING_LAMP = { ratedVoltage: 12, ratedPower: 55 } as const

/** 12 V, 21 W: a brake lamp bulb, to load an earth with some 1.6 A. */
export const TEST_LAMP = { ratedVoltage: 12, ratedPower: 21 } as const

/** Current ∝ voltage^0.55; cold a tenth of its hot resistance, as every lamp in the network (from memory). */
export const lampElement = (
  id: string,
  a: string,
  b: string,
  { ratedVoltage, ratedPower }: { readonly ratedVoltage: number; readonly ratedPower: number } = LIMITING_LAMP,
): NetworkElement => ({
  type: 'lamp',
  id,
  a,
  b,
  ratedVoltage,
  ratedPower,
  exponent: 0.55,
  coldResistance: (0.1 * ratedVoltage ** 2) / ratedPower,
})

/** How it looks at so many volts. Common practice, no published source. */
export const lampLooks = (volts: number): string =>
  volts < 1 ? 'dark' : volts < 4 ? 'a dull glow' : volts < 9 ? 'about half bright' : 'bright: something draws hard'
