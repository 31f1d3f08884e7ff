/** Which pin of a device plays which part: by DIN 72552 number where there is one, else by the pin's name. */
import type { Device } from '../model/build.ts'

const byId = (device: Device, ids: readonly string[]): string | undefined =>
  ids.find((id) => Object.hasOwn(device.pins, id))
const byName = (device: Device, pattern: RegExp): string | undefined =>
  Object.entries(device.pins).find(([, pin]) => pattern.test(pin.name ?? ''))?.[0]

export const batteryPins = (device: Device) => ({
  positive: byId(device, ['+', 'B+', '30']) ?? byName(device, /positive/i),
  negative: byId(device, ['-', 'B-', '31']) ?? byName(device, /negative|earth/i),
})
export const alternatorPins = (device: Device) => ({
  output: byId(device, ['B+', '+', '30']) ?? byName(device, /output/i),
  lamp: byId(device, ['D+', '61', 'L']) ?? byName(device, /charge lamp|excit/i),
  case: byId(device, ['31', '-', 'B-']) ?? byName(device, /case|earth/i),
})
export const starterPins = (device: Device) => ({
  supply: byId(device, ['30', '+']) ?? byName(device, /battery/i),
  solenoid: byId(device, ['50', 'S']) ?? byName(device, /solenoid/i),
  case: byId(device, ['31', '-']) ?? byName(device, /case|earth/i),
})
export const relayPins = (device: Device) => ({
  common: byId(device, ['30']),
  make: byId(device, ['87']),
  break: byId(device, ['87a']),
  coil: [byId(device, ['86']), byId(device, ['85'])] as const,
})
/** Diode, fuse, resistor: two pins, anode and supply first. */
export const twoPins = (device: Device): readonly [string, string] | undefined => {
  const pins = Object.keys(device.pins)
  const first = byId(device, ['A', '+', '1']) ?? byName(device, /anode|supply/i) ?? pins[0]
  const second =
    pins.find((pin) => pin !== first && /cathode|load/i.test(device.pins[pin]?.name ?? '')) ??
    pins.find((pin) => pin !== first)
  return first === undefined || second === undefined ? undefined : [first, second]
}
/** Controller pins by name: supplies that feed its high sides, power earths, sensor earths. */
export const controllerPins = (device: Device) => {
  const named = (pattern: RegExp) =>
    Object.entries(device.pins)
      .filter(([, pin]) => pattern.test(pin.name ?? ''))
      .map(([id]) => id)
  const sensorEarth = named(/sensor (earth|ground|return)/i)
  const stated = named(/(power )?(earth|ground)/i).filter((pin) => !sensorEarth.includes(pin))
  const loads = device.loads ?? []
  return {
    supply: named(/switched supply|power supply|supply 12/i)[0] ?? loads[0]?.from,
    earths: stated.length > 0 ? stated : [...new Set(loads.map(({ to }) => to))],
    sensorEarth,
  }
}
