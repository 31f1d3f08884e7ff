/** Devices that come in several of a kind, with the pins the trade gives them (DIN 72552 where it has a number). */
import type { Device } from '../src/model/build.ts'
import type { Draft } from './draft.ts'
import { amps, milliohms, ohms, volts, watts } from './quantities.ts'

type Load = NonNullable<Device['loads']>[number]

/** Cold resistance of a blade fuse falls about as 1/rating; 7.7 mΩ at 10 A and 1.44 mΩ at 40 A are published points. */
const fuseResistance = (rating: number) => milliohms(Number((77 / rating).toFixed(2)))

export const fuse = (
  { device }: Draft,
  id: string,
  name: string,
  at: string,
  rating: number,
  pattern: 'blade' | 'high-current blade' | 'bolt-down' = 'blade',
) =>
  device(
    id,
    `${name} fuse, ${rating} A`,
    at,
    { kind: 'fuse', rating: amps(rating), pattern, coldResistance: fuseResistance(rating) },
    { 1: 'supply', 2: 'load' },
  )

export const relay = ({ device }: Draft, id: string, name: string, at: string) =>
  device(
    id,
    name,
    at,
    {
      kind: 'relay',
      coilResistance: ohms(85, 8),
      pullIn: volts(7.2),
      dropOut: volts(2),
      contactResistance: milliohms(5, 3),
      suppression: 'resistor',
    },
    { 30: 'supply', 87: 'load', 85: 'coil −', 86: 'coil +' },
  )

export const lamp = (draft: Draft, id: string, name: string, at: string, power: number, more?: Partial<Device>) =>
  draft.device(
    id,
    name,
    at,
    { kind: 'lamp' },
    { '+': '', '-': '' },
    {
      loads: [
        {
          id: 'filament',
          from: '+',
          to: '-',
          law: { type: 'lamp', ratedVoltage: volts(12), ratedPower: watts(power) },
          needs: volts(10.5),
        },
      ],
      ...more,
    },
  )

export const resistive = (from: string, to: string, resistance: number, needs?: number): Load => ({
  id: 'winding',
  from,
  to,
  law: { type: 'resistance', resistance: ohms(resistance) },
  ...(needs === undefined ? {} : { needs: volts(needs) }),
})

export const motor = (from: string, to: string, running: number, stall: number, needs = 9): Load => ({
  id: 'motor',
  from,
  to,
  law: { type: 'motor', ratedVoltage: volts(13), runningCurrent: amps(running), stallCurrent: amps(stall) },
  needs: volts(needs),
})

export const electronics = (from: string, to: string, current: number): Load => ({
  id: 'electronics',
  from,
  to,
  law: { type: 'current', current: amps(current), minimumVoltage: volts(6.5) },
})

export const contact = (
  { device }: Draft,
  id: string,
  name: string,
  at: string,
  positions: Record<string, [string, string][]>,
  more?: Partial<Device>,
) => {
  const pins = Object.fromEntries(
    Object.values(positions)
      .flat(2)
      .map((pin) => [pin, '']),
  )
  device(
    id,
    name,
    at,
    { kind: 'switch', positions, rest: Object.keys(positions)[0]!, contactResistance: milliohms(8, 5) },
    pins,
    more,
  )
}

/** A splice: `tails` pins that are all one. */
export const splice = ({ device }: Draft, id: string, name: string, at: string, tails: number) =>
  device(
    id,
    name,
    at,
    { kind: 'splice' },
    Object.fromEntries(Array.from({ length: tails }, (_, i) => [`${i + 1}`, ''])),
  )

/** A two- or three-wire sensor fed with 5 V by the controller: supply, signal and return. */
export const sensor = ({ device }: Draft, id: string, name: string, at: string, fed: boolean) =>
  device(id, name, at, { kind: 'sensor' }, { ...(fed ? { '+': 'supply 5 V' } : {}), S: 'signal', '-': 'return' })
